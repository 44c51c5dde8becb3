# SPDX-License-Identifier: MIT
"""interfig turn: each frame is the figure that figure makes, and the film costs no memory."""
import io
import os
import pty
import shlex
import signal
import subprocess
import time

import numpy
import pytest
from PIL import Image

from conftest import PROGRAM
from peak_memory import peak_memory
from png_chunks import read_chunks, texts

SMALL = ["--size", "40"]


def frames(data):
    """Every frame as an array of bytes, and the time each is shown, ms."""
    image = Image.open(io.BytesIO(data))
    pixels, times = [], []
    for index in range(getattr(image, "n_frames", 1)):
        image.seek(index)
        pixels.append(numpy.asarray(image.convert("RGB")).copy())
        times.append(image.info.get("duration"))
    return pixels, times


# What --what says, the words of turn, from, to, and how figure says the same.
MOTIONS = [
    ("stage", "topaz_f --thickness 1", 0, 90, "--stage {}"),
    ("stage", "muscovite --plate full-wave --plate-slow 40 --thickness 0.1", -20, 30, "--stage {}"),
    ("tilt", "peridot --tilt 0,30 --stage 20", 0, 12, "--tilt {},30"),
    ("thickness", "quartz --hand left", 0.5, 8, "--thickness {}"),
    ("plate", "calcite --thickness 0.1 --plate-slow 135", 0, 1100, "--plate wedge:{}"),
    ("analyser", "quartz", 90, 0, "--analyser {}"),
    ("analyser", "quartz --polariser left", 0, 50, "--analyser {}"),
]


@pytest.mark.parametrize("what,words,first,last,option", MOTIONS)
def test_each_frame_is_the_figure_that_figure_makes(interfig, what, words, first, last, option):
    film = interfig("turn", *words.split(), "--what", what, "--from", str(first), "--to", str(last),
                    "--steps", "3", *SMALL, "-o", "-")
    assert film.status == 0, film
    pixels, times = frames(film.out)
    assert len(pixels) == 3 and times == [100, 100, 100]
    tilted = [word for word in words.split() if word not in ("--tilt", "0,30")]
    for value, frame in zip([first, (first + last) / 2, last], pixels):
        still = interfig("figure", *tilted, *option.format(value).split(), *SMALL, "-o", "-")
        assert still.status == 0 and numpy.array_equal(frame, frames(still.out)[0][0]), value
    assert not numpy.array_equal(pixels[0], pixels[2])


def test_the_stage_turns_a_quarter_in_37_frames_unless_told(interfig, tmp_path):
    answer = interfig("turn", "muscovite", "--thickness", "0.1", "--lens", "objective:0.8", *SMALL)
    assert answer.status == 0 and answer.err == "" and answer.out.count(b"\n") == 1
    name = "muscovite_acute-bisectrix_0.1mm_stage_0_to_90.png"
    assert answer.out.decode().startswith(f"{name}: muscovite, biaxial negative")
    assert "; the stage turns from 0 to 90 deg in 37 frames of 100 ms" in answer.out.decode()
    pixels, _ = frames((tmp_path / name).read_bytes())
    assert len(pixels) == 37
    # A quarter turn brings crossed polars back to themselves, so the picture has turned as a whole.
    assert numpy.max(numpy.abs(numpy.rot90(pixels[0]).astype(int) - pixels[36])) <= 1
    assert numpy.max(numpy.abs(pixels[0].astype(int) - pixels[36])) > 30


def test_the_usual_size_is_512(interfig):
    film = interfig("turn", "spinel", "--steps", "2", "-o", "-")
    assert frames(film.out)[0][1].shape == (512, 512, 3)


