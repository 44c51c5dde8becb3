# SPDX-License-Identifier: MIT
"""embed.py names the file and line of each thing wrong with the catalogue, and writes the same
bytes each time. Arguments: embed.py and the folder of the CSV files."""
import csv
import io
import pathlib
import subprocess
import sys
import tempfile
import unittest

EMBED, DATA = sys.argv[1], pathlib.Path(sys.argv[2])
FILES = ["species.csv", "dispersion.csv", "rotation.csv", "absorption.csv", "colours.csv",
         "stress_optic.csv", "cuts.csv", "grains.csv", "trade.csv"]


def run(folder):
    output = pathlib.Path(folder) / "table.c"
    paths = [str(pathlib.Path(folder) / name) for name in FILES]
    done = subprocess.run([sys.executable, EMBED, *paths, "-o", str(output)],
                          capture_output=True, text=True, check=False)
    return done, output.read_bytes() if output.exists() else None


def changed(text, key, column, value):
    """The CSV text with one cell of the row of a key changed, and the line of that row."""
    lines = text.splitlines(keepends=True)
    head = [line for line in lines if line.startswith("#")]
    rows = list(csv.reader(lines[len(head):]))
    place = next(i for i, row in enumerate(rows) if row[0] == key)
    rows[place][rows[0].index(column)] = value
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows(rows)
    return "".join(head) + out.getvalue(), len(head) + place + 1


