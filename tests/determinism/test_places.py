# SPDX-License-Identifier: MIT
"""The same bytes in every time zone, locale, home, folder and under every umask (bar R15).

Run by Meson with INTERFIG and LOCPATH, a folder of locales that were built for the tests."""
import os
import pathlib
import subprocess
import time

import pytest

PROGRAM = os.path.abspath(os.environ["INTERFIG"])
LOCALES = os.environ["LOCPATH"]

DEEDS = {
    "figure.png": ["figure", "muscovite", "--thickness", "0.1", "--size", "32"],
    "turn.png": ["turn", "quartz", "--size", "16", "--steps", "2"],
    "blink.png": ["blink", "quartz"],
    "blink.pdf": ["blink", "quartz"],
    "blink.svg": ["blink", "quartz"],
}
# their maps take a second each: once in every locale and time zone, not in all places
SLOW_DEEDS = {
    "hunt.pdf": ["hunt", "quartz"],
    "contrast.svg": ["contrast", "ruby", "spinel"],
}
ZONES = ["UTC", "Pacific/Kiritimati"]
LANGUAGES = ["C", "C.UTF-8", "de_DE.UTF-8", "tr_TR.UTF-8"]


def environment(folder, zone="UTC", language="C", home="home"):
    (folder / home).mkdir(exist_ok=True)
    return {"PATH": os.environ["PATH"], "HOME": str(folder / home), "TZ": zone,
            "LC_ALL": language, "LANG": language, "LOCPATH": LOCALES}


def make(words, path, env, umask=0o022, relative=False):
    """The bytes and the mode of what a deed writes, and what it prints."""
    path.parent.mkdir(exist_ok=True)
    out = path.name if relative else str(path)
    done = subprocess.run([PROGRAM, *words, "-o", out], cwd=path.parent, env=env, timeout=120,
                          capture_output=True, preexec_fn=lambda: os.umask(umask), check=False)
    assert done.returncode == 0, done.stderr
    made = path.read_bytes(), path.stat().st_mode & 0o777, done.stdout
    path.unlink()
    return made


@pytest.mark.parametrize("name", DEEDS)
def test_a_file_does_not_know_where_and_when_it_was_made(name, tmp_path):
    words = DEEDS[name]
    first, _, _ = make(words, tmp_path / "a" / name, environment(tmp_path))
    count = 0
    for zone in ZONES:
        for number, language in enumerate(LANGUAGES):
            home, umask = ("home", "elsewhere")[number % 2], (0o022, 0o077)[number // 2]
            again, mode, _ = make(words, tmp_path / ("b%d" % number) / name,
                                  environment(tmp_path, zone, language, home), umask, number % 2)
            assert again == first, (zone, language)
            assert mode == 0o666 & ~umask
            count += 1
    print("{}: the same in {} places".format(name, count))


@pytest.mark.parametrize("name", SLOW_DEEDS)
def test_a_plate_with_a_map_does_not_know_either(name, tmp_path):
    first, _, said = make(SLOW_DEEDS[name], tmp_path / "a" / name, environment(tmp_path))
    again, _, said_again = make(SLOW_DEEDS[name], tmp_path / "b" / name,
                                environment(tmp_path, ZONES[1], "tr_TR.UTF-8", "elsewhere"),
                                relative=True)
    assert again == first
    assert said_again.replace(b"/b/", b"/a/") == said or said.count(b"\n") == said_again.count(b"\n")


@pytest.mark.parametrize("name", ["figure.png", "blink.pdf", "blink.svg"])
@pytest.mark.parametrize("epoch", ["0", str(int(time.time())), "none"])
def test_a_source_date_changes_nothing_since_no_file_holds_a_date(name, epoch, tmp_path):
    first, _, _ = make(DEEDS[name], tmp_path / "a" / name, environment(tmp_path))
    env = dict(environment(tmp_path), SOURCE_DATE_EPOCH=epoch)
    assert make(DEEDS[name], tmp_path / "a" / name, env)[0] == first


def test_the_locales_are_there():
    """Canary: without them every comparison above would be C with C."""
    for language in LANGUAGES[2:]:
        assert (pathlib.Path(LOCALES) / language).is_dir()


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("words", [["probe", "calcite", "--json"], ["reading", "topaz_f"],
                                   ["species", "quartz", "--json"], ["blink", "quartz"]])
def test_what_is_printed_is_the_same_in_every_language(words, language, tmp_path):
    printed = [subprocess.run([PROGRAM, *words], env=environment(tmp_path, language=tongue),
                              capture_output=True, check=True, timeout=60).stdout
               for tongue in ("C", language)]
    assert printed[0] == printed[1]
