# SPDX-License-Identifier: MIT
"""The programs of the guide: compiled as a reader would, run, and held to what they promise."""
import csv
import io
import re

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


def test_each_live_tile_is_the_figure_at_its_turn(staging, outcome):
    frame, folder = outcome("live_tiles")
    window = Image.frombytes("RGB", (384, 288), frame)
    for tile in (0, 6, 11):
        left, top = tile % 4 * 96, tile // 4 * 96
        alone = picture_of(staging, folder, "muscovite", "--thickness", "0.1", "--size", "96",
                           "--stage", str(7.5 * tile))
        assert window.crop((left, top, left + 96, top + 96)).tobytes() == alone.tobytes(), tile
