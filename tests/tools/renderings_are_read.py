#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Readers that are not ours find in calendar, map and messages what the answers hold, and planted mistakes are found.

Usage: renderings_are_read.py FOLDER
FOLDER is what tests/report/kept_renderings_test.cpp wrote.
"""
import datetime
import json
import pathlib
import sys
import unicodedata

try:
    import geojson
    import icalendar
    import vobject
except ImportError as missing:
    print(f"SKIPPED: python3-{missing.name} is not installed; calendars and maps were not read by others")
    sys.exit(77)


def day(text):
    return datetime.date.fromisoformat(text)


def form_faults(raw):
    """What RFC 5545 asks of the lines themselves."""
    lines = raw.split(b"\r\n")
    if lines[-1] or any(b"\n" in line or b"\r" in line for line in lines):
        yield "calendar: a line does not end in CRLF"
    for line in lines:
        if len(line) > 75:
            yield f"calendar: a line of {len(line)} octets"
        try:
            line.decode()
        except UnicodeDecodeError:
            yield "calendar: a letter is cut in half by folding"


def event_faults(reader, events, expected):
    """Events as one reader has them against what the answers hold: (summary, location, first, end, stamp, uid,
    status)."""
    found = sorted((location, first, end, status == "CANCELLED") for _, location, first, end, _, _, status in events)
    wanted = sorted((event["site"], day(event["first"]), day(event["end"]), event["canceled"])
                    for event in expected["events"])
    if found != wanted:
        yield f"calendar, {reader}: {len(found)} events that are not the {len(wanted)} of the answers"
    if len({uid for *_, uid, _ in events}) != len(events):
        yield f"calendar, {reader}: a UID is used twice"
    for summary, location, _, _, stamp, uid, _ in events:
        if not summary.startswith(location + ", "):
            yield f"calendar, {reader}: {summary!r} does not begin with the site's name"
        if stamp.date() != day(expected["on"]):
            yield f"calendar, {reader}: stamped {stamp}"
        if not uid.isascii():
            yield f"calendar, {reader}: {uid!r} is not ASCII"


def calendar_faults(raw, expected):
    faults = list(form_faults(raw))
    try:
        calendar = icalendar.Calendar.from_ical(raw)
        events = [(str(e["SUMMARY"]), str(e["LOCATION"]), e["DTSTART"].dt, e["DTEND"].dt, e["DTSTAMP"].dt, str(e["UID"]),
                   str(e.get("STATUS", "")))
                  for e in calendar.walk("VEVENT")]
        faults += [f"icalendar: {error}" for e in calendar.walk("VEVENT") for error in e.errors]
        faults += event_faults("icalendar", events, expected)
        calendar = vobject.readOne(raw.decode())
        calendar.validate(raiseException=True)
        events = [(e.summary.value, e.location.value, e.dtstart.value, e.dtend.value, e.dtstamp.value, e.uid.value,
                   e.status.value if hasattr(e, "status") else "")
                  for e in calendar.vevent_list]
        faults += event_faults("vobject", events, expected)
    except Exception as fault:  # pylint: disable=broad-except  # whatever a reader stumbles over
        faults.append(f"calendar: a reader fails: {fault!r}")
    return faults


def map_faults(text, expected):
    try:
        collection = geojson.loads(text)
    except ValueError as fault:
        return [f"map: {fault}"]
    if not isinstance(collection, geojson.FeatureCollection):
        return ["map: no FeatureCollection"]
    faults = [] if collection.is_valid else [f"map: {collection.errors()}"]
    if len(collection.features) != len(expected["sites"]):
        faults.append("map: not one feature a site")
    for feature, site in zip(collection.features, expected["sites"]):
        there = feature.geometry.coordinates
        if any(abs(a - b) > 1e-5 for a, b in zip(there, [site["longitude"], site["latitude"]])):
            faults.append(f"map: {site['name']} lies elsewhere")
        if feature.properties["name"] != site["name"]:
            faults.append(f"map: {site['name']} has another name")
    ranks = sorted(t["rank"] for f in collection.features for t in f.properties["targets"] if t["rank"] is not None)
    if ranks != list(range(1, len(ranks) + 1)):
        faults.append(f"map: ranks {ranks}")
    return faults


def columns(line):
    return sum(2 if unicodedata.east_asian_width(c) in "WF" else 0 if unicodedata.combining(c) else 1 for c in line)


def message_faults(text, site):
    lines = text.splitlines()
    if not text.endswith("\n") or not 1 <= len(lines) <= 6:
        yield f"message: {len(lines)} lines"
    if any(columns(line) > 100 for line in lines):
        yield "message: a line is too wide"
    if not lines or not lines[0].startswith(site["name"] + ", "):
        yield f"message: does not begin with {site['name']!r}"


def swapped(text):
    document = json.loads(text)
    for feature in document["features"]:
        feature["geometry"]["coordinates"].reverse()
    return json.dumps(document)


def planted_faults(raw, map_text, expected):
    """Planted mistakes that go unseen."""
    calendars = {"bare line feeds": raw.replace(b"\r\n", b"\n"), "a long line": raw.replace(b"\r\n ", b""),
                 "a backslash too many": raw.replace(b"LOCATION:", b"LOCATION:\\\\"),
                 "a property nobody ended": raw.replace(b"TRANSP:TRANSPARENT", b"TRANSP"),
                 "an event that is not canceled": raw.replace(b"STATUS:CANCELLED", b"STATUS:CONFIRMED"),
                 "a shifted day": raw.replace(b"20261012", b"20261013"),
                 "one UID for all": b"\r\n".join(b"UID:x" if line.startswith(b"UID:") else line
                                                 for line in raw.split(b"\r\n")),
                 "a letter cut in half": raw.replace("ö".encode(), b"\xc3\r\n \xb6")}
    for name, text in calendars.items():
        if text == raw or not calendar_faults(text, expected):
            yield f"calendar: {name} goes unseen"
    maps = {"swapped coordinates": swapped(map_text), "a missing brace": map_text.rstrip()[:-1],
            "a wrong type": map_text.replace('"Point"', '"Pint"')}
    for name, text in maps.items():
        if text == map_text or not map_faults(text, expected):
            yield f"map: {name} goes unseen"


def main():
    folder = pathlib.Path(sys.argv[1])
    expected = json.loads((folder / "expected.json").read_text())
    raw, map_text = (folder / "calendar.ics").read_bytes(), (folder / "sites.geojson").read_text()
    faults = calendar_faults(raw, expected) + map_faults(map_text, expected)
    for site in expected["sites"]:
        faults += message_faults((folder / site["message"]).read_text(), site)
    if not faults:
        faults += planted_faults(raw, map_text, expected)
    print("\n".join(faults) or f"{len(expected['events'])} events, {len(expected['sites'])} places and messages read")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
