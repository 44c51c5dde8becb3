#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Check what the grains of the aggregates are and write it as one C file.

    embed_grains.py grains.csv species.csv -o grains_table.c

An error reads file:line: what is wrong, and the status is 1."""
import argparse
import json
import math
import sys

sys.dont_write_bytecode = True  # nothing is left in the folder of the sources
from embed import SPECIES_COLUMNS, read_species  # noqa: E402
from embed_rows import Row, errors, read_rows  # noqa: E402

GRAIN_COLUMNS = "species_key,grain_key,n1,n2,n3,grain_mm,texture,source".split(",")
CHARACTERS = {1: "isotropic", 2: "uniaxial", 3: "biaxial"}


def own_species(row):
    """The C initialiser of a grain of the row's own indices; None after an error."""
    given = [row.text(f"n{i}") for i in (1, 2, 3)]
    character = CHARACTERS.get(sum(n != "" for n in given))
    if character is None:
        row.fail("give grain_key, or n1 to n3")
        return None
    cells = dict.fromkeys(SPECIES_COLUMNS, "")
    cells.update(zip(("n1", "n2", "n3"), given))
    cells.update(key=row.text("species_key") + "_grain", name="Grain of " + row.text("species_key"),
                 nature="natural", crystal_system="none", optic_character=character, opaque="0",
                 optic_sign="" if character == "isotropic" else "+/-",
                 source=row.text("source"), reaction="SR" if character == "isotropic" else "DR",
                 n_low=min(n for n in given if n), n_high=max(n for n in given if n))
    return read_species(Row(row.file, row.line, cells), {}, {})


def check(rows, characters):
    seen = set()
    for row in rows:
        key = row.text("species_key")
        if characters.get(key) != "aggregate" or key in seen:
            row.fail(f"'{key}' is no aggregate of species.csv, or has a row already")
        seen.add(key)
        grain = row.text("grain_key")
        if grain and (characters.get(grain, "aggregate") == "aggregate" or row.text("n1")):
            row.fail(f"grain_key '{grain}' must be a crystal of species.csv, without indices beside")
        if math.isnan(row.number("grain_mm", 0.001, 10)):
            row.fail("grain_mm is empty or wrong")
        for column in ("texture", "source"):
            if row.text(column) == "":
                row.fail(f"{column} is empty")
    for key in sorted(k for k, c in characters.items() if c == "aggregate" and k not in seen):
        errors.append(f"grains.csv: the aggregate '{key}' of species.csv has no row")


def write(out, rows, owned):
    print("/* Written by embed_grains.py from grains.csv; edit that. */", file=out)
    print('#include <math.h>\n#include <stddef.h>\n\n#include "species.h"\n', file=out)
    print("static const IfigSpecies grain_species[] = {", file=out)
    print("\n".join(owned.values()), file=out)
    print("};\n\nconst IfigGrainRow ifig_builtin_grains[] = {", file=out)
    places = {key: index for index, key in enumerate(owned)}
    for row in rows:
        key = row.text("species_key")
        own = f"&grain_species[{places[key]}]" if key in owned else "NULL"
        grain = json.dumps(row.text("grain_key")) if row.text("grain_key") else "NULL"
        print(f"    {{{json.dumps(key)}, {grain}, {own}, {float(row.text('grain_mm'))!r},\n"
              f"     {json.dumps(row.text('texture'))},\n     {json.dumps(row.text('source'))}}},",
              file=out)
    print("};", file=out)
    print(f"const size_t ifig_builtin_grains_count = {len(rows)};", file=out)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("grains")
    parser.add_argument("species")
    parser.add_argument("-o", dest="output", required=True)
    arguments = parser.parse_args()
    characters = {row.text("key"): row.text("optic_character")
                  for row in read_rows(arguments.species, SPECIES_COLUMNS)}
    rows = read_rows(arguments.grains, GRAIN_COLUMNS)
    check(rows, characters)
    owned = {row.text("species_key"): own_species(row) for row in rows if not row.text("grain_key")}
    if errors:
        print("\n".join(errors), file=sys.stderr)
        return 1
    with open(arguments.output, "w", encoding="utf-8", newline="\n") as out:
        write(out, rows, owned)
    return 0


if __name__ == "__main__":
    sys.exit(main())
