#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Describe the binary interface of each library for abidiff: a step of every release.

    tests/consumer/abi/describe.py [BUILD [FOLDER]]    (build, tests/consumer/abi)

The names, versions and SONAME are those that the built library exports. The types are those that a
compiler makes of the public headers alone, in an empty function for each name: so the description
holds no structure of the libraries' own and no path, and a build needs no debugging information."""
import pathlib
import re
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[2]
sys.path.insert(0, str(ROOT / "tests" / "misuse"))
from public_interface import Interface  # noqa: E402


def output(*words, **options):
    return subprocess.run([str(word) for word in words], check=True, capture_output=True, text=True,
                          **options).stdout


def built_libraries(build):
    """The libraries of a build by name: "optics" -> path."""
    found = {re.fullmatch(r"libinterfig-(\w+)\.so\.\d+", path.name): path
             for path in sorted((build / "lib").rglob("libinterfig-*.so.*"))}
    return {match.group(1): path for match, path in found.items() if match}


def soname(library):
    return re.search(r"\(SONAME\).*\[(.+)\]", output("readelf", "-d", library)).group(1)


def exports(library):
    """(name, version) of every function that a library exports."""
    listed = output("nm", "-D", "--defined-only", "--with-symbol-versions", library)
    return re.findall(r"^\S+ T (\w+)@@(\w+)$", listed, flags=re.M)


def version_script(named):
    versions = sorted({version for _, version in named})
    return "\n".join(
        version + " {\n  global:\n" + "".join(f"    {name};\n" for name, at in named if at == version)
        + ("  local: *;\n" if version == versions[0] else "") + "};" for version in versions) + "\n"


def empty_functions(interface, names):
    lines = ["#include <interfig/interfig.h>"]
    for function in interface.functions:
        if function.name in names:
            taken = ", ".join(f"{p.type} {p.name}{p.length}" for p in function.parameters) or "void"
            lines.append(f"{function.result} {function.name}({taken}) {{ __builtin_trap(); }}")
    return "\n".join(lines) + "\n"


def describe(library, include, folder, compiler="cc"):
    """The description of one library, written by way of a scratch folder: its path."""
    named = exports(library)
    interface = Interface(sorted((include / "interfig").glob("*.h")))
    undeclared = {name for name, _ in named} - {function.name for function in interface.functions}
    if undeclared:
        raise ValueError(f"{library} exports what no public header declares: {sorted(undeclared)}")
    name = soname(library)
    (folder / "names.map").write_text(version_script(named), encoding="ascii")
    (folder / "interface.c").write_text(empty_functions(interface, dict(named)), encoding="utf-8")
    output(compiler, "-std=c11", "-w", "-g", "-O0", "-fPIC", "-shared", "-I", include, "-o", name,
           "-Wl,-soname," + name, "-Wl,--version-script=names.map", "interface.c", cwd=folder)
    described = folder / (name + ".xml")
    output("abidw", "--no-show-locs", "--no-corpus-path", "--no-comp-dir-path", "--no-elf-needed",
           "--no-architecture", "--type-id-style", "hash", "--out-file", described, name, cwd=folder)
    return described


def main():
    build = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else ROOT / "build")
    target = pathlib.Path(sys.argv[2] if len(sys.argv) > 2 else HERE)
    for name, library in built_libraries(build).items():
        with tempfile.TemporaryDirectory() as folder:
            text = describe(library, ROOT / "include", pathlib.Path(folder)).read_text("utf-8")
        (target / f"libinterfig-{name}.xml").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
