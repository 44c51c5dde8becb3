# SPDX-License-Identifier: MIT
"""The memory of a run. A child that is born of a large process counts the parent's memory as its own
until it has become another program (getrusage(2), ru_maxrss), so a small process stands between."""
import subprocess
import sys

BETWEEN = """\
import resource, subprocess, sys
status = subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL).returncode
print(status, resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)
"""


def peak_memory(folder, *words):
    """Peak resident memory, KiB, of a run that must go well."""
    done = subprocess.run([sys.executable, "-S", "-c", BETWEEN, *words], cwd=folder, check=True,
                          capture_output=True, timeout=120)
    status, kibibytes = map(int, done.stdout.split())
    assert status == 0, done.stderr
    return kibibytes
