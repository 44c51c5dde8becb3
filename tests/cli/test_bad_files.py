# SPDX-License-Identifier: MIT
"""Files and stones that cannot serve: lamps, species, pictures without a recipe."""
import pytest

LAMPS = [
    (b"", ":0: the table ends with 0 lines"),
    (b"wavelength_nm,power\n# nothing\n", ":2: the table ends with 0 lines"),
    (b"550,1\n", ":1: the table ends with 1 line of values"),
    (b"500,1\n400,1\n", ":2: '400,1' does not lie above the wavelength before it"),
    (b"500,1\n500,2\n", ":2: '500,2' does not lie above"),
    (b"500,1\n600,-1\n", ":2: '600,-1' has a negative power"),
    (b"500,1\n\n600\n", ":3: '600' is one value"),
    (b"500,1\n600,1,2\n", ":2: '600,1,2' is more than two values"),
    (b"500,5,1,2\n", ":1: '500,5,1,2' is more than two values; decimals take a point"),
    (b"500;1\n", ":1: '500;1' holds a semicolon"),
    (b"500,1\n600,nan\n", ":2: '600,nan' is not two numbers"),
    (b"500,1\n600,inf\n", ":2: '600,inf' is not two numbers"),
    (b"500,1\n600,0x10\n", ":2: '600,0x10' is not two numbers"),
    (b"nan,1\n600,1\n", ":1: 'nan,1' is not two numbers"),
    (b"500,1\nred,1\n", ":2: 'red,1' is not two numbers"),
    (b"500,,1\n", ":1: '500,,1' is"),
    (b"0.5,1\n600,1\n", ":1: '0.5,1' has a wavelength out of range"),
    (b"500,1\n600,1" + b"0" * 300 + b"\n", ":2: "),
    (b"800,1\n900,1\n", "no"),
    (b"500,0\n600,0\n", "no"),
    (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", "binary"),
    (b"\xff\xfe\x00\x01", "binary"),
    (b"\x93\xfa\x96\x7b\n", ":1: "),
    (b"500,1\n" * 200000, "1048576"),
]


@pytest.mark.parametrize("contents,expected", LAMPS, ids=[repr(lamp[0])[:40] for lamp in LAMPS])
def test_a_lamp_file_that_does_not_parse_is_refused(refused, tmp_path, contents, expected):
    (tmp_path / "lamp.csv").write_bytes(contents)
    message = refused(65, "figure", "quartz", "--lamp", "lamp.csv")
    assert "lamp.csv" in message and expected in message


@pytest.mark.parametrize("contents", [
    "550,1\n560,2\n", "nm power\n550 1\n560 2\n", "550\t1\r\n560\t2\r\n", "\ufeff550, 1\n560 ,2",
    "# bench\nwavelength,power # head\n 550,1 # first\n\n560,2\n",
])
def test_a_lamp_file_takes_commas_tabs_blanks_and_remarks(interfig, tmp_path, contents):
    (tmp_path / "lamp.csv").write_text(contents, encoding="utf-8")
    (tmp_path / "plain.csv").write_text("550,1\n560,2\n")
    ours = interfig("probe", "quartz", "--lamp", "lamp.csv", "--json")
    plain = interfig("probe", "quartz", "--lamp", "plain.csv", "--json")
    assert ours.status == 0 and ours.out == plain.out


SPECIES = [
    ("", "club.yaml"),
    ("species: [", "club.yaml:"),
    ("species:\n  - key: a\n    n: [1.6, 1.5, 1.7]\n", "club.yaml:"),
    ("species:\n  - key: a\n    n: 1,54\n", "club.yaml:3:"),
    ("species:\n  - key: a\n    n: 0.5\n", "club.yaml:"),
    ("species:\n  - key: a\n    n: 1.5\n    colour: red\n", "club.yaml:4:"),
    ("species:\n  - &a {key: a, n: 1.5}\n  - *a\n", "club.yaml:2:"),
]


@pytest.mark.parametrize("contents,expected", SPECIES)
@pytest.mark.parametrize("command", [["figure", "a"], ["probe", "a"], ["species"]])
def test_a_species_file_that_does_not_parse_is_refused(refused, tmp_path, command, contents,
                                                       expected):
    (tmp_path / "club.yaml").write_text(contents)
    assert expected in refused(65, *command, "--species-file", "club.yaml")


@pytest.mark.parametrize("line", [
    "figure quartz --lamp none.csv", "figure quartz --lamp no/lamp",
    "figure quartz --species-file none.yaml", "species --species-file none.yaml",
    "probe quartz --species-file none.yaml", "figure --again none.png",
])
def test_a_missing_file_is_status_66(refused, line):
    assert "cannot read" in refused(66, *line.split())


@pytest.mark.parametrize("line", [
    "figure quartz --lamp ./", "species --species-file ./", "figure --again ./",
])
def test_a_folder_in_place_of_a_file_is_status_74(refused, line):
    assert "cannot read" in refused(74, *line.split())


@pytest.mark.parametrize("stone", ["jadeite", "turquoise", "chalcedony", "quartzite"])
def test_an_aggregate_shows_no_figure(refused, stone):
    message = refused(65, "figure", stone)
    assert f"{stone} is an aggregate of many grains" in message
    refused(65, "probe", stone)


def test_an_opaque_stone_shows_no_figure(refused, tmp_path):
    (tmp_path / "club.yaml").write_text(
        "species:\n  - {key: black_stone, n: [1.6, 1.7], opaque: true}\n")
    message = refused(65, "figure", "black_stone", "--species-file", "club.yaml")
    assert "black_stone is opaque" in message
    refused(65, "probe", "black_stone", "--species-file", "club.yaml")
