#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Check what the trade knows of each species and write it as one C file.

    embed_trade.py trade.csv species.csv -o trade_table.c

Every species has a row. An error reads file:line: what is wrong, and the status is 1."""
import argparse
import math
import os
import sys

sys.dont_write_bytecode = True  # nothing is left in the folder of the sources
from embed import SPECIES_COLUMNS, c_text  # noqa: E402
from embed_rows import errors, read_rows  # noqa: E402

COLUMNS = ("species_key,gravity_low,gravity_high,hues,spectrum,conducts_heat,table,"
           "source").split(",")
HUES = ("neutral,red,orange,yellow,yellow green,green,blue green,blue,violet,purple").split(",")


def check(row, keys):
    low, high = (row.number(f"gravity_{end}", 0.1, 25) for end in ("low", "high"))
    if math.isnan(low) or math.isnan(high) or low > high:
        row.fail("gravity_low and gravity_high must both be given, and rise")
    if row.text("species_key") not in keys:
        row.fail(f"no species '{row.text('species_key')}', or a second row of it")
    keys.discard(row.text("species_key"))
    for hue in filter(None, row.text("hues").split(";")):
        if hue not in HUES:
            row.fail(f"hues holds '{hue}'; it is made of: {', '.join(HUES)}")
    row.word("conducts_heat", ["0", "1"])
    row.word("table", ["", "across"])
    if row.text("source") == "":
        row.fail("source is empty")


def write(out, rows):
    print("/* Written by embed_trade.py from trade.csv; edit that. */", file=out)
    print('#include "species.h"\n', file=out)
    print("const IfigTradeRow ifig_builtin_trade[] = {", file=out)
    for row in rows:
        low, high = (float(row.text(f"gravity_{end}")) for end in ("low", "high"))
        texts = ", ".join(c_text(row.text(name)) for name in ("hues", "spectrum", "source"))
        print(f"    {{{c_text(row.text('species_key'))}, {{{low!r}, {high!r}, "
              f"{row.text('conducts_heat')}, {int(row.text('table') == 'across')},\n"
              f"     {texts}}}}},", file=out)
    print("};", file=out)
    print(f"const size_t ifig_builtin_trade_count = {len(rows)};", file=out)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("trade")
    parser.add_argument("species")
    parser.add_argument("-o", dest="output", required=True)
    arguments = parser.parse_args()
    keys = {row.text("key") for row in read_rows(arguments.species, SPECIES_COLUMNS)}
    rows = read_rows(arguments.trade, COLUMNS)
    for row in rows:
        check(row, keys)
    errors.extend(f"{os.path.basename(arguments.trade)}: no row for '{key}'"
                  for key in sorted(keys))
    if errors:
        print("\n".join(errors), file=sys.stderr)
        return 1
    with open(arguments.output, "w", encoding="utf-8", newline="\n") as out:
        write(out, rows)
    return 0


if __name__ == "__main__":
    sys.exit(main())
