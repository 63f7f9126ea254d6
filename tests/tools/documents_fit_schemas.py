#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Every JSON document the program prints fits the schema of its format in src/report/schema/, the schemas describe
nothing that is never printed, and they refuse planted mistakes.

Usage: documents_fit_schemas.py ROOT PROGRAM [FOLDER]
FOLDER holds what other tests saw printed, a file each; with it every field of a schema must have been printed once.
"""
import datetime
import json
import math
import os
import pathlib
import subprocess
import sys
import tempfile

sys.dont_write_bytecode = True  # the source tree stays as it is
try:
    import jsonschema
except ImportError:
    print("SKIPPED: python3-jsonschema is not installed; the program's documents were not held against their schemas")
    sys.exit(77)
from models_fit_schemas import undescribed  # noqa: E402

TODAY = "2026-10-15"


class Schemas:
    """The schemas of the program's documents; the word in a document's format names its schema."""

    def __init__(self, root):
        self.folder = root / "src" / "report" / "schema"
        self.parsed = {path.name: json.loads(path.read_text()) for path in sorted(self.folder.glob("*.schema.json"))}
        self.shared = self.parsed["shared.schema.json"]["$defs"]
        self.formats = sorted(name.removesuffix(".schema.json") for name in self.parsed if not name.startswith("shared"))
        self.validators = {}
        for name in self.formats:
            schema = self.parsed[name + ".schema.json"]
            resolver = jsonschema.RefResolver((self.folder / "x").resolve().as_uri(), schema, store={
                (self.folder / "shared.schema.json").resolve().as_uri(): self.parsed["shared.schema.json"]})
            self.validators[name] = jsonschema.Draft202012Validator(schema, resolver=resolver)

    def faults(self, document):
        """What is wrong with a document, one line each; empty when it fits."""
        form = document.get("format", "") if isinstance(document, dict) else ""
        validator = self.validators.get(str(form).removeprefix("soilclock-"))
        if validator is None:
            return [f"no schema for the format {form!r}"]
        return ["/" + "/".join(map(str, fault.absolute_path)) + ": " + fault.message[:200]
                for fault in validator.iter_errors(document)]


def fields_of(node, place=""):
    """Places of all properties a schema describes itself: "/sites/*/name"."""
    for name, field in node.get("properties", {}).items():
        yield f"{place}/{name}"
        yield from fields_of(field, f"{place}/{name}")
    if isinstance(node.get("items"), dict):
        yield from fields_of(node["items"], place + "/*")
    for choice in node.get("anyOf", []) + node.get("oneOf", []):
        yield from fields_of(choice, place)


def objects_of(node, place=""):
    """All objects of a document with their place, list places as "*"."""
    if isinstance(node, dict):
        yield place, node
        for name, child in node.items():
            yield from objects_of(child, f"{place}/{name}")
    elif isinstance(node, list):
        for child in node:
            yield from objects_of(child, place + "/*")


def documents_in(text):
    """A text that is one document, or one a line."""
    try:
        return [json.loads(text)]
    except json.JSONDecodeError:
        return [json.loads(line) for line in text.splitlines()]


class Run:
    """The program at a desk of its own: no records or settings of the person who runs this."""

    def __init__(self, root, program, folder):
        self.root, self.program, self.folder = root, program, folder
        self.environment = os.environ | {"XDG_DATA_HOME": str(folder), "XDG_CONFIG_HOME": str(folder)}
        self.documents = []  # (words, document)
        self.faults = []

    def __call__(self, *words, code=0, given=None):
        """Runs the program and keeps its document, or its documents where it prints one a line."""
        run = subprocess.run([self.program, *map(str, words)], input=given, capture_output=True, text=True,
                             check=False, cwd=self.root, env=self.environment, timeout=120)
        said = " ".join(map(str, words))
        if run.returncode != code:
            self.faults.append(f"{said}: ended with {run.returncode}, not {code}: {run.stderr[:300]}")
        try:
            self.documents += [(said, document) for document in documents_in(run.stdout)]
        except json.JSONDecodeError as fault:
            self.faults.append(f"{said}: no JSON: {fault}")

    def do(self, *words):
        """Runs a command whose output is no document."""
        run = subprocess.run([self.program, *map(str, words)], capture_output=True, text=True, check=False,
                             cwd=self.root, env=self.environment, timeout=120)
        if run.returncode != 0:
            self.faults.append(" ".join(map(str, words)) + f": ended with {run.returncode}: {run.stderr[:300]}")

    def file(self, name, text):
        path = self.folder / name
        path.write_text(text)
        return path


def site_line(**more):
    """A site as a line of standard input."""
    site = {"id": "one", "latitude": 35.6, "longitude": -83.1, "turf": {"irrigated": True},
            "weather": [{"file": "weather_samples/copper_heron.csv"}]}
    return json.dumps(site | more) + "\n"


def note(run):
    """Notes of every kind for the demo's first course."""
    add = ["log", "add"]
    here = ["--site", "copper-heron"]
    run.do(*add, "application", *here, "--date", "2026-09-01", "--active", "prodiamine", "--purpose", "pre",
           "--watering-in", "0.25in", "--air-temperature", "75F")
    run.do(*add, "count", *here, "--date", "2026-08-28", "--target", "POAAN", "--count", "3", "--count", "5", "--stage",
           "2 leaves")
    run.do(*add, "reading", *here, "--date", "2026-10-15", "--time", "06:10", "--depth", "2in", "--temperature", "62F")
    run.do(*add, "first-seen", *here, "--date", "2026-08-27", "--target", "POAAN")
    run.do(*add, "check", *here, "--date", "2026-10-14", "--state", "green")
    run.do(*add, "strip", *here, "--date", "2026-10-10", "--target", "POAAN", "--treated", "2", "--untreated", "9",
           "--treated-before", "8", "--untreated-before", "7")
    run.do(*add, "strip", *here, "--date", "2026-10-11", "--target", "POAAN", "--treated-share", "4%", "--untreated-share",
           "40%")
    run.do(*add, "application", *here, "--date", "2026-10-01", "--group", "9", "--purpose", "post")


