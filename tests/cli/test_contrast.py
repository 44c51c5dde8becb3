# SPDX-License-Identifier: MIT
"""interfig contrast: what tells stones apart."""
import jsonschema
import pytest

from test_numbers import answer, schema  # noqa: F401 (a fixture)
from test_turn import frames, texts

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
    assert pair["first_test"] in pair["other_tests"] and pair["first_test"] == "thermal conductivity"


def test_the_text_ranks_the_clues_and_says_the_caution(interfig, answer):
    text = interfig("contrast", "ruby", "almandine").out.decode()
    told = answer("contrast", "ruby", "almandine")["pairs"][0]
    flat = " ".join(text.split())
    assert text.split()[:2] == ["ruby", "almandine"]
    assert "ruby against almandine" in text and "not an identification" in flat
    assert f"1. {told['ranked'][0]['clue']}" in text
    for words in told["words"]:
        assert " ".join(words.split()) in flat


def test_the_figures_stand_side_by_side(interfig, tmp_path):
    done = interfig("contrast", "quartz", "spinel", "chalcedony", "--size", "64", "-o", "three.png")
    assert done.status == 0 and done.err == "" and "three.png: From left to right" in done.out.decode()
    picture = (tmp_path / "three.png").read_bytes()
    shown = frames(picture)[0][0].astype(int)
    # three pictures of 64 and two gaps of a sixteenth
    assert shown.shape == (64, 3 * 64 + 2 * 4, 3)
    still = frames(interfig("figure", "quartz", "--size", "64", "-o", "-").out)[0][0].astype(int)
    assert (shown[:, :64] == still).all()
    assert shown[24:40, 68 + 24:68 + 40].max() <= 12, "spinel is dark"
    assert shown[24:40, 136 + 24:136 + 40].mean() > 60, "an aggregate glows"
    words = texts(picture)
    assert words["Title"] == "Side by side: quartz, spinel and chalcedony"
    assert words["Recipe"].startswith("interfig contrast quartz spinel chalcedony --thickness 3")
    assert interfig("contrast", "ruby", "opal", "-o", "two.png", "--json").status == 0
    assert frames((tmp_path / "two.png").read_bytes())[0][0].shape == (512, 2 * 512 + 32, 3)


def test_a_species_file_takes_part(answer, club_files):
    told = answer("contrast", "harbour_topaz", "topaz_oh", "--species-file", "club.yaml")
    assert told["species"][0]["species"] == "harbour_topaz"


LINES = [
    (64, "no stones are given; contrast needs two to six", "contrast"),
    (64, "'ruby' stands alone; contrast needs two to six", "contrast ruby"),
    (64, "'ruby' and 'ruby' are both corundum", "contrast ruby ruby"),
    (64, "'ruby' and 'sapphire' are both corundum", "contrast ruby spinel sapphire"),
    (64, "'opal' is one stone too many: contrast takes 2 to 6",
     "contrast quartz ruby spinel peridot iolite glass opal"),
    (64, "emerald, aquamarine, morganite; give one of these", "contrast quartz beryl"),
    (64, "topaz_f, topaz_oh; give one of these", "contrast topaz quartz"),
    (64, "did you mean quartz?", "contrast ruby quarz"),
    (65, "malachite is opaque", "contrast quartz malachite"),
    (64, "--view belongs to", "contrast ruby spinel --view c"),
    (64, "--lens: 'none' is unknown", "contrast ruby spinel --lens none"),
    (64, "--lamp: 'moon' is unknown", "contrast ruby spinel --lamp moon"),
    (64, "--size 20000 makes a picture of", "contrast ruby spinel opal glass --size 20000 -o a.png"),
    (73, "nowhere", "contrast ruby spinel --size 9 -o nowhere/a.png"),
    (74, "/dev/full", "contrast ruby spinel --size 200 -o /dev/full"),
]


@pytest.mark.parametrize("status,expected,line", LINES, ids=[line for _, _, line in LINES])
def test_a_contrast_that_makes_no_sense_is_refused(refused, status, expected, line):
    assert expected in refused(status, *line.split())
