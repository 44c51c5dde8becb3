# SPDX-License-Identifier: MIT
"""interfig page: recipes good and bad, and what --print-recipe prints."""
import re
import struct
import subprocess
import zlib

import pytest

GOOD = """\
title: First figures
figures:
  - stone: quartz
    caption: One axis.
"""
FIGURE = "title: T\nfigures:\n  - stone: quartz\n"


@pytest.fixture
def page(interfig, tmp_path):
    def run(text, *words):
        (tmp_path / "r.yaml").write_text(text, encoding="utf-8")
        return interfig("page", "r.yaml", *(words or ["-o", "r.pdf"]))
    return run


@pytest.fixture
def refused_page(refused, tmp_path):
    """The recipe is refused: status 65, one line that begins with file:line:column."""
    def run(text, place, *parts, status=65, words=("-o", "r.pdf")):
        (tmp_path / "r.yaml").write_text(text, encoding="utf-8")
        message = refused(status, "page", "r.yaml", *words)
        assert message.startswith(f"interfig: r.yaml:{place}: "), message
        for part in parts:
            assert part in message, message
        return message
    return run


def png(width, height, pixel):
    """A PNG of width x height whose pixels are (r, g, b) of a function of x and y."""
    rows = b"".join(b"\0" + bytes(v for x in range(width) for v in pixel(x, y))
                    for y in range(height))
    def chunk(kind, data):
        return (struct.pack(">I", len(data)) + kind + data +
                struct.pack(">I", zlib.crc32(kind + data)))
    return (b"\x89PNG\r\n\x1a\n" +
            chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)) +
            chunk(b"tEXt", b"Comment\0taken at the harbour wall") +
            chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b""))


def disc(x, y):
    return (200, 190, 180) if (x - 70) ** 2 + (y - 60) ** 2 < 50 ** 2 else (12, 10, 9)


def test_a_page_says_what_it_wrote(page, tmp_path):
    answer = page(GOOD)
    assert answer == (0, b"r.pdf: First figures, 1 figure\n", "")
    assert (tmp_path / "r.pdf").read_bytes().startswith(b"%PDF-")


def test_a_page_is_a_pdf_on_standard_output(page):
    answer = page(GOOD, "-o", "-")
    assert answer.status == 0 and answer.out.startswith(b"%PDF-")


def test_png_and_svg_are_written_by_the_ending(page, tmp_path):
    assert page(GOOD, "-o", "r.png", "--dpi", "50").status == 0
    assert page(GOOD, "-o", "r.svg").status == 0
    width, height = struct.unpack(">II", (tmp_path / "r.png").read_bytes()[16:24])
    assert (width, height) == (413, 549)  # 210 x 279 mm at 50 dpi
    assert (tmp_path / "r.svg").read_text(encoding="utf-8").count(">First figures</title>") >= 1


@pytest.mark.parametrize("line, part", [
    ([], "no recipe is given"),
    (["r.yaml"], "-o is missing"),
    (["r.yaml", "-o", "r.doc"], "ends in neither .png, .pdf nor .svg"),
    (["r.yaml", "-o", "r.pdf", "--dpi", "49"], "50 to 1200"),
    (["r.yaml", "-o", "r.pdf", "--print-recipe"], "leave -o out"),
    (["r.yaml", "s.yaml"], "one word too many"),
    (["r.yaml", "--thickness", "3"], "--thickness belongs to"),
])
def test_bad_lines_are_refused(refused, tmp_path, line, part):
    (tmp_path / "r.yaml").write_text(GOOD, encoding="utf-8")
    assert part in refused(64, "page", *line)


def test_a_missing_recipe_is_told(refused):
    assert "none.yaml" in refused(66, "page", "none.yaml", "-o", "r.pdf")


