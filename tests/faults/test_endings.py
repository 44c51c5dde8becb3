# SPDX-License-Identifier: MIT
"""The program ended from outside at moments of chance: killed (bar R9), interrupted and terminated
(R10), left by the reader of its pipe or started with its streams closed (R11).

Run by Meson with INTERFIG; IFIG_SEED gives other moments, IFIG_ENDINGS more of them."""
import functools
import os
import pathlib
import random
import re
import signal
import subprocess
import time

import pytest

PROGRAM = os.environ["INTERFIG"]
SEED = int(os.environ.get("IFIG_SEED", "9"))
MORE = int(os.environ.get("IFIG_ENDINGS", "1"))
OLD = b"the picture of last week's class\n"
LEFTOVER = re.compile(r"\.interfig-[0-9a-f]{16}\.part")

DEEDS = {
    "png": ["figure", "muscovite", "--thickness", "0.1", "--size", "160", "--threads", "2"],
    "animated png": ["turn", "muscovite", "--thickness", "0.1", "--size", "160",
                     "--steps", "3"],
    "pdf": ["blink", "quartz"],
    "svg": ["blink", "quartz"],
}


class Folder:
    """A folder whose `out` is a symbolic link to a file with a mode of its own in another folder."""

    def __init__(self, path, deed):
        self.target = path / "shelf" / ("picture." + deed.split()[-1])
        self.link = path / ("out." + deed.split()[-1])
        self.words = [PROGRAM, *DEEDS[deed], "-o", self.link.name]
        self.path = path
        self.target.parent.mkdir()
        self.link.symlink_to(self.target)
        self.renew()

    def renew(self):
        self.target.write_bytes(OLD)
        self.target.chmod(0o640)

    def start(self, prefix=()):
        return subprocess.Popen([*prefix, *self.words], cwd=self.path, stdin=subprocess.DEVNULL,
                                stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                                preexec_fn=default_signals)

    def run_whole(self):
        """The whole new picture, and how long it takes."""
        times = []
        for _ in range(3):
            started = time.monotonic()
            child = self.start()
            _, error = child.communicate(timeout=60)
            assert child.returncode == 0, error
            times.append(time.monotonic() - started)
        whole = self.target.read_bytes()
        assert whole != OLD
        self.renew()
        return whole, min(times)

    def check(self, whole):
        """Old or new, whole; link and mode kept. Takes what was left away; how much that was."""
        assert self.target.read_bytes() in (OLD, whole)
        assert self.link.is_symlink() and (self.target.stat().st_mode & 0o7777) == 0o640
        assert sorted(path.name for path in self.path.iterdir()) == [self.link.name, "shelf"]
        left = [path for path in self.target.parent.iterdir() if path != self.target]
        assert len(left) <= 1 and all(LEFTOVER.fullmatch(path.name) for path in left), left
        for path in left:
            path.unlink()
        return len(left)


def default_signals():
    for number in (signal.SIGINT, signal.SIGTERM, signal.SIGPIPE):
        signal.signal(number, signal.SIG_DFL)


@pytest.mark.parametrize("deed", DEEDS)
def test_a_kill_at_any_moment_leaves_the_old_file_or_the_new(deed, tmp_path):
    chance = random.Random("{} {}".format(SEED, deed))
    folder = Folder(tmp_path, deed)
    whole, seconds = folder.run_whole()
    kills = 50 * MORE
    killed = left = new = 0
    for _ in range(kills):
        child = folder.start()
        time.sleep(chance.uniform(0, 1.1 * seconds))
        child.kill()
        child.communicate(timeout=60)
        killed += child.returncode == -signal.SIGKILL
        new += folder.target.read_bytes() == whole
        left += folder.check(whole)
        folder.renew()
    print("{}: {} kills within {:.0f} ms (seed {}), {} in time; {} new files, {} unfinished ones "
          "left".format(deed, kills, 1100 * seconds, SEED, killed, new, left))
    assert killed > kills / 4


