# SPDX-License-Identifier: MIT
"""interfig figure --labels, and its sheets: files, recipes, refusals."""
import shlex
import subprocess

import pytest

from png_chunks import header, texts

SMALL = ["--size", "320"]


def test_a_labelled_png_has_its_size_and_says_all_that_a_plain_one_says(interfig, tmp_path):
    assert interfig("figure", "quartz", *SMALL, "-o", "plain.png").status == 0
    answer = interfig("figure", "quartz", *SMALL, "--labels", "full", "-o", "full.png")
    assert answer.status == 0 and answer.err == ""
    assert answer.out.decode().startswith("full.png: quartz, uniaxial positive")
    plain, full = (tmp_path / "plain.png").read_bytes(), (tmp_path / "full.png").read_bytes()
    assert header(full) == header(plain) == (320, 320, 8)
    said, labelled = texts(plain), texts(full)
    assert labelled.pop("Recipe") == said.pop("Recipe") + " --labels full"
    assert labelled == said


@pytest.mark.parametrize("words", ["quartz --labels basic", "muscovite --stage 45 --labels full",
                                   "--layers quartz:0:1,calcite:90:0.1 --labels full"])
def test_again_brings_the_labels_back(interfig, tmp_path, words):
    assert interfig("figure", *shlex.split(words), *SMALL, "-o", "a.png").status == 0
    assert interfig("figure", "--again", "a.png", "-o", "b.png").status == 0
    assert (tmp_path / "a.png").read_bytes() == (tmp_path / "b.png").read_bytes()


def test_labels_none_is_the_plain_picture(interfig, tmp_path):
    interfig("figure", "quartz", *SMALL, "-o", "a.png")
    interfig("figure", "quartz", *SMALL, "--labels", "none", "-o", "b.png")
    pictures = [(tmp_path / name).read_bytes() for name in ("a.png", "b.png")]
    assert pictures[0].split(b"IDAT", 1)[1] == pictures[1].split(b"IDAT", 1)[1]


def test_a_labelled_figure_goes_down_a_pipe(interfig, tmp_path):
    interfig("figure", "quartz", *SMALL, "--labels", "basic", "-o", "a.png")
    piped = interfig("figure", "quartz", *SMALL, "--labels", "basic", "-o", "-")
    assert piped.status == 0 and piped.out == (tmp_path / "a.png").read_bytes()


@pytest.mark.parametrize("labels,key", [([], False), (["--labels", "basic"], True)])
def test_a_pdf_is_a_sheet_with_the_reading(interfig, tmp_path, labels, key):
    answer = interfig("figure", "ruby", "--thickness", "1", *labels, "-o", "ruby.PDF")
    assert answer.status == 0 and answer.err == ""
    words = subprocess.run(["pdftotext", tmp_path / "ruby.PDF", "-"], check=True,
                           capture_output=True, text=True).stdout
    for line in ("Interference figure of Corundum", "body colour of ruby",
                 "Doubly refractive, uniaxial negative", "A figure is evidence",
                 "Never look at the sun"):
        assert line in " ".join(words.split())
    assert ("The labels" in words) == key


def test_an_svg_is_a_sheet_too(interfig, tmp_path):
    assert interfig("figure", "quartz", "--labels", "full", "-o", "q.svg").status == 0
    drawing = (tmp_path / "q.svg").read_text()
    assert ">Interference figure of Quartz</title>" in drawing
    assert "interfig figure quartz" in drawing


def test_what_cannot_be_read_says_why_on_its_sheet(interfig, tmp_path):
    answer = interfig("figure", "--layers", "quartz:0:1,quartz:90:1", "--labels", "full", "-o", "s.pdf")
    assert answer.status == 0, answer
    words = subprocess.run(["pdftotext", tmp_path / "s.pdf", "-"], check=True, capture_output=True,
                           text=True).stdout
    assert "This figure is not read: a reading tells of one stone" in " ".join(words.split())
    assert "isogyre" not in words and "direction that the polariser passes" in " ".join(words.split())


@pytest.mark.parametrize("words,part", [
    ("quartz --labels all", "--labels: 'all' is unknown"),
    ("quartz --labels ful", "did you mean full?"),
    ("quartz --labels", "--labels"),
    ("quartz --labels full --size 64", "64 pixels at 300 dpi are 5.42 mm; allowed with labels or "
                                       "on a sheet: 20 to 500 mm"),
    ("quartz --labels full --size 65535", "allowed with labels or on a sheet: 20 to 500 mm"),
    ("quartz -o a.pdf --size 2400", "2400 pixels at 300 dpi are 203 mm; allowed with labels or on "
                                    "a sheet: 20 to 166 mm"),
    ("quartz --labels full --dpi 20", "--dpi: '20' is out of range"),
    ("quartz -o a.svg --dpi 2400", "--dpi: '2400' is out of range"),
    ("quartz --labels basic --depth 16", "--depth 16 goes with a PNG without labels alone"),
    ("topaz_f --range 2V --labels full", "--range shows several figures"),
    ("topaz_f --range 2V -o a.pdf", "--range shows several figures"),
])
def test_what_no_labelled_figure_can_be_is_refused(refused, words, part):
    assert part in refused(64, "figure", *shlex.split(words))


def test_what_moves_takes_no_labels_and_no_sheet(refused):
    assert "--labels belongs to figure" in refused(64, "turn", "quartz", "--labels", "full")
    assert "names a PDF or an SVG" in refused(64, "turn", "quartz", "-o", "a.pdf")
    assert "names a PDF or an SVG" in refused(64, "face", "glass", "-o", "a.svg")


def test_a_sheet_that_cannot_be_made_leaves_nothing(interfig, tmp_path):
    answer = interfig("figure", "quartz", "-o", "nowhere/a.pdf")
    assert answer.status == 73 and answer.err.count("\n") == 1
    assert list(tmp_path.iterdir()) == []
