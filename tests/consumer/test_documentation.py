# SPDX-License-Identifier: MIT
"""The pages that doxygen makes of the public headers and the guide: no symbol without comment."""
import re
import subprocess

from conftest import ROOT, needed


def test_every_public_symbol_is_documented_and_no_page_is_broken(tmp_path):
    template = (ROOT / "lib" / "package" / "Doxyfile.in").read_text(encoding="utf-8")
    values = {"ROOT": str(ROOT), "OUTPUT": str(tmp_path), "VERSION": "test"}
    (tmp_path / "Doxyfile").write_text(re.sub(r"@(\w+)@", lambda m: values[m.group(1)], template))
    done = subprocess.run([needed("doxygen"), "Doxyfile"], cwd=tmp_path, capture_output=True,
                          text=True, timeout=120)
    complaints = [line for line in done.stderr.splitlines()
                  if re.search(r": (error|warning): ", line)]
    assert not complaints, "\n".join(complaints)
    assert done.returncode == 0, done.stderr
    guide = (tmp_path / "html" / "index.html").read_text(encoding="utf-8")
    for promise in ("ten minutes", "still_wanted", "make_species", "print_line", "write_png"):
        assert promise in guide, f"the guide's page has lost its programs: {promise}"
