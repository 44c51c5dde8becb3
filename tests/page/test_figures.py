# SPDX-License-Identifier: MIT
"""Labelled figures as files: readable on every colour, the same bytes, words for those who do not
see them."""
import os
import subprocess
import xml.etree.ElementTree as tree

import numpy
import pytest
from PIL import Image, ImageFilter

FIGURES = os.environ["IFIG_PAGE_FIGURES"]
INK = (26, 28, 32)
MOTLEY = ["calcite", "calcite-thick", "calcite-plate", "quartz", "quartz-circular", "muscovite",
          "muscovite-plate", "topaz-objective", "sanidine", "calcite-parallel", "spinel",
          "beryl-field-10"]


def draw(path, recipe, labels="full", how="alone", pixels=1024):
    subprocess.run([FIGURES, recipe, labels, how, str(pixels), path], check=True, timeout=60)
    return path.read_bytes()


def luminance(rgb):
    """Relative luminance (WCAG 2.2; IEC 61966-2-1)."""
    share = numpy.asarray(rgb) / 255.0
    linear = numpy.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)
    return linear @ numpy.array([0.2126, 0.7152, 0.0722])


def grown(mask, by):
    image = Image.fromarray(mask.astype(numpy.uint8) * 255)
    return numpy.asarray(image.filter(ImageFilter.MaxFilter(2 * by + 1))) > 0


@pytest.mark.parametrize("recipe", MOTLEY)
def test_words_and_marks_stand_out_from_what_lies_beneath(tmp_path, recipe):
    """4.5:1 (WCAG 2.2, 1.4.3) between the ink and all that borders on it, two pixels away, where
    no pixel holds a share of ink."""
    draw(tmp_path / "a.png", recipe, "basic")
    rgb = numpy.asarray(Image.open(tmp_path / "a.png").convert("RGB"))
    ink = (rgb == INK).all(axis=2)
    assert ink.sum() > 500
    beside = grown(ink, 2) & ~grown(ink, 1)
    ratio = (luminance(rgb[beside]) + 0.05) / (luminance(INK) + 0.05)
    assert (ratio >= 4.5).mean() > 0.995


@pytest.mark.parametrize("pixels", [320, 512, 1024])
def test_a_figure_alone_has_exactly_its_pixels(tmp_path, pixels):
    for labels in ("none", "full"):
        draw(tmp_path / "a.png", "muscovite-45", labels, pixels=pixels)
        image = Image.open(tmp_path / "a.png")
        assert image.size == (pixels, pixels)
        assert round(image.info["dpi"][0]) == 300


@pytest.mark.parametrize("ending", ["png", "pdf", "svg"])
@pytest.mark.parametrize("how", ["alone", "sheet"])
def test_the_same_figure_is_the_same_bytes(tmp_path, ending, how):
    path = tmp_path / ("a." + ending)
    assert draw(path, "topaz-axis-45", how=how) == draw(path, "topaz-axis-45", how=how)


def test_a_sheet_reads_on_and_its_picture_has_words(tmp_path):
    path = tmp_path / "a.pdf"
    data = draw(path, "muscovite-45", how="sheet")
    words = subprocess.run(["pdftotext", path, "-"], check=True, capture_output=True,
                           text=True).stdout
    places = [words.index(word) for word in
              ("muscovite-45", "The labels", "Doubly refractive, biaxial negative", "Two dark",
               "A figure is evidence")]
    assert places == sorted(places)
    for label in ("isogyre", "optic axial plane", "slow \u03b3\u2032", "Bx\u2090", "angle in air"):
        assert label in words
    assert words.count("A figure is evidence") == 1
    structure = subprocess.run(["pdfinfo", "-struct-text", path], check=True, capture_output=True,
                               text=True).stdout
    assert "Figure" in structure and "Doubly refractive" in structure
    fonts = subprocess.run(["pdffonts", path], check=True, capture_output=True, text=True).stdout
    assert all(line.split()[-5:-2] == ["yes", "yes", "yes"] for line in fonts.splitlines()[2:])
    assert subprocess.run(["qpdf", "--check", path], capture_output=True).returncode == 0
    assert data.count(b"/Interpolate true") == 0


def test_the_picture_in_a_sheet_has_the_pixels_of_the_device(tmp_path):
    draw(tmp_path / "a.pdf", "muscovite-45", how="sheet")
    listed = subprocess.run(["pdfimages", "-list", tmp_path / "a.pdf"], check=True,
                            capture_output=True, text=True).stdout.splitlines()[2:]
    assert len(listed) == 1
    assert abs(float(listed[0].split()[12]) - 300) <= 1


def test_an_svg_has_title_and_description(tmp_path):
    draw(tmp_path / "a.svg", "quartz", how="sheet")
    root = tree.parse(tmp_path / "a.svg").getroot()
    space = "{http://www.w3.org/2000/svg}"
    assert root.find(space + "title").text == "quartz"
    assert "uniaxial positive" in root.find(space + "desc").text