@pytest.mark.parametrize("deed", DEEDS)
def test_a_kill_at_any_system_call_leaves_the_old_file_or_the_new(deed, tmp_path):
    """Kills at random seldom meet the few moments that matter: these meet each of them."""
    folder = Folder(tmp_path, deed)
    whole, _ = folder.run_whole()
    trace = tmp_path.parent / (tmp_path.name + ".trace")
    calls = "openat,write,fsync,rename,close,unlink"
    folder.start(["strace", "-f", "-o", str(trace), "-e", "trace=" + calls]).communicate(timeout=60)
    folder.renew()
    made = re.findall(r"^\d+\s+(\w+)\(", trace.read_text(), flags=re.M)
    kills = left = 0
    for call in calls.split(","):
        count = made.count(call)
        for number in range(max(1, count - 3), count + 1):
            child = folder.start(["strace", "-f", "-o", os.devnull, "-e", "trace=" + call, "-e",
                                  "inject={}:signal=KILL:when={}".format(call, number)])
            child.communicate(timeout=60)
            kills += 1
            left += folder.check(whole)
            folder.renew()
    print("{}: killed at {} system calls, {} unfinished files left".format(deed, kills, left))
    assert kills >= 10 and left >= 1


def test_a_later_run_is_not_disturbed_by_what_a_kill_left(tmp_path):
    folder = Folder(tmp_path, "png")
    whole, _ = folder.run_whole()
    names = [".interfig-{:016x}.part".format(number) for number in (1, 2, 3)]
    for name in names:
        (folder.target.parent / name).write_bytes(b"half")
    assert folder.start().wait(timeout=60) == 0
    assert folder.target.read_bytes() == whole
    # the program never removes what may be another run's
    assert all((folder.target.parent / name).read_bytes() == b"half" for name in names)


INTERRUPTED = [
    ["figure", "muscovite", "--size", "16000", "--depth", "16", "-o", "out.png"],
    ["figure", "quartz", "--size", "600", "-o", "out.png"],
    ["turn", "quartz", "--size", "300", "--steps", "12", "-o", "out.png"],
    ["blink", "quartz", "-o", "out.pdf"],
    ["hunt", "quartz", "-o", "out.svg"],
    ["contrast", "ruby", "spinel", "-o", "plate.png"],
]


