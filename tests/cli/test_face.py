# SPDX-License-Identifier: MIT
"""interfig face: the stone's face between the polars, still and turning."""
import shlex

import numpy
import pytest

from test_turn import frames, texts

SMALL = ["--size", "48"]


def pixels(interfig, *words):
    done = interfig(*words, *SMALL, "-o", "-")
    assert done.status == 0, done
    return frames(done.out)[0][0].astype(int)


def test_the_default_name_says_that_it_is_a_face(interfig, tmp_path, refused):
    done = interfig("face", "glass", "--pattern", "snake", *SMALL)
    assert done.status == 0 and done.err == ""
    assert done.out.decode().startswith("glass_z_3mm_face.png: glass, singly refractive, 3 mm, strained by "
                                        "20 MPa in snakes without order, no lens")
    assert (tmp_path / "glass_z_3mm_face.png").exists()
    assert "exists; give --force" in refused(73, "face", "glass", *SMALL)
    assert interfig("face", "glass", *SMALL, "--force").status == 0


FACES = ["glass --pattern snake --seed 5", "glass --stress 10 --width 3",
         "quartz --pattern brazil", "corundum --pattern twins --stage 20",
         "chalcedony --grain 0.05 --cone 2 --lamp sodium", "diamond --pattern inclusion --stress -200",
         "ruby --depth 16 --exposure 1 --polars parallel", "--indices 1.5,1.52 --plate full-wave"]


@pytest.mark.parametrize("line", FACES)
def test_a_face_is_rendered_again_to_the_last_byte(interfig, tmp_path, line):
    first = interfig("face", *line.split(), *SMALL, "-o", "first.png")
    assert first.status == 0, first
    picture = (tmp_path / "first.png").read_bytes()
    again = interfig("face", "--again", "first.png", "-o", "again.png", "--threads", "1")
    assert again.status == 0 and again.err == "", again
    assert (tmp_path / "again.png").read_bytes() == picture
    words = texts(picture)
    recipe = shlex.split(words["Recipe"])
    assert recipe[:2] == ["interfig", "face"] and "--lens" not in recipe and "--field" not in recipe
    assert interfig(*recipe[1:], "-o", "-").out == picture
    assert words["Title"].startswith("Face between polars of ")
    assert "not an identification" in words["Disclaimer"]


def test_a_face_and_a_figure_are_told_apart(interfig, refused):
    interfig("face", "spinel", *SMALL, "-o", "face.png")
    interfig("figure", "spinel", *SMALL, "-o", "figure.png")
    assert "type: interfig face --again" in refused(65, "figure", "--again", "face.png")
    assert "type: interfig figure --again" in refused(65, "face", "--again", "figure.png")


def test_strain_lights_a_singly_refractive_face(interfig):
    middle = (slice(12, 36), slice(12, 36))
    plain = pixels(interfig, "face", "glass")[middle]
    strained = pixels(interfig, "face", "glass", "--pattern", "snake")[middle]
    assert plain.max() <= 12 and strained.max() > 80
    assert strained.min() < 40, "dark snakes run through it"


def test_the_seed_chooses_the_stone(interfig):
    one, again, two = (pixels(interfig, "face", "chalcedony", "--seed", seed) for seed in "112")
    assert numpy.array_equal(one, again) and not numpy.array_equal(one, two)


def test_a_whole_turn_of_a_plain_doubly_refractive_face_is_dark_four_times(interfig):
    means = [pixels(interfig, "face", "quartz", "--stage", str(stage))[20:28, 20:28].mean()
             for stage in range(0, 360, 45)]
    assert max(means[0::2]) < 12 < 100 < min(means[1::2])


def test_turn_moves_the_face(interfig):
    film = interfig("turn", "glass", "--of", "face", "--pattern", "snake", "--what", "analyser", "--steps",
                    "3", *SMALL, "-o", "-")
    assert film.status == 0
    shown, _ = frames(film.out)
    for value, frame in zip(["90", "135", "180"], shown):
        still = pixels(interfig, "face", "glass", "--pattern", "snake", "--analyser", value)
        assert numpy.array_equal(still, frame)
    assert shown[2].astype(int).mean() > shown[0].astype(int).mean()


@pytest.mark.parametrize("words", ["--what stage --from 0 --to 45", "--what thickness", "--what plate",
                                   "--what analyser --seed 4"])
def test_a_turning_face_is_rendered_again_to_the_last_byte(interfig, tmp_path, words):
    first = interfig("turn", "glass", "--of", "face", "--stress", "30", *words.split(), "--steps", "3",
                     *SMALL, "-o", "first.png")
    assert first.status == 0, first
    again = interfig("turn", "--again", "first.png", "-o", "again.png")
    assert again.status == 0 and again.err == "", again
    assert (tmp_path / "again.png").read_bytes() == (tmp_path / "first.png").read_bytes()


LINES = [
    (64, "no stone is given", "face"),
    (65, "malachite is opaque", "face malachite"),
    (64, "--lens belongs to", "face quartz --lens sphere"),
    (64, "--json belongs to", "face quartz --json"),
    (64, "--of belongs to turn, not to face", "face quartz --of face"),
    (64, "--pattern goes with --of face alone", "turn quartz --pattern bands"),
    (64, "--stress goes with --of face alone", "turn quartz --of figure --stress 4"),
    (64, "--cone goes with --of face alone", "turn quartz --cone 2"),
    (64, "--lens goes with --of figure alone", "turn quartz --of face --lens sphere"),
    (64, "--field goes with --of figure alone", "turn quartz --of face --field 9"),
    (64, "--strain goes with --of figure alone", "turn quartz --of face --strain 9"),
    (64, "--of: 'fce' is unknown (did you mean face?)", "turn quartz --of fce"),
    (64, "--stage and --what stage contradict", "turn quartz --of face --stage 4"),
    (64, "--size has no place beside it", "face --again x.png --size 10"),
    (66, "x.png", "face --again x.png"),
    (65, "no twin lamellae are known of quartz", "face quartz --pattern twins"),
    (65, "brazil", "face corundum --pattern brazil"),
    (65, "grains", "face tanzanite --pattern grains --grain 0.1"),
]


@pytest.mark.parametrize("status,expected,line", LINES, ids=[line for _, _, line in LINES])
def test_a_face_that_makes_no_sense_is_refused(refused, status, expected, line):
    assert expected.lower() in refused(status, *line.split()).lower()
