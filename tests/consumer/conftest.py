# SPDX-License-Identifier: MIT
"""The build, installed into an empty folder, and what the program itself draws."""
import io
import os
import pathlib
import shlex
import shutil
import subprocess
from collections import namedtuple

import pytest
from PIL import Image

HERE = pathlib.Path(__file__).resolve().parent
ROOT = pathlib.Path(os.environ["IFIG_ROOT"])
BUILD = pathlib.Path(os.environ["IFIG_BUILD"])
LIBRARIES = os.environ["IFIG_PACKAGES"].split()
MESON = shlex.split(os.environ["IFIG_MESON"])

Place = namedtuple("Place", "prefix libraries program pkg_config")


def run(*words, cwd=None, **environment):
    """Run a command; its standard output as bytes. What it says is shown only where it fails."""
    done = subprocess.run([str(word) for word in words], cwd=cwd, stdin=subprocess.DEVNULL,
                          capture_output=True, env={**os.environ, **environment}, timeout=300)
    assert done.returncode == 0, (done.stdout + done.stderr).decode("utf-8", "replace")
    return done.stdout


def needed(program):
    """The path of a program that a test rests on; the test is skipped, and counted so, without."""
    path = shutil.which(program)
    if path is None:
        pytest.skip(f"{program} is not installed: .ci/setup test installs it")
    return path


@pytest.fixture(scope="session")
def staging(tmp_path_factory):
    """What `meson install` puts where, moved away from the prefix it was configured for."""
    root = tmp_path_factory.mktemp("staging")
    run(*MESON, "install", "-C", BUILD, "--no-rebuild", "--quiet", "--destdir", root)
    program = next(root.rglob("bin/interfig"))
    prefix = program.parent.parent
    packages = next(root.rglob("pkgconfig"))

    def pkg_config(*words):
        listed = run(needed("pkg-config"), "--define-variable=prefix=" + str(prefix), *words,
                     PKG_CONFIG_PATH=str(packages))
        return shlex.split(listed.decode("utf-8"))

    return Place(prefix, packages.parent, program, pkg_config)


def two_figures_by(program, staging, folder):
    """The two figures as a build of the program draws them: raw RGB, one after the other."""
    figures = (["quartz", "--thickness", "3"],
               ["muscovite", "--thickness", "0.1", "--tilt", "20,30", "--stage", "45"])
    rgb = b""
    for words in figures:
        picture = run(program, "figure", *words, "--size", "128", "-o", "-", cwd=folder,
                      LD_LIBRARY_PATH=str(staging.libraries))
        rgb += Image.open(io.BytesIO(picture)).convert("RGB").tobytes()
    assert len(rgb) == 2 * 128 * 128 * 3 and len(set(rgb)) > 100
    return rgb


@pytest.fixture(scope="session")
def own_pixels(staging, tmp_path_factory):
    """What every stranger must draw: the installed program's own two figures."""
    return two_figures_by(staging.program, staging, tmp_path_factory.mktemp("own"))


def pytest_sessionfinish(session, exitstatus):
    """A file with a skip counts as skipped for Meson, never as passed."""
    report = session.config.pluginmanager.get_plugin("terminalreporter")
    if exitstatus == 0 and report is not None and report.stats.get("skipped"):
        session.exitstatus = 77
