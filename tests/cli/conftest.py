# SPDX-License-Identifier: MIT
"""The program as a stranger meets it: words in, bytes and a status out."""
import os
import re
import subprocess
from collections import namedtuple

import pytest

PROGRAM = os.path.abspath(os.environ["INTERFIG"])
PATIENCE = 60 * int(os.environ.get("CK_TIMEOUT_MULTIPLIER", "1"))  # seconds; libcheck has the same

Answer = namedtuple("Answer", "status out err")


def command_names():
    """The commands, as the program's own help lists them."""
    text = subprocess.run([PROGRAM, "help"], check=True, capture_output=True,
                          timeout=PATIENCE).stdout.decode()
    names = re.findall(r"^  (\w+) ", text.split("commands\n")[1].split("\n\n")[0], flags=re.M)
    assert len(names) > 10
    return names


@pytest.fixture
def interfig(tmp_path):
    """Run interfig in an empty folder; words may be str or bytes."""

    def run(*words, **options):
        done = subprocess.run([PROGRAM, *words], cwd=options.pop("cwd", tmp_path),
                              stdin=subprocess.DEVNULL,
                              stdout=options.pop("stdout", subprocess.PIPE),
                              stderr=subprocess.PIPE, timeout=PATIENCE, **options)
        return Answer(done.returncode, done.stdout, done.stderr.decode("utf-8"))

    return run


@pytest.fixture
def refused(interfig, tmp_path):
    """Run interfig, which must refuse: the status, one line on standard error, and nothing else."""

    def run(status, *words, **options):
        before = {path: path.stat().st_mtime_ns for path in tmp_path.rglob("*")}
        answer = interfig(*words, **options)
        after = {path: path.stat().st_mtime_ns for path in tmp_path.rglob("*")}
        assert answer.status == status, answer
        assert answer.out == b""
        assert answer.err.startswith("interfig: ")
        assert answer.err.endswith("\n") and answer.err.count("\n") == 1
        assert len(answer.err) < 900 and answer.err[:-1].isprintable()
        assert after == before, "a file was made or changed"
        return answer.err

    return run


CLUB_STONE = """\
species:
  - key: harbour_topaz
    name: Topaz, harbour find
    n: [1.609, 1.612, 1.619]
    two_v_deg: 66
    source: notebook of the Tern Harbour lapidary club, page 12
"""

BENCH_LAMP = """\
wavelength_nm,power
# the lamp on the club's bench
400,1
500,2.5
600 3  # blanks serve as well
700\t1.25
"""


@pytest.fixture
def club_files(tmp_path):
    (tmp_path / "club.yaml").write_text(CLUB_STONE)
    (tmp_path / "bench.csv").write_text(BENCH_LAMP)
    return tmp_path


def pytest_sessionfinish(session, exitstatus):
    """A file with a skip counts as skipped for Meson, never as passed."""
    report = session.config.pluginmanager.get_plugin("terminalreporter")
    if exitstatus == 0 and report is not None and report.stats.get("skipped"):
        session.exitstatus = 77
