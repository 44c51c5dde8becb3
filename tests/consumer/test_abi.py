# SPDX-License-Identifier: MIT
"""The libraries still serve the programs that were linked against the last release.

What that release promised stands in tests/consumer/abi, one description a library."""
import re
import shutil
import subprocess
import sys

import pytest

from conftest import BUILD, HERE, LIBRARIES, ROOT, needed

sys.path.insert(0, str(HERE / "abi"))
import describe  # noqa: E402

NAMES = [library.removeprefix("interfig-") for library in LIBRARIES]
RELEASED = {name: HERE / "abi" / f"libinterfig-{name}.xml" for name in NAMES}


@pytest.fixture(autouse=True)
def tools():
    for program in ("abidw", "abidiff", "cc", "nm", "readelf"):
        needed(program)


def described(name, folder, include=ROOT / "include", compiler="cc"):
    return describe.describe(describe.built_libraries(BUILD)[name], include, folder, compiler)


def soname(description):
    return re.search(r"soname='([^']+)'", description.read_text(encoding="utf-8")).group(1)


def broken(old, new):
    """What abidiff has to say of an interface that serves the old one's programs no longer, or ""."""
    done = subprocess.run(["abidiff", "--no-added-syms", old, new], capture_output=True, text=True)
    assert done.returncode & 3 == 0, done.stdout + done.stderr  # 1, 2: it could not compare at all
    return done.stdout if done.returncode else ""


def test_every_library_has_a_description():
    assert sorted(path.name for path in (HERE / "abi").glob("*.xml")) == \
        sorted(path.name for path in RELEASED.values())


@pytest.mark.parametrize("name", NAMES)
def test_no_interface_was_broken_since_the_last_release(name, tmp_path):
    new = described(name, tmp_path)
    if soname(RELEASED[name]) == soname(new):  # a new generation promises nothing to old programs
        said = broken(RELEASED[name], new)
        assert not said, said + "\nEither mend that, or raise soversion in lib/meson.build."


def test_another_compiler_describes_the_same_interface(tmp_path):
    assert not broken(RELEASED["optics"], described("optics", tmp_path, compiler=needed("clang")))


# Changes to a public header: the file, the text that is replaced, by what, whether that breaks.
CHANGES = {
    "a field added": ("figure.h", "    int has_colour; ", "    int has_more; int has_colour; ", True),
    "fields exchanged": ("wave.h", "double re; /**< real part */\n    double im; ",
                         "double im;\n    double re; ", True),
    "another type of field": ("crystal.h", "    double stage_deg; ", "    float stage_deg; ", True),
    "a parameter added": ("status.h", "ifig_version(void)", "ifig_version(int which)", True),
    "a result changed": ("figure.h", "IFIG_API uint32_t ifig_figure_band_rows",
                         "IFIG_API int64_t ifig_figure_band_rows", True),
    "a value moved": ("status.h", "    IFIG_ERROR_ARGUMENT, ",
                      "    IFIG_ERROR_NEW, IFIG_ERROR_ARGUMENT, ", True),
    "a value appended": ("crystal.h", "    IFIG_VIEW_Z  ", "    IFIG_VIEW_W = 9, IFIG_VIEW_Z = 8 ",
                         False),
    "a comment": ("status.h", "/** What became of a call. */", "", False),
}


@pytest.mark.parametrize("change", CHANGES)
def test_a_change_that_breaks_is_seen_and_no_other(change, tmp_path):
    header, before, after, breaks = CHANGES[change]
    include = tmp_path / "include"
    shutil.copytree(ROOT / "include" / "interfig", include / "interfig")
    text = (include / "interfig" / header).read_text(encoding="utf-8")
    assert text.count(before) == 1, "the planted change no longer fits the header"
    (include / "interfig" / header).write_text(text.replace(before, after), encoding="utf-8")
    (tmp_path / "now").mkdir()
    (tmp_path / "then").mkdir()
    said = broken(described("optics", tmp_path / "now"),
                  described("optics", tmp_path / "then", include))
    assert bool(said) == breaks, said


def test_a_function_that_is_gone_is_seen(tmp_path):
    new = described("files", tmp_path)
    text = new.read_text(encoding="utf-8")
    assert "ifig_text_free" in text
    more = tmp_path / "more.xml"
    more.write_text(text.replace("ifig_text_free", "ifig_text_burn"), encoding="utf-8")
    assert broken(more, new)
