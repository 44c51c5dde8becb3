# SPDX-License-Identifier: MIT
"""The programs of the guide: compiled as a reader would, run, and held to what they promise."""
import csv
import io
import os
import re
import subprocess

import pytest
from PIL import Image

from conftest import HERE, needed, run

PROGRAMS = sorted((HERE / "guide").glob("*.c"))


@pytest.fixture(scope="module")
def outcome(staging, tmp_path_factory):
    """Compile and run a program of the guide in an empty folder: its output, and the folder."""

    def compile_and_run(name):
        folder = tmp_path_factory.mktemp(name)
        flags = staging.pkg_config("--cflags", "--libs", "interfig-files")
        run(needed("cc"), "-std=c11", "-pedantic", "-Wall", "-Wextra", "-Wconversion", "-Wshadow",
            "-Werror", "-o", folder / name, HERE / "guide" / (name + ".c"), *flags, "-lm")
        return run(folder / name, cwd=folder, LD_LIBRARY_PATH=str(staging.libraries)), folder

    return compile_and_run


def picture_of(staging, folder, *words):
    picture = run(staging.program, "figure", *words, "-o", "-", cwd=folder,
                  LD_LIBRARY_PATH=str(staging.libraries))
    return Image.open(io.BytesIO(picture)).convert("RGB")


def test_the_guide_shows_every_program():
    text = (HERE.parents[1] / "lib" / "package" / "guide.md").read_text(encoding="utf-8")
    assert sorted(re.findall(r"^@include (\S+)$", text, flags=re.M)) == [p.name for p in PROGRAMS]


def test_the_first_figure_is_the_one_the_program_draws(staging, outcome):
    _, folder = outcome("first_figure")
    drawn = Image.open(folder / "first_figure.png").convert("RGB")
    assert drawn.tobytes() == picture_of(staging, folder, "quartz", "--size", "512").tobytes()


def test_the_retardation_falls_to_nothing_at_the_two_optic_axes(outcome):
    text, _ = outcome("retardation_line")
    rows = list(csv.DictReader(io.StringIO(text.decode("ascii"))))
    assert len(rows) == 101
    retardation = [float(row["retardation_nm"]) for row in rows]
    for left, right in zip(retardation, reversed(retardation)):
        assert abs(left - right) < 0.01  # at 589.3 nm the centre is the bisectrix
    valleys = [i for i in range(1, 100)
               if retardation[i] < min(retardation[i - 1], retardation[i + 1])]
    assert len(valleys) == 2 and all(retardation[i] < 30 for i in valleys)


def test_two_crossed_plates_undo_each_other(outcome):
    text, _ = outcome("two_layers")
    one, two = re.findall(r"transmittance ([0-9.]+)", text.decode("ascii"))
    assert float(one) > 0.5
    assert float(two) < 1e-6


SIDE, TILE = 512, 128  # of the window of live tiles; the library computes squares of 64 there


def live_tiles(staging, folder, *words):
    """Run the window of live tiles: its frame, and the corners of the tiles in the order shown."""
    done = subprocess.run([folder / "live_tiles", *words], cwd=folder, capture_output=True, timeout=300,
                          env={**os.environ, "LD_LIBRARY_PATH": str(staging.libraries)})
    assert done.returncode == 0, done.stderr
    shown = [tuple(map(int, line.split())) for line in done.stderr.decode("ascii").splitlines()]
    return Image.frombytes("RGB", (SIDE, SIDE), done.stdout), shown


def from_centre(corner):
    return sum((at + TILE / 2 - SIDE / 2) ** 2 for at in corner)


def test_live_tiles_come_from_the_centre_and_make_up_the_figure(staging, outcome):
    _, folder = outcome("live_tiles")
    frame, shown = live_tiles(staging, folder)
    assert sorted(shown) == [(x, y) for x in range(0, SIDE, TILE) for y in range(0, SIDE, TILE)]
    assert [from_centre(corner) for corner in shown] == sorted(map(from_centre, shown))
    whole = picture_of(staging, folder, "muscovite", "--thickness", "0.1", "--stage", "30", "--size",
                       str(SIDE))
    assert frame.tobytes() == whole.tobytes()


def test_a_window_that_is_closed_gets_no_further_tile(staging, outcome):
    _, folder = outcome("live_tiles")
    whole, _ = live_tiles(staging, folder)
    frame, shown = live_tiles(staging, folder, "5")
    assert len(shown) == 5
    for x in range(0, SIDE, TILE):
        for y in range(0, SIDE, TILE):
            tile = frame.crop((x, y, x + TILE, y + TILE))
            there = whole.crop((x, y, x + TILE, y + TILE))
            assert tile.tobytes() == (there.tobytes() if (x, y) in shown else
                                      bytes([128]) * (TILE * TILE * 3)), (x, y)
