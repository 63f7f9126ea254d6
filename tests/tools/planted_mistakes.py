#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""One mistake planted in each shipped file at a time: its schema and the program must both refuse it, and both take
the file as shipped.

Usage: planted_mistakes.py ROOT PROGRAM
"""
import copy
import json
import pathlib
import subprocess
import sys
import tempfile

sys.dont_write_bytecode = True  # the source tree stays as it is
from models_fit_schemas import Schemas, data_files, examples  # noqa: E402


def objects(node):
    """All objects in a document, outermost first."""
    if isinstance(node, dict):
        yield node
    for child in node.values() if isinstance(node, dict) else node if isinstance(node, list) else []:
        yield from objects(child)


def first(document, wanted):
    return next((found for found in objects(document) if wanted(found)), None)


def without(key, wanted):
    """A mistake: the key is taken from the first object that is wanted; nothing where there is none."""

    def plant(document):
        found = first(document, wanted)
        if found is None:
            return False
        del found[key]
        return True

    return plant


def unsourced(document):
    if "sources" not in document or document.get("basis") not in ("published", "derived"):
        return False
    document["sources"] = []
    return True


def unknown_key(wanted):
    def plant(document):
        found = first(document, wanted)
        if found is None:
            return False
        found["color"] = "green"
        return True

    return plant


def is_number(found):
    return "value" in found and "unit" in found


EXAMPLE_FOLDERS = {"soilclock-sources/1": ".", "soilclock-emergence-model/1": "emergence"}

MISTAKES = {
    "a number without unit": without("unit", is_number),
    "a span without unit": without("unit", lambda found: "least" in found and "unit" in found),
    "a published number without source":
        without("source", lambda found: found.get("basis") == "published" and "source" in found and "value" in found),
    "a derived number without note":
        without("note", lambda found: found.get("basis") == "derived" and "note" in found),
    "a file without source": unsourced,
    "a file without id": without("id", lambda found: "format" in found),
    "a file without title": without("title", lambda found: "format" in found),
    "an unknown key": unknown_key(lambda found: True),
    "an unknown key in a number": unknown_key(is_number),
    "an unknown basis": lambda document: (found := first(document, lambda any: "basis" in any)) is not None
    and found.update(basis="guessed") is None,
    "a check point without origin": without("origin", lambda found: "origin" in found),
    "a missing validity": without("validity", lambda found: "validity" in found),
}


def program_takes(program, root, path, document):
    """Whether the program loads the document in the place of a shipped file."""
    with tempfile.TemporaryDirectory() as folder:
        name = pathlib.Path(folder) / path.relative_to(root)
        name.parent.mkdir(parents=True)
        name.write_text(json.dumps(document))
        place = ["--practice", name] if path.name == "practice.json" else ["--models", name.parents[0]]
        if "--models" in place:
            place[1] = pathlib.Path(folder) / "models"
        run = subprocess.run([program, "models", *place], capture_output=True, text=True, check=False)
    if run.returncode not in (0, 2):
        sys.exit(f"{path}: the program ended with {run.returncode}: {run.stderr}")
    return run.returncode == 0


def examples_load(program, root):
    """Whether the program takes the files shown in models/README.md, laid together over its own."""
    with tempfile.TemporaryDirectory() as folder:
        for document in examples(root):
            name = pathlib.Path(folder) / EXAMPLE_FOLDERS[document["format"]] / (document["id"] + ".json")
            name.parent.mkdir(exist_ok=True)
            name.write_text(json.dumps(document))
        run = subprocess.run([program, "models", "--models", folder], capture_output=True, text=True, check=False)
    return run.returncode == 0


def main():
    root, program = pathlib.Path(sys.argv[1]), sys.argv[2]
    schemas = Schemas(root)
    faults = []
    planted = dict.fromkeys(MISTAKES, 0)
    if not examples_load(program, root):
        faults.append("models/README.md: the program refuses the worked example")
    for path in data_files(root):
        shipped = json.loads(path.read_text())
        if schemas.faults(shipped) or not program_takes(program, root, path, shipped):
            faults.append(f"{path}: refused as shipped")
        for name, plant in MISTAKES.items():
            document = copy.deepcopy(shipped)
            if not plant(document):
                continue
            planted[name] += 1
            if not schemas.faults(document):
                faults.append(f"{path}: the schema takes {name}")
            if program_takes(program, root, path, document):
                faults.append(f"{path}: the program takes {name}")
    faults += [f"never planted: {name}" for name, count in planted.items() if count == 0]
    print("\n".join(faults) or f"{sum(planted.values())} mistakes refused by schema and program alike")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
