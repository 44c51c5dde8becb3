# SPDX-License-Identifier: MIT
"""What the shells are told of the commands, options, species and closed choices."""
import os
import pathlib
import pty
import shutil
import subprocess
import time

import pytest

from conftest import command_names

BASH = """
source "$1"; shift
COMP_WORDS=("$@")
COMP_CWORD=$(($# - 1))
_interfig interfig "${COMP_WORDS[COMP_CWORD]}" "${COMP_WORDS[COMP_CWORD - 1]}"
printf '%s\\n' "${COMPREPLY[@]}"
"""

# An interactive zsh whose compadd writes down what matches before it goes on: only its line editor
# can complete. Words that are asked for by name (-O, -A, -D) are zsh's own sieving, not an offer.
ZSH = """
PROMPT= RPROMPT= LISTMAX=0
autoload -Uz compinit && compinit -u -D
source "$IFIG_SCRIPT"
compadd() {
    if [[ " ${(j: :)@[1,(i)(-|--)]} " == *\\ -[^\\ ]#[OAD][^\\ ]#\\ * ]]; then
        builtin compadd "$@"
        return
    fi
    local -a ifig_hits
    builtin compadd -O ifig_hits "$@"
    print -rl -- "$IPREFIX"$^ifig_hits >> "$IFIG_OFFERED"
    builtin compadd "$@"
}
ifig_done() { print END >> "$IFIG_OFFERED" }
comppostfuncs=(ifig_done)
bindkey '^I' complete-word
unsetopt auto_list list_beep always_last_prompt
setopt extended_glob
print READY >> "$IFIG_OFFERED"
"""


def zsh_offers(program, script, folder, line):
    """What zsh offers at the end of a line."""
    offered, setup = folder / "offered", folder / "setup.zsh"
    offered.touch()
    setup.write_text(ZSH, encoding="utf-8")
    ours, theirs = pty.openpty()
    environment = {"PATH": os.environ["PATH"], "HOME": str(folder), "TERM": "dumb", "LC_ALL": "C.UTF-8",
                   "IFIG_SCRIPT": str(script), "IFIG_OFFERED": str(offered)}
    shell = subprocess.Popen([program, "-f", "-i"], stdin=theirs, stdout=theirs, stderr=theirs,
                             cwd=folder, env=environment, start_new_session=True)
    os.close(theirs)

    def wait_for(word):
        for _ in range(1200):
            lines = offered.read_text(encoding="utf-8").splitlines()
            if word in lines:
                return lines
            assert shell.poll() is None, os.read(ours, 10000)
            time.sleep(0.05)
        raise AssertionError(f"zsh never came to {word}: {os.read(ours, 10000)}")

    try:
        os.write(ours, f"source {setup}\n".encode())
        wait_for("READY")
        os.write(ours, line.encode() + b"\t")
        return {text for text in wait_for("END") if text not in ("READY", "END")}
    finally:
        shell.kill()
        shell.wait()
        os.close(ours)


CASES = [
    (["fig"], {"figure"}, {"turn"}),
    ([""], {"figure", "completion", "help", "--version"}, {"quartz"}),
    (["figure", "--th"], {"--thickness", "--threads"}, {"--at"}),
    (["probe", "-"], {"--at", "--json", "--help"}, {"--size"}),
    (["figure", "rub"], {"ruby", "rubellite"}, {"quartz"}),
    (["species", "qua"], {"quartz", "quartzite"}, {"ruby"}),
    (["figure", "quartz", "--view", ""], {"c", "optic-axis", "x"}, {"quartz"}),
    (["figure", "quartz", "--lamp", "s"], {"sodium"}, {"daylight"}),
    (["figure", "--depth", ""], {"8", "16"}, {"quartz"}),
    (["figure", "quartz", "-o", "be"], {"bench.png"}, {"beryl"}),
    (["figure", "quartz", "--output", ""], {"bench.png"}, {"quartz"}),
    (["page", ""], {"bench.png"}, {"quartz"}),
    (["help", "ex"], {"exit-codes", "exercise"}, {"figure"}),
    (["completion", ""], {"bash", "zsh", "fish"}, {"figure"}),
    (["figure", "quartz", "--lens", ""], {"sphere", "objective:0.85"}, {"quartz"}),
    (["figure", "quartz", "--polariser", "l"], {"left"}, {"right", "quartz"}),
    (["figure", "corundum", "--colour", "ru"], {"ruby"}, {"rubellite", "corundum"}),
    (["chart", "--species", "rub"], {"ruby", "rubellite"}, {"quartz", "all"}),
    (["chart", "--species", "quartz,rub"], {"quartz,ruby"}, {"ruby", "quartz,quartz"}),
    (["exercise", "--from", "quartz,topaz_f,bia"], {"quartz,topaz_f,biaxial"}, {"biaxial"}),
    (["chart", "--strips", "no"], {"none"}, {"quartz"}),
    (["narrow", "--thickness", "3", "--len"], {"--lens"}, {"--length"}),
    (["figure", "--thickness", ""], set(), {"quartz", "--help", "bench.png"}),
]


