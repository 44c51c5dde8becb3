# SPDX-License-Identifier: MIT
"""The manual's pages: one for the program, one for each command, sound, and as the help has it."""
import os
import pathlib
import re
import shutil
import subprocess

import pytest

MANUAL = pathlib.Path(os.environ["IFIG_MANUAL"])
STATUSES = ["0", "64", "65", "66", "70", "71", "73", "74", "130", "141", "143"]


def needed(program):
    path = shutil.which(program)
    if path is None:
        pytest.skip(f"{program} is not installed: .ci/setup test installs it")
    return path


def commands(interfig):
    listed = interfig("help").out.decode().split("commands\n")[1].split("\n\n")[0]
    return re.findall(r"^  (\w+) ", listed, flags=re.M)


def page(name):
    """A page as it reads, in one line, without what sets it."""
    done = subprocess.run([needed("mandoc"), "-T", "ascii", MANUAL / (name + ".1")], check=True,
                          capture_output=True, text=True, timeout=60)
    return re.sub(r"-\s*\n\s*", "-", re.sub(r".\x08", "", done.stdout))


def test_each_command_has_its_page_and_no_other_is_there(interfig):
    names = commands(interfig)
    assert len(names) > 10
    assert {path.name for path in MANUAL.glob("*.1")} == \
        {"interfig.1"} | {f"interfig-{name}.1" for name in names}


def test_the_pages_are_sound():
    done = subprocess.run([needed("mandoc"), "-T", "lint", *sorted(MANUAL.glob("*.1"))],
                          capture_output=True, text=True, timeout=60)
    assert done.returncode == 0 and done.stdout == "" and done.stderr == "", done.stdout


def test_each_page_tells_options_examples_and_exit_statuses(interfig):
    for name in commands(interfig):
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


def test_the_page_of_the_program_leads_to_the_others(interfig):
    told = " ".join(page("interfig").split())
    for name in commands(interfig):
        assert f"interfig-{name}(1)" in told
    for status in STATUSES:
        assert f" {status} " in told