def fetched(run):
    """A saved answer of a service, hours before and after today."""
    begin = datetime.datetime(2025, 6, 1)
    hours = [begin + datetime.timedelta(hours=i) for i in range(24 * 512)]
    hourly = {"time": [hour.strftime("%Y-%m-%dT%H:%M") for hour in hours],
              "temperature_2m": [round(14 - 11 * math.cos((hour.timetuple().tm_yday - 20) / 58.1)
                                       - 5 * math.cos(hour.hour / 3.82), 1) for hour in hours],
              "precipitation": [2.0 if hour.hour == 3 and hour.day % 4 == 0 else 0.0 for hour in hours],
              "relative_humidity_2m": [55] * len(hours), "wind_speed_10m": [2.5] * len(hours)}
    units = {"time": "iso8601", "temperature_2m": "°C", "precipitation": "mm", "relative_humidity_2m": "%",
             "wind_speed_10m": "m/s"}
    answer = {"latitude": 35.6, "longitude": -83.1, "generationtime_ms": 0.1, "utc_offset_seconds": 0, "timezone": "GMT",
              "timezone_abbreviation": "GMT", "elevation": 300.0, "hourly_units": units, "hourly": hourly}
    saved = run.file("saved.json", json.dumps(answer))
    place = ["--service", "open-meteo", "--latitude", "35.6", "--longitude", "-83.1", "--elevation", "310", "--name",
             "fetched"]
    run("fetch", *place, "--time-zone", "America/New_York", "--saved", saved, "--saved-on", TODAY, "--format", "json")
    run("advise", *place, "--time-zone", "America/New_York", "--on", TODAY, "--format", "json")


