#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""A table of lines and branches run through, from `llvm-cov export` on standard input.

coverage_table.py [--missing] [--lines PERCENT] [--branches PERCENT] FOLDER...

Counted by source: what a compiler inlines or makes several copies of is one line and one branch here,
run through if any copy of it was. A line is what holds code: blank ones and comments are not counted,
though llvm-cov counts them within functions. A branch is one way out of a condition (each operand of
&& and || has two), or one case of a switch. A constant condition has no branches. --missing lists
what no test runs through; the program fails below the percentages asked for."""
import argparse
import collections
import json
import pathlib
import re
import sys

LINE, COLUMN, COUNT, HAS_COUNT, IS_ENTRY, IS_GAP = range(6)  # of a segment: llvm's CoverageSegment


def code_lines(path):
    """The numbers of the lines that hold more than blanks and comments."""
    text = path.read_text(encoding="utf-8")
    bare = re.sub(r"/\*.*?\*/|//[^\n]*", lambda m: "\n" * m.group().count("\n"), text, flags=re.S)
    return {number for number, line in enumerate(bare.split("\n"), 1) if line.strip()}


def line_counts(segments):
    """How often each line was run: the most that a region on it was, as llvm's LineCoverageStats."""
    by_line = collections.defaultdict(list)
    for segment in segments:
        by_line[segment[LINE]].append(segment)
    counts, wrapped = {}, None
    if not segments:
        return counts
    for line in range(segments[0][LINE], segments[-1][LINE] + 1):
        here = by_line.get(line, [])
        starts = [s for s in here if s[HAS_COUNT] and s[IS_ENTRY] and not s[IS_GAP]]
        skipped = here and not here[0][HAS_COUNT] and here[0][IS_ENTRY]
        if not skipped and (starts or (wrapped and wrapped[HAS_COUNT])):
            known = [s[COUNT] for s in starts] + ([wrapped[COUNT]] if wrapped else [])
            counts[line] = max(known)
        wrapped = here[-1] if here else wrapped
    return counts


def count_at(segments, line, column):
    """How often the code at a place was run."""
    count = 0
    for segment in segments:
        if (segment[LINE], segment[COLUMN]) > (line, column):
            break
        count = segment[COUNT] if segment[HAS_COUNT] else 0
    return count


def branches_of(entry):
    """(line, column, which way): how often, summed over all copies of a function."""
    ways = collections.Counter()
    for line, column, end_line, end_column, taken, not_taken, _, _, _ in entry["branches"]:
        place = (line, column, end_line, end_column)
        ways[place + ("true",)] += taken
        ways[place + ("false",)] += not_taken
    places = sorted({way[:4] for way in ways})
    for place in places:
        both = [place + ("true",), place + ("false",)]
        if ways[both[0]] == ways[both[1]] == 0 and count_at(entry["segments"], *place[:2]) > 0:
            for way in both:  # run, and went neither way: it is constant
                del ways[way]
    return ways


class Tally:
    def __init__(self):
        self.lines = self.lines_run = self.branches = self.branches_run = 0

    def add(self, lines, branches):
        self.lines += len(lines)
        self.lines_run += sum(1 for count in lines.values() if count > 0)
        self.branches += len(branches)
        self.branches_run += sum(1 for count in branches.values() if count > 0)

    def percentages(self):
        return (100.0 * self.lines_run / max(self.lines, 1),
                100.0 * self.branches_run / self.branches if self.branches else 100.0)

    def row(self, name):
        return "{:40} {:6} {:6} {:6.1f} % {:6} {:6} {:6.1f} %".format(
            name, self.lines, self.lines - self.lines_run, self.percentages()[0],
            self.branches, self.branches - self.branches_run, self.percentages()[1])


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--missing", action="store_true")
    parser.add_argument("--lines", type=float, default=0.0)
    parser.add_argument("--branches", type=float, default=0.0)
    parser.add_argument("folders", nargs="+")
    asked = parser.parse_args()
    root = pathlib.Path(__file__).resolve().parent.parent
    whole, found = Tally(), set()
    print("{:40} {:>6} {:>6} {:>8} {:>6} {:>6} {:>8}".format(
        "", "lines", "not", "run", "ways", "not", "taken"))
    for entry in sorted(json.load(sys.stdin)["data"][0]["files"], key=lambda e: e["filename"]):
        path = pathlib.Path(entry["filename"]).resolve()
        name = path.relative_to(root).as_posix() if path.is_relative_to(root) else ""
        if not any(name.startswith(folder + "/") for folder in asked.folders):
            continue
        found.add(name)
        code = code_lines(path)
        lines = {n: c for n, c in line_counts(entry["segments"]).items() if n in code}
        branches = branches_of(entry)
        tally = Tally()
        tally.add(lines, branches)
        whole.add(lines, branches)
        print(tally.row(name))
        if asked.missing:
            missed = [f"{n}" for n, c in sorted(lines.items()) if c == 0]
            if missed:
                print("    lines " + " ".join(missed))
            missed = [f"{way[0]}:{way[1]}:{way[4]}" for way, c in sorted(branches.items()) if c == 0]
            if missed:
                print("    branches " + " ".join(missed))
    print(whole.row("all"))
    if not found:
        print("nothing is counted")
        return 1
    lines, branches = whole.percentages()
    return 1 if lines < asked.lines or branches < asked.branches else 0


if __name__ == "__main__":
    sys.exit(main())
