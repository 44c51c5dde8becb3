#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""The house rules that a compiler does not check: the order of the rooms, budgets of length, symbols,
and a source in every row of data. Run by Meson with the project's root and the built libraries."""
import csv
import os
import pathlib
import re
import shutil
import subprocess

import pytest

ROOT = pathlib.Path(os.environ["IFIG_ROOT"])
LIBRARIES = [pathlib.Path(path) for path in os.environ["IFIG_LIBRARIES"].split(os.pathsep)]

ROOMS = ["base", "species", "crystal", "wave", "instrument", "light", "figure",
         "reading", "polariscope", "advice", "image", "page"]
PUBLIC_HEADERS = sorted((ROOT / "include" / "interfig").glob("*.h"))
SONAME = re.compile(r"\.so\.(\d+)")
LONGEST_FILE = 400
LONGEST_FUNCTION = 60
LONGEST_LINE = 100
MOST_PARAMETERS = 9  # the inner loops of figure/; everywhere else 6, see below

C_FILES = sorted(path for folder in ("lib", "include", "cli", "tests")
                 for path in (ROOT / folder).rglob("*.[ch]"))


def text_of(path):
    return path.read_text(encoding="utf-8")


def without_comments(text):
    return re.sub(r"/\*.*?\*/|//[^\n]*", lambda m: "\n" * m.group().count("\n"), text, flags=re.S)


def functions(path):
    """(name, first line, number of code lines, parameters) of each function in house form."""
    lines = without_comments(text_of(path)).split("\n")
    start = None
    for number, line in enumerate(lines):
        if line == "{":
            start = number
        elif line == "}" and start is not None:
            head = start - 1
            while head > 0 and lines[head - 1].strip() and lines[head - 1][0] not in "}#;/":
                head -= 1
            signature = " ".join(lines[head:start])
            name = re.search(r"(\w+)\s*\(", signature)
            parameters = signature[signature.find("(") + 1:signature.rfind(")")]
            depth, count = 0, 1
            for letter in parameters:
                depth += letter in "([" 
                depth -= letter in ")]"
                count += letter == "," and depth == 0
            code = sum(1 for body in lines[start + 1:number] if body.strip())
            yield name.group(1) if name else "?", start, code, count
            start = None


@pytest.mark.parametrize("room", ROOMS)
def test_a_room_includes_only_rooms_before_it(room):
    later = {name for name in ROOMS[ROOMS.index(room) + 1:]}
    for path in (ROOT / "lib" / room).glob("*.[ch]"):
        for header in re.findall(r'#include "([^"]+)"', text_of(path)):
            assert ".." not in header, f"{path}: {header}"
            name = pathlib.Path(header).stem
            assert name not in later, f"{path} includes {header}, a room after its own"


def test_public_headers_include_only_public_headers():
    for path in (ROOT / "include" / "interfig").glob("*.h"):
        for header in re.findall(r'#include "([^"]+)"', text_of(path)):
            assert header.startswith("interfig/"), f"{path}: {header}"


def test_the_program_uses_public_headers_only():
    for path in (ROOT / "cli").glob("*.[ch]"):
        for header in re.findall(r'#include "([^"]+)"', text_of(path)):
            own = (ROOT / "cli" / header).exists()
            assert own or header.startswith("interfig/"), f"{path}: {header}"


def test_files_are_short():
    for path in C_FILES + sorted((ROOT / "lib").rglob("*.py")):
        length = text_of(path).count("\n")
        assert length <= LONGEST_FILE, f"{path} has {length} lines"


def test_lines_are_short():
    for path in C_FILES:
        for number, line in enumerate(text_of(path).split("\n"), 1):
            assert len(line) <= LONGEST_LINE, f"{path}:{number} has {len(line)} columns"


def test_functions_fit_a_screen():
    for path in C_FILES:
        for name, line, code, _ in functions(path):
            assert code <= LONGEST_FUNCTION, f"{path}:{line}: {name} has {code} lines of code"


def test_functions_take_few_parameters():
    for path in C_FILES:
        if "tests" in path.parts:
            continue
        most = MOST_PARAMETERS if path.parent.name == "figure" else 8
        for name, line, _, count in functions(path):
            assert count <= most, f"{path}:{line}: {name} takes {count} parameters"


def test_each_file_states_its_licence():
    for path in C_FILES:
        assert text_of(path).startswith("/* SPDX-License-Identifier: MIT */"), path


def symbols(library):
    listing = subprocess.run(["nm", "-D", "--defined-only", library], check=True,
                             capture_output=True, text=True).stdout
    return [line.split() for line in listing.splitlines()]