def answered(run):
    """Advice and day tables: all year, other plans, refused sites, sites line by line, notes."""
    demo = ["--sites", "config/demo_sites.json"]
    for day in ("2026-10-15", "2026-01-20", "2026-04-10", "2026-05-20"):
        run("advise", *demo, "--on", day, "--format", "json")
    run("advise", *demo, "--on", TODAY, "--past-seasons", "--plan", "prodiamine", "--format", "json")
    areas = ["--sites", "tests/app/course_with_areas.json"]
    for command in ("advise", "season", "compare"):
        run(command, *areas, "--on", TODAY, "--format", "json")
    lost = run.file("lost.json", site_line(weather=[{"file": "nowhere.csv"}], areas=[{"name": "tee"}, {"name": "green"}]))
    run("advise", "--sites", lost, "--on", TODAY, "--format", "json", code=2)
    run("season", *demo, "--on", TODAY, "--format", "json")
    run("compare", "--weather", "tests/weather_records/CRND0103-2020-OR_Coos_Bay_8_SW.txt", "--on", "2020-10-20",
        "--format", "json")
    run("compare", *demo, "--on", TODAY, "--target", "POAAN", "--target", "DIGIS", "--format", "json")
    grasses = [word for code in ("POAAN", "DIGSA", "ELEIN", "SETPU") for word in ("--target", code)]
    run("advise", *demo, *grasses, "--on", TODAY, "--format", "json")
    # A cool coast has no single week; a short record without a place, an old one and none at all are refused.
    run("advise", "--weather", "tests/weather_records/CRND0103-2020-OR_Coos_Bay_8_SW.txt", "--on", "2020-10-20",
        "--format", "json")
    short = run.file("short.csv", "date,tmin_c,tmax_c\n2026-10-01,5,15\n2026-10-02,6,17\n")
    for words in (["--weather", short], ["--weather", short, "--latitude", "35.6", "--longitude", "-83.1"]):
        for command in ("advise", "season", "compare"):
            run(command, *words, "--on", TODAY, "--format", "json", code=2 if len(words) == 2 else 3)
    lines = [site_line(group="north", time_zone="America/New_York"), site_line(color="green"), "{\n",
             site_line(weather=[{"file": "nowhere.csv"}]), site_line(id="far", latitude=-35.6, longitude=149.1)]
    run("advise", "--sites", "-", "--on", TODAY, "--format", "json", given="".join(lines), code=1)
    note(run)
    run("advise", *demo, "--only", "copper-heron", "--on", TODAY, "--format", "json")
    run("advise", *demo, "--only", "copper-heron", "--on", "2026-09-20", "--format", "json")
    run("season", *demo, "--only", "copper-heron", "--on", TODAY, "--format", "json")
    run("log", "export", "--format", "json")
    run("log", "list", "--site", "millrace-nine", "--format", "json")


def others(run):
    """The documents of the other commands."""
    course = ["--weather", "weather_samples/copper_heron.csv", "--latitude", "35.6", "--longitude", "-83.1"]
    broken = run.file("broken.csv", "date,tmin_c,tmax_c\n2026-10-01,5,15\n2026-10-02,60,17\nno day,1,2\n")
    run("inspect", "weather_samples/saltmarsh_bell.csv", "tests/weather_records/CRND0103-2020-NC_Durham_11_W.txt", broken,
        "--days", "--format", "json")
    placed = run.file("placed.csv", "# latitude: 35.0\n# longitude: -83.0\n# elevation: 310 m\n"
                      "date,tmin_c,tmax_c\n2026-10-01,5,15\n2026-10-02,6,17\n")
    run("inspect", placed, "--format", "json")
    run("inspect", run.file("no_table.csv", "nothing\n"), "--format", "json", code=3)
    probe = [*course, "--probe", "weather_samples/copper_heron_probe.csv"]
    run("soil", *course, "--format", "json")
    run("soil", *probe, "--fit", "--format", "json")
    upper = ["--lower", "10C", "--upper", "30C", "--cutoff", "horizontal"]
    for words in (["--method", "average"], ["--method", "double-sine", *upper], ["--below", "18C"]):
        run("degree-days", *course, *words, "--from", "2026-02-15", "--to", "2026-10-14", "--format", "json")
    run("models", "--format", "json")
    noted = [{"kind": "count", "date": f"2025-{day}", "target": "POAAN", "count": count, "plot_area": "0.1m2"}
             for day, count in (("10-01", [0, 1, 0, 2]), ("11-25", [9, 14, 7, 11]))]
    noted.append({"kind": "first-seen", "date": "2025-09-24", "target": "POAAN"})
    sites = json.loads((run.root / "config" / "demo_sites.json").read_text())[:1]
    for weather in sites[0]["weather"] + sites[0].pop("probe"):
        weather["file"] = str(run.root / "config" / weather["file"])
    run("learned", "--sites", run.file("learned.json", json.dumps([sites[0] | {"log": noted}])), "--on", "2026-09-15",
        "--format", "json")
    run("hindcast", *course, "--issued", "10-01", "--format", "json")
    run("mix", "prodiamine", "simazine", "9", "--site", "copper-heron", "--date", TODAY, "--seed-on", "2026-11-05",
        "--format", "json")
    run("mix", "prodiamine", "--date", TODAY, "--format", "json")


