# SPDX-License-Identifier: MIT
"""The plates, drawn from results filled in by hand, as other programs see them."""
import os
import re
import subprocess
import xml.etree.ElementTree

import numpy
import pytest
from PIL import Image

PLATES = os.environ["IFIG_PAGE_PLATES"]
KINDS = ["blink", "hunt", "contrast"]
ERROR_RANGE, ERROR_UNSUITABLE = 2, 5


def draw(kind, path, *more):
    return subprocess.run([PLATES, kind, path, *more], capture_output=True, text=True)


@pytest.fixture(scope="module")
def plates(tmp_path_factory):
    folder = tmp_path_factory.mktemp("plates")
    for kind in KINDS:
        for ending in ("png", "pdf", "svg"):
            done = draw(kind, folder / f"{kind}.{ending}")
            assert (done.returncode, done.stdout, done.stderr) == (0, "", "")
    return folder


def run(*command):
    done = subprocess.run(command, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def pixels_of(path):
    return numpy.asarray(Image.open(path).convert("RGB")).astype(int)


def rows_with_ink(pixels):
    return numpy.flatnonzero((pixels < 250).any(axis=(1, 2)))


@pytest.mark.parametrize("kind", KINDS)
def test_a_plate_is_190_mm_wide_with_white_on_every_side(plates, kind):
    pixels = pixels_of(plates / f"{kind}.png")
    assert pixels.shape[1] == 1496  # 190 mm at 200 dpi
    margin = int(9.0 * 200 / 25.4)
    assert (pixels[:margin] == 255).all() and (pixels[-margin:] == 255).all()
    assert (pixels[:, :margin] == 255).all() and (pixels[:, -margin:] == 255).all()
    assert len(rows_with_ink(pixels)) > 500


@pytest.mark.parametrize("kind", KINDS)
def test_a_plate_is_a_clean_pdf_of_one_page_in_reading_order(plates, kind):
    path = plates / f"{kind}.pdf"
    assert "No syntax or stream encoding errors" in run("qpdf", "--check", path)
    assert re.search(r"Pages: +1$", run("pdfinfo", path), re.M)
    for font in run("pdffonts", path).splitlines()[2:]:
        assert re.match(r"[A-Z]{6}\+DejaVuSans.* yes yes yes ", font), font
    structure = run("pdfinfo", "-struct-text", path)
    roles = re.findall(r"^ *(Document|H1|H2|P|Figure|Table)\b", structure, re.M)
    assert roles[:3] == ["Document", "H1", "P"] and roles[-1] == "P" and "Figure" in roles
    assert "A figure is evidence, not an identification" in structure


@pytest.mark.parametrize("kind", KINDS)
def test_every_figure_of_a_plate_has_words_that_stand_for_it(plates, kind):
    objects = subprocess.run(["qpdf", "--qdf", plates / f"{kind}.pdf", "-"], capture_output=True,
                             check=True).stdout.decode("latin-1")
    figures = objects.count("/S /Figure")
    assert figures >= 1
    assert len(re.findall(r"/Alt [(<][^)>]{20}", objects)) == figures


def test_the_reader_of_a_table_hears_rows_of_cells(plates):
    structure = run("pdfinfo", "-struct-text", plates / "contrast.pdf")
    assert structure.count(" TR") == 6
    assert structure.count(" TH") == 5 and structure.count(" TD") == 25
    assert '"refractive index"' in structure


def test_the_map_in_a_pdf_and_a_png_has_the_device_s_pixels(plates):
    row = run("pdfimages", "-list", plates / "hunt.pdf").splitlines()[2].split()
    assert row[3:5] == ["756", "756"] and row[12:14] == ["200", "200"]  # 96 mm at 200 dpi


def test_an_svg_says_what_its_marks_are(plates):
    root = xml.etree.ElementTree.parse(plates / "hunt.svg").getroot()
    assert root[0].text == "Topaz: where the patch lies"
    assert "Marked: Z, acute bisectrix; X; Y; melatope; melatope; table" in root[1].text


def test_the_discs_show_the_colours_that_were_given(plates):
    # Disc i has its middle at 12 + (i + 0.5) 166/16 mm; the row is found by its saturated colour.
    pixels = pixels_of(plates / "blink.png")
    column = int(round((12 + 2.5 * 166 / 16) * 200 / 25.4))
    found = {tuple(colour) for colour in pixels[:, column]}
    lit = abs(numpy.sin(numpy.radians(2 * (45 - 12))))
    wanted = [round(255 * (numpy.sin(numpy.pi * 430 / nm) ** 2 * lit ** 2) ** (1 / 2.2))
              for nm in (610, 540, 460)]
    assert any(max(abs(numpy.array(colour) - wanted)) <= 1 for colour in found), wanted


def test_grey_alone_tells_the_curves_marks_and_text_from_the_paper(plates):
    for kind in KINDS:
        grey = numpy.asarray(Image.open(plates / f"{kind}.png").convert("L"))
        assert (grey < 60).sum() > 2000 and (grey == 255).mean() > 0.4


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("ending", ["png", "pdf", "svg"])
def test_the_same_plate_is_the_same_bytes(plates, tmp_path, kind, ending):
    assert draw(kind, tmp_path / f"again.{ending}").returncode == 0
    assert (tmp_path / f"again.{ending}").read_bytes() == \
        (plates / f"{kind}.{ending}").read_bytes()


@pytest.mark.parametrize("count", ["2", "4", "5", "6"])
def test_two_to_six_stones_find_room(tmp_path, count):
    assert draw("contrast", tmp_path / "c.png", count).returncode == 0
    pixels = pixels_of(tmp_path / "c.png")
    assert pixels.shape[1] == 1496


@pytest.mark.parametrize("count", ["1", "7"])
def test_one_stone_or_seven_are_refused(tmp_path, count):
    done = draw("contrast", tmp_path / "c.png", count)
    assert done.returncode == ERROR_RANGE
    assert "must lie between 2 and 6" in done.stderr
    assert not list(tmp_path.iterdir())
