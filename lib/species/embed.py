#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Check the catalogue, row by row, and write it as one C file.

    embed.py species.csv dispersion.csv rotation.csv [OTHER.csv...] -o species_table.c

An error reads file:line: what is wrong, and the status is 1. The output depends on nothing but the
files; the others, which embed_colours.py checks, take part in the hash of the data alone. What is
asked of a row here, record_check.c asks of a species made at run time.
"""
import argparse
import csv
import hashlib
import math
import os
import re
import sys

sys.dont_write_bytecode = True  # nothing is left in the folder of the sources
from embed_rows import (  # noqa: E402
    ROTATION_COLUMNS, errors, fold, formula_index, read_formulas, read_rotations, read_rows)

SPECIES_COLUMNS = (
    "key,name,varieties,nature,crystal_system,optic_character,optic_sign,n1,n2,n3,n_low,n_high,"
    "birefringence_low,birefringence_high,two_v_deg,two_v_low_deg,two_v_high_deg,axial_dispersion,"
    "two_v_c_deg,two_v_f_deg,dispersion_bg,monoclinic_dispersion,axes_turn_deg,dispersion_key,"
    "rotation_key,opaque,orientation,pleochroism,absorption,reaction,notes,source").split(",")
DISPERSION_COLUMNS = (
    "key,axis,formula_type,coefficients,low_um,high_um,reference,file,notes").split(",")

NATURES = "natural synthetic simulant glass organic aggregate".split()
SYSTEMS = ("cubic tetragonal hexagonal trigonal orthorhombic monoclinic triclinic amorphous none "
           "aragonite").split()
CHARACTERS = "isotropic uniaxial biaxial aggregate".split()
SIGNS = {"": (0, 0), "+": (1, 0), "-": (-1, 0), "+/-": (0, 1)}
MONOCLINIC = {"": "NONE", "inclined": "INCLINED", "parallel": "PARALLEL", "crossed": "CROSSED"}
REACTIONS = "SR DR AGG ADR".split()
AXES = {"isotropic": ("iso", "iso", "iso"), "aggregate": ("iso", "iso", "iso"),
        "uniaxial": ("o", "o", "e"), "biaxial": ("alpha", "beta", "gamma")}
# The columns in the order of enum IfigSpeciesText; the last one is made here.
TEXTS = ("key name varieties nature crystal_system orientation pleochroism absorption "
         "axial_dispersion reaction notes source index_source").split()
SODIUM_UM = 0.5893
FORMULA_AGREEMENT = 5e-4        # of a formula with the typical index of the row
TWO_V_AGREEMENT_DEG = 2.0       # of 2V with the indices of the row

# Species ----------------------------------------------------------------------------------------

def share_of_indices(n):
    """s of 1/n_Y^2 = (1 - s)/n_X^2 + s/n_Z^2, see beta_share.c."""
    a, b, c = (x ** -2 for x in n)
    return (a - b) / (a - c)


def angle_of_share(share):
    """The acute optic angle 2V, degrees."""
    return 2 * math.degrees(math.asin(math.sqrt(min(share, 1 - share))))


def indices_along_axes(row, character):
    """n along X, Y, Z from n1..n3; None after an error."""
    given = [row.number(f"n{i}", 1, 5) for i in (1, 2, 3)]
    count = sum(not math.isnan(n) for n in given)
    if any(math.isnan(n) for n in given[:count]) or count == 0:
        row.fail("n1, n2, n3 must be filled from the left")
        return None
    wanted = {"isotropic": (1,), "uniaxial": (2,), "biaxial": (3,), "aggregate": (1, 2, 3)}
    if count not in wanted.get(character, (count,)):
        row.fail(f"a stone that is {character} cannot have {count} indices")
        return None
    if count == 3 and not given[0] <= given[1] <= given[2]:
        row.fail("n1 <= n2 <= n3 does not hold")
    if character == "biaxial" and not given[0] < given[1] < given[2]:
        row.fail("the three indices of a biaxial stone must differ")
        return None
    if character == "uniaxial" and given[0] == given[1]:
        row.fail("the two indices of a uniaxial stone must differ")
    return {1: [given[0]] * 3, 2: [given[0], given[0], given[1]], 3: given}[count]


def settle_sign(row, character, n, two_v):
    """(sign, may be either) and the optic angle where the row leaves it to the indices."""
    sign, either = SIGNS.get(row.text("optic_sign"), (0, 0))
    if character not in ("uniaxial", "biaxial"):
        if row.text("optic_sign"):
            row.fail(f"a stone that is {character} has no optic_sign")
        return 0, 0, two_v
    if row.text("optic_sign") == "":
        row.fail("optic_sign is empty; give +, - or +/-")
    if character == "uniaxial":
        by_indices = 1 if n[2] > n[0] else -1
    else:
        share = share_of_indices(n)
        by_indices = -1 if share > 0.5 else 1
        by_indices_deg = angle_of_share(share)
        if math.isnan(two_v):
            two_v = by_indices_deg
        about = two_v if by_indices == sign or sign == 0 else 180 - two_v
        if abs(about - by_indices_deg) > TWO_V_AGREEMENT_DEG:
            row.fail(f"two_v_deg is {two_v}, but the indices give {by_indices_deg:.2f}; they must "
                     f"agree within {TWO_V_AGREEMENT_DEG} degrees")
    if sign and sign != by_indices and not (character == "biaxial" and two_v > 88):
        row.fail(f"optic_sign is {row.text('optic_sign')}, but the indices make the stone "
                 f"{'+' if by_indices > 0 else '-'}")
    return sign or by_indices, either, two_v


def find_formulas(row, character, n, tables):
    key = row.text("dispersion_key")
    if key == "":
        return []
    axes = AXES.get(character, ())
    if key not in tables or not all(axis in tables[key] for axis in axes):
        row.fail(f"dispersion_key '{key}' has no rows for {', '.join(sorted(set(axes)))} in "
                 "dispersion.csv")
        return []
    formulas = [tables[key][axis] for axis in axes]
    for axis, formula, typical in zip(axes, formulas, n):
        index = formula_index(formula, SODIUM_UM) if formula else math.nan
        if not abs(index - typical) <= FORMULA_AGREEMENT:
            row.fail(f"the formula for {axis} gives {index:.5f} at 589.3 nm, the row {typical}; "
                     f"they must agree within {FORMULA_AGREEMENT}")
    return formulas


def index_source(formulas, bg):
    if formulas:
        return "; ".join(dict.fromkeys(f["reference"] for f in formulas if f))
    if math.isnan(bg):
        return "n at 589.3 nm, taken as the same at every wavelength"
    return "Cauchy's two terms from n at 589.3 nm and the B-G dispersion"


def check_words(row):
    row.word("nature", NATURES)
    row.word("optic_character", CHARACTERS)
    row.word("optic_sign", list(SIGNS))
    row.word("monoclinic_dispersion", list(MONOCLINIC))
    row.word("opaque", ["0", "1"])
    if not re.fullmatch(r"[a-z0-9_]{1,64}", row.text("key")):
        row.fail(f"key is '{row.text('key')}'; it must be 1 to 64 of a-z, 0-9 and '_'")
    if row.text("crystal_system").split(" ")[0] not in SYSTEMS:
        row.fail(f"crystal_system is '{row.text('crystal_system')}'; it must begin with one of: "
                 + ", ".join(SYSTEMS))
    for word in re.split(r"[;,]? ", row.text("reaction")):
        if word not in REACTIONS + ["seen"]:
            row.fail(f"reaction is '{row.text('reaction')}'; it is made of: "
                     + ", ".join(REACTIONS))
    for column in ("name", "source"):
        if row.text(column) == "":
            row.fail(f"{column} is empty")


def read_ranges(row):
    """The numbers that stand for themselves."""
    values = {}
    for what, low, high, suffix in (("n", 1, 5, ""), ("birefringence", 0, 4, ""),
                                    ("two_v", 0, 90, "_deg")):
        for end in ("low", "high"):
            values[f"{what}_{end}{suffix}"] = row.number(f"{what}_{end}{suffix}", low, high)
        if values[f"{what}_low{suffix}"] > values[f"{what}_high{suffix}"]:
            row.fail(f"{what}_low{suffix} is above {what}_high{suffix}")
    values["two_v_deg"] = row.number("two_v_deg", 0, 90)
    for line in "cf":
        values[f"two_v_{line}_deg"] = row.number(f"two_v_{line}_deg", -90, 180)
    values["dispersion_bg"] = row.number("dispersion_bg", 0, 1)
    values["axes_turn_deg"] = row.number("axes_turn_deg", -90, 90)
    return values


def check_within_ranges(row, n, values):
    inside = 1e-9
    rounded = 0.00101  # the ranges are printed to 0.001
    if any(x < values["n_low"] - rounded or x > values["n_high"] + rounded for x in n):
        row.fail("a typical index lies outside n_low to n_high")
    if not math.isnan(values["two_v_deg"]) and (
            values["two_v_deg"] < values["two_v_low_deg"] - inside
            or values["two_v_deg"] > values["two_v_high_deg"] + inside):
        row.fail("two_v_deg lies outside two_v_low_deg to two_v_high_deg")


def check_biaxial_only(row, character):
    for column in ("two_v_deg", "two_v_c_deg", "two_v_f_deg", "monoclinic_dispersion"):
        if character != "biaxial" and row.text(column):
            row.fail(f"{column} is given, but the stone is {character}")
    if bool(row.text("axes_turn_deg")) != bool(row.text("monoclinic_dispersion")):
        row.fail("monoclinic_dispersion and axes_turn_deg are given both or neither")


def read_species(row, tables, rotations):
    """The C initialiser of one species, or None after an error."""
    before = len(errors)
    check_words(row)
    values = read_ranges(row)
    character = row.text("optic_character")
    n = indices_along_axes(row, character)
    if n is None or character not in CHARACTERS:
        return None
    check_biaxial_only(row, character)
    check_within_ranges(row, n, values)
    sign, either, two_v = settle_sign(row, character, n, values["two_v_deg"])
    values["two_v_deg"] = two_v
    formulas = find_formulas(row, character, n, tables)
    rotation = None
    if row.text("rotation_key"):
        rotation = rotations.get(row.text("rotation_key"))
        if rotation is None:
            row.fail(f"rotation_key '{row.text('rotation_key')}' is not in rotation.csv")
    if len(errors) > before:
        return None
    texts = {**row.cells, "index_source": index_source(formulas, values["dispersion_bg"])}
    return write_species(row, texts, values, n, sign, either, formulas, rotation)


# C ----------------------------------------------------------------------------------------------

def c_number(value):
    return "NAN" if math.isnan(value) else repr(float(value))


def c_text(text):
    escaped = ""
    for byte in text.encode("utf-8"):
        plain = 0x20 <= byte < 0x7f and chr(byte) not in '"\\?'
        escaped += chr(byte) if plain else f"\\{byte:03o}"
    return f'"{escaped}"'


def write_formula(formula):
    c = formula["c"]
    while len(c) > 1 and c[-1] == 0:
        c = c[:-1]
    return (f"{{{formula['type']}, {c_number(formula['low'])}, {c_number(formula['high'])}, "
            f"{{{', '.join(map(c_number, c))}}}}}")


def write_rotation(rotation):
    if rotation is None:
        return "{.ratio_across = 1.0}"
    return ("{{{constant}, {{{strength1_um2}, {strength2_um2}}}, {{{pole1_um2}, {pole2_um2}}}, "
            "{ratio_across}}}").format(**{k: c_number(v) for k, v in rotation.items()})


def write_species(row, texts, values, n, sign, either, formulas, rotation):
    facts = [f".character = IFIG_{row.text('optic_character').upper()}",
             f".optic_sign = {sign}", f".may_be_either_sign = {either}",
             f".is_opaque = {row.text('opaque')}",
             f".is_optically_active = {int(rotation is not None)}",
             f".is_measured_dispersion = {int(bool(formulas))}",
             f".n = {{{', '.join(map(c_number, n))}}}",
             f".monoclinic = IFIG_MONOCLINIC_{MONOCLINIC[row.text('monoclinic_dispersion')]}"]
    facts += [f".{name} = {c_number(values[name])}" for name in (
        "n_low", "n_high", "birefringence_low", "birefringence_high", "two_v_deg",
        "two_v_low_deg", "two_v_high_deg", "dispersion_bg", "axes_turn_deg")]
    lines = ["    {.record = {", "        .size = sizeof(IfigSpeciesRecord),", "        .text = {"]
    lines += [f"            {c_text(texts[column])}," for column in TEXTS]
    lines += ["        },", f"        .facts = {{{', '.join(facts)}}},"]
    if formulas:
        lines += ["        .formula = {"]
        lines += [f"            {write_formula(formula)}," for formula in formulas]
        lines += ["        },"]
    lines += [f"        .two_v_c_deg = {c_number(values['two_v_c_deg'])},",
              f"        .two_v_f_deg = {c_number(values['two_v_f_deg'])},",
              f"        .rotation = {write_rotation(rotation)}}},",
              "     .owned_text = NULL},"]
    return "\n".join(lines)


def write_c(species, digest):
    return "\n".join([
        "/* Written by embed.py from species.csv, dispersion.csv and rotation.csv; edit those. */",
        "#include <math.h>", "#include <stddef.h>", "", '#include "species.h"', "",
        "const IfigSpecies ifig_builtin_species[] = {", *species, "};", "",
        f"const size_t ifig_builtin_species_count = {len(species)};",
        f'const char ifig_builtin_hash[] = "{digest}";', ""])


def check_keys(rows):
    seen = {}
    for row in rows:
        key = fold(row.text("key"))
        if key in seen:
            row.fail(f"key '{row.text('key')}' is taken by line {seen[key]}")
        seen[key] = row.line


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    for name in ("species", "dispersion", "rotation"):
        parser.add_argument(name)
    parser.add_argument("others", nargs="*")
    parser.add_argument("-o", required=True, dest="output")
    arguments = parser.parse_args()
    paths = [arguments.species, arguments.dispersion, arguments.rotation]
    digest = hashlib.sha256()
    try:
        for path in paths + arguments.others:
            with open(path, "rb") as source:
                digest.update(source.read())
        rows, formula_rows, rotation_rows = (
            read_rows(path, columns) for path, columns in zip(
                paths, (SPECIES_COLUMNS, DISPERSION_COLUMNS, ROTATION_COLUMNS)))
    except (OSError, UnicodeDecodeError, csv.Error) as error:
        sys.exit(f"embed.py: {error}")
    check_keys(rows)
    tables, rotations = read_formulas(formula_rows), read_rotations(rotation_rows)
    species = [read_species(row, tables, rotations) for row in rows]
    if not species and not errors:
        errors.append(f"{os.path.basename(paths[0])}:1: no species")
    if errors:
        sys.exit("\n".join(errors))
    with open(arguments.output, "w", encoding="utf-8") as output:
        output.write(write_c(species, digest.hexdigest()))


if __name__ == "__main__":
    main()