class Embed(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        for name in FILES:
            text = (DATA / name).read_text(encoding="utf-8")
            (pathlib.Path(self.folder.name) / name).write_text(text, encoding="utf-8")

    def tearDown(self):
        self.folder.cleanup()

    def change(self, name, key, column, value):
        path = pathlib.Path(self.folder.name) / name
        text, line = changed(path.read_text(encoding="utf-8"), key, column, value)
        path.write_text(text, encoding="utf-8")
        return line

    def refuse(self, name, key, column, value, message):
        line = self.change(name, key, column, value)
        done, output = run(self.folder.name)
        self.assertEqual(done.returncode, 1, done.stderr)
        self.assertIsNone(output)
        matching = [said for said in done.stderr.splitlines()
                    if said.startswith(f"{name}:{line}: ") and message in said]
        self.assertTrue(matching, done.stderr)
        self.tearDown()
        self.setUp()

    def test_the_catalogue_is_accepted_and_the_output_is_the_same_twice(self):
        (one, first), (two, second) = run(self.folder.name), run(self.folder.name)
        self.assertEqual((one.returncode, one.stderr), (0, ""))
        self.assertEqual(first, second)
        self.assertNotIn(b"0.0/0.0", first)

    def test_one_changed_byte_changes_the_hash(self):
        def digest(output):
            return next(x for x in output.split(b"\n") if b"ifig_builtin_hash" in x)
        seen = {digest(run(self.folder.name)[1])}
        for change in [("rotation.csv", "quartz", "notes", "another note"),
                       ("absorption.csv", "ruby", "peak_per_mm", "1.9"),
                       ("colours.csv", "ruby", "words", "red stone"),
                       ("stress_optic.csv", "quartz", "per_tpa", "-3"),
                       ("grains.csv", "marble", "grain_mm", "0.6"),
                       ("trade.csv", "quartz", "gravity_low", "2.63")]:
            self.change(*change)
            after = digest(run(self.folder.name)[1])
            self.assertNotIn(after, seen, change)
            seen.add(after)

    def test_each_thing_wrong_is_told_with_its_line(self):
        for case in [
            ("species.csv", "quartz", "key", "Quartz", "key is 'Quartz'"),
            ("species.csv", "corundum", "key", "quartz", "is taken by line"),
            ("species.csv", "quartz", "name", "", "name is empty"),
            ("species.csv", "quartz", "source", "", "source is empty"),
            ("species.csv", "quartz", "nature", "wild", "nature is 'wild'"),
            ("species.csv", "quartz", "crystal_system", "round", "crystal_system is 'round'"),
            ("species.csv", "quartz", "optic_character", "odd", "optic_character is 'odd'"),
            ("species.csv", "quartz", "optic_sign", "-", "the indices make the stone +"),
            ("species.csv", "quartz", "optic_sign", "", "optic_sign is empty"),
            ("species.csv", "diamond", "optic_sign", "+", "has no optic_sign"),
            ("species.csv", "quartz", "n1", "1,544", "a decimal number with a point"),
            ("species.csv", "quartz", "n1", "nan", "a decimal number with a point"),
            ("species.csv", "quartz", "n1", "7", "must lie between 1 and 5"),
            ("species.csv", "quartz", "n1", "", "filled from the left"),
            ("species.csv", "quartz", "n1", "1.5480", "must agree within 0.0005"),
            ("species.csv", "quartz", "n3", "1.6", "cannot have 3 indices"),
            ("species.csv", "quartz", "n_low", "1.55", "outside n_low to n_high"),
            ("species.csv", "quartz", "n_low", "1.6", "n_low is above n_high"),
            ("species.csv", "quartz", "two_v_deg", "30", "but the stone is uniaxial"),
            ("species.csv", "topaz_f", "n2", "1.625", "n1 <= n2 <= n3 does not hold"),
            ("species.csv", "topaz_f", "n2", "1.610", "must differ"),
            ("species.csv", "topaz_f", "two_v_deg", "55", "must agree within 2.0 degrees"),
            ("species.csv", "topaz_f", "two_v_deg", "95", "must lie between 0 and 90"),
            ("species.csv", "topaz_f", "two_v_f_deg", "-95", "must lie between -90 and 180"),
            ("species.csv", "topaz_f", "axes_turn_deg", "1", "both or neither"),
            ("species.csv", "gypsum", "monoclinic_dispersion", "odd", "is 'odd'"),
            ("species.csv", "quartz", "dispersion_bg", "-0.1", "must lie between 0 and 1"),
            ("species.csv", "quartz", "dispersion_key", "nosuch", "has no rows for e, o"),
            ("species.csv", "quartz", "rotation_key", "nosuch", "is not in rotation.csv"),
            ("species.csv", "quartz", "opaque", "yes", "opaque is 'yes'"),
            ("species.csv", "quartz", "reaction", "XX", "reaction is 'XX'"),
            ("species.csv", "quartz", "notes", "a\tb", "does not print"),
            ("species.csv", "quartz", "notes", " a", "begins or ends with a blank"),
            ("dispersion.csv", "quartz", "formula_type", "9", "must lie between 1 and 6"),
            ("dispersion.csv", "quartz", "formula_type", "1.5", "a whole number"),
            ("dispersion.csv", "quartz", "axis", "w", "axis is 'w'"),
            ("dispersion.csv", "quartz", "axis", "e", ""),
            ("dispersion.csv", "quartz", "coefficients", "1 x", "1 to 17 numbers"),
            ("dispersion.csv", "quartz", "coefficients", "0 1.3 0.2", "that falls"),
            ("dispersion.csv", "quartz", "reference", "", "reference is empty"),
            ("dispersion.csv", "quartz", "low_um", "3", "low_um must be below high_um"),
            ("rotation.csv", "quartz", "reference", "", "reference is empty"),
            ("rotation.csv", "quartz", "pole1_um2", "0.2", "must lie between 0 and 0.08"),
        ]:
            with self.subTest(case=case):
                if case[2:4] == ("axis", "e"):
                    self.change(*case[:4])
                    done, _ = run(self.folder.name)
                    self.assertIn("has a second row for axis e", done.stderr)
                    self.tearDown()
                    self.setUp()
                else:
                    self.refuse(*case)

    def test_the_row_of_the_trade_is_checked_with_its_line(self):
        for column, value, message in [
                ("gravity_low", "2.7", "must both be given, and rise"),
                ("gravity_high", "", "must both be given, and rise"),
                ("gravity_low", "heavy", "a decimal number with a point"),
                ("species_key", "nosuch", "no species 'nosuch'"),
                ("hues", "red;mauve", "hues holds 'mauve'"),
                ("conducts_heat", "yes", "conducts_heat is 'yes'"),
                ("table", "along", "table is 'along'"),
                ("source", "", "source is empty")]:
            with self.subTest(column=column, value=value):
                line = self.change("trade.csv", "quartz", column, value)
                folder = pathlib.Path(self.folder.name)
                done = subprocess.run(
                    [sys.executable, EMBED.replace("embed.py", "embed_trade.py"),
                     str(folder / "trade.csv"), str(folder / "species.csv"),
                     "-o", str(folder / "trade.c")],
                    capture_output=True, text=True, check=False)
                self.assertEqual(done.returncode, 1, done.stderr)
                self.assertTrue(any(said.startswith(f"trade.csv:{line}: ") and message in said
                                    for said in done.stderr.splitlines()), done.stderr)
                self.assertFalse((folder / "trade.c").exists())
                self.tearDown()
                self.setUp()

    def test_a_foreign_column_is_refused(self):
        path = pathlib.Path(self.folder.name) / "species.csv"
        text = path.read_text(encoding="utf-8")
        path.write_text(text.replace("key,name,", "key,title,", 1), encoding="utf-8")
        done, _ = run(self.folder.name)
        self.assertIn("the columns must be: key,name,", done.stderr)

    def test_a_missing_file_is_named(self):
        (pathlib.Path(self.folder.name) / "rotation.csv").unlink()
        done, _ = run(self.folder.name)
        self.assertEqual(done.returncode, 1)
        self.assertIn("rotation.csv", done.stderr)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
