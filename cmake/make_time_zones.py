#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Writes config/time_zones.txt from the system's zone files: make_time_zones.py [FOLDER] > config/time_zones.txt

Takes the "fat" files that Debian's tzdata installs, which name every change of the clock to 2037. Slim files leave out
changes that a rule implies, and a reader that takes the rule too early is wrong in zones that changed sides (Ojinaga in
2022, Tbilisi in 1996). Here trailing changes are dropped only where the rule gives the same ones, which is checked.
"""
import pathlib
import re
import struct
import sys
from datetime import date, datetime, timedelta, timezone

EPOCH = datetime(1970, 1, 1, tzinfo=timezone.utc)
SKIPPED = {"posix", "right", "posixrules", "localtime", "Factory"}


def block(data, at, version, time_size):
    """One data block of a zone file (RFC 8536): its changes as (second, offset, summer), and where it ends."""
    isutc, isstd, leap, changes, types, chars = struct.unpack(">6l", data[at + 20:at + 44])
    at += 44
    times = struct.unpack(f">{changes}{'q' if time_size == 8 else 'l'}", data[at:at + changes * time_size])
    at += changes * time_size
    kinds = data[at:at + changes]
    at += changes
    infos = [struct.unpack(">lbB", data[at + 6 * i:at + 6 * i + 6]) for i in range(types)]
    at += 6 * types + chars + leap * (time_size + 4) + isstd + isutc
    states = [(offset, bool(summer)) for offset, summer, _ in infos]
    return states[0], [(t, *states[k]) for t, k in zip(times, kinds)], at


def seconds_of(text):
    sign = -1 if text.startswith("-") else 1
    parts = [int(p) for p in text.lstrip("+-").split(":")] + [0, 0]
    return sign * (parts[0] * 3600 + parts[1] * 60 + parts[2])


NAME = r"(?:[A-Za-z]+|<[^>]+>)"
OFFSET = r"[+-]?\d+(?::\d+){0,2}"
RULE = re.compile(rf"^{NAME}({OFFSET})(?:{NAME}({OFFSET})?,M([\d.]+)(?:/({OFFSET}))?,M([\d.]+)(?:/({OFFSET}))?)?$")


def rule_of(footer):
    """(standard, summer, start, end): seconds east of UTC, and (month, week, weekday, second); summer may be None."""
    found = RULE.match(footer)
    if not found:
        sys.exit(f"this rule is in a form that is not read here: {footer}")
    standard = -seconds_of(found[1])
    if not found[3]:
        return standard, None, None, None
    summer = -seconds_of(found[2]) if found[2] else standard + 3600
    day = lambda m, t: (*[int(p) for p in m.split(".")], seconds_of(t) if t else 7200)
    return standard, summer, day(found[3], found[4]), day(found[5], found[6])


def day_in(year, month, week, weekday):
    if week == 5:
        day = date(year + month // 12, month % 12 + 1, 1) - timedelta(days=1)
        return day - timedelta(days=(day.isoweekday() - weekday) % 7)
    first = date(year, month, 1)
    return first + timedelta(days=(weekday - first.isoweekday()) % 7 + 7 * (week - 1))


def changes_by(rule, year):
    standard, summer, start, end = rule
    at = lambda d, offset: (day_in(year, *d[:3]) - date(1970, 1, 1)).days * 86400 + d[3] - offset
    return [(at(start, standard), summer, True), (at(end, summer), standard, False)]


def continued(rows, rule, until):
    """The rows with those that the rule adds behind the last."""
    if rule[1] is None:
        return rows
    years = range(datetime.fromtimestamp(rows[-1][0], timezone.utc).year - 1, until + 1)
    ruled = sorted(change for year in years for change in changes_by(rule, year))
    return rows + [change for change in ruled if change[0] > rows[-1][0]]


def zone(path):
    data = path.read_bytes()
    if data[:4] != b"TZif":
        return None
    _, _, end = block(data, 0, data[4:5], 4)
    first, changes, end = block(data, end, data[4:5], 8)
    rule = rule_of(data[end:].strip(b"\n").decode())
    state = first
    rows = []
    for t, offset, summer in changes:
        if t > 0 and not rows:
            rows.append((0, *state))
        if t > 0 and (offset, summer) != state:
            rows.append((t, offset, summer))
        state = (offset, summer)
    rows = rows or [(0, *state)]
    last_year = max(2037, datetime.fromtimestamp(rows[-1][0], timezone.utc).year)
    for kept in range(1, len(rows) + 1):
        if continued(rows[:kept], rule, last_year) == rows and (rule[1] is not None or rule[0] == rows[-1][1]):
            return tuple(rows[:kept]), rule
    sys.exit(f"{path}: the rule does not follow from the last change")


def written(rows, rule):
    standard, summer, start, end = rule
    ruled = f"{standard}"
    if summer is not None:
        ruled += f" {summer} " + " ".join(",".join(str(p) for p in d) for d in (start, end))
    return " ".join(f"{t},{offset},{int(is_summer)}" for t, offset, is_summer in rows) + "|" + ruled


def main():
    folder = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else "/usr/share/zoneinfo")
    version = (folder / "tzdata.zi").open().readline().split()[-1]
    zones = {}
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder).as_posix()
        if path.is_dir() or name.split("/")[0] in SKIPPED:
            continue
        if found := zone(path):
            zones.setdefault(written(*found), []).append(name)
    print(f"# Time zones since 1970, from the tz database {version} (public domain) by cmake/make_time_zones.py.")
    print("# A line: names | changes as second since 1970 in UTC, seconds east of UTC, 1 in summer time | what holds after")
    print("# the last change: seconds east of UTC or, where the clock goes on changing, those of standard and of summer time and")
    print("# the start and end of summer time as month, week (5 the last), weekday (0 Sunday), second of that day by the wall.")
    print(f"version {version}")
    for text, names in sorted(zones.items(), key=lambda entry: entry[1]):
        print(" ".join(names) + "|" + text)


main()
