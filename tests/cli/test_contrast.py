# SPDX-License-Identifier: MIT
"""interfig contrast: what tells stones apart."""
import jsonschema
import pytest

from test_numbers import answer, schema  # noqa: F401 (a fixture)
from test_turn import texts

SURENESS = ["not", "sometimes", "hard", "practised", "anyone"]


@pytest.mark.parametrize("line", [
    "ruby almandine spinel", "aquamarine topaz_f", "iolite amethyst tanzanite", "glass quartz",
    "chalcedony quartz", "moissanite diamond cubic_zirconia", "quartz corundum peridot spinel opal jadeite",
    "zircon_high calcite --thickness 10 --lens objective:0.85 --lamp sodium"])
def test_a_contrast_keeps_to_its_schema(answer, line):
    told = answer("contrast", *line.split())
    jsonschema.validate(told, schema("contrast.json"))
    count = len(told["species"])
    assert len(told["pairs"]) == count * (count - 1) // 2
    for pair in told["pairs"]:
        order = [SURENESS.index(entry["sureness"]) for entry in pair["ranked"]]
        assert order == sorted(order, reverse=True)
        assert len({entry["clue"] for entry in pair["ranked"]}) == 9


def test_a_variety_brings_its_colour(answer):
    told = answer("contrast", "ruby", "almandine")
    assert [(stone["species"], stone["body_colour"]) for stone in told["species"]][0] == ("corundum", "ruby")
    assert "red" in told["species"][0]["colour"]


# Common practice, no source: the text-book pairs.
@pytest.mark.parametrize("line,clue", [
    ("ruby almandine", "reaction"), ("ruby spinel", "reaction"), ("glass quartz", "reaction"),
    ("chalcedony quartz", "reaction"), ("moissanite diamond", "reaction"),
    ("moissanite cubic_zirconia", "reaction")])
def test_the_text_book_pairs_lead_with_the_reaction(answer, line, clue):
    pair = answer("contrast", *line.split())["pairs"][0]
    assert pair["ranked"][0]["clue"] == clue
    assert not pair["is_polariscope_blind"]


def test_two_singly_refractive_stones_need_another_test(answer):
    pair = answer("contrast", "diamond", "cubic_zirconia", "--thickness", "2")["pairs"][0]
    assert pair["polariscope"] in ("not", "sometimes")
    assert pair["first_test"] in pair["other_tests"] and pair["first_test"] == "thermal"


def test_the_text_ranks_the_clues_and_says_the_caution(interfig, answer):
    text = interfig("contrast", "ruby", "almandine").out.decode()
    told = answer("contrast", "ruby", "almandine")["pairs"][0]
    flat = " ".join(text.split())
    assert text.split()[:2] == ["ruby", "almandine"]
    assert "ruby against almandine" in text and "not an identification" in flat
    assert f"1. {told['ranked'][0]['clue']}" in text
    for words in told["words"]:
        assert " ".join(words.split()) in flat


@pytest.mark.parametrize("end", ["png", "pdf", "svg"])
def test_a_plate_is_drawn_where_it_is_asked_for(interfig, tmp_path, end):
    heads = {"png": b"\x89PNG\r\n", "pdf": b"%PDF-", "svg": b"<?xml"}
    done = interfig("contrast", "quartz", "spinel", "chalcedony", "--dpi", "60", "-o", f"three.{end}")
    assert done.status == 0 and done.err == ""
    plate = (tmp_path / f"three.{end}").read_bytes()
    assert plate.startswith(heads[end])
    if end == "png":
        words = texts(plate)
        assert words["Title"] == "What tells quartz, spinel and chalcedony apart"
        assert words["Recipe"].startswith("interfig contrast quartz spinel chalcedony --thickness 3")
        assert "not an identification" in words["Disclaimer"]


def test_two_varieties_of_one_species_differ_by_colour_alone(answer):
    pair = answer("contrast", "ruby", "blue sapphire")["pairs"][0]
    told = {entry["clue"]: entry["sureness"] for entry in pair["ranked"]}
    assert pair["first"] == pair["second"] == "corundum"
    assert [clue for clue, sureness in told.items() if sureness != "not"] == ["colour"]


def test_a_species_file_takes_part(answer, club_files):
    told = answer("contrast", "harbour_topaz", "topaz_oh", "--species-file", "club.yaml")
    assert told["species"][0]["species"] == "harbour_topaz"


LINES = [
    (64, "no stones are given; contrast needs two to six", "contrast"),
    (64, "'ruby' stands alone; contrast needs two to six", "contrast ruby"),
    (64, "'ruby' and 'ruby' are one stone, Corundum", "contrast ruby ruby"),
    (64, "'quartz' and 'rock_crystal' are one stone, Quartz", "contrast quartz spinel rock_crystal"),
    (64, "'opal' is one stone too many: contrast takes 2 to 6",
     "contrast quartz ruby spinel peridot iolite glass opal"),
    (64, "emerald, aquamarine, morganite; give one of these", "contrast quartz beryl"),
    (64, "topaz_f, topaz_oh; give one of these", "contrast topaz quartz"),
    (64, "did you mean quartz?", "contrast ruby quarz"),
    (65, "malachite is opaque", "contrast quartz malachite"),
    (64, "--view belongs to", "contrast ruby spinel --view c"),
    (64, "--lens: 'none' is unknown", "contrast ruby spinel --lens none"),
    (64, "--lamp: 'moon' is unknown", "contrast ruby spinel --lamp moon"),
    (64, "--size belongs to", "contrast ruby spinel --size 20"),
    (64, "-o -: standard output holds the words", "contrast ruby spinel -o -"),
    (64, "ends in neither .png, .pdf nor .svg", "contrast ruby spinel -o plate.jpg"),
    (64, "ends in neither .png, .pdf nor .svg", "contrast ruby spinel -o .png"),
    (64, "--dpi: '49' is out of range; allowed for a plate: 50 to 1200",
     "contrast ruby spinel --dpi 49 -o a.png"),
    (73, "nowhere", "contrast ruby spinel --dpi 50 -o nowhere/a.png"),
]


@pytest.mark.parametrize("status,expected,line", LINES, ids=[line for _, _, line in LINES])
def test_a_contrast_that_makes_no_sense_is_refused(refused, status, expected, line):
    assert expected in refused(status, *line.split())