@pytest.mark.parametrize("text, place, part", [
    ("titel: T\n", "1:1", "unknown key 'titel' of a recipe; did you mean 'title'?"),
    ("title: T\nzzzzzzzz: 1\n", "2:1", "its keys are title, subtitle"),
    ("title: T\nsketch: yes\n", "2:1", "belongs to a figure"),
    ("figures:\n  - stone: quartz\n", "1:1", "no title"),
    ("title: T\n", "1:1", "no figures"),
    ("title: T\nfigures: []\n", "2:10", "allowed: 1 to 200"),
    ("title: T\nfigures: quartz\n", "2:10", "must be a list"),
    ("title: T\nfigures: [quartz]\n", "2:11", "keys with values"),
    ("- a\n", "1:1", "keys with values"),
    ("", "1:1", "empty"),
    ("title: ''\n" + FIGURE[9:], "1:8", "'title' is empty"),
    ("title: [a]\n" + FIGURE[9:], "1:8", "must be text"),
    (FIGURE + "paper: a3\n", "4:8", "allowed: either, a4 or letter"),
    (FIGURE + "language: fr\n", "4:11", "allowed: en"),
    (FIGURE + "columns: 5\n", "4:10", "out of range; allowed: 1 to 4"),
    (FIGURE + "columns: 1.5\n", "4:10", "not a whole number"),
    (FIGURE + "columns: two\n", "4:10", "not a number"),
    (FIGURE + "diameter: 14\n", "4:11", "15 to 180 mm"),
    (FIGURE + "pages: 0\n", "4:8", "1 to 500"),
    (FIGURE + "    thicknes: 3\n", "4:5", "did you mean 'thickness'?"),
    (FIGURE + "    zzzzzzzz: 3\n", "4:5", "interfig figure --help"),
    (FIGURE + "    skecth: yes\n", "4:5", "did you mean 'sketch'?"),
    (FIGURE + "    thickness: abc\n", "4:16",
     "--thickness: 'abc' is not a number; allowed: 0.001 to 100 mm; for example: --thickness 3"),
    (FIGURE + "    thickness: 0\n", "4:16", "out of range"),
    (FIGURE + "    view: sideways\n", "4:11", "--view: 'sideways'"),
    (FIGURE + "    tilt: [10, 45, 3]\n", "4:11", "--tilt"),
    (FIGURE + "    lamp: moonlight\n", "4:11", "--lamp"),
    (FIGURE + "    at: 3\n", "4:9", "belongs to probe"),
    (FIGURE + "    size: 512\n", "4:5", "no place on a page"),
    (FIGURE + "    range: 2V\n", "4:5", "three figures in one"),
    (FIGURE + "    force: yes\n", "4:5", "no place in a recipe"),
    (FIGURE + "    output: x.png\n", "4:5", "no place in a recipe"),
    (FIGURE + "    colourless: perhaps\n", "4:17", "allowed: yes or no"),
    (FIGURE + "    hand: left\n    indices: 1.5\n", "3:5", "both SPECIES"),
    (FIGURE + "    view: acute-bisectrix\n", "3:5", "--view"),
    (FIGURE + "    show: map\n", "4:11", "allowed: figure or face"),
    (FIGURE + "    reading: long\n", "4:14", "allowed: none, short or full"),
    (FIGURE + "    labels: many\n", "4:13", "allowed: none, basic or full"),
    (FIGURE + "    sketch: maybe\n", "4:13", "allowed: no, yes"),
    (FIGURE + "    observe: []\n", "4:14", "empty list"),
    (FIGURE + "    observe: [a,b,c,d,e,f,g,h,i,j,k,l,m]\n", "4:14", "allowed: 1 to 12"),
    (FIGURE + "    photo: {circle: found}\n", "4:12", "no file is named"),
    (FIGURE + "    photo: {fil: a}\n", "4:13", "did you mean 'file'?"),
    (FIGURE + "    photo: {file: a, circle: [1, 2]}\n", "4:30", "[x, y, radius]"),
    (FIGURE + "    photo: {file: a, turn: 9999}\n", "4:28", "-3600 to 3600 degrees"),
    ("title: T\nfigures:\n  - stone: quarz\n", "3:5", "quartz"),
    ("title: T\nfigures:\n  - thickness: 3\n", "3:5", "no stone is given"),
    ("title: &a T\n", "1:8", "anchors"),
    ("title: T\nintro: *a\n", "2:8", "aliases"),
    ("title: !!str T\n", "1:8", "tags"),
    ("title: T\ntitle: U\n", "2:1", "a second time"),
    ("title: [[[[[[[a]]]]]]]\n", "1:13", "nested deeper"),
    ("title: T\n\tfigures: 1\n", "2:1", "indent with blanks"),
    ("title: a: b\n", "1:9", "put text that holds a colon and a blank in quotes"),
])
def test_what_is_wrong_in_a_recipe_is_told_with_its_place(refused_page, text, place, part):
    refused_page(text, place, part)