def needed(shell):
    path = shutil.which(shell)
    if path is None:
        pytest.skip(f"{shell} is not installed: .ci/setup test installs it")
    return path


@pytest.fixture
def script(interfig, tmp_path):
    """Write what the program prints for a shell to a file, beside one that may be completed."""

    def write(shell):
        answer = interfig("completion", shell)
        assert answer.status == 0 and answer.err == ""
        path = tmp_path / "script"
        path.write_bytes(answer.out)
        (tmp_path / "bench.png").touch()
        return path

    return write


def run(*words, **options):
    done = subprocess.run([str(word) for word in words], capture_output=True, text=True,
                          timeout=60, **options)
    assert done.returncode == 0 and done.stderr == "", done
    return done.stdout


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_a_script_is_sound_to_its_shell(script, shell):
    program = needed(shell)
    run(program, "-n", script(shell))


@pytest.mark.parametrize("words, offered, withheld", CASES)
def test_bash_completes(script, tmp_path, words, offered, withheld):
    given = set(run(needed("bash"), "--norc", "-c", BASH, "bash", script("bash"), "interfig",
                    *words, cwd=tmp_path).split())
    assert offered <= given, given
    assert not withheld & given, given
    assert offered or not given


@pytest.mark.parametrize("words, offered, withheld", CASES)
def test_fish_completes(script, tmp_path, words, offered, withheld):
    line = "interfig " + " ".join(words)
    listed = run(needed("fish"), "--no-config", "-c",
                 'source $argv[1]; complete -C "$argv[2]"', script("fish"), line, cwd=tmp_path,
                 env={**os.environ, "HOME": str(tmp_path)})
    given = {text.split("\t")[0] for text in listed.splitlines()}
    # Its own guesses of file names stand in for a value that is free; options need a dash there.
    wanted = {word for word in offered if not word.startswith("--") or words[-1].startswith("-")}
    assert wanted <= given, given
    assert not (withheld - {"bench.png"}) & given, given


@pytest.mark.parametrize("words, offered, withheld", CASES)
def test_zsh_completes(script, tmp_path, words, offered, withheld):
    given = zsh_offers(needed("zsh"), script("zsh"), tmp_path, "interfig " + " ".join(words))
    wanted = {word for word in offered if not word.startswith("-") or words[-1].startswith("-")}
    assert wanted <= given, given
    assert not withheld & given, given


def test_every_command_and_every_option_of_the_help_is_in_each_script(interfig, script):
    names = command_names()
    for shell, form in (("bash", " --{}"), ("zsh", "--{}["), ("fish", " -l {} ")):
        text = script(shell).read_text(encoding="utf-8")
        for name in names:
            assert name in text
            for line in interfig(name, "--help").out.decode().splitlines():
                words = line.split()
                if line.startswith("  ") and any(word.startswith("--") for word in words[:2]):
                    option = next(word for word in words if word.startswith("--")).strip(",")
                    if not words[0].startswith("interfig"):
                        assert form.format(option[2:]) in text, (shell, name, option)


def test_another_shell_is_refused(refused):
    assert "bash, zsh and fish" in refused(64, "completion", "tcsh")
    assert "bash, zsh and fish" in refused(64, "completion")


@pytest.mark.parametrize("shell, name", [("bash", "interfig"), ("zsh", "_interfig"),
                                         ("fish", "interfig.fish")])
def test_what_is_installed_is_what_the_program_prints(script, shell, name):
    built = pathlib.Path(os.environ["IFIG_MANUAL"]) / name
    assert built.read_bytes() == script(shell).read_bytes()
