#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Every model file and the practice file fit the schema of their format, the schemas describe every field, and
models/README.md names it.

Usage: models_fit_schemas.py ROOT
"""
import json
import pathlib
import re
import sys

try:
    import jsonschema
except ImportError:
    print("SKIPPED: python3-jsonschema is not installed; model files were not held against their schemas")
    sys.exit(77)


class Schemas:
    """The schemas of a source tree; the word in a file's format names its schema."""

    def __init__(self, root):
        self.folder = root / "models" / "schema"

    def validator(self, form):
        path = self.folder / (form.removeprefix("soilclock-").split("/")[0] + ".schema.json")
        if not path.is_file():
            return None
        schema = json.loads(path.read_text())
        resolver = jsonschema.RefResolver(path.resolve().as_uri(), schema)
        return jsonschema.Draft202012Validator(schema, resolver=resolver)

    def faults(self, document):
        """What is wrong with a parsed file, one line each; empty when it fits."""
        validator = self.validator(str(document.get("format", "")))
        if validator is None:
            return ["no schema for the format " + repr(document.get("format"))]
        return ["/" + "/".join(map(str, fault.absolute_path)) + ": " + fault.message[:200]
                for fault in validator.iter_errors(document)]


def data_files(root):
    """All files that the program reads as models, and the practice file."""
    models = [path for path in sorted((root / "models").rglob("*.json")) if path.parent.name != "schema"]
    return models + [root / "config" / "practice.json"]


def examples(root):
    """The model files shown in models/README.md."""
    text = (root / "models" / "README.md").read_text()
    return [json.loads(block) for block in re.findall(r"```json\n(.*?)```", text, re.DOTALL)]


def undescribed(node, shared, place=""):
    """Properties without a description of their own or of the definition they refer to."""
    if isinstance(node, list):
        return [fault for i, item in enumerate(node) for fault in undescribed(item, shared, f"{place}/{i}")]
    if not isinstance(node, dict):
        return []
    found = []
    # A condition only narrows a field that is described elsewhere; definitions and fields must say what they are.
    closed = node.get("additionalProperties") is False
    for name, field in node.get("properties", {}).items() if closed else []:
        target = field.get("$ref", "").rpartition("/")[2]
        if "description" not in field and "description" not in shared.get(target, {}):
            found.append(f"{place}/{name}: no description")
    return found + [fault for key, item in node.items() for fault in undescribed(item, shared, f"{place}/{key}")]


def named_fields(node):
    """Names of all properties of the closed objects of a schema."""
    if isinstance(node, list):
        return {name for item in node for name in named_fields(item)}
    if not isinstance(node, dict):
        return set()
    closed = node.get("additionalProperties") is False
    own = set(node.get("properties", {})) if closed else set()
    return own.union(*(named_fields(item) for item in node.values()))


def mentioned(root):
    """Names that stand between back quotes in the prose and tables of models/README.md."""
    prose = re.sub(r"```.*?```", "", (root / "models" / "README.md").read_text(), flags=re.DOTALL)
    return {name for quoted in re.findall(r"`([^`]*)`", prose) for name in re.findall(r"\w+", quoted)}


def main():
    root = pathlib.Path(sys.argv[1])
    schemas = Schemas(root)
    faults = []
    paths = sorted(schemas.folder.glob("*.schema.json"))
    shared = json.loads((schemas.folder / "shared.schema.json").read_text())["$defs"]
    in_readme = mentioned(root)
    for path in paths:
        schema = json.loads(path.read_text())
        jsonschema.Draft202012Validator.check_schema(schema)
        faults += [f"{path.name}: {fault}" for fault in undescribed(schema, shared)]
        faults += [f"models/README.md: nothing about {name} of {path.name}"
                   for name in sorted(named_fields(schema) - in_readme)]
    files = data_files(root)
    for path in files:
        faults += [f"{path}: {fault}" for fault in schemas.faults(json.loads(path.read_text()))]
    shown = examples(root)
    for document in shown:
        faults += [f"models/README.md: {fault}" for fault in schemas.faults(document)]
    used = {json.loads(path.read_text())["format"].removeprefix("soilclock-").split("/")[0] for path in files}
    faults += [f"{path.name}: no file has this format" for path in paths
               if path.name.removesuffix(".schema.json") not in used | {"shared"}]
    print("\n".join(faults) or f"{len(files)} files fit {len(paths)} schemas")
    return 1 if faults or len(files) < 30 or not shown else 0


if __name__ == "__main__":
    sys.exit(main())