@pytest.mark.parametrize("library", LIBRARIES, ids=lambda path: path.name)
def test_exports_carry_the_prefix(library):
    versions = [name for _, kind, name in symbols(library) if kind == "A"]
    assert versions == ["INTERFIG_" + SONAME.search(library.name).group(1)], versions
    for _, kind, name in symbols(library):
        if kind != "A":
            assert name.startswith("ifig_"), f"{library.name} exports {name}"
            assert name.endswith("@@" + versions[0]), f"{name} has another version"
            assert kind in "TiR", f"{library.name}: {name} is of kind {kind}"


def declared(header):
    """The functions that a public header declares."""
    text = without_comments(text_of(header))
    return set(re.findall(r"\bIFIG_API\b[^;{]*?\b(ifig_\w+)\(", text))


def test_what_is_exported_is_declared_and_what_is_declared_is_exported():
    exported = {name.split("@")[0] for library in LIBRARIES for _, kind, name in symbols(library)
                if kind != "A"}
    promised = {name: header.name for header in PUBLIC_HEADERS for name in declared(header)}
    assert exported <= set(promised), exported - set(promised)
    missing = set(promised) - exported
    assert not missing, missing


def test_public_headers_keep_the_linkage_of_c():
    for header in PUBLIC_HEADERS:
        if header.name in ("export.h", "interfig.h"):  # declare nothing
            continue
        text = without_comments(text_of(header))
        assert re.findall(r"^IFIG_C_(?:BEGIN|END)$", text, flags=re.M) == \
            ["IFIG_C_BEGIN", "IFIG_C_END"], header
        assert text.rindex("#include") < text.index("IFIG_C_BEGIN") < text.index("IFIG_C_END"), header


def test_every_public_header_is_installed_and_included_by_the_one():
    listed = set(re.findall(r"'(\w+\.h)'", text_of(ROOT / "include" / "interfig" / "meson.build")))
    names = {header.name for header in PUBLIC_HEADERS}
    assert listed == names
    one = set(re.findall(r'#include "interfig/(\w+\.h)"',
                         text_of(ROOT / "include" / "interfig" / "interfig.h")))
    assert one == names - {"interfig.h", "export.h"}


def test_the_optics_need_libm_and_threads_only():
    optics = next(path for path in LIBRARIES if "optics" in path.name)
    listing = subprocess.run(["readelf", "-d", optics], check=True, capture_output=True,
                             text=True).stdout
    needed = set(re.findall(r"NEEDED.*\[(.*?)\]", listing))
    assert needed <= {"libm.so.6", "libc.so.6", "libpthread.so.0", "ld-linux-x86-64.so.2"}, needed


def test_the_libraries_have_no_writable_data():
    for library in LIBRARIES:
        listing = subprocess.run(["nm", "--defined-only", library], capture_output=True,
                                 text=True).stdout
        own = [line for line in listing.splitlines()
               if re.search(r" [bBdD] ", line)
               and not re.search(r" (completed\.0|__dso_handle|_DYNAMIC|_GLOBAL_OFFSET_TABLE_"
                                 r"|__TMC_END__|__frame_dummy.*|__do_global.*|__cpu_model.*"
                                 r"|__cpu_features.*)$", line)]
        relocated = [line for line in own if " d " in line]  # const tables of pointers: .data.rel.ro
        assert set(own) == set(relocated), own


def test_the_library_neither_prints_nor_exits_nor_reads_the_environment():
    banned = re.compile(r"\b(printf|fprintf|puts|putchar|perror|exit|abort|getenv|setlocale)\s*\(")
    for path in (ROOT / "lib").rglob("*.c"):
        found = banned.search(without_comments(text_of(path)))
        assert not found, f"{path}: {found.group()}"


@pytest.mark.parametrize("table", ["species", "dispersion", "rotation", "absorption",
                                   "stress_optic"])
def test_every_row_of_data_names_its_source(table):
    path = ROOT / "lib" / "species" / f"{table}.csv"
    rows = list(csv.DictReader(line for line in text_of(path).splitlines(True)
                               if not line.startswith("#")))
    assert rows
    for row in rows:
        assert (row.get("source") or row.get("reference")), f"{table}.csv: {row}"


def test_the_top_level_is_as_agreed():
    if shutil.which("git") is None:
        pytest.skip("git is not installed")
    listed = subprocess.run(["git", "-C", ROOT, "ls-files"], capture_output=True, text=True)
    if listed.returncode != 0:
        pytest.skip("not a git checkout")
    top = {name.split("/")[0] for name in listed.stdout.splitlines()}
    agreed = {"README.md", "DEVELOPERS.md", "meson.build", "lib", "include", "cli", "tests",
              "figures", "LICENSE"}
    assert {name for name in top if not name.startswith(".")} <= agreed
