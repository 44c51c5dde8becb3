#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Count the test cases of finished Meson test runs: closing_line.py BUILD_FOLDER...

The last line printed is "N passed, N failed, N skipped"; a skip is counted, never a pass."""
import pathlib
import re
import sys
import xml.etree.ElementTree as ElementTree


def count(folder):
    passed = failed = skipped = 0
    text = (pathlib.Path(folder) / "meson-logs" / "testlog.junit.xml").read_text("utf-8", "replace")
    # Meson 1.0 copies what a test printed as it is; XML has no place for most control characters.
    foreign = "[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]"
    tree = ElementTree.fromstring(re.sub(foreign, "?", text))
    for case in tree.iter("testcase"):
        kinds = {child.tag for child in case}
        if kinds & {"failure", "error"}:
            failed += 1
        elif "skipped" in kinds:
            skipped += 1
        else:
            passed += 1
    return passed, failed, skipped


def main():
    totals = [0, 0, 0]
    for folder in sys.argv[1:]:
        counts = count(folder)
        print("{}: {} passed, {} failed, {} skipped".format(folder, *counts))
        totals = [total + number for total, number in zip(totals, counts)]
    print("{} passed, {} failed, {} skipped".format(*totals))
    return 1 if totals[1] or not totals[0] else 0


if __name__ == "__main__":
    sys.exit(main())
