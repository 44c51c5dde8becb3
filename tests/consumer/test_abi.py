# SPDX-License-Identifier: MIT
"""The libraries still serve the programs that were linked against the last tag."""
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
    for side, source in (("old", folder / "tag"), ("new", ROOT)):
        build = folder / side
        run(*MESON, "setup", build, source, "-Ddebug=true", "-Doptimization=0", "-Dwerror=false")
        targets = run("ninja", "-C", build, "-t", "targets", "all").decode("ascii")
        found = re.findall(r"^(lib/\S*libinterfig-(\w+)\.so\.(\d+)\S*): ", targets, flags=re.M)
        found = [library for library in found if not library[0].endswith(".symbols")]
        assert found, "no library is built"
        run("ninja", "-C", build, *(path for path, _, _ in found))
        libraries = {(name, generation): build / path for path, name, generation in found}
        sides[side] = (source / "include" / "interfig", libraries)
    return sides


def test_no_interface_was_broken_since_the_last_tag(two_builds, last_tag):
    (old_headers, old), (new_headers, new) = two_builds["old"], two_builds["new"]
    assert {name for name, _ in old} <= {name for name, _ in new}
    for name in set(old) & set(new):  # a new generation promises nothing to the old one's programs
        done = subprocess.run(["abidiff", "--no-added-syms", "--headers-dir1", old_headers,
                               "--headers-dir2", new_headers, old[name], new[name]],
                              capture_output=True, text=True)
        assert done.returncode == 0, f"since {last_tag}:\n{done.stdout}{done.stderr}"
