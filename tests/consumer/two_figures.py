# SPDX-License-Identifier: MIT
"""A stranger's program in Python: the two figures as raw RGB on standard output."""
import sys

import interfig_ctypes

with interfig_ctypes.Optics(sys.argv[1]) as interfig:
    sys.stdout.buffer.write(interfig.figure("quartz", pixels=128, thickness_mm=3))
    sys.stdout.buffer.write(interfig.figure("muscovite", pixels=128, thickness_mm=0.1, tilt_deg=20,
                                            tilt_azimuth_deg=30, stage_deg=45))
