#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Where the fuzzers begin: small files of every kind made from those of the tree, and words to put in.

Usage: make_seeds.py SOURCE PROGRAM OUTPUT
Folders of OUTPUT are named as the harnesses, OUTPUT/HARNESS.dict holds their words. With SOILCLOCK_RECORDS its small files
of other layouts and recorded answers are added.
"""
import os
import pathlib
import re
import sqlite3
import subprocess
import sys

source, program, output = (pathlib.Path(word).resolve() for word in sys.argv[1:4])
records = os.environ.get("SOILCLOCK_RECORDS")
MOST_BYTES = 8000  # larger inputs are slow to run and slow to change


def put(harness, name, data):
    folder = output / harness
    folder.mkdir(parents=True, exist_ok=True)
    (folder / name).write_bytes(data)


def head(path, lines=25):
    return b"".join(path.read_bytes().splitlines(keepends=True)[:lines])[:MOST_BYTES]


def weather_texts():
    paths = sorted((source / "weather_samples").glob("*.csv")) + sorted((source / "tests/weather_records").glob("*.txt"))
    if records:
        paths += sorted((pathlib.Path(records) / "csv_shapes").glob("[0-9]*"))
    for number, path in enumerate(paths):
        put("weather_text", path.name, bytes([number * 37 % 256]) + head(path))


def service_answers():
    if not records:
        return
    for path in sorted((pathlib.Path(records) / "api_samples").rglob("*.json")):
        if path.stat().st_size <= MOST_BYTES:
            put("service_answer", f"{path.parent.name}_{path.name}", path.read_bytes())


def model_files():
    for path in sorted((source / "models").rglob("*.json")) + [source / "config/practice.json"]:
        if path.parent.name != "schema":
            name = path.relative_to(source).as_posix()
            put("model_file", name.replace("/", "_"), name.encode() + b"\n" + path.read_bytes())


def records_files():
    """A file with every kind of note and some stored weather, in the smallest pages there are."""
    whole = output / "records.db"
    whole.unlink(missing_ok=True)
    kept = source / "tests/fuzz/kept/log_import"
    for table in sorted(kept.glob("start*")):
        subprocess.run([program, "log", "import", table, "--records", whole], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    one = ["--site", "a", "--date", "2026-10-02", "--records", str(whole)]
    for words in (["reading", "--depth", "2in", "--temperature", "55F"], ["check", "--state", "green"],
                  ["count", "--target", "POAAN", "--count", "3", "--plots", "1"], ["first-seen", "--target", "POAAN"],
                  ["application", "--active", "prodiamine"]):
        subprocess.run([program, "log", "add", words[0], *one, *words[1:]], check=True, stdout=subprocess.DEVNULL)
    files = sqlite3.connect(whole)
    files.execute("PRAGMA journal_mode = DELETE")
    files.execute("PRAGMA page_size = 512")
    files.execute("VACUUM")
    files.close()
    put("records_file", "notes.db", whole.read_bytes())
    whole.unlink()


def words():
    for kept in sorted((source / "tests/fuzz/kept").iterdir()):
        folder = output / kept.name
        folder.mkdir(parents=True, exist_ok=True)
        found = set()
        for path in sorted(folder.iterdir()) + sorted(kept.iterdir()):
            found.update(re.findall(rb'"[A-Za-z][A-Za-z0-9_]{1,40}"', path.read_bytes()))
        lines = [b'"\\"' + word.strip(b'"') + b'\\""\n' for word in sorted(found)[:600]]
        (output / f"{folder.name}.dict").write_bytes(b"".join(lines))


weather_texts()
service_answers()
model_files()
put("site_file", "demo_sites.json", (source / "config/demo_sites.json").read_bytes())
records_files()
words()
