# SPDX-License-Identifier: MIT
"""The libraries still serve the programs that were linked against the last tag."""
import os
import re
import subprocess

import pytest

from conftest import MESON, ROOT, needed, run


@pytest.fixture(scope="module")
def last_tag():
    described = subprocess.run([needed("git"), "-C", ROOT, "describe", "--tags", "--abbrev=0",
                                "--match", "v*"], capture_output=True, text=True)
    if described.returncode != 0:
        pytest.skip("no tag to compare with yet")
    return described.stdout.strip()


@pytest.fixture(scope="module")
def two_builds(last_tag, tmp_path_factory):
    """The libraries of the tag and of today, both with what abidiff reads types from."""
    needed("abidiff")
    folder = tmp_path_factory.mktemp("abi")
    (folder / "tag").mkdir()
    run("git", "-C", ROOT, "archive", "-o", folder / "tag.tar", last_tag)
    run("tar", "-xf", folder / "tag.tar", "-C", folder / "tag")
    sides = {}
    for name, source in (("old", folder / "tag"), ("new", ROOT)):
        build = folder / name
        run(*MESON, "setup", build, source, "-Ddebug=true", "-Doptimization=0")
        targets = run("ninja", "-C", build, "-t", "targets", "all").decode("ascii")
        run("ninja", "-C", build, *re.findall(r"^(lib/\S*libinterfig-\w+\.so): ", targets, flags=re.M))
        libraries = {path.name: path for path in build.glob("lib/**/libinterfig-*.so")}
        sides[name] = (source / "include" / "interfig", libraries)
    return sides


def test_no_interface_was_broken_since_the_last_tag(two_builds, last_tag):
    (old_headers, old), (new_headers, new) = two_builds["old"], two_builds["new"]
    assert old and set(old) <= set(new)
    for name, library in old.items():
        if os.readlink(library) != os.readlink(new[name]):
            continue  # a new generation promises nothing to the old one's programs
        done = subprocess.run(["abidiff", "--headers-dir1", old_headers, "--headers-dir2",
                               new_headers, library, new[name]], capture_output=True, text=True)
        # Bit 2 is any change, bit 3 an incompatible one; bits 0 and 1 are trouble of the tool.
        assert done.returncode & 0b1011 == 0, f"since {last_tag}:\n{done.stdout}{done.stderr}"