# Keys that are printed only where there is something to say.
OPTIONAL = {"file", "line", "column", "place", "elevation_m", "before_scouting", "refusal", "days", "fitted_c", "fit",
            "noted_units"}


def shortened(node):
    """A document with the first two entries of its lists of objects, for fast validation."""
    if isinstance(node, dict):
        return {name: shortened(child) for name, child in node.items()}
    if isinstance(node, list):
        return [shortened(child) for child in (node[:2] if node and isinstance(node[0], dict) else node)]
    return node


def takes_mistakes(schemas, form, document, seen):
    """Planted mistakes that the schema takes: an unknown key in each kind of object, each key left out or of a wrong
    type. `seen` are the kinds of objects done before."""
    validator = schemas.validators[form]
    document = shortened(document)
    for place, found in objects_of(document):
        if place in seen:
            continue
        seen.add(place)
        free = place.endswith(("/parameters", "/noted_units"))  # their keys are names of the user or of a model
        found["color"] = {}
        if validator.is_valid(document):
            yield f"{form}: an unknown key in {place or '/'} is taken"
        del found["color"]
        for name, value in list(found.items()):
            del found[name]
            if validator.is_valid(document) and name not in OPTIONAL and not free:
                yield f"{form}: {place}/{name} may be left out"
            found[name] = [0.5]
            if validator.is_valid(document):
                yield f"{form}: {place}/{name} may be anything"
            found[name] = value


def planted_faults(schemas, documents):
    faults = []
    for form in schemas.formats:
        seen = set()
        for _, document in documents:
            if document["format"] == "soilclock-" + form:
                faults += takes_mistakes(schemas, form, document, seen)
        if not seen:
            faults.append(f"{form}: no document of this format was printed")
    return faults


def unseen_fields(schemas, documents):
    """What schemas describe and no document has."""
    faults = []
    anywhere = set()
    for form in schemas.formats:
        described = set(fields_of(schemas.parsed[form + ".schema.json"]))
        printed = {f"{place}/{name}" for _, document in documents if document["format"] == "soilclock-" + form
                   for place, found in objects_of(document) for name in found}
        anywhere |= {place.rpartition("/")[2] for place in printed}
        faults += [f"{form}: {place} is described and never printed" for place in sorted(described - printed)]
    shared = {place for definition in schemas.shared.values() for place in fields_of(definition)}
    return faults + [f"shared: {place} is never printed" for place in sorted(shared) if place.rpartition("/")[2] not in anywhere]


def main():
    root, program = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
    schemas = Schemas(root)
    faults = []
    for name, schema in schemas.parsed.items():
        jsonschema.Draft202012Validator.check_schema(schema)
        faults += [f"{name}: {fault}" for fault in undescribed(schema, schemas.shared)]
    with tempfile.TemporaryDirectory() as folder:
        run = Run(root, program, pathlib.Path(folder))
        for part in (answered, others, fetched):
            part(run)
    kept = sorted(pathlib.Path(sys.argv[3]).iterdir()) if len(sys.argv) > 3 else []
    for path in kept:
        run.documents += [(str(path), document) for document in documents_in(path.read_text())]
    faults += run.faults
    for said, document in run.documents:
        faults += [f"{said}: {fault}" for fault in schemas.faults(document)]
    if not faults:
        faults += planted_faults(schemas, run.documents)
        faults += unseen_fields(schemas, run.documents) if kept else []
    print("\n".join(faults[:100]) or f"{len(run.documents)} documents fit {len(schemas.formats)} schemas")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
