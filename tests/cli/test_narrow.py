# SPDX-License-Identifier: MIT
"""interfig narrow: which stones fit, which just do not, and what to look at next."""
import jsonschema
import pytest

from test_numbers import answer, schema  # noqa: F401 (a fixture)


def observed(*values):
    return [word for value in values for word in ("--observed", value)]


def keys(told, where="candidates"):
    return [entry["key"] for entry in told[where]]


@pytest.mark.parametrize("values", [
    ["reaction=DR"], ["reaction=AGG"], ["character=uniaxial", "sign=+"], ["bulls-eye=yes"],
    ["two-v=60", "sign=+"], ["index=1.544"], ["index=1.62-1.63", "birefringence=0.010"],
    ["colour=red", "reaction=SR"], ["rings=2"], ["index=4.9"], ["reaction=DR"] * 32])
def test_a_narrowing_keeps_to_its_schema(answer, values):
    told = answer("narrow", *observed(*values))
    jsonschema.validate(told, schema("narrow.json"))
    assert told["observed"] == values
    bits = [entry["bits"] for entry in told["next"]]
    assert bits == sorted(bits, reverse=True)


@pytest.mark.parametrize("values,fits,does_not", [
    (["reaction=DR", "character=uniaxial", "sign=+"], ["quartz", "zircon_high"], ["corundum", "topaz_f"]),
    (["reaction=SR", "colour=red"], ["spinel", "almandine"], ["corundum"]),
    (["reaction=AGG"], ["chalcedony", "nephrite"], ["quartz"]),
    (["bulls-eye=yes"], ["quartz"], ["corundum"]),
    (["index=1.76-1.77", "reaction=DR"], ["corundum"], ["quartz", "almandine"])])
def test_what_fits_stays_and_what_does_not_goes(answer, values, fits, does_not):
    left = keys(answer("narrow", *observed(*values)))
    assert set(fits) <= set(left) and not set(does_not) & set(left)


def test_each_observation_more_leaves_no_more_stones(answer):
    values = ["reaction=DR", "character=uniaxial", "sign=+", "index=1.54-1.56"]
    counts = [len(keys(answer("narrow", *observed(*values[:count])))) for count in range(1, 5)]
    assert counts == sorted(counts, reverse=True) and counts[0] > 50 > counts[3] >= 1


def test_what_is_just_excluded_is_told_with_what_excludes_it(answer):
    told = answer("narrow", *observed("reaction=DR", "character=uniaxial", "sign=-", "index=1.544-1.553"))
    assert "quartz" in keys(told, "just_excluded")
    entry = next(one for one in told["just_excluded"] if one["key"] == "quartz")
    assert entry["excluded_by"] == "sign"
    assert not set(keys(told)) & set(keys(told, "just_excluded"))


def test_the_text_never_names_one_stone_as_the_answer(interfig):
    text = interfig("narrow", *observed("reaction=DR", "character=uniaxial")).out.decode()
    assert "species of the catalogue fit." in text and "most telling next" in text
    assert "not an identification" in " ".join(text.split())
    alone = interfig("narrow", *observed("index=4.9")).out.decode()
    assert alone.startswith("No species of the catalogue fits")


def test_a_species_file_takes_part(answer, club_files):
    told = answer("narrow", *observed("index=1.61-1.62"), "--species-file", "club.yaml")
    assert "harbour_topaz" in keys(told)


def test_observations_may_follow_one_another(answer):
    assert answer("narrow", "--observed", "reaction=DR", "sign=+", "character=uniaxial") == \
        answer("narrow", *observed("reaction=DR", "sign=+", "character=uniaxial"))


LINES = [
    ("nothing is observed; say what you saw", ""),
    ("'quartz' stands alone; narrow takes observations", "quartz"),
    ("--observed lacks its value", "--observed"),
    ("--observed: '' is empty", "--observed="),
    ("reaction", "--observed reacton=DR"),
    ("colour", "--observed color=red"),
    ("index", "--observed idex=1.5"),
    ("--observed: ", "--observed mood=good"),
    ("--observed: ", "--observed reaction"),
    ("--observed: ", "--observed reaction="),
    ("DR", "--observed reaction=double"),
    ("--observed: ", "--observed colour=tartan"),
    ("--observed: ", "--observed index=high"),
    ("--observed: ", "--observed index=nan"),
    ("--observed: ", "--observed index=0.5"),
    ("--observed: ", "--observed index=1.6-1.5"),
    ("--observed: ", "--observed two-v=120"),
    ("--observed: ", "--observed sign=maybe"),
    ("--observed: ", "--observed bulls-eye=perhaps"),
    ("--observed: ", "--observed rings=-1"),
    ("--view belongs to", "--observed reaction=DR --view c"),
    ("--lens: 'none' is unknown", "--observed reaction=DR --lens none"),
]


@pytest.mark.parametrize("expected,line", LINES, ids=[line for _, line in LINES])
def test_a_narrowing_that_makes_no_sense_is_refused(refused, expected, line):
    assert expected in refused(64, "narrow", *line.split())


@pytest.mark.parametrize("first,second", [
    ("reaction=SR", "reaction=DR"), ("reaction=SR", "character=biaxial"), ("character=uniaxial", "two-v=60"),
    ("two-v=20", "two-v=80"), ("sign=+", "sign=-"), ("reaction=SR", "birefringence=0.009"),
    ("character=isotropic", "sign=+")])
def test_two_observations_that_contradict_each_other_are_both_named(refused, first, second):
    message = refused(64, "narrow", *observed(first, "colour=red", second))
    assert first.split("=")[0] in message and second.split("=")[0] in message


def test_more_than_32_observations_are_refused(refused):
    assert "is one observation too many: 32 are the most" in refused(
        64, "narrow", *observed(*["reaction=DR"] * 33))