def test_the_delay_and_the_depth_reach_the_file(interfig):
    film = interfig("turn", "quartz", "--steps", "2", "--delay", "250", "--depth", "16", *SMALL,
                    "-o", "-").out
    chunks = read_chunks(film)  # checks every CRC
    # fcTL: the delay is 250 / 1000 s (PNG third edition, fcTL, from memory)
    controls = [body for kind, body in chunks if kind == b"fcTL"]
    assert [body[20:24] for body in controls] == [b"\x00\xfa\x03\xe8"] * 2
    assert chunks[0][1][8] == 16
    kinds = [kind for kind, _ in chunks]
    assert kinds.index(b"acTL") < kinds.index(b"fcTL") < kinds.index(b"IDAT") < kinds.index(b"fdAT")


TURNS = [
    "quartz --steps 4", "peridot --what tilt --tilt 0,-40 --from -3 --to 5.5 --steps 3",
    "quartz --what thickness --steps 3 --lamp sodium", "calcite --what plate --plate-slow 30 --steps 3",
    "calcite --what analyser --polariser right --from 0.1 --to 9 --steps 3 --delay 40",
    "--indices 1.61,1.612,1.618 --plate quarter-wave --polariser 10 --steps 2 --depth 16",
]


@pytest.mark.parametrize("line", TURNS)
def test_a_film_is_rendered_again_to_the_last_byte(interfig, tmp_path, line):
    first = interfig("turn", *line.split(), *SMALL, "-o", "first.png")
    assert first.status == 0, first
    picture = (tmp_path / "first.png").read_bytes()
    again = interfig("turn", "--again", "first.png", "-o", "again.png", "--threads", "1")
    assert again.status == 0 and again.err == "", again
    assert (tmp_path / "again.png").read_bytes() == picture
    recipe = shlex.split(texts(picture)["Recipe"])
    assert recipe[:2] == ["interfig", "turn"]
    assert interfig(*recipe[1:], "-o", "-").out == picture


def test_a_film_and_a_still_picture_are_told_apart(interfig, refused):
    interfig("turn", "quartz", "--steps", "2", *SMALL, "-o", "film.png")
    interfig("figure", "quartz", *SMALL, "-o", "still.png")
    assert "type: interfig turn --again" in refused(65, "figure", "--again", "film.png")
    assert "type: interfig figure --again" in refused(65, "turn", "--again", "still.png")


LINES = [
    ("--steps: '0' is out of range; allowed: 2 to 10000 frames", "--steps 0"),
    ("--steps: '1' is out of range; allowed: 2 to 10000 frames", "--steps 1"),
    ("--steps: '10001' is out of range", "--steps 10001"),
    ("--steps: '100000' is out of range; allowed: 2 to 10000 frames", "--steps 100000"),
    ("--steps: '-3' is out of range", "--steps -3"),
    ("--steps: '2.5' is not a whole number", "--steps 2.5"),
    ("--steps: 'nan' is not a number", "--steps nan"),
    ("--steps: 'many' is not a number", "--steps many"),
    ("--delay: '9' is out of range; allowed: 10 to 60000 milliseconds", "--delay 9"),
    ("--delay: '60001' is out of range", "--delay 60001"),
    ("--what: 'stge' is unknown (did you mean stage?)", "--what stge"),
    ("--what: 'lamp' is unknown", "--what lamp"),
    ("--from: 'inf' is not a number", "--from inf"),
    ("--to: '4,5' is not one number: write 4.5", "--to 4,5"),
    ("--from: '3600.1' is out of range; allowed with --what stage: -3600 to 3600 deg; for example: "
     "--from 0", "--from 3600.1"),
    ("--to: '100001' is out of range", "--to 100001"),
    ("--to: '-3601' is out of range", "--to -3601"),
    ("--to: '181' is out of range; allowed with --what tilt: -180 to 180 deg", "--what tilt --to 181"),
    ("--from: '0' is out of range; allowed with --what thickness: 0.001 to 100 mm",
     "--what thickness --from 0"),
    ("--to: '-1' is out of range; allowed with --what plate: 0 to 100000 nm", "--what plate --to -1"),
    ("--to: '4000' is out of range; allowed with --what analyser", "--what analyser --to 4000"),
    ("--from and --to are both 5 deg, so nothing would move", "--from 5 --to 5"),
    ("--from and --to are both 90 deg", "--from 90"),
    ("--stage and --what stage contradict each other", "--stage 10"),
    ("--thickness and --what thickness contradict each other", "--what thickness --thickness 2"),
    ("--analyser and --what analyser contradict each other", "--what analyser --analyser 90"),
    ("--polars and --what analyser contradict each other", "--what analyser --polars crossed"),
    ("--plate and --what plate contradict each other", "--what plate --plate full-wave"),
    ("--tilt gives the azimuth alone: --tilt 0,45", "--what tilt --tilt 10,45"),
    ("a plate-slow without a plate", "--plate-slow 45"),
    ("not to turn; 'interfig turn --help' lists what it takes", "--json"),
]


