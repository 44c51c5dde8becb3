# SPDX-License-Identifier: MIT
"""The six handouts, rendered and looked at with other programs' eyes."""
import os
import pathlib
import re
import subprocess

import numpy
import pytest
from PIL import Image

PROGRAM = os.environ["INTERFIG"]
FOLDER = pathlib.Path(os.environ["IFIG_HANDOUTS"])
HANDOUTS = {"first_figures": 1, "uniaxial_or_biaxial": 1, "sign_with_the_plate": 1, "thickness": 1,
            "off_axis": 1, "look_alikes": 2}
MM = 72.0 / 25.4


def run(*command):
    done = subprocess.run([str(word) for word in command], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def pages(tmp_path_factory):
    folder = tmp_path_factory.mktemp("handouts")
    for name in HANDOUTS:
        run(PROGRAM, "page", FOLDER / f"{name}.yaml", "-o", folder / f"{name}.pdf")
    return folder


def words_of(path):
    """(page, left, top, right, bottom, word) in points, in the text's own order."""
    html = run("pdftotext", "-bbox", path, "-")
    found, page = [], 0
    for line in html.splitlines():
        page += "<page " in line
        match = re.search(r'xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">(.*)</word', line)
        if match:
            found.append((page, *map(float, match.groups()[:4]), match.group(5)))
    return found


def test_all_six_are_there():
    assert {path.stem for path in FOLDER.glob("*.yaml")} == set(HANDOUTS)


@pytest.mark.parametrize("name", HANDOUTS)
def test_a_handout_is_a_clean_tagged_pdf(pages, name):
    path = pages / f"{name}.pdf"
    assert "No syntax or stream encoding errors" in run("qpdf", "--check", path)
    info = run("pdfinfo", path)
    assert re.search(rf"Pages: +{HANDOUTS[name]}$", info, re.M)
    assert re.search(r"Tagged: +yes$", info, re.M)
    title = re.search(r"^title: (.*)$", (FOLDER / f"{name}.yaml").read_text("utf-8"), re.M).group(1)
    assert re.search(rf"^Title: +{re.escape(title)}$", info, re.M)
    width, height = map(float, re.search(r"Page size: +([\d.]+) x ([\d.]+)", info).groups())
    # within A4 (210 x 297 mm, ISO 216) and Letter (8.5 x 11 inches): unscaled on either
    assert abs(width - 210 * MM) < 0.1 and height <= 11 * 72 and abs(height - 279 * MM) < 0.1
    for font in run("pdffonts", path).splitlines()[2:]:
        assert "DejaVu" in font and font.split()[-5:-2] == ["yes", "yes", "yes"]  # emb sub uni


@pytest.mark.parametrize("name", HANDOUTS)
def test_no_word_lies_on_another_and_all_keep_the_margins(pages, name):
    words = words_of(pages / f"{name}.pdf")
    assert len(words) > 60
    for page, left, top, right, bottom, word in words:
        assert left >= 9.9 * MM and right <= 200.1 * MM, word
        assert top >= 9.0 * MM and bottom <= 270.0 * MM, word
    for i, one in enumerate(words):
        for other in words[i + 1:]:
            across = min(one[3], other[3]) - max(one[1], other[1])
            down = min(one[4], other[4]) - max(one[2], other[2])
            # pdftotext's boxes are as high as the font's line, which is a little more than its pitch
            assert one[0] != other[0] or across < 0.5 or down < 2.5, (one, other)


@pytest.mark.parametrize("name", HANDOUTS)
def test_the_text_reads_from_the_title_to_the_foot(pages, name):
    text = run("pdftotext", "-raw", pages / f"{name}.pdf", "-")
    recipe = (FOLDER / f"{name}.yaml").read_text("utf-8")
    expected = [re.search(r"^title: (.*)$", recipe, re.M).group(1), "Tern Harbour lapidary club"]
    expected += re.findall(r"^    title: (.*)$", recipe, re.M)
    at = -1
    for words in expected:
        found = text.replace("\n", " ").find(words, at + 1)
        assert found > at, words
        at = found
    last = text.rstrip("\f\n ").splitlines()
    assert last[-1].endswith(f"page {HANDOUTS[name]} of {HANDOUTS[name]}")
    assert text.count("evidence, not an identification") == HANDOUTS[name]
    assert text.count("Never look at the sun") == HANDOUTS[name]
    assert text.count("50 mm when printed at 100 %") == HANDOUTS[name]


def test_the_same_recipe_gives_the_same_bytes(pages, tmp_path):
    for ending in ("pdf", "svg"):
        paths = [tmp_path / f"{i}.{ending}" for i in range(2)]
        for path in paths:
            run(PROGRAM, "page", FOLDER / "first_figures.yaml", "-o", path)
        assert paths[0].read_bytes() == paths[1].read_bytes()


def test_the_ruler_is_50_mm_long(pages, tmp_path):
    run("pdftoppm", "-r", "254", "-gray", pages / "first_figures.pdf", tmp_path / "p")
    pixels = numpy.asarray(Image.open(next(tmp_path.glob("p-*.pgm"))).convert("L"))
    band = pixels[2550:2700, 1400:2000]  # the foot on the right, 10 pixels a mm
    longest = max((row < 100).sum() for row in band)
    assert abs(longest - 500) <= 4


def test_pictures_have_300_dots_an_inch_and_are_not_smoothed(pages):
    lines = run("pdfimages", "-list", pages / "thickness.pdf").splitlines()[2:]
    assert len(lines) == 9
    for line in lines:
        fields = line.split()
        assert fields[3] == fields[4] == "449"  # 38 mm at 300 dpi
        assert abs(int(fields[12]) - 300) <= 1 and fields[9] == "no"


def test_figures_tell_a_screen_reader_what_they_are(pages):
    text = run("pdfinfo", "-struct-text", pages / "look_alikes.pdf")
    assert text.count("Figure") >= 4 + 4 + 4 + 2  # figures, sketches, answers, rulers
    for role in ("H1", "H2", "Caption"):
        assert role in text


def test_a_sheet_still_teaches_without_colour(pages, tmp_path):
    """Rings stay apart in grey: along a diagonal of calcite's figure light and dark alternate."""
    run("pdftoppm", "-r", "300", "-gray", "-f", "1", "-l", "1", pages / "thickness.pdf",
        tmp_path / "g")
    pixels = numpy.asarray(Image.open(next(tmp_path.glob("g-*.pgm"))).convert("L")).astype(int)
    spread = [numpy.ptp(pixels[y:y + 60, 200:600]) for y in range(700, 2400, 100)]
    assert max(spread) > 150
