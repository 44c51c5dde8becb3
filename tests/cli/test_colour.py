# SPDX-License-Identifier: MIT
"""Body colours and strain on the command line."""
import io
import json
import shlex

import jsonschema
import numpy
import pytest
from PIL import Image

from png_chunks import texts
from test_numbers import schema

SMALL = ["--size", "41"]


def picture(interfig, *words):
    answer = interfig("figure", *words, *SMALL, "-o", "-")
    assert answer.status == 0, answer
    return numpy.asarray(Image.open(io.BytesIO(answer.out))).astype(int)


def mean_of(pixels):
    return pixels.reshape(-1, 3).mean(axis=0)


def test_a_variety_is_coloured_and_its_species_is_not(interfig):
    # ruby red, emerald green, sapphire blue: common practice, no source
    for words, strongest in [(["ruby"], 0), (["emerald"], 1), (["blue sapphire"], 2)]:
        seen = mean_of(picture(interfig, *words))
        assert numpy.argmax(seen) == strongest and seen.max() - seen.min() > 30, words
    for words in [["corundum"], ["ruby", "--colourless"], ["emerald", "--colourless"]]:
        seen = mean_of(picture(interfig, *words))
        assert seen.max() - seen.min() < 5, words


def test_colourless_is_the_species_itself(interfig):
    assert numpy.array_equal(picture(interfig, "ruby", "--colourless"), picture(interfig, "corundum"))


def test_a_colour_may_be_chosen_by_name(interfig):
    ruby = picture(interfig, "ruby")
    for name in ["ruby", "Ruby", "star ruby"]:
        assert numpy.array_equal(ruby, picture(interfig, "corundum", "--colour", name))
    blue = picture(interfig, "sapphire")
    assert numpy.array_equal(blue, picture(interfig, "ruby", "--colour", "blue sapphire"))
    # a synthetic has the colour under its own words, and by the colour's name
    assert numpy.array_equal(picture(interfig, "synthetic ruby"),
                             picture(interfig, "corundum_synthetic", "--colour", "ruby"))


NAMES = [
    (["ruby"], "ruby_c_3mm.png", "body colour of ruby"),
    (["Blue Sapphire"], "blue_sapphire_c_3mm.png", "body colour of blue sapphire"),
    (["star ruby"], "star_ruby_c_3mm.png", "body colour of ruby"),
    (["corundum", "--colour", "blue sapphire"], "corundum_blue_sapphire_c_3mm.png",
     "body colour of blue sapphire"),
    (["r\u00fcby"], "corundum_ruby_c_3mm.png", "body colour of ruby"),
    (["emerald"], "emerald_c_3mm.png", "body colour of emerald"),
    (["emerald", "--colourless"], "emerald_colourless_c_3mm.png", "colourless"),
    (["peridot"], "peridot_acute-bisectrix_3mm.png", "body colour of peridot"),
]


@pytest.mark.parametrize("words,name,said", NAMES)
def test_the_words_and_the_file_name_the_colour(interfig, tmp_path, words, name, said):
    answer = interfig("figure", *words, *SMALL)
    assert answer.status == 0 and answer.err == "", answer
    assert answer.out.decode().startswith(f"{name}: ") and f", {said}, " in answer.out.decode()
    inside = texts((tmp_path / name).read_bytes())
    assert f", {said}" in inside["Description"] and inside["Title"].endswith(f", {said}")


RECIPES = ["ruby", "'blue sapphire'", "r\u00fcby", "emerald --colourless", "ruby --colourless",
           "corundum --colour 'yellow sapphire'", "alexandrite --lamp tungsten", "peridot --view x",
           "'synthetic ruby'", "-- -ruby", "corundum --strain 120,30", "diamond --strain -5.5",
           "'star  RUBY' --strain 7,-20 --stage 30", "spinel --strain 0"]


@pytest.mark.parametrize("line", RECIPES)
@pytest.mark.parametrize("command", ["figure", "turn"])
def test_it_is_rendered_again_to_the_last_byte(interfig, tmp_path, command, line):
    line = line.replace("--stage 30", "") if command == "turn" else line
    extra = ["--steps", "2"] if command == "turn" else []
    first = interfig(command, *extra, *SMALL, "-o", "first.png", *shlex.split(line))
    assert first.status == 0, first
    data = (tmp_path / "first.png").read_bytes()
    again = interfig(command, "--again", "first.png", "-o", "again.png")
    assert again.status == 0 and again.err == "", again
    assert (tmp_path / "again.png").read_bytes() == data
    recipe = shlex.split(texts(data)["Recipe"])
    assert texts(data)["Recipe"].isascii() and recipe[0] == "interfig"
    assert interfig(*recipe[1:], "-o", "-").out == data


def test_the_recipe_keeps_the_word_typed(interfig):
    said = texts(interfig("figure", "Ruby", *SMALL, "-o", "-").out)["Recipe"]
    assert said.startswith("interfig figure Ruby --thickness 3 ")
    said = texts(interfig("figure", "blue sapphire", *SMALL, "-o", "-").out)["Recipe"]
    assert said.startswith("interfig figure 'blue sapphire' --thickness 3 ")


def test_a_file_of_other_species_does_not_take_the_colour_away(interfig, club_files, tmp_path):
    plain = picture(interfig, "ruby")
    words = ["figure", "ruby", "--species-file", "club.yaml", *SMALL, "-o", "a.png"]
    assert interfig(*words).status == 0
    data = (tmp_path / "a.png").read_bytes()
    assert numpy.array_equal(numpy.asarray(Image.open(io.BytesIO(data))), plain)
    assert "Species" not in texts(data) and "--species-file" not in texts(data)["Recipe"]
    (tmp_path / "club.yaml").unlink()
    assert interfig("figure", "--again", "a.png", "-o", "-").out == data


