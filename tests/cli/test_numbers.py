# SPDX-License-Identifier: MIT
"""interfig probe and interfig species: the numbers, in text and in JSON."""
import json
import math
import os

import jsonschema
import pytest

SCHEMA = os.path.join(os.path.dirname(__file__), "..", "..", "cli", "schema")


def schema(name):
    with open(os.path.join(SCHEMA, name), encoding="utf-8") as file:
        return json.load(file)


def no_constant(name):
    raise AssertionError(f"{name} is no JSON")


@pytest.fixture
def answer(interfig):
    def run(*words):
        done = interfig(*words, "--json")
        assert done.status == 0 and done.err == "", done
        return json.loads(done.out, parse_constant=no_constant)

    return run


KEYS = {"schema_version", "species", "wavelength_nm", "theta_deg", "phi_deg", "retardation_nm",
        "transmittance", "jones_ps"}


def test_probe_has_the_keys_it_promises(answer):
    with_colour = answer("probe", "topaz_f", "--at", "20,45")
    assert set(with_colour) == KEYS | {"xyz", "srgb"}
    assert with_colour["species"] == "topaz_f" and with_colour["schema_version"] == 1
    assert (with_colour["theta_deg"], with_colour["phi_deg"]) == (20, 45)
    assert with_colour["wavelength_nm"] == 589.3
    assert set(answer("probe", "topaz_f", "--wavelength", "500")) == KEYS
    assert answer("probe", "--indices", "1.5")["species"] == "indices"


@pytest.mark.parametrize("line", ["quartz", "spinel --at 80", "calcite --lamp sodium --at 10,-30",
                                  "--indices 1.2,1.3 --immersion 2 --at 70 --lens sphere:3",
                                  "brookite --polars circular --wavelength 380"])
def test_probe_keeps_to_its_schema(answer, line):
    jsonschema.validate(answer("probe", *line.split()), schema("probe.json"))


def test_total_reflection_is_null_with_a_reason(answer):
    dark = answer("probe", "--indices", "1.2,1.3", "--immersion", "2", "--lens", "sphere:3",
                  "--at", "70")
    # sin(70 deg) x 2 = 1.88 exceeds both indices (Snell).
    assert dark["retardation_nm"] is None and "total reflection" in dark["reason"]
    assert dark["transmittance"] == 0


def test_calcite_retards_by_thickness_times_birefringence(answer):
    # Across the optic axis, at normal incidence: d |n_epsilon - n_omega|.
    omega, epsilon = next(line["n"] for line in answer("species", "calcite")["lines"]
                          if line["line"] == "D")
    # 1.658 and 1.486: Handbook of Mineralogy, calcite (from memory)
    assert abs(omega - 1.658) < 0.002 and abs(epsilon - 1.486) < 0.002
    for thickness in [0.03, 1, 10]:
        got = answer("probe", "calcite", "--view", "x", "--thickness", str(thickness))
        expected = thickness * 1e6 * (omega - epsilon)
        assert math.isclose(got["retardation_nm"], expected, rel_tol=1e-9)


def test_an_active_stone_turns_the_plane_by_rotation_times_thickness(answer):
    # Along the axis: Malus' law through crossed polars, two Fresnel faces (Born & Wolf, 1.5).
    faces = (4 * 1.544 / (1.544 + 1) ** 2) ** 2
    for rotation in [21.7, -21.7]:
        got = answer("probe", "--indices", "1.544,1.553", "--rotation", str(rotation),
                     "--thickness", "1")
        expected = faces * math.sin(math.radians(21.7)) ** 2
        assert math.isclose(got["transmittance"], expected, rel_tol=1e-4)


def test_left_and_right_quartz_are_mirror_images(answer):
    # At the centre the Jones matrix is a rotation; the hands turn opposite ways.
    right = answer("probe", "quartz")["jones_ps"]
    left = answer("probe", "quartz", "--hand", "left")["jones_ps"]
    assert abs(right[0][1][0]) > 0.1
    assert math.isclose(right[0][1][0], -left[0][1][0], rel_tol=1e-9)


