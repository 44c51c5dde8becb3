#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Faults of input and output, one at a time: the n-th system call of a kind fails as on a full, a
broken or a read-only disk (bars R8 and R10). Never a status 0 with a wrong file; the target is the old
file, whole, or the new one; nothing is left beside it; one line on standard error.

Run by Meson with INTERFIG. strace makes the calls fail."""
import os
import pathlib
import re
import subprocess

import pytest

PROGRAM = os.environ["INTERFIG"]
OLD = b"the picture of last week's class\n"

FAULTS = {
    "openat": ["ENOSPC", "EROFS", "EDQUOT", "EIO", "EMFILE"],
    "write": ["ENOSPC", "EIO", "EDQUOT", "EINTR"],
    "fsync": ["EIO", "ENOSPC", "EINTR"],
    "rename": ["EIO", "EROFS", "ENOSPC", "EDQUOT"],
    "close": ["EIO", "ENOSPC"],
}
LINE = ["--lamp", "sodium"]  # a hundred times as quick, and the file is what matters here
DEEDS = {
    "png": ["figure", "quartz", "--size", "16", *LINE],
    "16-bit png": ["figure", "muscovite", "--size", "16", "--depth", "16", *LINE],
    "large png": ["figure", "calcite", "--size", "256"],
    "animated png": ["turn", "quartz", "--size", "12", "--steps", "3", *LINE],
    "pdf": ["blink", "quartz"],
    "svg": ["blink", "quartz"],
    "json": ["species", "quartz", "--json"],
    "probe json": ["probe", "calcite", "--json"],
}
WRITES_STDOUT = {"json", "probe json"}
SUFFIX = {"pdf": ".pdf", "svg": ".svg"}
RUN = {"faults": 0, "deeds": 0}


def name_of(deed):
    return "out" + SUFFIX.get(deed, "")


def run(deed, folder, inject=None, trace=None):
    """Run a deed in a folder that holds an old file; (status, standard error)."""
    target = folder / name_of(deed)
    target.write_bytes(OLD)
    command = [PROGRAM, *DEEDS[deed]]
    if deed not in WRITES_STDOUT:
        command += ([] if deed in SUFFIX else ["--threads", "1"]) + ["-o", name_of(deed)]
    if inject is not None:
        command = ["strace", "-f", "-o", os.devnull, "-e", "trace=" + inject.split(":")[0],
                   "-e", "inject=" + inject, *command]
    elif trace is not None:
        command = ["strace", "-f", "-o", str(trace), "-e", "trace=" + ",".join(FAULTS), *command]
    with open(target, "r+b") if deed in WRITES_STDOUT else open(os.devnull, "wb") as out:
        if deed in WRITES_STDOUT:
            out.truncate()
        ended = subprocess.run(command, cwd=folder, stdout=out, stderr=subprocess.PIPE, timeout=60,
                               check=False)
    return ended.returncode, ended.stderr.decode("utf-8", "replace")


def counts_of(deed, tmp_path):
    """How often a deed makes each call, and what it leaves."""
    folder, trace = tmp_path / "clean", tmp_path / "trace"
    folder.mkdir()
    status, error = run(deed, folder, trace=trace)
    assert status == 0, error
    calls = re.findall(r"^\d+\s+(\w+)\(", trace.read_text(), flags=re.M)
    return {call: calls.count(call) for call in FAULTS}, (folder / name_of(deed)).read_bytes()


def complaint_is_one_line(error):
    lines = error.strip().split("\n")
    return len(lines) == 1 and lines[0] != ""


@pytest.mark.parametrize("deed", DEEDS)
def test_a_fault_never_leaves_half_a_file(deed, tmp_path):
    counts, whole = counts_of(deed, tmp_path)
    folder = tmp_path / "faults"
    folder.mkdir()
    faults = made_good = 0
    for call, errors in FAULTS.items():
        # the loader's own calls come first: what is wrong with it is told by the loader
        for number in range(max(1, counts[call] - 11), counts[call] + 1):
            for error_name in errors:
                what = "{}:error={}:when={}".format(call, error_name, number)
                status, error = run(deed, folder, inject=what)
                left = (folder / name_of(deed)).read_bytes()
                assert sorted(os.listdir(folder)) == [name_of(deed)], what
                assert status >= 0, "{}: killed by signal {}".format(what, -status)
                if status == 0:
                    assert left == whole, what + ": status 0 and a wrong file"
                    made_good += 1
                else:
                    assert deed in WRITES_STDOUT or left in (OLD, whole), what
                    assert complaint_is_one_line(error), what + ": " + error
                faults += 1
    print("{}: {} faults, {} of them made good or harmless".format(deed, faults, made_good))
    assert faults >= 40
    RUN["faults"] += faults
    RUN["deeds"] += 1


def test_the_faults_are_as_many_as_promised():
    print("{faults} faults in {deeds} deeds".format(**RUN))
    assert RUN["faults"] >= 50 * RUN["deeds"]


@pytest.mark.parametrize("deed", ["png", "animated png"])
def test_a_write_that_fails_is_told(deed, tmp_path):
    """Canary: were faults swallowed, or not made at all, this would see a status 0."""
    counts, _ = counts_of(deed, tmp_path)
    for call in ("write", "fsync", "rename"):
        status, error = run(deed, tmp_path / "clean",
                            inject="{}:error=ENOSPC:when=1".format(call))
        assert counts[call] > 0
        assert status in (73, 74) and "no space left on the device" in error, call