def test_alexandrite_changes_between_daylight_and_tungsten(interfig):
    # common practice, no source: green by day, red by lamplight
    colours = json.loads(interfig("species", "alexandrite", "--json").out)["body_colours"]
    rays = colours[0]["rays"]
    assert [ray["ray"] for ray in rays] == ["x", "y", "z"]

    def mean(lamp):
        codes = [ray[lamp]["srgb"] for ray in rays]
        return [sum(int(code[i:i + 2], 16) for code in codes) / 3 for i in (1, 3, 5)]

    day, lamp = mean("daylight"), mean("tungsten")
    assert lamp[0] - lamp[1] > day[0] - day[1] + 20


def test_species_tells_the_colours_of_the_rays(interfig):
    told = json.loads(interfig("species", "ruby", "--json").out)
    jsonschema.validate(told, schema("species.json"))
    assert [colour["name"] for colour in told["body_colours"]] == [
        "ruby", "blue sapphire", "yellow sapphire"]
    ruby = told["body_colours"][0]
    assert ruby["thickness_mm"] == 3 and ruby["source"]
    assert [ray["ray"] for ray in ruby["rays"]] == ["o", "e"]
    assert ruby["rays"][1]["daylight"]["word"].endswith("red")
    text = interfig("species", "ruby").out.decode()
    for ray in ruby["rays"]:
        assert f"{ray['ray']}: daylight {ray['daylight']['srgb']} {ray['daylight']['word']}" in text
    assert "stress-optic        1.7 per TPa" in text
    assert json.loads(interfig("species", "topaz_f", "--json").out)["body_colours"] == []
    assert "body colours" not in interfig("species", "topaz_f").out.decode()


def test_probe_tells_colour_and_stress(interfig):
    told = json.loads(interfig("probe", "ruby", "--strain", "50,20", "--json").out)
    jsonschema.validate(told, schema("probe.json"))
    assert told["species"] == "corundum" and told["body_colour"] == "ruby"
    assert (told["stress_mpa"], told["stress_azimuth_deg"]) == (50, 20)
    plain = json.loads(interfig("probe", "corundum", "--json").out)
    assert "body_colour" not in plain and "stress_mpa" not in plain


def test_a_strained_stone_opens_its_cross(interfig):
    # 589.3 nm, K 1.7 per TPa, 100 MPa, 3 mm: 510 nm at the centre (law of Brewster)
    told = json.loads(interfig("probe", "corundum", "--strain", "100,45", "--json").out)
    assert told["retardation_nm"] == pytest.approx(510, rel=0.01)
    assert told["transmittance"] > 0.1
    assert json.loads(interfig("probe", "corundum", "--json").out)["transmittance"] < 1e-12
    line = interfig("figure", "corundum", "--strain", "-100,45", *SMALL).out.decode()
    assert line.endswith(", 3 mm, under a pressure of 100 MPa along 45 deg, sphere lens to 55 deg, "
                         "daylight, crossed polars\n")  # and no dark cross is promised


LINES = [
    ("--colour: 'emerald' is no colour of corundum; choose ruby, blue sapphire or yellow sapphire",
     "corundum --colour emerald"),
    ("--colour: 'x' is no colour of topaz_f, which has none in the catalogue", "topaz_f --colour x"),
    ("--colour: '' is empty", "ruby --colour="),
    ("--colour lacks its value", "ruby --colour"),
    ("--colour is given twice", "corundum --colour ruby --colour ruby"),
    ("--colour and --colourless contradict", "corundum --colour ruby --colourless"),
    ("--colourless: topaz_f has no body colour to leave out", "topaz_f --colourless"),
    ("--colourless takes no value", "ruby --colourless=yes"),
    ("--colour goes with a SPECIES alone", "--indices 1.5,1.6 --colour ruby"),
    ("--colourless goes with a SPECIES alone", "--indices 1.5,1.6 --colourless"),
    ("did you mean --colour?", "ruby --color red"),
    ("--strain: no stress-optic coefficient is known for topaz_f; it is for quartz, ",
     "topaz_f --strain 10"),
    ("--strain goes with a SPECIES alone", "--indices 1.5,1.6 --strain 10"),
    ("--strain: '10001' is out of range; allowed: -10000 to 10000 MPa", "diamond --strain 10001"),
    ("--strain: '1,3601' is out of range", "diamond --strain 1,3601"),
    ("--strain: 'x' is not made of numbers", "diamond --strain x"),
    ("--strain: 'nan' is not made of numbers", "diamond --strain nan"),
    ("--strain: '1,2,3' holds more than 2 numbers", "diamond --strain 1,2,3"),
    ("--strain lacks its value", "diamond --strain"),
]


@pytest.mark.parametrize("command", ["figure", "turn", "probe"])
@pytest.mark.parametrize("expected,line", LINES, ids=[line for _, line in LINES])
def test_a_colour_or_strain_that_cannot_be_is_refused(refused, command, expected, line):
    assert expected in refused(64, command, *shlex.split(line))


def test_a_stone_of_the_users_own_has_no_colour(interfig, refused, tmp_path):
    (tmp_path / "mine.yaml").write_text("species:\n  - {key: corundum, n: [1.768, 1.76]}\n")
    message = refused(64, "figure", "corundum", "--species-file", "mine.yaml", "--colour", "ruby")
    assert "which has none in the catalogue" in message
    message = refused(64, "figure", "corundum", "--species-file", "mine.yaml", "--strain", "9")
    assert "no stress-optic coefficient is known for corundum" in message