def test_an_unknown_photo_is_told(refused_page):
    refused_page(FIGURE + "    photo: none.jpg\n", "4:12", "none.jpg", status=66)


@pytest.mark.parametrize("bytes_, part", [
    (b"", "is empty"),
    (b"GIF89a..........", "is neither a PNG nor a JPEG picture; give a photo as PNG or JPEG"),
    (b"title: T\n", "is neither a PNG nor a JPEG"),
    (b"\x89PNG\r\n\x1a\n" + b"\0" * 40, "damaged PNG"),
    (b"\xff\xd8\xff\xe0\0\x10JFIF\0\1\1\0\0\1\0\1\0\0", "damaged JPEG"),
    (png(140, 120, disc)[:-60], "damaged PNG"),
    (png(140, 120, lambda x, y: (90, 90, 90)), "no bright disc"),
])
def test_a_photo_that_is_none_is_told(refused_page, tmp_path, bytes_, part):
    (tmp_path / "p.jpg").write_bytes(bytes_)
    refused_page(FIGURE + "    photo: p.jpg\n", "4:12", "photo: ", part)


def test_a_truncated_jpeg_is_told(refused_page, tmp_path):
    image = pytest.importorskip("PIL.Image")
    picture = image.frombytes("RGB", (140, 120), bytes(v for y in range(120) for x in range(140)
                                                       for v in disc(x, y)))
    picture.save(tmp_path / "p.jpg", quality=90)
    whole = (tmp_path / "p.jpg").read_bytes()
    for cut in (len(whole) // 3, len(whole) // 2, len(whole) - 40):
        (tmp_path / "p.jpg").write_bytes(whole[:cut])
        refused_page(FIGURE + "    photo: p.jpg\n", "4:12", "damaged JPEG", "copy or save it again")


def test_a_jpeg_in_printing_colours_is_told(refused_page, tmp_path):
    image = pytest.importorskip("PIL.Image")
    image.new("CMYK", (60, 60)).save(tmp_path / "p.jpg")
    refused_page(FIGURE + "    photo: p.jpg\n", "4:12", "CMYK", "save it as RGB")


def test_a_circle_outside_the_photo_is_told(refused_page, tmp_path):
    (tmp_path / "p.png").write_bytes(png(140, 120, disc))
    refused_page(FIGURE + "    photo: {file: p.png, circle: [900, 60, 50]}\n", "4:12",
                 "outside the photo, which has 140 x 120 pixels")


def test_a_photo_lies_beside_the_figure_and_its_text_stays_out(page, tmp_path):
    (tmp_path / "p.png").write_bytes(png(140, 120, disc))
    assert page(FIGURE + "    photo: p.png\n", "-o", "r.svg").status == 0
    text = (tmp_path / "r.svg").read_text(encoding="utf-8")
    assert "A photograph of Quartz" in text and "harbour wall" not in text


def test_files_count_from_the_recipes_folder(interfig, tmp_path):
    folder = tmp_path / "club"
    folder.mkdir()
    (folder / "p.png").write_bytes(png(140, 120, disc))
    (folder / "mine.yaml").write_text("species:\n  - {key: club_stone, name: Club stone, "
                                      "n: [1.609, 1.612, 1.619], two_v_deg: 66}\n")
    (folder / "r.yaml").write_text("title: T\nfigures:\n  - {stone: club_stone, species-file: "
                                   "mine.yaml, photo: p.png}\n")
    assert interfig("page", "club/r.yaml", "-o", "r.pdf").status == 0


def test_a_page_too_full_says_which_item_and_by_how_much(refused_page):
    items = "".join(f"  - {{stone: quartz, title: Number {i}}}\n" for i in range(1, 12))
    refused_page("title: T\npages: 1\nfigures:\n" + items, "8:5", "figure 5, 'Number 5'",
                 "mm too few", "allow more pages")


def test_an_item_taller_than_a_page_says_so(refused_page):
    refused_page("title: T\ncolumns: 4\nfigures:\n  - stone: quartz\n    caption: " +
                 "word " * 1500 + "\n", "4:5", "it does not fit", "mm too few", "fewer words")


def test_circles_wider_than_their_column_say_so(refused_page):
    refused_page("title: T\ncolumns: 3\ndiameter: 50\nfigures:\n  - {stone: quartz, sketch: yes}\n",
                 "5:5", "need a width of 105 mm", "mm too much")


def test_new_pages_beyond_the_most_are_refused(refused_page):
    refused_page("title: T\npages: 1\nfigures:\n  - stone: quartz\n  - stone: topaz_f\n"
                 "    new-page: yes\n", "5:5", "more pages than 'pages' allows")


def test_a_reading_that_cannot_be_is_told(refused_page):
    refused_page("title: T\nfigures:\n  - layers: quartz:right:2.5,quartz:left:2.5\n"
                 "    reading: full\n", "3:5", "figure 1")


def test_a_letter_that_the_font_has_not_is_told(page):
    answer = page("title: \U0001F48E\n" + FIGURE[9:])
    assert answer.status != 0 and "fonts-dejavu-core" in answer.err


@pytest.mark.parametrize("line", [
    ["figure", "quartz"],
    ["figure", "ruby", "--stage", "20", "--plate", "full-wave", "--exposure", "-1"],
    ["figure", "--indices", "1.544,1.553", "--rotation", "21.7"],
    ["figure", "--layers", "quartz:right:2.5,quartz:left:2.5"],
    ["figure", "topaz_f", "--tilt", "-10,45", "--lens", "objective:0.9", "--lamp", "600"],
    ["face", "glass", "--pattern", "snake"],
    ["turn", "muscovite", "--thickness", "0.1"],
    ["turn", "calcite", "--what", "plate", "--to", "1100"],
    ["blink", "quartz"],
    ["probe", "calcite", "--thickness", "1", "--at", "20,45"],
    ["reading", "topaz_f", "--stage", "45"],
    ["contrast", "ruby", "almandine"],
])
def test_a_printed_recipe_is_a_page(interfig, page, line):
    answer = interfig(*line, "--print-recipe")
    assert answer.status == 0 and answer.err == ""
    drawn = page(answer.out.decode("utf-8"), "-o", "r.svg")
    assert drawn.status == 0, drawn
    again = page(answer.out.decode("utf-8"), "--print-recipe")
    assert again.status == 0
    settings = [text for text in answer.out.decode("utf-8").splitlines()
                if text.startswith("    ") and "reading:" not in text]
    assert all(text in again.out.decode("utf-8") for text in settings)


def test_a_pages_printed_recipe_prints_itself(page):
    first = page(GOOD, "--print-recipe").out.decode("utf-8")
    assert "caption: \"One axis.\"" in first
    assert page(first, "--print-recipe").out.decode("utf-8") == first


@pytest.mark.parametrize("line, part", [
    (["hunt", "quartz"], "the map that hunt draws"),
    (["narrow", "--observed", "reaction=DR"], "draws nothing that a page could hold"),
    (["species"], "draws nothing that a page could hold"),
    (["figure", "topaz_f", "--range", "2V"], "leave --range out"),
    (["figure", "--again", "x.png"], "do not go together"),
    (["contrast", "ruby"], "2 to 6 stones"),
])
def test_where_no_recipe_can_be_printed_it_says_why(refused, line, part):
    assert part in refused(64, *line, "--print-recipe")


def test_the_figure_of_a_page_is_the_figure_of_the_command(interfig, page, tmp_path):
    """Pixel for pixel: 50 mm at 254 dpi are 500 pixels."""
    image = pytest.importorskip("PIL.Image")
    numpy = pytest.importorskip("numpy")
    interfig("figure", "calcite", "--thickness", "0.5", "--size", "500", "-o", "f.png")
    assert page("title: T\ndiameter: 50\nfigures:\n  - {stone: calcite, thickness: 0.5}\n",
                "-o", "r.png", "--dpi", "254").status == 0
    figure = numpy.asarray(image.open(tmp_path / "f.png").convert("RGB")).astype(int)
    sheet = numpy.asarray(image.open(tmp_path / "r.png").convert("RGB")).astype(int)
    inner = figure[150:350, 150:350]
    best = min((int(numpy.abs(sheet[y:y + 200, 290:490] - inner).max()), y)
               for y in range(150, sheet.shape[0] - 200))
    assert best[0] == 0