@pytest.mark.parametrize("expected,line", LINES, ids=[line for _, line in LINES])
def test_a_turn_that_makes_no_sense_is_refused(refused, expected, line):
    assert expected in refused(64, "turn", "quartz", *line.split())


def test_the_motion_belongs_to_turn_alone(refused):
    for option in ["--what stage", "--from 0", "--to 9", "--steps 3", "--delay 20"]:
        said = refused(64, "figure", "quartz", *option.split())
        assert "belongs to turn" in said and "not to figure" in said


def test_two_hundred_frames_take_no_more_memory_than_two(tmp_path):
    words = [PROGRAM, "turn", "muscovite", "--thickness", "0.1", "--size", "256", "--lamp",
             "sodium", "-o", "film.png"]
    few = peak_memory(tmp_path, *words, "--steps", "2")
    two = (tmp_path / "film.png").stat().st_size
    many = peak_memory(tmp_path, *words, "--steps", "200")
    size = (tmp_path / "film.png").stat().st_size
    # 200 frames of 256 x 256 x 3 bytes are 37.5 MiB, which would show above the few.
    assert many < few + 8 * 1024 and many < 60 * 1024
    # A frame more costs what a frame costs, and each is packed.
    assert two / 2 * 100 < size < two / 2 * 400 and size < 200 * 256 * 256 * 3 / 2


def test_a_signal_removes_the_unfinished_film(tmp_path):
    (tmp_path / "a.png").write_text("the old film")
    child = subprocess.Popen([PROGRAM, "turn", "muscovite", "--steps", "10000", "-o", "a.png"],
                             cwd=tmp_path, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                             preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL))
    deadline = time.monotonic() + 20
    while len(list(tmp_path.iterdir())) < 2:
        assert time.monotonic() < deadline and child.poll() is None
        time.sleep(0.005)
    time.sleep(0.3)  # into the frames
    child.send_signal(signal.SIGINT)
    out, err = child.communicate(timeout=20)
    assert child.returncode == -signal.SIGINT and out == b"" and err == b""
    assert [path.name for path in tmp_path.iterdir()] == ["a.png"]
    assert (tmp_path / "a.png").read_text() == "the old film"


def test_a_full_disk_is_status_74(refused):
    refused(74, "turn", "muscovite", "--size", "150", "--steps", "40", "-o", "/dev/full")


def test_a_terminal_shows_a_bar_after_a_second_and_takes_it_away(tmp_path):
    ours, theirs = pty.openpty()
    child = subprocess.Popen([PROGRAM, "turn", "quartz", "--size", "1024", "--steps", "30", "--threads",
                              "1", "-o", "a.png"], cwd=tmp_path, stdout=subprocess.DEVNULL,
                             stderr=theirs)
    os.close(theirs)
    started = time.monotonic()
    shown = os.read(ours, 1)
    waited = time.monotonic() - started
    try:
        while True:
            shown += os.read(ours, 1000)
    except OSError:  # the other end has closed
        pass
    os.close(ours)
    assert child.wait(timeout=20) == 0 and waited > 0.9
    assert shown.startswith(b"\rinterfig: [") and b" %, frame 30 of 30" in shown
    assert shown.endswith(b"\r" + 79 * b" " + b"\r") and b"\n" not in shown
