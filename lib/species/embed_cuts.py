#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Check the usual cuts and write them as one C file.

    embed_cuts.py cuts.csv species.csv -o cuts_table.c

An error reads file:line: what is wrong, and the status is 1."""
import argparse
import json
import math
import sys

sys.dont_write_bytecode = True  # nothing is left in the folder of the sources
from embed import SPECIES_COLUMNS  # noqa: E402
from embed_rows import errors, read_rows  # noqa: E402

CUT_COLUMNS = "species_keys,name,normal,lean_deg,toward,why,source".split(",")
AXES = "XYZ"
MOST_CUTS = 4  # IFIG_HUNT_CUTS


def direction(row):
    """The table's normal in X, Y, Z."""
    row.word("normal", AXES)
    row.word("toward", ["", *AXES])
    lean = row.number("lean_deg", 0, 90)
    normal, toward = row.text("normal"), row.text("toward")
    if math.isnan(lean) != (toward == "") or normal == toward:
        row.fail("lean_deg and toward go together, toward another axis than normal")
        return [0.0, 0.0, 0.0]
    lean = 0.0 if toward == "" else math.radians(lean)
    return [math.cos(lean) if axis == normal else math.sin(lean) if axis == toward else 0.0
            for axis in AXES]


def read_cuts(rows, characters):
    cuts, counts = [], {}
    for row in rows:
        along = direction(row)
        if not row.text("name").startswith("table "):
            row.fail("name must begin with 'table'")
        for column in ("why", "source"):
            if row.text(column) == "":
                row.fail(f"{column} is empty")
        for key in row.text("species_keys").split(";"):
            if characters.get(key) not in ("uniaxial", "biaxial"):
                row.fail(f"'{key}' is no doubly refractive species of species.csv")
            counts[key] = counts.get(key, 0) + 1
            if counts[key] > MOST_CUTS:
                row.fail(f"{key} has more than {MOST_CUTS} cuts")
            cuts.append((key, row.text("name"), along))
    return cuts


def write(out, cuts):
    print("/* Written by embed_cuts.py from cuts.csv. */", file=out)
    print('#include "species.h"\n', file=out)
    print("const IfigUsualCut ifig_usual_cuts[] = {", file=out)
    for key, name, along in cuts:
        values = ", ".join(repr(value) for value in along)
        print(f"    {{{json.dumps(key)}, {json.dumps(name, ensure_ascii=False)}, {{{values}}}}},",
              file=out)
    print("};", file=out)
    print(f"const size_t ifig_usual_cut_count = {len(cuts)};", file=out)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("cuts")
    parser.add_argument("species")
    parser.add_argument("-o", dest="output", required=True)
    arguments = parser.parse_args()
    characters = {row.text("key"): row.text("optic_character")
                  for row in read_rows(arguments.species, SPECIES_COLUMNS)}
    cuts = read_cuts(read_rows(arguments.cuts, CUT_COLUMNS), characters)
    if errors:
        print("\n".join(errors), file=sys.stderr)
        return 1
    with open(arguments.output, "w", encoding="utf-8", newline="\n") as out:
        write(out, cuts)
    return 0


if __name__ == "__main__":
    sys.exit(main())
