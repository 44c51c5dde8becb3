# SPDX-License-Identifier: MIT
"""embed_grains.py names the file and line of each thing wrong with the grains. Arguments:
embed_grains.py and the folder of the CSV files."""
import pathlib
import subprocess
import sys
import tempfile
import unittest

EMBED, DATA = sys.argv[1], pathlib.Path(sys.argv[2])


def run(change=None):
    """The run on a copy of grains.csv in which a text is replaced once."""
    with tempfile.TemporaryDirectory() as folder:
        text = (DATA / "grains.csv").read_text(encoding="utf-8")
        if change is not None:
            assert change[0] in text
            text = text.replace(*change, 1)
        grains, output = pathlib.Path(folder) / "grains.csv", pathlib.Path(folder) / "table.c"
        grains.write_text(text, encoding="utf-8")
        done = subprocess.run(
            [sys.executable, EMBED, str(grains), str(DATA / "species.csv"), "-o", str(output)],
            capture_output=True, text=True, check=False)
        return done, output.read_bytes() if output.exists() else None


class EmbedGrains(unittest.TestCase):
    def test_the_grains_are_accepted_and_the_output_is_the_same_twice(self):
        (one, first), (two, second) = run(), run()
        self.assertEqual((one.returncode, one.stderr, two.returncode), (0, "", 0))
        self.assertEqual(first, second)
        self.assertIn(b'"chalcedony", "quartz"', first)

    def test_each_thing_wrong_is_told_with_its_line(self):
        for change, message in [
            (("chalcedony,quartz", "quartz,quartz"), "'quartz' is no aggregate"),
            (("nephrite,actinolite", "jadeite,actinolite"), "has a row already"),
            (("chalcedony,quartz", "chalcedony,marble"), "must be a crystal of species.csv"),
            (("chalcedony,quartz,", "chalcedony,quartz,1.5"), "without indices beside"),
            (("chalcedony,quartz", "chalcedony,"), "give grain_key, or n1 to n3"),
            (("chalcedony,quartz,,,,0.02", "chalcedony,quartz,,,,"), "grain_mm is empty or wrong"),
            (("chalcedony,quartz,,,,0.02", "chalcedony,quartz,,,,20"), "between 0.001 and 10"),
            (("1.61,1.62,1.65", "1.61,1.66,1.65"), "n1 <= n2 <= n3 does not hold"),
            (("felted fibres", ""), "texture is empty"),
        ]:
            with self.subTest(change=change):
                done, output = run(change)
                self.assertEqual(done.returncode, 1)
                self.assertIsNone(output)
                self.assertRegex(done.stderr, r"(?m)^grains\.csv:\d+: .*" + message)

    def test_an_aggregate_without_a_row_is_named(self):
        done, _ = run(("chalcedony,quartz", "quartzite,quartz"))
        self.assertIn("the aggregate 'chalcedony' of species.csv has no row", done.stderr)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
