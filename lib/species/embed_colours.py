#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Check the body colours and stress-optic coefficients and write them as one C file.

    embed_colours.py absorption.csv colours.csv stress_optic.csv species.csv -o colours_table.c

An error reads file:line: what is wrong, and the status is 1."""
import argparse
import json
import sys

sys.dont_write_bytecode = True  # nothing is left in the folder of the sources
from embed import SPECIES_COLUMNS  # noqa: E402
from embed_rows import errors, read_rows  # noqa: E402

BAND_COLUMNS = ("variety,species_key,axis,centre_nm,half_width_nm,peak_per_mm,slope_note,"
                "source").split(",")
COLOUR_COLUMNS = "variety,species_key,words".split(",")
STRESS_COLUMNS = "species_key,per_tpa,source".split(",")
# Where an axis stands in peak_per_mm[X, Y, Z].
AXES = {"isotropic": {"iso": (0, 1, 2)}, "uniaxial": {"o": (0, 1), "e": (2,)},
        "biaxial": {"x": (0,), "y": (1,), "z": (2,)}}


def read_bands(rows, characters):
    """variety -> list of (centre, width, [peaks]), and variety -> list of sources."""
    bands, sources = {}, {}
    for row in rows:
        centre = row.number("centre_nm", 150, 2000)
        width = row.number("half_width_nm", 1, 1000)
        peak = row.number("peak_per_mm", 0, 1000)
        axes = AXES.get(characters.get(row.text("species_key"), ""), {})
        if row.text("axis") not in axes:
            row.fail(f"axis is '{row.text('axis')}'; this species has: {', '.join(axes) or 'none'}")
            continue
        if row.text("source") == "":
            row.fail("source is empty")
        peaks = [0.0, 0.0, 0.0]
        for axis in axes[row.text("axis")]:
            peaks[axis] = peak
        bands.setdefault(row.text("variety"), []).append((centre, width, peaks))
        said = sources.setdefault(row.text("variety"), [])
        if row.text("source") not in said:
            said.append(row.text("source"))
    return bands, sources


def check_stress(rows, characters):
    for row in rows:
        row.number("per_tpa", -1000, 1000)
        if row.text("species_key") not in characters:
            row.fail(f"no species '{row.text('species_key')}'")
        if row.text("source") == "":
            row.fail("source is empty")


def write_stress(out, rows):
    print("\nconst IfigStressOptic ifig_builtin_stress_optic[] = {", file=out)
    for row in rows:
        print(f"    {{{json.dumps(row.text('species_key'))}, {float(row.text('per_tpa'))!r}, "
              f"{json.dumps(row.text('source'), ensure_ascii=False)}}},", file=out)
    print("};", file=out)
    print(f"const size_t ifig_builtin_stress_optic_count = {len(rows)};", file=out)


def write(out, colours, bands, sources):
    print("/* Written by embed_colours.py from the CSV files beside it. */", file=out)
    print('#include "species.h"\n', file=out)
    for name in sorted({row.text("variety") for row in colours}):
        print(f"static const IfigAbsorptionBand bands_of_{name}[] = {{", file=out)
        for centre, width, peaks in bands[name]:
            values = ", ".join(repr(peak) for peak in peaks)
            print(f"    {{{centre!r}, {width!r}, {{{values}}}}},", file=out)
        print("};", file=out)
    print("\nconst IfigBodyColour ifig_builtin_colours[] = {", file=out)
    for row in colours:
        name = row.text("variety")
        words = [json.dumps(text, ensure_ascii=False) for text in (
            row.text("species_key"), name.replace("_", " "), row.text("words"),
            "; ".join(sources[name]))]
        print(f"    {{{', '.join(words)}, bands_of_{name},\n"
              f"     sizeof bands_of_{name} / sizeof bands_of_{name}[0]}},", file=out)
    print("};", file=out)
    print(f"const size_t ifig_builtin_colour_count = {len(colours)};", file=out)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("absorption")
    parser.add_argument("colours")
    parser.add_argument("stress")
    parser.add_argument("species")
    parser.add_argument("-o", dest="output", required=True)
    arguments = parser.parse_args()
    characters = {row.text("key"): row.text("optic_character")
                  for row in read_rows(arguments.species, SPECIES_COLUMNS)}
    bands, sources = read_bands(read_rows(arguments.absorption, BAND_COLUMNS), characters)
    colours = sorted(read_rows(arguments.colours, COLOUR_COLUMNS),
                     key=lambda row: row.text("species_key"))
    named = {row.text("variety") for row in colours}
    for row in colours:
        if row.text("variety") not in bands:
            row.fail(f"no band of '{row.text('variety')}' stands in absorption.csv")
    for variety in sorted(set(bands) - named):
        errors.append(f"colours.csv: '{variety}' of absorption.csv has no row")
    stress = read_rows(arguments.stress, STRESS_COLUMNS)
    check_stress(stress, characters)
    if errors:
        print("\n".join(errors), file=sys.stderr)
        return 1
    with open(arguments.output, "w", encoding="utf-8", newline="\n") as out:
        write(out, colours, bands, sources)
        write_stress(out, stress)
    return 0


if __name__ == "__main__":
    sys.exit(main())
