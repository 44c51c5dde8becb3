# SPDX-License-Identifier: MIT
"""interfig reading: what a trained eye reads off a figure, in words and in JSON."""
import copy
import json
import math

import jsonschema
import pytest

from test_numbers import answer, schema  # noqa: F401 (a fixture)

LINES = ["486.1", "589.3", "656.3"]


@pytest.mark.parametrize("line", [
    "quartz", "calcite --tilt 10,30 --lamp sodium", "topaz_f --stage 45", "muscovite --stage 45",
    "peridot", "peridot --view optic-axis", "brookite --thickness 0.3", "titanite --stage 45",
    "spinel", "borax", "chrysoberyl --view optic-normal", "quartz --view x --stage 20",
    "--indices 1.3,1.4 --immersion 1.5 --lens objective:1.45 --view x",
    "--indices 1.61,1.612,1.618 --polars circular", "quartz --polars parallel"])
def test_a_reading_keeps_to_its_schema(answer, line):
    jsonschema.validate(answer("reading", *line.split()), schema("reading.json"))


@pytest.mark.parametrize("spoil", [
    lambda told: told.pop("melatopes"),
    lambda told: told.update(schema_version=2),
    lambda told: told.update(mood="good"),
    lambda told: told["two_v_deg"].update({"600": 10}),
    lambda told: told["melatopes"][0].update(theta_deg="far"),
    lambda told: told["melatopes"].append(told["melatopes"][0]),
    lambda told: told["centre"].update(order=0),
    lambda told: told["rings_deg"][0].append(91),
    lambda told: told["full_wave_plate"].update(ne="grows"),
    lambda told: told["fringe_sides"][0].update(concave="green"),
    lambda told: told["brushes"].update(shape="star"),
    lambda told: told.update(bulls_eye=None),
    lambda told: told.update(words=[])])
def test_the_schema_refuses_what_no_reading_says(answer, spoil):
    told = answer("reading", "muscovite", "--stage", "45")
    told["rings_deg"][0] = told["rings_deg"][0][:4]
    spoiled = copy.deepcopy(told)
    spoil(spoiled)
    jsonschema.validate(told, schema("reading.json"))
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(spoiled, schema("reading.json"))


def test_axes_agree_with_the_species(answer):
    # 2E from 2V: sin E = n_beta sin V (Bloss 1961).
    told = answer("reading", "muscovite")
    species = answer("species", "muscovite")
    beta = {line["line"]: line["n"][1] for line in species["lines"]}
    assert list(told["two_v_deg"]) == LINES and list(told["two_e_deg"]) == LINES
    for name, line in zip("FDC", LINES):
        half = math.radians(0.5 * told["two_v_deg"][line])
        expected = 2 * math.degrees(math.asin(beta[name] * math.sin(half)))
        assert math.isclose(told["two_e_deg"][line], expected, rel_tol=1e-9)
    assert told["optic_character"] == "biaxial" and told["optic_sign"] == "negative"
    assert told["dispersion"] == "r>v"


def test_the_centre_is_what_probe_finds_there(answer):
    for line in ["quartz", "titanite --stage 45 --thickness 0.1", "topaz_f --stage 45"]:
        told, probe = answer("reading", *line.split()), answer("probe", *line.split())
        assert told["centre"]["retardation_nm"] == probe["retardation_nm"]
        assert told["centre"]["srgb"] == probe["srgb"]


def test_retardation_vanishes_at_a_melatope_and_is_whole_at_a_ring(answer):
    told = answer("reading", "borax", "--thickness", "0.5")
    for melatope, rings in zip(told["melatopes"], told["rings_deg"]):
        at = answer("probe", "borax", "--thickness", "0.5", "--at",
                    f"{melatope['theta_deg']},{melatope['phi_deg']}")
        assert at["retardation_nm"] < 1e-3
        for order, theta in enumerate(rings, 1):
            at = answer("probe", "borax", "--thickness", "0.5", "--at",
                        f"{theta},{melatope['phi_deg']}")
            assert math.isclose(at["retardation_nm"], order * 589.3, rel_tol=1e-6)


def test_axes_that_cannot_leave_are_null(answer):
    # Law: 2V of peridot exceeds 2 asin(1 / n_beta) (check value B7).
    told = answer("reading", "peridot")
    assert told["two_e_deg"] == {line: None for line in LINES}
    assert [m["theta_deg"] for m in told["melatopes"]] == [None, None]
    assert [(m["x"], m["y"], m["in_field"]) for m in told["melatopes"]] == [(None, None, False)] * 2
    assert told["rings_deg"] == [[], []]
    assert "cannot leave the stone in air" in " ".join(told["words"])


def test_quartz_has_a_bulls_eye_and_calcite_the_other_sign(answer):
    # Quartz along its axis: bull's eye (common practice, no source). Quadrants: Bloss (1961).
    quartz, calcite = answer("reading", "quartz"), answer("reading", "calcite")
    assert quartz["bulls_eye"] and quartz["bulls_eye_colour"] == quartz["centre"]["colour"]
    assert not calcite["bulls_eye"] and calcite["bulls_eye_colour"] is None
    assert quartz["full_wave_plate"] == {"ne": "rises", "nw": "falls", "sw": "rises",
                                         "se": "falls", "between": None}
    assert calcite["full_wave_plate"] == {"ne": "falls", "nw": "rises", "sw": "falls",
                                          "se": "rises", "between": None}
    assert calcite["brushes"] == {"shape": "cross",
                                  "rim_azimuths_deg": pytest.approx([0, 90, 180, 270], abs=1e-3)}


def test_spinel_has_nothing_to_read_but_the_dark(answer):
    told = answer("reading", "spinel")
    assert told["optic_character"] == "isotropic" and told["optic_sign"] is None
    assert told["melatopes"] == [] and told["brushes"]["rim_azimuths_deg"] == []
    assert set(told["full_wave_plate"].values()) == {None}
    assert "dark" in told["words"][0]


def test_words_are_those_of_the_json_and_fit_a_terminal(interfig, answer):
    text = interfig("reading", "titanite", "--stage", "45").out.decode()
    told = answer("reading", "titanite", "--stage", "45")
    head, _, body = text.partition("\n\n")
    assert "titanite" in head or "sphene" in head
    assert " ".join(body.split()) == " ".join(" ".join(told["words"]).split())
    assert max(map(len, body.splitlines())) <= 80
    assert "evidence, not an identification" in told["words"][-1]


@pytest.mark.parametrize("line,part", [
    ("quartz --at 10,0", "--at"), ("quartz --wavelength 500", "--wavelength"),
    ("quartz --size 100", "--size"), ("quartz --view acute-bisectrix", "--view"),
    ("quarz", "quartz")])
def test_what_a_reading_does_not_take_is_refused(refused, line, part):
    assert part in refused(64, "reading", *line.split())


@pytest.mark.parametrize("stone", ["turquoise", "jadeite"])
def test_an_aggregate_has_no_reading(refused, stone):
    assert "aggregate" in refused(65, "reading", stone)
