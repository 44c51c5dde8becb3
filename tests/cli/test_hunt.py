# SPDX-License-Identifier: MIT
"""interfig hunt: where the patch lies, in words, in JSON and as a map."""
import json
import math

import jsonschema
import pytest

from test_numbers import answer, schema  # noqa: F401 (a fixture)


@pytest.mark.parametrize("line", ["quartz", "calcite --thickness 10", "topaz_f", "brookite", "iolite",
                                  "ruby --lamp sodium --immersion 1.5", "--indices 1.5,1.6,1.7",
                                  "spinel", "sphene --view x --cone 2", "chrysoberyl --thickness 0.001"])
def test_a_hunt_keeps_to_its_schema(answer, line):
    jsonschema.validate(answer("hunt", *line.split()), schema("hunt.json"))


def test_the_asked_thickness_comes_first(answer):
    told = answer("hunt", "quartz", "--thickness", "4")
    assert [patch["thickness_mm"] for patch in told["patches"]] == [4, 0.5, 1, 2, 5, 10]


def test_a_thicker_stone_has_a_smaller_patch_and_fewer_false_singles(answer):
    patches = answer("hunt", "corundum")["patches"][1:]
    for small, large in zip(patches[1:], patches):
        assert small["patch_sr"] < large["patch_sr"]
        assert small["false_single"] <= large["false_single"]


def test_the_share_is_that_of_the_whole_sphere(answer):
    for patch in answer("hunt", "topaz_f")["patches"]:
        assert math.isclose(patch["patch_share"], patch["patch_sr"] / (4 * math.pi), rel_tol=1e-9)


def test_the_optic_axes_stand_two_v_apart(answer):
    told = answer("hunt", "topaz_f")
    first, second = told["optic_axes"]
    apart = math.degrees(math.acos(abs(sum(a * b for a, b in zip(first, second)))))
    assert abs(apart - told["two_v_deg"]) < 1e-6
    assert len(answer("hunt", "quartz")["optic_axes"]) == 1


def test_a_table_across_the_axis_shows_it_at_once(answer):
    cuts = answer("hunt", "corundum")["cuts"]
    across = min(cuts, key=lambda cut: cut["nearest_axis_deg"])
    assert across["nearest_axis_deg"] < 1e-6 and across["most_outside_deg"] < 1e-6
    # an axis in the table's own plane never leaves through it
    along = max(cuts, key=lambda cut: cut["nearest_axis_deg"])
    assert along["most_outside_deg"] is None and "total reflection" in along["reason"]


def test_a_singly_refractive_stone_has_no_patch_and_is_dark_every_way(answer):
    told = answer("hunt", "spinel")
    assert told["optic_axes"] == [] and told["two_v_deg"] is None
    assert all(patch["patch_sr"] == 0 and patch["false_single"] == 1 for patch in told["patches"])


def test_the_text_has_the_table_the_words_and_the_caution(interfig, answer):
    text = interfig("hunt", "quartz").out.decode()
    told = answer("hunt", "quartz")
    flat = " ".join(text.split())
    for words in told["words"]:
        assert " ".join(words.split()) in flat
    assert "not an identification" in flat
    rows = [line.split() for line in text.splitlines() if line[:1].isdigit()]
    assert len(rows) == 6
    for row, patch in zip(rows, told["patches"]):
        assert float(row[0]) == patch["thickness_mm"]
        assert abs(float(row[2]) - patch["patch_sr"]) <= 0.0005


LINES = [
    (64, "no stone is given", "hunt"),
    (65, "chalcedony is an aggregate", "hunt chalcedony"),
    (65, "malachite is", "hunt malachite"),
    (64, "--layers belongs to", "hunt --layers quartz:right:1,quartz:left:1"),
    (64, "--stage belongs to", "hunt quartz --stage 4"),
    (64, "--polars belongs to", "hunt quartz --polars crossed"),
    (64, "--pattern belongs to", "hunt quartz --pattern plain"),
    (64, "'ruby' is one word too many after 'quartz'", "hunt quartz ruby"),
    (64, "did you mean --thickness?", "hunt quartz --thick 3"),
    (64, "-o -: standard output holds the words", "hunt quartz -o -"),
    (64, "ends in neither .png, .pdf nor .svg", "hunt quartz -o plate.txt"),
    (64, "--dpi: '1201' is out of range; allowed for a plate", "hunt quartz --dpi 1201 -o a.pdf"),
    (73, "nowhere", "hunt quartz --dpi 50 -o nowhere/a.png"),
]


@pytest.mark.parametrize("status,expected,line", LINES, ids=[line for _, _, line in LINES])
def test_a_hunt_that_makes_no_sense_is_refused(refused, status, expected, line):
    assert expected in refused(status, *line.split())


@pytest.mark.parametrize("end", ["png", "pdf", "svg"])
def test_a_map_is_drawn_where_it_is_asked_for(interfig, tmp_path, end):
    heads = {"png": b"\x89PNG\r\n", "pdf": b"%PDF-", "svg": b"<?xml"}
    done = interfig("hunt", "topaz_f", "-o", f"map.{end}", "--json")
    assert done.status == 0 and done.err == ""
    json.loads(done.out)
    assert (tmp_path / f"map.{end}").read_bytes().startswith(heads[end])
