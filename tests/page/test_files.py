# SPDX-License-Identifier: MIT
"""What the sample sheet is to other programs: PIL for pixels, poppler and qpdf for the PDF, an XML
parser for the SVG."""
import json
import os
import re
import resource
import shutil
import signal
import subprocess
import xml.etree.ElementTree

import numpy
import pytest
from PIL import Image

SAMPLE = os.environ["IFIG_PAGE_SAMPLE"]
ERROR_CREATE, ERROR_IO, ERROR_MISSING = 8, 9, 11
MM = 200 / 25.4  # pixels


def draw(path, *more, **options):
    return subprocess.run([SAMPLE, path, *more], capture_output=True, text=True, **options)


@pytest.fixture(scope="module")
def sheet(tmp_path_factory):
    folder = tmp_path_factory.mktemp("sheet")
    for ending in ("png", "pdf", "svg"):
        done = draw(folder / f"s.{ending}")
        assert done.returncode == 0, done.stderr
        assert done.stdout == done.stderr == ""
    return folder


def run(*command):
    if shutil.which(command[0]) is None:
        pytest.fail(f"{command[0]} is not installed: .ci/setup test")
    done = subprocess.run(command, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def test_each_page_of_a_png_or_svg_is_a_file(sheet):
    assert sorted(path.name for path in sheet.iterdir()) == [
        "s-2.png", "s-2.svg", "s.pdf", "s.png", "s.svg"]


def test_a_png_has_the_sheet_s_size_resolution_and_words(sheet):
    with Image.open(sheet / "s.png") as image:
        image.load()
        assert image.size == (1260, 945)  # 160 x 120 mm at 200 dpi
        assert image.info["dpi"] == pytest.approx((200, 200), abs=0.02)
        assert "srgb" in image.info and "gamma" in image.info
        assert image.info["Title"] == "Quartz & β"
        assert image.info["Recipe"] == "figure quartz --stage 45 <&>"


def test_a_picture_with_the_device_s_pixels_comes_through_unchanged(sheet):
    pixels = numpy.asarray(Image.open(sheet / "s.png").convert("RGB"))
    rows, columns = numpy.mgrid[0:200, 0:200]
    wanted = numpy.stack([columns, rows, 100 + 100 * ((rows * 200 + columns) % 2)], axis=-1)
    assert (pixels[400:600, 400:600] == wanted).all()
    assert (pixels[399, 400:600] == 255).all() and (pixels[600, 400:600] == 255).all()


def test_a_filled_box_stands_where_it_was_put(sheet):
    pixels = numpy.asarray(Image.open(sheet / "s.png").convert("RGB"))
    assert (pixels[401:599, 81:279] == (0, 114, 178)).all()  # Okabe and Ito's blue
    assert (pixels[401:599, 78] == 255).all() and (pixels[401:599, 282] == 255).all()


def test_text_leaves_ink_at_its_place_and_nowhere_else(sheet):
    grey = numpy.asarray(Image.open(sheet / "s.png").convert("L"))
    title = grey[int(8 * MM):int(15 * MM), int(10 * MM):int(40 * MM)]
    assert title.min() < 60 and 0.05 < (title < 128).mean() < 0.5
    assert (grey[:int(8 * MM)] == 255).all() and (grey[:, :int(9.5 * MM)] == 255).all()


@pytest.mark.parametrize("ending", ["png", "pdf", "svg"])
def test_the_same_sheet_is_the_same_bytes(sheet, tmp_path, ending):
    for number, more in enumerate(([], ["again"])):
        path = tmp_path / f"{number}.{ending}"
        assert draw(path, *more, env={"LC_ALL": "de_DE.UTF-8", "TZ": "Asia/Tokyo"}).returncode == 0
        assert path.read_bytes() == (sheet / f"s.{ending}").read_bytes()


def test_a_pdf_is_clean_and_says_what_it_is(sheet):
    assert "No syntax or stream encoding errors" in run("qpdf", "--check", sheet / "s.pdf")
    information = run("pdfinfo", "-custom", sheet / "s.pdf")
    assert re.search(r"Title: +Quartz & β$", information, re.M)
    assert re.search(r"Recipe: +figure quartz --stage 45 <&>$", information, re.M)
    assert re.search(r"Tagged: +yes$", run("pdfinfo", sheet / "s.pdf"), re.M)
    assert re.search(r"Pages: +2$", run("pdfinfo", sheet / "s.pdf"), re.M)


def test_a_pdf_s_fonts_are_embedded_subsets_with_unicode(sheet):
    fonts = run("pdffonts", sheet / "s.pdf").splitlines()[2:]
    assert fonts
    for font in fonts:
        assert re.match(r"[A-Z]{6}\+DejaVuSans", font)
        assert re.search(r" yes yes yes ", font), font


def test_a_pdf_is_tagged_in_reading_order(sheet):
    structure = run("pdfinfo", "-struct-text", sheet / "s.pdf")
    roles = re.findall(r"^ *(Document|H1|H2|P|Figure)\b", structure, re.M)
    assert roles == ["Document", "H1", "P", "Figure", "Figure", "H2"]
    assert ('"Turn the stone through a whole circle: it goes dark four times, α to γ."'
            in structure)


def test_a_pdf_carries_language_alternatives_and_print_scaling(sheet):
    objects = json.loads(run("qpdf", "--json=2", sheet / "s.pdf"))["qpdf"][1]
    values = [entry["value"] for entry in objects.values() if isinstance(entry.get("value"), dict)]
    root = next(value for value in values if value.get("/Type") == "/Catalog")
    assert root["/Lang"] == "u:en-GB"
    assert root["/ViewerPreferences"] == {"/DisplayDocTitle": True, "/PrintScaling": "/None"}
    figures = [value["/Alt"] for value in values if value.get("/S") == "/Figure"]
    assert sorted(figures) == ["u:Brightness against turn", "u:Stripes of the tests, β"]


def test_a_pdf_holds_the_very_pixels(sheet):
    rows = run("pdfimages", "-list", sheet / "s.pdf").splitlines()[2:]
    assert len(rows) == 1
    page, _, kind, width, height, colour, components, bits, _, interpolated, *more = rows[0].split()
    assert (kind, width, height, colour, bits, interpolated) == ("image", "200", "200", "rgb", "8",
                                                                  "no")
    assert more[2:4] == ["200", "200"]  # pixels an inch


def test_an_svg_is_named_and_described(sheet):
    root = xml.etree.ElementTree.parse(sheet / "s.svg").getroot()
    space = "{http://www.w3.org/2000/svg}"
    assert (root.get("width"), root.get("height"), root.get("role")) == ("160mm", "120mm", "img")
    assert root[0].tag == space + "title" and root[0].text == "Quartz & β"
    assert root[1].tag == space + "desc"
    assert root[1].text.splitlines() == ["A sheet of the tests <1>", "Stripes of the tests, β",
                                         "Brightness against turn"]
    assert root[2].text == "Recipe: figure quartz --stage 45 <&>"


def test_without_a_font_nothing_is_written_and_the_package_is_named(tmp_path):
    (tmp_path / "none").mkdir()
    (tmp_path / "fonts.conf").write_text(
        f"<?xml version='1.0'?><fontconfig><dir>{tmp_path}/none</dir>"
        f"<cachedir>{tmp_path}/none</cachedir></fontconfig>")
    done = draw(tmp_path / "s.pdf", env={"FONTCONFIG_FILE": str(tmp_path / "fonts.conf")})
    assert done.returncode == ERROR_MISSING
    assert "install the package fonts-dejavu-core" in done.stderr
    assert not (tmp_path / "s.pdf").exists()


def limit_file_size():
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))


@pytest.mark.parametrize("ending", ["png", "pdf", "svg"])
def test_a_full_disk_leaves_the_old_file_and_nothing_else(tmp_path, ending):
    path = tmp_path / f"s.{ending}"
    path.write_text("old")
    done = draw(path, preexec_fn=limit_file_size)
    assert done.returncode == ERROR_IO
    assert "grew past the largest size" in done.stderr
    assert path.read_text() == "old" and list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize("ending", ["png", "pdf", "svg"])
def test_a_missing_folder_is_told(tmp_path, ending):
    done = draw(tmp_path / "none" / f"s.{ending}")
    assert done.returncode == ERROR_CREATE
    assert "create the folder first" in done.stderr
