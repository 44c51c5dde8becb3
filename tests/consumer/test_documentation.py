# SPDX-License-Identifier: MIT
"""The pages that doxygen makes of the public headers and the guide: no symbol without comment."""
import re
import subprocess
import sys

import pytest

from conftest import ROOT, needed

sys.path.insert(0, str(ROOT / "tests" / "misuse"))
from public_interface import Interface  # noqa: E402

HEADERS = sorted((ROOT / "include" / "interfig").glob("*.h"))
NUMBERS = ("double", "int", "unsigned", "size_t", "uint32_t")


def test_every_public_symbol_is_documented_and_no_page_is_broken(tmp_path):
    template = (ROOT / "lib" / "package" / "Doxyfile.in").read_text(encoding="utf-8")
    values = {"ROOT": str(ROOT), "OUTPUT": str(tmp_path), "VERSION": "test"}
    (tmp_path / "Doxyfile").write_text(re.sub(r"@(\w+)@", lambda m: values[m.group(1)], template))
    done = subprocess.run([needed("doxygen"), "Doxyfile"], cwd=tmp_path, capture_output=True,
                          text=True, timeout=120)
    complaints = [line for line in done.stderr.splitlines()
                  if re.search(r": (error|warning): ", line)]
    assert not complaints, "\n".join(complaints)
    assert done.returncode == 0, done.stderr
    guide = (tmp_path / "html" / "index.html").read_text(encoding="utf-8")
    for promise in ("ten minutes", "still_wanted", "make_species", "print_line", "write_png"):
        assert promise in guide, f"the guide's page has lost its programs: {promise}"


def comments_of_functions(header):
    """(function, the words of its comment) for each function of a header."""
    text = header.read_text(encoding="utf-8")
    found = {re.search(r"(\w+)\(", declaration).group(1): " ".join(comment.replace("\n *", " ").split())
             for comment, declaration in
             re.findall(r"/\*\*((?:(?!\*/).)*)\*/\s*IFIG_API ([^;]*);", text, flags=re.S)}
    for function in Interface([header]).functions:
        yield function, found[function.name]


def wanting(function, comment):
    """What a newcomer would still have to ask."""
    if function.result == "IfigStatus" and "@return" not in comment:
        yield "which statuses it returns"
    for parameter in function.parameters:
        is_number = parameter.type in NUMBERS or parameter.length
        if is_number and not re.search(rf"\b{parameter.name}\b", comment):
            yield f"what {parameter.name} is: unit and range"
    if "*" in function.result and not re.search(r"[Ss]tatic|[Ll]ives|owns|owned|own\b", comment):
        yield "how long lives what it returns"
    has_pointer = any("*" in parameter.type for parameter in function.parameters)
    if function.result not in ("IfigStatus", "void") and has_pointer and "NULL" not in comment:
        yield "what NULL gives"


@pytest.mark.parametrize("header", HEADERS, ids=lambda header: header.name)
def test_a_newcomer_has_nothing_left_to_ask(header):
    questions = [f"{function.name}: {question}" for function, comment in comments_of_functions(header)
                 for question in wanting(function, comment)]
    assert not questions, "\n".join(questions)


@pytest.mark.parametrize("header", HEADERS, ids=lambda header: header.name)
def test_every_value_of_an_enumeration_says_what_it_stands_for(header):
    text = re.sub(r"/\*\*<.*?\*/", "@", header.read_text(encoding="utf-8"), flags=re.S)
    bare = [name for body in re.findall(r"typedef enum \w+ \{(.*?)\}", text, flags=re.S)
            for name, comment in re.findall(r"(IFIG_\w+)[^,@/\n]*,?\s*(@)?", body) if not comment]
    assert not bare


def test_a_comment_that_says_too_little_is_found():
    function = Interface([ROOT / "include" / "interfig" / "wave.h"]).functions[0]
    assert list(wanting(function, "")) == [
        "which statuses it returns", "what layer_count is: unit and range",
        "what n_outside is: unit and range", "what wavelength_nm is: unit and range",
        "what theta_deg is: unit and range", "what phi_deg is: unit and range"]
