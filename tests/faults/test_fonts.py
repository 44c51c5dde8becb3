# SPDX-License-Identifier: MIT
"""No font, another font, a broken font (bar R28): a status that says so, the package to install, the
old file untouched; never a plate without letters.

Run by Meson with INTERFIG."""
import os
import pathlib
import subprocess

import pytest

PROGRAM = os.path.abspath(os.environ["INTERFIG"])
MISSING = 69
OLD = b"last week's plate\n"
DEJAVU = pathlib.Path("/usr/share/fonts/truetype/dejavu")


def draw(folder, ending, fonts=()):
    """Draw a plate where fontconfig sees these font files alone."""
    shelf = folder / "fonts"
    shelf.mkdir(exist_ok=True)
    for name, contents in fonts:
        (shelf / name).write_bytes(contents)
    (folder / "fonts.conf").write_text(
        "<?xml version='1.0'?><fontconfig><dir>{0}</dir><cachedir>{0}/cache</cachedir>"
        "</fontconfig>".format(shelf))
    out = folder / ("plate." + ending)
    out.write_bytes(OLD)
    done = subprocess.run([PROGRAM, "blink", "quartz", "-o", str(out)], capture_output=True,
                          env=dict(os.environ, FONTCONFIG_FILE=str(folder / "fonts.conf")),
                          timeout=60, check=False)
    return done.returncode, done.stderr.decode(), out.read_bytes()


def must_be_told(answer):
    status, error, left = answer
    assert status == MISSING
    assert "install the package fonts-dejavu-core" in error and error.count("\n") == 1
    assert left == OLD


@pytest.mark.parametrize("ending", ["png", "pdf", "svg"])
def test_without_any_font_the_package_is_named(ending, tmp_path):
    must_be_told(draw(tmp_path, ending))


@pytest.mark.parametrize("ending", ["png", "pdf", "svg"])
def test_another_font_does_not_take_its_place(ending, tmp_path):
    serif = (DEJAVU / "DejaVuSerif.ttf").read_bytes()
    must_be_told(draw(tmp_path, ending, [("serif.ttf", serif)]))


def both(share):
    """Regular and bold, the regular one cut short."""
    regular = (DEJAVU / "DejaVuSans.ttf").read_bytes()
    return [("sans.ttf", regular[:int(share * len(regular))]),
            ("bold.ttf", (DEJAVU / "DejaVuSans-Bold.ttf").read_bytes())]


@pytest.mark.parametrize("share", [0.0, 0.01, 0.1, 0.3, 0.5, 0.7, 0.9, 0.96, 0.99])
def test_a_font_file_cut_short_is_missing_or_has_all_that_is_needed(share, tmp_path):
    """A whole bold face beside it must not take its place; the last tables of the file serve only
    screens of few pixels."""
    answer = draw(tmp_path, "svg", both(share))
    if answer[0] == 0:
        assert answer[2] == draw(tmp_path, "svg", both(1.0))[2]
    else:
        must_be_told(answer)
    assert answer[0] != 0 or share > 0.9


def test_a_font_that_is_there_is_used(tmp_path):
    status, error, left = draw(tmp_path, "svg", both(1.0))
    assert status == 0, error
    assert left.startswith(b"<?xml")