def test_interrupt_and_termination_end_the_program_at_once_at_any_moment(tmp_path):
    chance = random.Random(SEED)
    slowest, by = 0.0, None
    ended = finished = 0
    # A signal may come after the rename, and one held back while a page is written always does.
    whole = {}
    for words in INTERRUPTED:
        if "16000" not in words:  # takes too long to be whole within the waits below
            subprocess.run([PROGRAM, *words], cwd=tmp_path, check=True, stdout=subprocess.DEVNULL)
            whole[tuple(words)] = (tmp_path / words[-1]).read_bytes()
            (tmp_path / words[-1]).unlink()
    for number in range(100 * MORE):
        words = INTERRUPTED[number % len(INTERRUPTED)]
        sent = (signal.SIGINT, signal.SIGTERM)[number // len(INTERRUPTED) % 2]
        out = tmp_path / words[-1]
        out.write_bytes(OLD)
        child = subprocess.Popen([PROGRAM, *words], cwd=tmp_path, stdin=subprocess.DEVNULL,
                                 stdout=subprocess.DEVNULL, stderr=subprocess.PIPE,
                                 preexec_fn=default_signals)
        time.sleep(chance.uniform(0, 0.3))
        started = time.monotonic()
        child.send_signal(sent)
        _, error = child.communicate(timeout=60)
        seconds = time.monotonic() - started
        if child.returncode == 0:
            finished += 1
        else:
            assert child.returncode == -sent, (words, child.returncode, error)
            assert out.read_bytes() in (OLD, whole.get(tuple(words))) and error == b"", words
            ended += 1
        if seconds > slowest:
            slowest, by = seconds, words
        left = {path.name for path in tmp_path.iterdir()} - {name[-1] for name in INTERRUPTED}
        assert left == set(), (words, left)
    print("{} signals (seed {}): {} ended by them, {} were done before; the slowest took {:.0f} ms: "
          "{}".format(100 * MORE, SEED, ended, finished, 1000 * slowest, " ".join(by)))
    assert ended >= 50 * MORE
    assert slowest < 5.0  # a busy machine's leave; the bar is 0.2 s


HANDOUT = pathlib.Path(__file__).parents[2] / "figures" / "handouts" / "first_figures.yaml"
COMMANDS = {
    "figure": ["figure", "quartz", "--size", "200", "-o", "-"],
    "turn": ["turn", "quartz", "--size", "160", "--steps", "3", "-o", "-"],
    "face": ["face", "chalcedony", "--size", "64", "-o", "-"],
    "probe": ["probe", "quartz"],
    "probe json": ["probe", "quartz", "--json"],
    "reading": ["reading", "quartz"],
    "reading json": ["reading", "quartz", "--json"],
    "blink": ["blink", "quartz"],
    "blink json": ["blink", "quartz", "--json"],
    "hunt": ["hunt", "quartz"],
    "hunt json": ["hunt", "quartz", "--json"],
    "contrast": ["contrast", "ruby", "spinel"],
    "contrast json": ["contrast", "ruby", "spinel", "--json"],
    "narrow": ["narrow", "--observed", "reaction=DR"],
    "narrow json": ["narrow", "--observed", "reaction=DR", "--json"],
    "page": ["page", str(HANDOUT), "--print-recipe"],
    "chart json": ["chart", "--json"],
    "completion": ["completion", "bash"],
    "species": ["species"],
    "one species": ["species", "quartz"],
    "species json": ["species", "--json"],
    "help": ["help", "figure"],
    "version": ["--version"],
    "nothing": [],
}


def test_every_command_of_the_program_is_among_those_tried():
    listed = subprocess.run([PROGRAM, "help"], capture_output=True, text=True, check=True).stdout
    commands = re.search(r"^commands\n(.*?)\n\n", listed, re.M | re.S).group(1)
    tried = {words[0] for words in COMMANDS.values() if words}
    writes_a_folder = {"exercise"}
    assert set(re.findall(r"^  (\w+)", commands, re.M)) <= tried | writes_a_folder


@pytest.mark.parametrize("name", COMMANDS)
def test_a_reader_that_goes_away_ends_every_command_by_its_signal(name, tmp_path):
    reader, writer = os.pipe()
    os.close(reader)
    for ignored, status in ((False, -signal.SIGPIPE), (True, 74)):
        done = subprocess.run([PROGRAM, *COMMANDS[name]], stdout=writer, stderr=subprocess.PIPE,
                              cwd=tmp_path, timeout=60, restore_signals=not ignored, check=False,
                              preexec_fn=None if ignored else default_signals)
        assert done.returncode == status, done.stderr
        assert done.stderr.count(b"\n") == (1 if ignored else 0)
    os.close(writer)
    headed = pipe_into_head(name, tmp_path)
    assert headed in (0, 141)
    assert {path.name for path in tmp_path.iterdir()} == {"status", "head"}


@functools.lru_cache(maxsize=None)
def left_alone(name):
    """What a command says on both streams when nothing happens to it."""
    done = subprocess.run([PROGRAM, *COMMANDS[name]], capture_output=True, timeout=60, check=True)
    return done.stdout, done.stderr


def pipe_into_head(name, folder):
    """The status of a command whose reader takes one byte and goes."""
    line = '{ "$0" "$@" 2>&2; echo $? >status; } | head -c 1 >head'
    done = subprocess.run(["sh", "-c", line, PROGRAM, *COMMANDS[name]], cwd=folder, timeout=60,
                          capture_output=True, check=True, preexec_fn=default_signals)
    said = left_alone(name)[1]  # a picture's own account of itself
    assert done.stderr in (b"", said) and len((folder / "head").read_bytes()) == 1
    return int((folder / "status").read_text())


@pytest.mark.parametrize("name", COMMANDS)
@pytest.mark.parametrize("stream", ["stdin", "stdout", "stderr", "all"])
def test_a_closed_stream_does_no_harm_to_any_command(name, stream, tmp_path):
    closed = {"stdin": [0], "stdout": [1], "stderr": [2], "all": [0, 1, 2]}[stream]
    whole = left_alone(name)[0]
    done = subprocess.run([PROGRAM, *COMMANDS[name]], cwd=tmp_path, timeout=60, check=False,
                          stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                          preexec_fn=lambda: [os.close(number) for number in closed])
    if 1 in closed:
        assert done.returncode in (73, 74) and done.stdout == b""
        assert done.stderr.count(b"\n") == (0 if 2 in closed else 1)
    else:
        assert done.returncode == 0 and done.stdout == whole
    assert list(tmp_path.iterdir()) == []
