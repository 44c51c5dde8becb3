# SPDX-License-Identifier: MIT
"""interfig chart: the colours of retardation, as numbers and as a plate that others can read."""
import re
import subprocess
import xml.etree.ElementTree

import jsonschema
import pytest

from test_numbers import answer, schema  # noqa: F401 (a fixture)

numpy = pytest.importorskip("numpy")
Image = pytest.importorskip("PIL.Image")


@pytest.mark.parametrize("line", ["", "--lamp sodium", "--lamp tungsten --orders 8 --polars parallel",
                                  "--species none --strips none", "--species all --thickness 20",
                                  "--species ruby,quartz --strips wulfenite,sphene:z --orders 1"])
def test_a_chart_keeps_to_its_schema(answer, line):
    jsonschema.validate(answer("chart", *line.split()), schema("chart.json"))


def test_the_numbers_are_those_of_the_scale(answer):
    told = answer("chart")
    colours = told["colours"]
    assert [row["retardation_nm"] for row in colours] == [5 * i for i in range(552)]
    assert colours[0]["srgb"] == [0, 0, 0] and colours[0]["colour"] == "black"
    # first-order white at 259 nm, violet behind the sensitive tint at 575: Quincke, from memory
    assert "white" in colours[52]["colour"] and colours[115]["colour"] == "violet"
    assert [strip["species"] for strip in told["strips"]] == ["tanzanite", "moissanite", "sphene",
                                                              "brookite"]


def test_a_strip_tells_how_its_birefringence_changes(answer):
    brookite = answer("chart", "--strips", "brookite:z")["strips"][0]
    assert brookite["section"] == "z"
    assert brookite["birefringence_486_nm"] * brookite["birefringence_656_nm"] < 0
    # the most of the powellite's retardation is in blue, so its orders end sooner
    powellite = answer("chart", "--strips", "powellite")["strips"][0]
    assert powellite["birefringence_486_nm"] > 1.2 * powellite["birefringence_589_nm"]


def test_a_single_line_has_no_strips_and_orders_of_its_own(answer):
    told = answer("chart", "--lamp", "546.1", "--orders", "2")
    assert told["order_nm"] == 546.1 and told["strips"] == []


def test_json_alone_makes_no_file(interfig, tmp_path):
    assert interfig("chart", "--json").status == 0
    assert list(tmp_path.iterdir()) == []


def test_a_file_of_the_default_name_stays_unless_forced(interfig, refused, tmp_path):
    done = interfig("chart")
    assert done.status == 0 and done.out.startswith(b"chart.pdf: interference colours of 0 to 2755")
    assert "--force" in refused(73, "chart")
    first = (tmp_path / "chart.pdf").read_bytes()
    assert interfig("chart", "--force").status == 0
    assert (tmp_path / "chart.pdf").read_bytes() == first, "not the same bytes"


