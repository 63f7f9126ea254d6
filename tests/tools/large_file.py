#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""The largest file that is taken, of the shortest lines there are, fits the memory of a small machine.

Usage: large_file.py PROGRAM
"""
import pathlib
import resource
import subprocess
import sys
import tempfile

LINES = 3_000_000
MOST_MB = 600  # a machine with 1 GB has this much left for a program
MOST_CPU_S = 30  # some ten times what it takes; a course of reading that grows with the square takes hours


def main():
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / "short_lines.csv"
        path.write_text("date,tmin,tmax\n" + "2024-01-01,1,9\n" * LINES)
        run = subprocess.run([sys.argv[1], "inspect", str(path)], capture_output=True, text=True)
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    megabytes = used.ru_maxrss / 1024
    seconds = used.ru_utime + used.ru_stime
    print(f"{megabytes:.0f} MB, {seconds:.1f} CPU s, code {run.returncode}")
    if run.returncode != 0 or f"line {LINES + 1}" not in run.stdout and "repeated days" not in run.stdout:
        sys.exit("not read to its end:\n" + run.stdout[:2000] + run.stderr[:2000])
    if megabytes > MOST_MB or seconds > MOST_CPU_S:
        sys.exit(f"more than {MOST_MB} MB or {MOST_CPU_S} CPU s")


main()
