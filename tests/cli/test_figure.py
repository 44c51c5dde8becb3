# SPDX-License-Identifier: MIT
"""interfig figure: the file, its words, and the picture rendered again from them."""
import shlex
import struct

import pytest

from png_chunks import header, read_chunks, texts, with_text

SMALL = ["--size", "48"]


def test_the_default_name_comes_from_species_view_and_thickness(interfig, tmp_path):
    for words, name in [(["quartz"], "quartz_c_3mm.png"),
                        (["topaz_f", "--thickness", "2.5"], "topaz_f_acute-bisectrix_2.5mm.png"),
                        (["ruby", "--view", "x"], "ruby_x_3mm.png"),
                        (["spinel"], "spinel_z_3mm.png"),
                        (["--indices", "1.544,1.553"], "indices_1.544_1.553_c_3mm.png")]:
        answer = interfig("figure", *words, *SMALL)
        assert answer.status == 0 and answer.err == ""
        assert answer.out.decode().startswith(name + ": ")
        assert header((tmp_path / name).read_bytes()) == (48, 48, 8)


def test_the_line_of_result_says_what_the_picture_shows(interfig):
    line = interfig("figure", "quartz", *SMALL).out.decode()
    assert line.startswith("quartz_c_3mm.png: quartz, uniaxial positive, right-handed, along the "
                           "optic axis, 3 mm, sphere lens to 55 deg, daylight, crossed polars; ")
    assert line.count("\n") == 1
    line = interfig("figure", "peridot", "--view", "optic-axis", "--tilt", "5,30", "--stage", "45",
                    "--lens", "objective:0.9", "--lamp", "546.1", "--polars", "parallel",
                    *SMALL).out.decode()
    assert ("along an optic axis tilted 5 deg toward 30 deg, stage at 45 deg, 3 mm, body colour of "
            "peridot, objective NA 0.9 to 64.16 deg, light of 546.1 nm, parallel polars\n") in line
    line = interfig("figure", "spinel", *SMALL).out.decode()
    assert "singly refractive" in line and "no figure: dark but for the faint light" in line


def test_an_older_file_of_the_default_name_is_kept(interfig, refused, tmp_path):
    assert interfig("figure", "quartz", *SMALL).status == 0
    old = (tmp_path / "quartz_c_3mm.png").read_bytes()
    message = refused(73, "figure", "quartz", "--stage", "20", *SMALL)
    assert ("'quartz_c_3mm.png' exists; give --force to replace it or -o FILE for another name"
            in message)
    assert interfig("figure", "quartz", "--tilt", "20", *SMALL, "--force").status == 0
    assert (tmp_path / "quartz_c_3mm.png").read_bytes() != old


def test_o_replaces_an_older_file(interfig, tmp_path):
    (tmp_path / "a.png").write_text("old")
    assert interfig("figure", "quartz", *SMALL, "-o", "a.png").status == 0
    assert header((tmp_path / "a.png").read_bytes())[0] == 48
    assert [path.name for path in tmp_path.iterdir()] == ["a.png"]


def test_standard_output_takes_the_picture_and_standard_error_the_words(interfig, tmp_path):
    assert interfig("figure", "quartz", *SMALL, "-o", "a.png").out.startswith(b"a.png: ")
    piped = interfig("figure", "quartz", *SMALL, "-o", "-")
    assert piped.status == 0 and piped.out == (tmp_path / "a.png").read_bytes()
    assert piped.err.startswith("standard output: quartz, ") and piped.err.count("\n") == 1


def test_depth_and_dpi_reach_the_file(interfig):
    data = interfig("figure", "quartz", *SMALL, "--depth", "16", "--dpi", "600", "-o", "-").out
    assert header(data) == (48, 48, 16)
    chunks = dict(read_chunks(data))
    # 600 pixels an inch of 25.4 mm (PNG third edition, 11.3.4.3: pixels a metre)
    assert struct.unpack(">IIB", chunks[b"pHYs"]) == (23622, 23622, 1)
    assert b"sRGB" in chunks and b"gAMA" in chunks


