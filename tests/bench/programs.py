#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Whole runs of the program, beside what they cannot do without: programs.py BUILD

  first picture   `interfig figure quartz`, 1024 px, against libpng's own time to encode that picture
                  at the same settings; the shares of start-up, optics and encoding; the table that
                  the settings were chosen from
  turn            37 frames of 512 px; a hunt map; a blink curve: time, and the share outside the
                  optics (bench_optics times the same computation in memory)
  memory          peak resident size of a picture of 1024 px and one of 16384 px

Medians of nine; times depend on the machine, ratios of one run hardly do."""
import os
import statistics
import subprocess
import sys
import tempfile
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "cli"))
from peak_memory import peak_memory  # noqa: E402

RUNS = 9


def run_ms(program, folder, words):
    start = time.perf_counter()
    subprocess.run([program, *words], cwd=folder, check=True, stdin=subprocess.DEVNULL,
                   stdout=subprocess.DEVNULL)
    return 1e3 * (time.perf_counter() - start)


def median_ms(program, folder, *words):
    return statistics.median(run_ms(program, folder, words) for _ in range(RUNS))


def optics_ms(build):
    """Milliseconds of each task in memory."""
    out = subprocess.run([os.path.join(build, "tests/bench/bench_optics")], check=True,
                         capture_output=True, text=True).stdout
    return {name: float(ms) for name, ms in (line.split() for line in out.splitlines())}


def first_picture(build, program, folder, optics):
    start_up = median_ms(program, folder, "--version")
    whole = median_ms(program, folder, "figure", "quartz", "-o", "first.png", "--threads", "2")
    table = subprocess.run([os.path.join(build, "tests/bench/bench_png"), "first.png"], cwd=folder,
                           check=True, capture_output=True, text=True).stdout
    encoding = float(table.splitlines()[0].split(" ms ")[0].split()[-1])
    rest = whole - start_up - optics - encoding
    print(f"first picture  {whole:.1f} ms, libpng alone {encoding:.1f} ms: {whole / encoding:.2f} "
          f"times (goal 2.5)")
    print(f"               start-up {start_up / whole:.0%}, optics {optics / whole:.0%}, encoding "
          f"{encoding / whole:.0%}, the rest {rest / whole:.0%} (words, bringing it to disk)")
    for line in table.splitlines():
        print(f"               {line}")


def beside_optics(name, whole, optics):
    print(f"{name}  {whole:.1f} ms, of which outside the optics {1 - optics / whole:.0%} "
          f"(optics {optics:.2f} ms)")


def memory(program, folder):
    for pixels, goal in ((1024, 40), (16384, 256)):
        peak = peak_memory(folder, program, "figure", "quartz", "--size", str(pixels), "-o",
                           "large.png", "--threads", "2") / 1024
        print(f"memory         {pixels} px: {peak:.1f} MiB at most (goal {goal})")


def main(build):
    program = os.path.abspath(os.path.join(build, "cli/interfig"))
    build = os.path.abspath(build)
    optics = optics_ms(build)
    with tempfile.TemporaryDirectory() as folder:
        first_picture(build, program, folder, optics["figure"])
        beside_optics("turn         ", median_ms(program, folder, "turn", "quartz", "-o", "turn.png",
                                                 "--threads", "2"), optics["turn"])
        beside_optics("hunt map     ", median_ms(program, folder, "hunt", "quartz", "-o", "hunt.png",
                                                 "--threads", "2"), optics["hunt"])
        beside_optics("blink curve  ", median_ms(program, folder, "blink", "quartz", "-o",
                                                 "blink.png"), optics["blink"])
        beside_optics("blink numbers", median_ms(program, folder, "blink", "quartz"),
                      optics["blink"])
        memory(program, folder)


if __name__ == "__main__":
    main(*sys.argv[1:])
