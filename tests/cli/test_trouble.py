# SPDX-License-Identifier: MIT
"""Full disks, closed streams, signals: the old file stays, nothing half-written is left."""
import os
import resource
import signal
import subprocess
import time

import pytest

from conftest import PROGRAM
from peak_memory import peak_memory

SMALL = ["--size", "48"]
LONG = ["figure", "muscovite", "--size", "9000", "--depth", "16"]


def limit_files():
    resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))


def limit_memory():
    resource.setrlimit(resource.RLIMIT_AS, (24 << 20, 24 << 20))


def test_a_full_disk_is_status_74(refused):
    assert "no space left" in refused(74, "figure", "quartz", *SMALL, "-o", "/dev/full")


def test_a_full_disk_behind_a_pipe_is_status_74(interfig):
    with open("/dev/full", "wb") as full:
        for line in [["figure", "quartz", *SMALL, "-o", "-"], ["species"], ["species", "--json"],
                     ["probe", "quartz"], ["help", "figure"], []]:
            answer = interfig(*line, stdout=full)
            assert answer.status == 74 and answer.err.count("\n") == 1, line


def test_a_missing_folder_is_status_73(refused):
    assert "no/a.png" in refused(73, "figure", "quartz", *SMALL, "-o", "no/a.png")


def test_a_folder_in_place_of_the_picture_is_status_73(refused, tmp_path):
    (tmp_path / "a.png").mkdir()
    refused(73, "figure", "quartz", *SMALL, "-o", "a.png")
    refused(73, "figure", "quartz", *SMALL, "-o", "./")


@pytest.mark.skipif("LLVM_PROFILE_FILE" in os.environ,
                    reason="the counts of .ci/coverage grow too large as well, and say so")
def test_a_file_grown_too_large_is_status_74_and_the_old_one_stays(refused, tmp_path):
    (tmp_path / "a.png").write_text("the old picture")
    refused(74, "figure", "quartz", "--size", "200", "-o", "a.png", preexec_fn=limit_files)
    refused(74, "figure", "quartz", "--size", "200", "-o", "b.png", preexec_fn=limit_files)
    assert (tmp_path / "a.png").read_text() == "the old picture"


def test_a_lack_of_memory_is_status_71(interfig, refused):
    if interfig("--version", preexec_fn=limit_memory).status != 0:
        pytest.skip("this build (a sanitizer's?) needs more than 24 MiB to begin")
    # 64 rows of 65535 pixels of 6 bytes are 24 MiB.
    refused(71, "figure", "quartz", "--size", "65535", "--depth", "16", "--threads", "1",
            preexec_fn=limit_memory)


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
def test_a_signal_removes_what_was_begun_and_ends_the_program(tmp_path, number):
    (tmp_path / "a.png").write_text("the old picture")
    child = subprocess.Popen([PROGRAM, *LONG, "-o", "a.png"], cwd=tmp_path,
                             stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                             preexec_fn=lambda: signal.signal(number, signal.SIG_DFL))
    deadline = time.monotonic() + 20
    while len(list(tmp_path.iterdir())) < 2:
        assert time.monotonic() < deadline and child.poll() is None
        time.sleep(0.005)
    time.sleep(0.05)
    child.send_signal(number)
    out, err = child.communicate(timeout=20)  # the whole picture would take longer
    assert child.returncode == -number and out == b"" and err == b""
    assert [path.name for path in tmp_path.iterdir()] == ["a.png"]
    assert (tmp_path / "a.png").read_text() == "the old picture"


def test_an_ignored_signal_stays_ignored(tmp_path):
    child = subprocess.Popen([PROGRAM, "figure", "quartz", "--size", "400", "-o", "a.png"],
                             cwd=tmp_path, stdout=subprocess.PIPE,
                             preexec_fn=lambda: signal.signal(signal.SIGHUP, signal.SIG_IGN))
    while child.poll() is None:
        child.send_signal(signal.SIGHUP)
        time.sleep(0.005)
    child.communicate()
    assert child.returncode == 0 and (tmp_path / "a.png").exists()


def broken_pipe():
    reader, writer = os.pipe()
    os.close(reader)
    return writer


@pytest.mark.parametrize("line", [["species"], ["probe", "quartz", "--json"], ["help"],
                                  ["figure", "quartz", *SMALL, "-o", "-"]])
def test_a_broken_pipe_ends_the_program_by_its_signal(interfig, line):
    writer = broken_pipe()
    answer = interfig(*line, stdout=writer)
    os.close(writer)
    assert answer.status == -signal.SIGPIPE and answer.err == ""


@pytest.mark.parametrize("line", [["species"], ["figure", "quartz", *SMALL, "-o", "-"]])
def test_a_broken_pipe_whose_signal_is_ignored_is_status_74(interfig, line):
    writer = broken_pipe()
    answer = interfig(*line, stdout=writer, restore_signals=False)
    os.close(writer)
    assert answer.status == 74 and answer.err.count("\n") == 1


def test_closed_streams_do_no_harm(interfig, tmp_path):
    assert interfig("species", preexec_fn=lambda: os.close(1)).status == 74
    assert interfig("species", preexec_fn=lambda: os.close(0)).status == 0
    assert interfig("figure", preexec_fn=lambda: os.close(2)).status == 64
    whole = interfig("figure", "quartz", *SMALL, "-o", "-").out
    interfig("figure", "quartz", *SMALL, "-o", "a.png",
             preexec_fn=lambda: [os.close(stream) for stream in range(3)])
    assert (tmp_path / "a.png").read_bytes() == whole


def test_the_picture_goes_through_a_pipe_with_a_name(interfig, tmp_path):
    os.mkfifo(tmp_path / "pipe.png")
    reader = subprocess.Popen(["cat", "pipe.png"], cwd=tmp_path, stdout=subprocess.PIPE)
    assert interfig("figure", "quartz", *SMALL, "-o", "pipe.png").status == 0
    assert reader.communicate(timeout=20)[0] == interfig("figure", "quartz", *SMALL, "-o", "-").out


def test_memory_does_not_grow_with_the_square_of_the_size(tmp_path):
    peak = peak_memory(tmp_path, PROGRAM, "figure", "muscovite", "--thickness", "0.1", "--size",
                       "4000", "--depth", "16", "--lamp", "sodium", "-o", "/dev/null")
    # The picture alone is 4000 x 4000 x 6 bytes = 94 MiB.
    assert peak < 64 * 1024
