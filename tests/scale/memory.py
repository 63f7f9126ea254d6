#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Peak memory of one document of many sites.

Usage: memory.py ROOT PROGRAM SITES MOST_MB [EVERY]    with EVERY, only each so many'th site has its weather file: what the
others take stays, but for the time of their answers
"""
import json
import os
import pathlib
import subprocess
import sys
import tempfile
import time


def main():
    root, program, count, most_mb = pathlib.Path(sys.argv[1]), sys.argv[2], int(sys.argv[3]), float(sys.argv[4])
    every = int(sys.argv[5]) if len(sys.argv) > 5 else 1
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([root / "tests/scale/make_sites.py", root, str(count), folder, "own"], check=True)
        for number in range(count):
            if number % every:
                os.remove(f"{folder}/site-{number:05}.csv")
        begin = time.monotonic()
        with open(f"{folder}/answers", "wb") as answers:
            run = subprocess.Popen(
                [program, "advise", "--sites", f"{folder}/sites.json", "--on", "2026-10-15", "--format", "json"],
                env={**os.environ, "XDG_DATA_HOME": folder}, stdout=answers, stderr=subprocess.DEVNULL)
            _, status, used = os.wait4(run.pid, 0)
        seconds = time.monotonic() - begin
        with open(f"{folder}/answers", encoding="utf-8") as answers:
            sites = json.load(answers)["sites"]
    code = run.returncode = os.waitstatus_to_exitcode(status)
    peak_mb = used.ru_maxrss / 1000
    answered = sum(1 for site in sites if site["targets"])
    print(f"{len(sites)} sites in one document, {answered} with an answer: peak {peak_mb:.1f} MB, {seconds:.1f} s")
    if code != (1 if every > 1 else 0) or len(sites) != count or answered != -(-count // every):
        sys.exit(f"code {code}, or not every site is there")
    if peak_mb > most_mb:
        sys.exit(f"more than {most_mb} MB")


main()
