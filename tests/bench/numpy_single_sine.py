# SPDX-License-Identifier: MIT
"""Single-sine degree-days above 10 C of whole arrays; prints the sum and the middle of five processor times in seconds.

Usage: numpy_single_sine.py MINIMUM MAXIMUM      files of doubles
"""
import sys
import time

import numpy as np

LOWER = 10.0


def degree_days(minimum, maximum):
    mean = 0.5 * (minimum + maximum)
    half = 0.5 * (maximum - minimum)
    ratio = np.clip((LOWER - mean) / half, -1.0, 1.0)
    angle = np.arcsin(ratio)
    mixed = ((mean - LOWER) * (np.pi / 2 - angle) + half * np.cos(angle)) / np.pi
    return np.where(maximum <= LOWER, 0.0, np.where(minimum >= LOWER, mean - LOWER, mixed))


low, high = (np.fromfile(path) for path in sys.argv[1:3])
times = []
for _ in range(5):
    start = time.process_time()
    total = degree_days(low, high).sum()
    times.append(time.process_time() - start)
print(repr(float(total)), sorted(times)[2])
