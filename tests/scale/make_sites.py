#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Invented sites around the demo's courses, each at a place of its own, all on the demo's weather files.

Usage: make_sites.py ROOT COUNT FOLDER [own]    writes FOLDER/sites.jsonl (one a line) and FOLDER/sites.json (a site file);
own: each site names a weather file of its own, a link to one of the demo's, as the points of a grid do
"""
import json
import os
import sys

root, count, folder = os.path.abspath(sys.argv[1]), int(sys.argv[2]), sys.argv[3]
own_files = sys.argv[4:] == ["own"]
with open(os.path.join(root, "config", "demo_sites.json"), encoding="utf-8") as file:
    courses = json.load(file)

sites = []
for number in range(count):
    site = dict(courses[number % len(courses)])
    step = number // len(courses) % 1000
    site["id"] = f"site-{number:05}"
    site["latitude"] = round(site["latitude"] + 0.0002 * step, 4)
    path = os.path.join(root, "weather_samples", os.path.basename(site["weather"][0]["file"]))
    if own_files:
        link = os.path.join(os.path.abspath(folder), site["id"] + ".csv")
        os.symlink(path, link)
        path = link
    site["weather"] = [{"file": path}]
    site["targets"] = ["POAAN"]
    site.pop("probe", None)
    sites.append(site)

with open(os.path.join(folder, "sites.jsonl"), "w", encoding="utf-8") as file:
    file.writelines(json.dumps(site) + "\n" for site in sites)
with open(os.path.join(folder, "sites.json"), "w", encoding="utf-8") as file:
    json.dump(sites, file)
