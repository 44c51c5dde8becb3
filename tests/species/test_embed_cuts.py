#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""embed_cuts.py names the file and line of each thing wrong with the usual cuts, and writes unit
directions. Arguments: embed_cuts.py and the folder of the CSV files."""
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

EMBED, DATA = sys.argv[1], pathlib.Path(sys.argv[2])
GOOD = 'topaz_f,table off the cleavage,Z,7,X,a reason,a source'


def run(rows):
    """Status, what was said and what was written for a file of these rows."""
    text = (DATA / "cuts.csv").read_text(encoding="utf-8")
    start = text.index("species_keys,name")
    head = text[:text.index("\n", start)]
    with tempfile.TemporaryDirectory() as folder:
        cuts, output = pathlib.Path(folder) / "cuts.csv", pathlib.Path(folder) / "cuts.c"
        cuts.write_text("\n".join([head, *rows, ""]), encoding="utf-8")
        done = subprocess.run([sys.executable, EMBED, str(cuts), str(DATA / "species.csv"), "-o",
                               str(output)], capture_output=True, text=True, check=False)
        return done.returncode, done.stderr, output.read_text() if output.exists() else ""


class Cuts(unittest.TestCase):
    def test_a_lean_becomes_a_unit_direction(self):
        status, said, written = run([GOOD])
        self.assertEqual(status, 0, said)
        numbers = [float(x) for x in re.search(r"\{([-0-9., e]+)\}\}", written).group(1).split(",")]
        for found, wanted in zip(numbers, (0.12187, 0, 0.99255)):  # sin, cos of 7 degrees
            self.assertAlmostEqual(found, wanted, 5)

    def test_each_wrong_cell_is_named(self):
        for old, new, message in (("topaz_f", "topas", "no doubly refractive species"),
                                  ("topaz_f", "spinel", "no doubly refractive species"),
                                  ("table off", "off", "begin with 'table'"),
                                  ("Z,7,X", "Q,7,X", "normal is 'Q'"),
                                  ("Z,7,X", "Z,7,Z", "go together"),
                                  ("Z,7,X", "Z,,X", "go together"),
                                  ("Z,7,X", "Z,97,X", "lean_deg is 97"),
                                  (",a reason,", ",,", "why is empty"),
                                  (",a source", ",", "source is empty")):
            status, said, written = run([GOOD.replace(old, new)])
            self.assertEqual((status, written), (1, ""), said)
            self.assertRegex(said, r"cuts\.csv:\d+: ")
            self.assertIn(message, said)

    def test_a_fifth_cut_of_a_species_is_refused(self):
        status, said, _ = run([GOOD] * 5)
        self.assertEqual(status, 1)
        self.assertIn("more than 4 cuts", said)


unittest.main(argv=sys.argv[:1])
