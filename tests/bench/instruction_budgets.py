#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Instructions of a few fixed works, counted by callgrind, held to budgets; and how they grow with the size of the work.

Usage: instruction_budgets.py PROGRAM FOLDER    FOLDER takes the made-up weather

Counts say the same on a busy machine as on an idle one, but not with another compiler: the budgets are those of the
compiler they name. Exit code 1 when a work is over its budget or a run fails.
"""
import json
import os
import re
import subprocess
import sys

here = os.path.dirname(os.path.abspath(__file__))
root = os.path.dirname(os.path.dirname(here))
program, folder = os.path.abspath(sys.argv[1]), sys.argv[2]
day = "2026-10-15"


def instructions(words, lines=""):
    """Instructions of one run of the program. It may end with 1, which says that an answer has a problem."""
    command = ["valgrind", "--tool=callgrind", "--callgrind-out-file=/dev/null", program, *words]
    run = subprocess.run(command, input=lines, capture_output=True, text=True, check=False)
    found = re.search(r"Collected : (\d+)", run.stderr)
    if run.returncode not in (0, 1) or not found:
        sys.exit(f"{' '.join(words)}: exit code {run.returncode}\n{run.stderr}")
    return int(found[1])


def demo_course():
    """The demo's first course for one grass, without its probe, as a line of a stream."""
    config = os.path.join(root, "config")
    with open(os.path.join(config, "demo_sites.json"), encoding="utf-8") as file:
        course = json.load(file)[0]
    course["targets"] = ["POAAN"]
    del course["probe"]
    for weather in course["weather"]:
        weather["file"] = os.path.normpath(os.path.join(config, weather["file"]))
    return json.dumps(course) + "\n"


def weather_file(kind, years):
    path = os.path.join(folder, f"hours_{years}_years.{kind}")
    with open(path, "w", encoding="utf-8") as file:
        subprocess.run([sys.executable, os.path.join(here, "write_weather.py"), kind, str(years)], stdout=file, check=True)
    return path


def show(title, sizes, size_of, count_of, unit):
    """Prints a table of growth; returns the share of one more of a thing, from the first and the last size."""
    print(f"\n{title}\n{'size':>10} {'M instructions':>15} {unit + ' more':>22}")
    points = []
    for size in sizes:
        points.append((size_of(size), count_of(size)))
        more = ""
        if len(points) > 1:
            more = f"{(points[-1][1] - points[-2][1]) / (points[-1][0] - points[-2][0]):,.1f}"
        print(f"{size:>10} {points[-1][1] / 1e6:>15.1f} {more:>22}", flush=True)
    return (points[-1][1] - points[0][1]) / (points[-1][0] - points[0][0])


def main():
    line = demo_course()
    stream = {n: instructions(["advise", "--format", "json", "--sites", "-", "--on", day], line * n) for n in (1, 2, 4, 8)}
    measured = {
        "--version": instructions(["--version"]),
        "cold advise of one course": stream[1],
        "one site in a stream": (stream[4] - stream[1]) / 3,
    }
    show("Sites in a stream", stream, lambda n: n, stream.get, "a site")
    for kind, work in (("csv", "hourly CSV to days, a byte"), ("json", "saved answer of hours to days, a byte")):
        paths = {years: weather_file(kind, years) for years in (1, 5, 20)}
        measured[work] = show(f"Years of hours in {kind}", paths, lambda years: os.path.getsize(paths[years]),
                              lambda years: instructions(["inspect", paths[years]]), "a byte")
    with open(os.path.join(here, "instruction_budgets.json"), encoding="utf-8") as file:
        budgets = json.load(file)["budgets"]
    if {budget["work"] for budget in budgets} != set(measured):
        sys.exit("instruction_budgets.json does not name the works that are measured")
    print(f"\n{'work':<40} {'instructions':>15} {'budget':>15}")
    over = []
    for budget in budgets:
        count = measured[budget["work"]]
        most = budget["instructions"] * (1 + budget["allowance_percent"] / 100)
        shown = "{:>15,.1f} {:>15,.1f}" if most < 1e4 else "{:>15,.0f} {:>15,.0f}"
        print(f"{budget['work']:<40} " + shown.format(count, most))
        if count > most:
            over.append(f"over budget: {budget['work']}: {100 * (count / budget['instructions'] - 1):.1f} percent more than "
                        f"measured on {budget['measured_on']} with {budget['compiler']}; {budget['allowance_percent']} are allowed")
    sys.exit("\n".join(over) or 0)


main()