def test_one_pixel_is_a_picture(interfig):
    assert header(interfig("figure", "quartz", "--size", "1", "-o", "-").out) == (1, 1, 8)


def test_the_pixels_do_not_depend_on_the_threads(interfig):
    one = interfig("figure", "brookite", "--size", "150", "--threads", "1", "-o", "-").out
    assert one == interfig("figure", "brookite", "--size", "150", "--threads", "7", "-o", "-").out


def test_exposure_changes_the_picture(interfig):
    plain = interfig("figure", "quartz", *SMALL, "-o", "-").out
    assert plain != interfig("figure", "quartz", *SMALL, "--exposure", "1", "-o", "-").out


def test_the_words_in_the_file(interfig):
    said = texts(interfig("figure", "quartz", *SMALL, "-o", "-").out)
    assert said["Title"] == "Interference figure of Quartz"
    assert "Expected interference figure of quartz, uniaxial positive" in said["Description"]
    assert said["Software"].startswith("interfig ")
    assert "evidence, not an identification" in said["Disclaimer"]
    assert len(said["Catalogue"]) == 64
    assert said["Recipe"] == (
        "interfig figure quartz --thickness 3 --view c --tilt 0,0 --stage 0 --lens sphere:1.5 "
        "--field 55 --immersion 1 --lamp daylight --polariser 0 --analyser 90 --size 48 --depth 8 "
        "--dpi 300 --exposure 0")
    assert "Species" not in said and "Lamp" not in said


RECIPES = [
    "quartz", "quartz --hand left --thickness 0.1", "topaz_f --lens objective:0.9 --stage 45.1",
    "topaz_f --lens objective:0.123456789 --immersion 1.33",
    "peridot --view optic-axis --tilt 3,-40",
    "calcite --polars circular --lamp sodium", "calcite --polars parallel --polariser 22.5",
    "muscovite --polariser left --analyser 12 --lamp 546.07", "spinel --immersion 1.1",
    "--indices 1.5 --exposure 2", "--indices 1.544,1.553 --rotation -21.7",
    "--indices 1.61,1.612,1.618 --depth 16 --dpi 72.5 --field 33.3", "brookite --lamp tungsten",
]


@pytest.mark.parametrize("line", RECIPES)
def test_a_picture_is_rendered_again_to_the_last_byte(interfig, tmp_path, line):
    first = interfig("figure", *line.split(), "--size", "40", "-o", "first.png")
    assert first.status == 0, first
    again = interfig("figure", "--again", "first.png", "-o", "again.png", "--threads", "1")
    assert again.status == 0 and again.err == ""
    picture = (tmp_path / "first.png").read_bytes()
    assert (tmp_path / "again.png").read_bytes() == picture
    # The recipe is a command line that anyone may type.
    recipe = shlex.split(texts(picture)["Recipe"])
    assert recipe[0] == "interfig"
    assert interfig(*recipe[1:], "-o", "-").out == picture


def test_again_needs_no_file_but_the_picture(interfig, club_files, tmp_path):
    words = ["figure", "harbour_topaz", "--species-file", f"{club_files}/club.yaml", "--lamp",
             f"{club_files}/bench.csv", *SMALL, "-o", "first.png"]
    first = interfig(*words)
    assert first.status == 0 and "a measured lamp" in first.out.decode()
    picture = (tmp_path / "first.png").read_bytes()
    said = texts(picture)
    assert "harbour_topaz" in said["Species"] and "page 12" in said["Species"]
    assert said["Lamp"] == "wavelength_nm,power\n400,1\n500,2.5\n600,3\n700,1.25\n"
    # Folders of the one who made it are nobody's business.
    assert "--species-file './club.yaml'" in said["Recipe"] and str(tmp_path) not in str(said)
    (club_files / "club.yaml").unlink()
    (club_files / "bench.csv").unlink()
    again = interfig("figure", "--again", "first.png", "-o", "again.png")
    assert again.status == 0 and again.err == "", again
    assert (tmp_path / "again.png").read_bytes() == picture


