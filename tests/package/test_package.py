# SPDX-License-Identifier: MIT
"""Debian packages: built, found clean by lintian, installed into a root of their own, run, removed.

Asks for root, because dpkg does, and for what .ci/setup package installs; skipped without."""
import os
import pathlib
import shutil
import subprocess

import pytest

ROOT = pathlib.Path(os.environ["IFIG_ROOT"])


def run(*words, **environment):
    done = subprocess.run([str(word) for word in words], capture_output=True, text=True,
                          env={**os.environ, **environment}, timeout=900)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def packages(tmp_path_factory):
    if os.geteuid() != 0:
        pytest.skip("only root may install packages")
    for program in ("dpkg", "dh", "lintian", "git"):
        if shutil.which(program) is None:
            pytest.skip(f"{program} is not installed: .ci/setup package installs it")
    if not (ROOT / ".git").exists():
        pytest.skip("not a git checkout")
    folder = tmp_path_factory.mktemp("packages")
    run(ROOT / ".ci" / "package", folder)
    return sorted(path for path in folder.glob("*.deb") if "-dbgsym" not in path.name)


def test_packages_install_run_and_leave_nothing_behind(packages, tmp_path):
    for folder in ("var/lib/dpkg/info", "var/lib/dpkg/updates", "var/lib/dpkg/triggers"):
        (tmp_path / folder).mkdir(parents=True)
    (tmp_path / "var/lib/dpkg/status").touch()
    dpkg = ("dpkg", f"--root={tmp_path}", "--force-depends", "--force-script-chrootless")
    run(*dpkg, "--install", *packages)
    libraries = next(tmp_path.rglob("libinterfig-optics.so.*")).parent
    picture = tmp_path / "picture.png"
    run(tmp_path / "usr/bin/interfig", "figure", "quartz", "--size", "64", "-o", picture,
        LD_LIBRARY_PATH=str(libraries))
    assert picture.read_bytes().startswith(b"\x89PNG")
    names = run(*dpkg[:2], "--get-selections").split()[::2]
    assert len(names) == len(packages) >= 4
    run(*dpkg, "--purge", *names)
    left = [path for path in (tmp_path / "usr").rglob("*") if not path.is_dir()]
    assert not left, left


def test_each_library_is_a_package_of_its_own(packages):
    names = {path.name.split("_")[0] for path in packages}
    assert {"interfig", "libinterfig-dev", "libinterfig-optics0", "libinterfig-files0",
            "libinterfig-pages0"} <= names
    optics = next(path for path in packages if path.name.startswith("libinterfig-optics"))
    needs = run("dpkg-deb", "--field", optics, "Depends").strip()
    assert needs.startswith("libc6 (") and "," not in needs, needs
