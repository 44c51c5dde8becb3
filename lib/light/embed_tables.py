# SPDX-License-Identifier: MIT
"""Check the observer's and the illuminants' tables and write them as C."""
import argparse
import csv
import math
import sys

OBSERVER = {"first": 360, "last": 830, "step": 1, "columns": ["xbar", "ybar", "zbar"]}
# The order of IfigLampKind.
LAMPS = [("IFIG_LAMP_DAYLIGHT", "D65"), ("IFIG_LAMP_TUNGSTEN", "A"),
         ("IFIG_LAMP_LED", "LED-B3"), ("IFIG_LAMP_FLUORESCENT", "FL11")]
ILLUMINANTS = {"first": 380, "last": 780, "step": 5, "columns": [name for _, name in LAMPS]}


def fail(path, line, complaint):
    sys.exit(f"{path}:{line}: {complaint}")


def read_lines(path):
    """Numbered lines without the comments, one of which must name the source."""
    with open(path, encoding="utf-8", newline="") as file:
        lines = list(enumerate(file.read().splitlines(), 1))
    if not any(line.startswith("#") and "Source:" in line for _, line in lines):
        fail(path, 1, "no comment names the source; add one that says '# ... Source: ...'")
    return [(number, line) for number, line in lines if not line.startswith("#")]


def read_number(path, line, column, text):
    try:
        value = float(text)
    except ValueError:
        fail(path, line, f"{column} is '{text}', not a number")
    if not math.isfinite(value) or value < 0:
        fail(path, line, f"{column} is {text}; it must be finite and not negative")
    return value


def read_table(path, form):
    """Rows of the form's columns, one for each wavelength of its grid, none missing."""
    lines = read_lines(path)
    header = next(csv.reader([lines[0][1]]))
    if header[0] != "wavelength_nm" or sorted(header[1:]) != sorted(form["columns"]):
        fail(path, lines[0][0], "columns must be wavelength_nm, " + ", ".join(form["columns"]))
    grid = range(form["first"], form["last"] + 1, form["step"])
    if len(lines) - 1 != len(grid):
        fail(path, lines[-1][0], f"{len(lines) - 1} rows; {form['first']} to {form['last']} nm by "
                                 f"{form['step']} nm needs {len(grid)}")
    rows = []
    for wavelength, (number, line) in zip(grid, lines[1:]):
        cells = next(csv.reader([line]))
        if len(cells) != len(header):
            fail(path, number, f"{len(cells)} values; the header names {len(header)}")
        row = {name: read_number(path, number, name, cell) for name, cell in zip(header, cells)}
        if row["wavelength_nm"] != wavelength:
            fail(path, number, f"wavelength_nm is {cells[0]}; the next row must be {wavelength}")
        rows.append([row[name] for name in form["columns"]])
    return rows


def c_text(observer, illuminants):
    yield "/* Made from observer.csv and illuminants.csv; edit those. */"
    yield '#include "lamp.h"'
    yield ""
    yield "const double ifig_observer_table[IFIG_OBSERVER_COUNT][3] = {"
    yield from (f"    {{{x!r}, {y!r}, {z!r}}}," for x, y, z in observer)
    yield "};"
    yield ""
    yield "const double ifig_illuminant_table[IFIG_ILLUMINANT_KINDS][IFIG_ILLUMINANT_COUNT] = {"
    for column, (kind, _) in enumerate(LAMPS):
        yield f"    [{kind}] = {{"
        yield from (f"        {row[column]!r}," for row in illuminants)
        yield "    },"
    yield "};"


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("observer")
    parser.add_argument("illuminants")
    parser.add_argument("-o", "--output", required=True)
    arguments = parser.parse_args()
    text = "\n".join(c_text(read_table(arguments.observer, OBSERVER),
                            read_table(arguments.illuminants, ILLUMINANTS))) + "\n"
    with open(arguments.output, "w", encoding="utf-8", newline="\n") as file:
        file.write(text)


if __name__ == "__main__":
    main()