def test_a_species_of_the_user_stands_for_the_catalogues(interfig, tmp_path):
    (tmp_path / "mine.yaml").write_text("species:\n  - {key: quartz, n: [1.6, 1.65]}\n")
    plain = interfig("figure", "quartz", *SMALL, "-o", "-").out
    mine = interfig("figure", "quartz", "--species-file", "mine.yaml", *SMALL, "-o", "mine.png")
    assert mine.status == 0 and (tmp_path / "mine.png").read_bytes() != plain
    (tmp_path / "mine.yaml").unlink()
    assert interfig("figure", "--again", "mine.png", "-o", "-").out == (
        tmp_path / "mine.png").read_bytes()


def test_file_names_with_odd_letters_survive_the_recipe(interfig, club_files, tmp_path):
    name = "tern's lamp \u00fc.csv"
    (tmp_path / "bench.csv").rename(tmp_path / name)
    assert interfig("figure", "quartz", "--lamp", name, *SMALL, "-o", "a.png").status == 0
    assert interfig("figure", "--again", "a.png", "-o", "-").out == (
        tmp_path / "a.png").read_bytes()


def test_another_catalogue_or_version_is_a_warning(interfig, tmp_path):
    assert interfig("figure", "quartz", *SMALL, "-o", "a.png").status == 0
    picture = (tmp_path / "a.png").read_bytes()
    for keyword, text, expected in [("Catalogue", "0" * 64, "with another catalogue"),
                                    ("Software", "interfig 0.0.1", "made by interfig 0.0.1;")]:
        (tmp_path / "old.png").write_bytes(with_text(picture, keyword, text))
        answer = interfig("figure", "--again", "old.png", "-o", "new.png")
        assert answer.status == 0 and answer.out.startswith(b"new.png: ")
        assert answer.err.startswith("interfig: warning: 'old.png' was made by ")
        assert expected in answer.err and answer.err.count("\n") == 1
        assert (tmp_path / "new.png").read_bytes() == picture


FOREIGN = [
    (None, "holds no recipe"),
    ("", "not a line that begins with 'interfig figure'"),
    ("interfig probe quartz", "not a line that begins with 'interfig figure'"),
    ("interfig figure " + "quartz " * 200, "not a line that begins with 'interfig figure'"),
    ("interfig figure quartz -o stolen.png", "-o has no place in a recipe"),
    ("interfig figure quartz --force", "--force has no place in a recipe"),
    ("interfig figure --again a.png", "--again has no place in a recipe"),
    ("interfig figure quartz --help", "--help has no place in a recipe"),
    ("interfig figure quartz --species-file /etc/passwd", "stone came from a file"),
    ("interfig figure quartz --lamp /etc/passwd", "lamp came from a file"),
    ("interfig figure quartz --thickness nan", "--thickness: 'nan' is not a number"),
    ("interfig figure nosuchstone", "no species is called"),
    ("interfig figure quartz --view optic-normal", "has no view"),
    ("interfig figure 'quartz", None),
]


@pytest.mark.parametrize("recipe,expected", FOREIGN)
def test_a_foreign_recipe_does_no_harm(interfig, refused, tmp_path, recipe, expected):
    picture = interfig("figure", "quartz", *SMALL, "-o", "-").out
    (tmp_path / "a.png").write_bytes(with_text(picture, "Recipe", recipe))
    if expected is None:
        assert interfig("figure", "--again", "a.png", "-o", "-").status == 0
    else:
        message = refused(65, "figure", "--again", "a.png", "-o", "b.png")
        assert expected in message and "a.png" in message


@pytest.mark.parametrize("contents", [b"", b"not a PNG", b"\x89PNG\r\n\x1a\n"])
def test_what_is_no_png_holds_no_recipe(refused, tmp_path, contents):
    (tmp_path / "a.png").write_bytes(contents)
    refused(65, "figure", "--again", "a.png", "-o", "b.png")
