# SPDX-License-Identifier: MIT
"""The manual's pages: one for the program, one for each command, sound, and as the help has it."""
import os
import pathlib
import re
import shutil
import subprocess

import pytest

from conftest import command_names

MANUAL = pathlib.Path(os.environ["IFIG_MANUAL"])
STATUSES = ["0", "64", "65", "66", "70", "71", "73", "74", "130", "141", "143"]


def needed(program):
    path = shutil.which(program)
    if path is None:
        pytest.skip(f"{program} is not installed: .ci/setup test installs it")
    return path


def page(name):
    """A page as it reads, in one line, without what sets it."""
    done = subprocess.run([needed("mandoc"), "-T", "ascii", MANUAL / (name + ".1")], check=True,
                          capture_output=True, text=True, timeout=60)
    return re.sub(r"-\s*\n\s*", "-", re.sub(r".\x08", "", done.stdout))


def test_each_command_has_its_page_and_no_other_is_there():
    names = command_names()
    assert {path.name for path in MANUAL.glob("*.1")} == \
        {"interfig.1"} | {f"interfig-{name}.1" for name in names}


def test_the_pages_are_sound():
    done = subprocess.run([needed("mandoc"), "-T", "lint", *sorted(MANUAL.glob("*.1"))],
                          capture_output=True, text=True, timeout=60)
    assert done.returncode == 0 and done.stdout == "" and done.stderr == "", done.stdout


def test_each_page_tells_options_examples_and_exit_statuses(interfig):
    for name in command_names():
        text = page("interfig-" + name)
        told = " ".join(text.split())
        assert "EXIT STATUS" in text
        for status in STATUSES:
            assert re.search(rf"^ +{status} +\S", text, flags=re.M), (name, status)
        lines = interfig(name, "--help").out.decode().splitlines()
        for example in lines[2:5]:
            assert example.strip() in told, (name, example)
        for line in lines[5:]:
            option = re.match(r"  (?:-\w, |    )(--\S+)", line)
            if option:
                assert option.group(1) in told, (name, option)


def test_the_page_of_the_program_leads_to_the_others():
    told = " ".join(page("interfig").split())
    for name in command_names():
        assert f"interfig-{name}(1)" in told
    for status in STATUSES:
        assert f" {status} " in told


def test_each_page_is_of_the_release_that_the_build_is(interfig):
    build = (pathlib.Path(__file__).parents[2] / "meson.build").read_text(encoding="utf-8")
    date = re.search(r"^release_date = '(\d{4}-\d\d-\d\d)'", build, flags=re.M).group(1)
    version = re.search(r"^  version: '([^']+)'", build, flags=re.M).group(1)
    assert interfig("--version").out.decode() == f"interfig {version}\n"
    for path in MANUAL.glob("*.1"):
        assert f'"{date}" "interfig {version}"' in path.read_text(encoding="utf-8"), path