def test_the_colour_is_that_of_the_picture(interfig, answer):
    from png_chunks import read_chunks
    import zlib
    # One pixel at the middle of an odd picture sees the ray along the line of sight; the lines
    # before it are undone by the filters of PNG (third edition, 9.2), so ask for one pixel alone.
    picture = interfig("figure", "--indices", "1.544,1.553", "--rotation", "20", "--view", "x",
                       "--thickness", "0.02", "--field", "0.1", "--stage", "45", "--size", "1",
                       "-o", "-").out
    row = zlib.decompress(b"".join(body for kind, body in read_chunks(picture) if kind == b"IDAT"))
    got = answer("probe", "--indices", "1.544,1.553", "--rotation", "20", "--view", "x",
                 "--thickness", "0.02", "--stage", "45")
    assert all(abs(a - b) <= 1 for a, b in zip(row[1:4], got["srgb"])), (row, got["srgb"])


def test_text_and_json_tell_the_same(interfig, answer):
    text = interfig("probe", "calcite", "--thickness", "1", "--at", "20,45").out.decode()
    got = answer("probe", "calcite", "--thickness", "1", "--at", "20,45")
    fields = {line[:17].strip(): line[17:] for line in text.splitlines()}
    assert math.isclose(float(fields["retardation"].split()[0]), got["retardation_nm"],
                        rel_tol=1e-8)
    assert math.isclose(float(fields["transmittance"]), got["transmittance"], abs_tol=1e-8)
    assert fields["retardation"].split()[1] == "nm" and "deg" in fields["direction"]
    assert fields["colour sRGB"].split()[:3] == [str(value) for value in got["srgb"]]


def test_numbers_in_json_read_back_to_the_last_bit(interfig, answer):
    # 17 significant digits carry a double (IEEE 754-2008, 5.12.2).
    first = answer("probe", "peridot", "--at", "12.3456789,7")
    assert first["theta_deg"] == 12.3456789
    assert first == answer("probe", "peridot", "--at", "12.3456789,7")


@pytest.mark.parametrize("word,key", [("ruby", "corundum"), ("RUBY", "corundum"),
                                      ("Rock Crystal", "quartz"), ("topaz_f", "topaz_f"),
                                      ("calcite", "calcite")])
def test_a_stone_is_found_by_key_name_or_variety(answer, word, key):
    assert answer("species", word)["key"] == key


def test_each_species_keeps_to_the_schema_and_names_its_source(answer):
    listed = answer("species")
    jsonschema.validate(listed, schema("species-list.json"))
    assert len(listed["species"]) > 150
    one = schema("species.json")
    for entry in listed["species"][::12]:
        told = answer("species", entry["key"])
        jsonschema.validate(told, one)
        assert told["source"], entry["key"]


def test_the_list_fits_a_wide_terminal_and_holds_every_key(interfig, answer):
    lines = interfig("species").out.decode().splitlines()
    listed = answer("species")["species"]
    assert len(lines) == len(listed) + 1
    assert [line.split()[0] for line in lines[1:]] == [entry["key"] for entry in listed]
    assert max(map(len, lines)) <= 100


def test_a_species_tells_indices_angle_rotation_and_source(interfig):
    text = interfig("species", "topaz_f").out.decode()
    for part in ["biaxial, positive sign", "F, 486.1 nm", "C, 656.3 nm", "2E deg in air",
                 "sources"]:
        assert part in text
    assert "rotation deg/mm" in interfig("species", "quartz").out.decode()
    assert max(map(len, text.splitlines())) <= 80


def test_a_species_file_adds_to_the_catalogue(interfig, answer, club_files):
    plain = answer("species")["species"]
    more = answer("species", "--species-file", "club.yaml")["species"]
    assert [entry["key"] for entry in more] == [entry["key"] for entry in plain] + ["harbour_topaz"]
    told = interfig("species", "Topaz, harbour find", "--species-file", "club.yaml").out.decode()
    assert "page 12" in told
    assert answer("probe", "harbour_topaz", "--species-file", "club.yaml")["retardation_nm"] > 0
