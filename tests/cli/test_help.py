# SPDX-License-Identifier: MIT
"""Help: short, complete, and every example in it works."""
import re
import shlex

import pytest

from conftest import command_names

COMMANDS = command_names()


def examples(text):
    return [line.strip() for line in text.splitlines()
            if line.startswith("  interfig ") and "COMMAND" not in line]


def test_the_program_alone_shows_eight_lines(interfig):
    answer = interfig()
    assert answer.status == 0 and answer.err == ""
    assert len(answer.out.decode().splitlines()) == 8


@pytest.mark.parametrize("line", [[], ["help"], ["--help"], ["-h"]] +
                         [["help", command] for command in COMMANDS] +
                         [["figure", "-h"], ["help", "exit-codes"], ["species", "--help"]])
def test_help_fits_a_terminal(interfig, line):
    answer = interfig(*line)
    assert answer.status == 0 and answer.err == ""
    assert max(map(len, answer.out.decode().splitlines())) <= 84


@pytest.mark.parametrize("command", COMMANDS)
def test_each_command_leads_with_three_examples_that_work(interfig, tmp_path, command):
    (tmp_path / "first_figures.yaml").write_text("title: First figures\nfigures: [{stone: quartz}]\n")
    text = interfig(command, "--help").out.decode()
    assert interfig("help", command).out.decode() == text
    lines = text.splitlines()
    assert all(line.startswith("  interfig ") for line in lines[2:5]) and lines[5] == ""
    for example in examples(text):
        answer = interfig(*shlex.split(example)[1:])
        assert answer.status == 0 and answer.err == "" and answer.out, example


def test_each_example_of_the_newcomers_help_works(interfig, tmp_path):
    for example in examples(interfig().out.decode()) + examples(interfig("help").out.decode()):
        words = shlex.split(re.split(" {2,}", example)[0])[1:]
        if words == ["figure", "quartz"]:
            words.append("--force")  # both texts begin with it
        assert interfig(*words).status == 0, example
    assert (tmp_path / "quartz_c_3mm.png").exists() and (tmp_path / "r.png").exists()


def test_help_wins_over_what_stands_behind_it(interfig):
    assert interfig("figure", "quartz", "--help", "--nonsense").status == 0


def test_each_option_of_the_issue_is_in_the_help_with_range_and_default(interfig):
    text = " ".join(interfig("figure", "--help").out.decode().split())
    for part in ["--thickness MM", "0.001 to 100 mm; default: 3", "--view DIRECTION",
                 "--tilt DEG[,AZIMUTH]", "--stage DEG", "--lens LENS", "--field DEG",
                 "--immersion INDEX", "--lamp LAMP", "--polariser DEG", "--analyser DEG",
                 "--polars HOW", "--indices N[,N[,N]]", "--rotation DEG_PER_MM",
                 "--hand right|left", "--species-file FILE.yaml", "--size PX",
                 "1 to 65535 pixels; default: 1024", "--depth 8|16", "--dpi N", "--exposure STOPS",
                 "-o, --output FILE", "--force", "--threads N", "--again FILE.png"]:
        assert part in text, part
    assert "not an identification" in text and "sun" in text
    text = interfig("probe", "--help").out.decode()
    for part in ["--at THETA,PHI", "--wavelength NM", "--json"]:
        assert part in text


def test_version_is_one_line(interfig):
    answer = interfig("--version")
    assert answer.status == 0 and answer.out.decode().split()[0] == "interfig"
    assert answer.out.count(b"\n") == 1


def test_the_exit_statuses_are_documented(interfig):
    text = interfig("help", "exit-codes").out.decode()
    for status in ["0", "64", "65", "66", "70", "71", "73", "74", "130", "141", "143"]:
        assert f"\n{status:>5}  " in text
