# SPDX-License-Identifier: MIT
"""Every line of the README that calls the program does what it says."""
import os
import pathlib
import re
import shlex
import subprocess

import pytest

README = pathlib.Path(__file__).resolve().parents[2] / "README.md"


def lines():
    text = README.read_text(encoding="utf-8")
    found = re.findall(r"^(interfig .*?)(?:\s+#.*)?$", text, flags=re.M)
    found += re.findall(r"`(interfig [^`]*)`", text)
    return sorted({line.strip() for line in found if not re.search(r"NAME|picture\.png|--help|interfig help", line)})


def test_the_readme_has_its_lines():
    assert len(lines()) >= 12


@pytest.mark.parametrize("line", lines())
def test_a_line_of_the_readme_runs(line, tmp_path):
    words = shlex.split(line)
    assert words[0] == "interfig"
    (tmp_path / "figures").symlink_to(README.parent / "figures")
    done = subprocess.run([os.environ["INTERFIG"], *words[1:]], cwd=tmp_path, text=True,
                          capture_output=True, timeout=120)
    assert done.returncode == 0, done.stderr
    assert done.stdout
    pictures = list(tmp_path.glob("*.png"))
    assert len(pictures) == (1 if words[1] in ("figure", "turn", "face") and
                             "--print-recipe" not in words else 0)


def test_a_picture_is_rendered_anew_from_what_it_says_of_itself(tmp_path):
    program = os.environ["INTERFIG"]
    assert "interfig figure --again picture.png -o new.png" in README.read_text(encoding="utf-8")
    subprocess.run([program, "figure", "quartz", "--size", "64", "-o", "picture.png"], cwd=tmp_path,
                   check=True, capture_output=True)
    subprocess.run([program, "figure", "--again", "picture.png", "-o", "new.png"], cwd=tmp_path,
                   check=True, capture_output=True)
    assert (tmp_path / "picture.png").read_bytes() == (tmp_path / "new.png").read_bytes()
