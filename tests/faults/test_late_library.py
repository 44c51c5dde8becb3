# SPDX-License-Identifier: MIT
"""The library of plates is loaded when it is needed: without it figures are drawn, and a plate is
refused in words. Run by Meson with INTERFIG, and with LIBRARIES, the folders of the other two."""
import os
import shutil
import subprocess

import pytest

PROGRAM = os.path.abspath(os.environ["INTERFIG"])
LIBRARIES = os.environ["LIBRARIES"]
MISSING = 69


@pytest.fixture
def lonely(tmp_path):
    """Run a copy of the program that finds no library beside it."""
    copy = shutil.copy(PROGRAM, tmp_path / "interfig")

    def run(*words):
        return subprocess.run([copy, *words], cwd=tmp_path, capture_output=True, timeout=60,
                              env=dict(os.environ, LD_LIBRARY_PATH=LIBRARIES), check=False)

    return run


def test_a_figure_does_without(lonely, tmp_path):
    assert lonely("figure", "quartz", "--size", "64", "-o", "figure.png").returncode == 0
    assert (tmp_path / "figure.png").stat().st_size > 1000


@pytest.mark.parametrize("words", [("blink", "quartz", "-o", "plate.pdf"),
                                   ("figure", "quartz", "--labels", "full", "-o", "plate.png")])
def test_a_plate_is_refused_in_words(words, lonely, tmp_path):
    answer = lonely(*words)
    error = answer.stderr.decode()
    assert answer.returncode == MISSING, error
    assert error.startswith("interfig: ") and error.count("\n") == 1
    assert "install the package libinterfig-pages0" in error
    assert not (tmp_path / words[-1]).exists()
