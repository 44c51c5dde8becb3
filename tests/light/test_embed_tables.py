# SPDX-License-Identifier: MIT
"""The script that turns the light room's tables into C refuses a table it cannot trust."""
import pathlib
import subprocess
import sys
import tempfile
import unittest

SCRIPT = pathlib.Path(sys.argv.pop(1)).resolve()
ROOM = SCRIPT.parent


class EmbedTables(unittest.TestCase):
    def embed(self, table=None, old="", new=""):
        """Run the script on the room's tables, one of them with a piece of text replaced."""
        with tempfile.TemporaryDirectory() as folder:
            for name in ("observer.csv", "illuminants.csv"):
                text = (ROOM / name).read_text(encoding="utf-8")
                if name == table:
                    self.assertIn(old, text)
                    text = text.replace(old, new, 1)
                pathlib.Path(folder, name).write_text(text, encoding="utf-8")
            output = pathlib.Path(folder, "tables.c")
            run = subprocess.run(
                [sys.executable, SCRIPT, "observer.csv", "illuminants.csv", "-o", output],
                cwd=folder, capture_output=True, text=True, check=False)
            self.assertEqual(run.returncode == 0, output.exists())
            return run

    def refuse(self, table, old, new, told):
        run = self.embed(table, old, new)
        self.assertNotEqual(run.returncode, 0)
        self.assertIn(told, run.stderr)

    def test_tables_of_the_room_are_taken(self):
        self.assertEqual(self.embed().returncode, 0)

    def test_missing_source_is_refused(self):
        self.refuse("observer.csv", "Source:", "From", "no comment names the source")

    def test_missing_row_is_refused(self):
        self.refuse("illuminants.csv", "780,241.675,63.3828,0.09,0.28\n", "", "80 rows")

    def test_wrong_wavelength_is_refused(self):
        self.refuse("illuminants.csv", "\n385,", "\n386,",
                    "illuminants.csv:4: wavelength_nm is 386; the next row must be 385")

    def test_negative_value_is_refused(self):
        self.refuse("observer.csv", "0.0001299,", "-0.0001299,",
                    "observer.csv:3: xbar is -0.0001299")

    def test_word_is_refused(self):
        self.refuse("illuminants.csv", "9.7951,", "much,", "A is 'much', not a number")

    def test_nan_is_refused(self):
        self.refuse("illuminants.csv", "9.7951,", "nan,", "A is nan; it must be finite")

    def test_unknown_column_is_refused(self):
        self.refuse("illuminants.csv", "FL11,LED-B3", "FL11,LED-B4",
                    "columns must be wavelength_nm, D65, A")

    def test_short_row_is_refused(self):
        self.refuse("illuminants.csv", "9.7951,", "", "4 values; the header names 5")


if __name__ == "__main__":
    unittest.main()