def strip_row(pixels, left, right):
    """A row through the usual strip: the first dark corner below the middle of the sheet's head."""
    height = pixels.shape[0]
    for y in range(height // 3, height):
        row = pixels[y, left:right].astype(int)
        if (row[3:20] < 90).all() and (row != 255).any(axis=1).mean() > 0.9:
            return y + 10
    raise AssertionError("no strip found")


def test_the_strip_is_made_of_the_very_colours(interfig, answer, tmp_path):
    assert interfig("chart", "-o", "a.png", "--dpi", "200").status == 0
    pixels = numpy.asarray(Image.open(tmp_path / "a.png").convert("RGB"))
    assert pixels.shape == (1654, 2197, 3)  # 279 x 210 mm
    left, width = round(24 * 200 / 25.4), round(215 * 200 / 25.4)
    row = pixels[strip_row(pixels, left, left + width), left:left + width].astype(int)
    for colour in answer("chart")["colours"][2:-2]:
        place = colour["retardation_nm"] / 2755 * width - 0.5
        around = row[int(place) - 1:int(place) + 3]
        expected = numpy.array(colour["srgb"])
        assert (around.min(axis=0) - 2 <= expected).all() and (expected <= around.max(axis=0) + 2).all()


def test_nothing_stands_within_nine_millimetres_of_the_edge(interfig, tmp_path):
    for line in (["--species", "all"], ["--orders", "8", "--thickness", "20"], ["--lamp", "sodium"]):
        assert interfig("chart", *line, "-o", "a.png", "--dpi", "100").status == 0
        pixels = numpy.asarray(Image.open(tmp_path / "a.png").convert("L"))
        margin = int(9.0 * 100 / 25.4)
        for edge in (pixels[:margin], pixels[-margin:], pixels[:, :margin], pixels[:, -margin:]):
            assert (edge == 255).all(), line


def run(*command):
    done = subprocess.run(command, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def test_the_pdf_is_clean_and_reads_in_order(interfig, tmp_path):
    assert interfig("chart", "-o", "a.pdf").status == 0
    path = tmp_path / "a.pdf"
    assert "No syntax or stream encoding errors" in run("qpdf", "--check", path)
    assert re.search(r"Page size: +790.8\d+ x 595.2\d+ pts", run("pdfinfo", path))
    for font in run("pdffonts", path).splitlines()[2:]:
        assert re.match(r"[A-Z]{6}\+DejaVuSans.* yes yes yes ", font), font
    told = run("pdfinfo", "-struct-text", path)
    order = [told.index(words) for words in ("Interference colours", "Quartz", "1st order",
                                             "Anomalous colours", "Brookite seen along Z",
                                             "How to read it", "Dots are typical values")]
    assert order == sorted(order)
    objects = subprocess.run(["qpdf", "--qdf", path, "-"], capture_output=True,
                             check=True).stdout.decode("latin-1")
    assert objects.count("/S /Figure") == 6 and objects.count("/Alt ") == 6


def boxes_of_words(path):
    """Words and their boxes, upright ones alone."""
    found = run("pdftotext", "-bbox", path, "-")
    pattern = r'xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]+)<'
    return [(*map(float, match[:4]), match[4]) for match in re.findall(pattern, found)]


@pytest.mark.parametrize("line", ["", "--lamp tungsten --orders 3 --thickness 0.03", "--orders 8",
                                  "--lamp fluorescent --polars parallel", "--orders 1",
                                  "--lamp sodium --thickness 1", "--thickness 5 --species all"])
def test_no_name_lies_over_another(interfig, tmp_path, line):
    assert interfig("chart", *line.split(), "-o", "a.pdf").status == 0
    boxes = boxes_of_words(tmp_path / "a.pdf")
    # names that lean have boxes that cross though their letters do not: below the top edge all lie
    axis = min(box[1] for box in boxes if box[4] == "0") - 180
    level = [box for box in boxes if box[1] > max(axis, 200)]
    assert len(level) > 60
    for i, one in enumerate(level):
        for other in level[:i]:
            across = min(one[2], other[2]) - max(one[0], other[0])
            down = min(one[3], other[3]) - max(one[1], other[1])
            assert across < 0.3 or down < 2.2, (one, other)


def test_the_svg_tells_what_it_is(interfig, tmp_path):
    assert interfig("chart", "-o", "a.svg").status == 0
    root = xml.etree.ElementTree.parse(tmp_path / "a.svg").getroot()
    title = root.find("{http://www.w3.org/2000/svg}title")
    assert title.text.startswith("Interference colours")


def test_the_recipe_in_a_picture_makes_it_anew(interfig, tmp_path):
    assert interfig("chart", "--polars", "parallel", "--species", "ruby,quartz", "--dpi", "60",
                    "-o", "a.png").status == 0
    recipe = Image.open(tmp_path / "a.png").text["Recipe"]
    words = recipe.split()
    assert words[:2] == ["interfig", "chart"]
    assert "corundum,quartz" in words and "parallel" in words
    assert interfig(*words[1:], "-o", "b.png").status == 0
    assert (tmp_path / "b.png").read_bytes() == (tmp_path / "a.png").read_bytes()


def test_a_species_of_ones_own_is_marked(answer, club_files):
    told = answer("chart", "--species-file", "club.yaml", "--species", "harbour_topaz")
    assert [row["species"] for row in told["species"]] == ["harbour_topaz"]
    assert abs(told["species"][0]["birefringence"] - 0.010) < 1e-9


LINES = [
    (64, "no species is called 'qwarz'", "--species quartz,qwarz"),
    (64, "an entry of the list is empty", "--species quartz,,ruby"),
    (64, "an entry of the list is empty", "--strips moissanite,"),
    (64, "diamond has no birefringence", "--species diamond"),
    (64, "corundum is there twice", "--species ruby,sapphire"),
    (64, "does not know how the birefringence changes", "--strips idocrase"),
    (64, "quartz shows no birefringence along z", "--strips quartz:z"),
    (64, "'w' is no line of sight", "--strips sphene:w"),
    (64, "more than 4 strips", "--strips sphene:z,moissanite,tanzanite:z,brookite:z,rutile"),
    (64, "no stone has anomalous colours", "--lamp sodium --strips sphene:z"),
    (64, "--orders: '9' is out of range; allowed: 1 to 8", "--orders 9"),
    (64, "--orders: '2.5' is not a whole number", "--orders 2.5"),
    (64, "--thickness: '30' is out of range; allowed at the top", "--thickness 30"),
    (64, "--polars: circular polars", "--polars circular"),
    (64, "'quartz' stands alone; chart takes species behind --species", "quartz"),
    (64, "--stage belongs to", "--stage 4"),
    (64, "ends in neither .png, .pdf nor .svg", "-o chart.gif"),
    (64, "-o -: standard output holds the words", "-o -"),
    (64, "--dpi: '20' is out of range; allowed for a plate", "--dpi 20"),
    (65, "finds no room on the chart", "--thickness 20 -o a.pdf --species "
     "calcite,dolomite,rhodochrosite,smithsonite,sphene,brookite,cassiterite,rutile,hambergite"),
    (66, "nowhere.csv", "--lamp nowhere.csv"),
    (73, "nowhere", "-o nowhere/a.pdf"),
]


@pytest.mark.parametrize("status,expected,line", LINES, ids=[line for _, _, line in LINES])
def test_a_chart_that_makes_no_sense_is_refused(refused, status, expected, line):
    assert expected in refused(status, "chart", *line.split())


def test_an_option_of_the_chart_is_foreign_elsewhere(refused):
    assert "--orders belongs to chart, not to figure" in refused(64, "figure", "quartz", "--orders", "3")
