# SPDX-License-Identifier: MIT
"""Reading for embed.py: the rows of the three CSV files, dispersion formulas and rotations."""
import csv
import math
import os
import re

ROTATION_COLUMNS = (
    "key,constant,strength1_um2,pole1_um2,strength2_um2,pole2_um2,ratio_across,reference,"
    "notes").split(",")

TERMS = 17                      # IFIG_FORMULA_TERMS

errors = []


class Row:
    """One row of a CSV file, with the place to blame."""

    def __init__(self, file, line, cells):
        self.file, self.line, self.cells = file, line, cells

    def fail(self, message):
        errors.append(f"{self.file}:{self.line}: {message}")

    def text(self, column):
        return self.cells[column]

    def number(self, column, low, high):
        """The number in a cell, NaN where it is empty or wrong (and then blamed)."""
        text = self.cells[column]
        if text == "":
            return math.nan
        if not re.fullmatch(r"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?", text):
            self.fail(f"{column} is '{text}'; it must be a decimal number with a point")
            return math.nan
        value = float(text) + 0.0
        if not low <= value <= high:
            self.fail(f"{column} is {text}; it must lie between {low} and {high}")
            return math.nan
        return value

    def word(self, column, words):
        if self.cells[column] not in words:
            self.fail(f"{column} is '{self.cells[column]}'; it must be one of: "
                      + ", ".join(w if w else "(empty)" for w in words))


def read_rows(path, columns):
    """All rows of a file, '#' lines at its head left out; line is that of the row's end."""
    file = os.path.basename(path)
    with open(path, encoding="utf-8", newline="") as source:
        lines = source.read().splitlines(keepends=True)
    head = 0
    while head < len(lines) and lines[head].startswith("#"):
        head += 1
    reader = csv.reader(lines[head:], strict=True)
    rows = []
    for cells in reader:
        row = Row(file, head + reader.line_num, None)
        if reader.line_num == 1:
            if cells != columns:
                row.fail("the columns must be: " + ",".join(columns))
                return []
            continue
        if len(cells) != len(columns):
            row.fail(f"{len(cells)} cells; there must be {len(columns)}")
            continue
        row.cells = dict(zip(columns, cells))
        for column, text in row.cells.items():
            if not text.isprintable():
                row.fail(f"{column} holds a character that does not print")
            if text != text.strip():
                row.fail(f"{column} begins or ends with a blank")
        rows.append(row)
    return rows


def fold(word):
    return re.sub(r"[\s_'-]", "", word.lower())


# Dispersion -------------------------------------------------------------------------------------

def power_terms(c, first, um):
    return sum(c[i] * um ** c[i + 1] for i in range(first, TERMS - 1, 2) if c[i])


def sellmeier_terms(c, um, pole_power):
    return sum(c[i] * um ** 2 / (um ** 2 - c[i + 1] ** pole_power)
               for i in range(1, TERMS - 1, 2) if c[i])


def mixed_term(c, i, um):
    return c[i] * um ** c[i + 1] / (um ** 2 - c[i + 2] ** c[i + 3]) if c[i] else 0.0


def formula_index(formula, um):
    """n of a formula, as the head of dispersion.csv defines the types; NaN where it has none."""
    kind, c = formula["type"], formula["c"]
    try:
        if kind in (1, 2):
            return math.sqrt(1 + c[0] + sellmeier_terms(c, um, 2 if kind == 1 else 1))
        if kind == 3:
            return math.sqrt(c[0] + power_terms(c, 1, um))
        if kind == 4:
            return math.sqrt(c[0] + mixed_term(c, 1, um) + mixed_term(c, 5, um)
                             + power_terms(c, 9, um))
        if kind == 5:
            return c[0] + power_terms(c, 1, um)
        return 1 + c[0] + sum(c[i] / (c[i + 1] - um ** -2) for i in range(1, TERMS - 1, 2) if c[i])
    except (ValueError, ZeroDivisionError, OverflowError):
        return math.nan


def read_formula(row):
    row.word("axis", "o e alpha beta gamma iso".split())
    kind = row.number("formula_type", 1, 6)
    low, high = row.number("low_um", 0.1, 50), row.number("high_um", 0.1, 50)
    if not low < high:
        row.fail("low_um must be below high_um, and both be given")
    if row.text("reference") == "":
        row.fail("reference is empty; say where the formula comes from")
    try:
        c = [float(text) + 0.0 for text in row.text("coefficients").split()]
    except ValueError:
        c = []
    if not 1 <= len(c) <= TERMS or not all(map(math.isfinite, c)):
        row.fail(f"coefficients must be 1 to {TERMS} numbers, separated by blanks")
        return None
    if math.isnan(kind) or kind != int(kind):
        row.fail("formula_type must be a whole number from 1 to 6")
        return None
    formula = {"type": int(kind), "c": c + [0.0] * (TERMS - len(c)),
               "low": low, "high": high,
               "reference": row.text("reference")}
    steps = [formula_index(formula, um / 1000) for um in range(360, 831, 2)]
    if not all(1 <= b <= a <= 7 for a, b in zip(steps, steps[1:])):
        row.fail("the formula must give an n from 1 to 7 that falls from 0.36 to 0.83 um")
    return formula


def read_formulas(rows):
    """{key: {axis: formula}}"""
    tables = {}
    for row in rows:
        formula = read_formula(row)
        axes = tables.setdefault(row.text("key"), {})
        if row.text("axis") in axes:
            row.fail(f"{row.text('key')} has a second row for axis {row.text('axis')}")
        axes[row.text("axis")] = formula
    return tables


# Rotation ---------------------------------------------------------------------------------------

def read_rotations(rows):
    table = {}
    for row in rows:
        key = row.text("key")
        if key in table:
            row.fail(f"{key} has a second row")
        if row.text("reference") == "":
            row.fail("reference is empty; say where the rotation comes from")
        values = {}
        for column in ROTATION_COLUMNS[1:7]:
            low, high = (0, 0.08) if column.startswith("pole") else (-1e5, 1e5)
            value = row.number(column, low, high)
            empty = 1.0 if column == "ratio_across" else 0.0
            values[column] = empty if math.isnan(value) else value
        table[key] = values
    return table
