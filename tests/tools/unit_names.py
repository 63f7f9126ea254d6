# SPDX-License-Identifier: MIT
"""Units of a floor are compiled together, so functions in their unnamed namespaces share one overload set with each other and with the
headers they include. Two that a call may mean alike are a trap: the compiler picks one without a word.

Usage: unit_names.py SOURCE      its floors in src/ and the tests of each; a helper must not look like another helper of its floor,
nor like a function of a header of its floor or a lower one
"""
import collections
import itertools
import pathlib
import re
import sys

FLOORS = ["core", "weather", "soil", "thermal", "emergence", "treatment", "advice", "report", "records", "net", "site", "web", "app"]
FUNCTION = re.compile(r"^(?:template <[^;{]*> *)?(?:\[\[[^\]]*\]\] )?(?:inline |static |constexpr )*[A-Za-z_][\w:<>,&*\[\] ]*?[ &*](\w+)\(([^;{]*?)\)(?: const)?(?: \{|;)", re.M)
TEXTS = {"std::string", "std::string_view", "char*"}
NUMBERS = {"double", "int", "bool", "std::size_t", "std::ptrdiff_t", "std::uint64_t", "long", "unsigned", "float", "char"}


def without_comments(text):
    return re.sub(r"//[^\n]*", "", text)


def split_list(text):
    """Parameters between commas that stand in no brackets."""
    parts, depth, start = [], 0, 0
    for i, c in enumerate(text):
        depth += c in "<({["
        depth -= c in ">)}]"
        if c == "," and depth == 0:
            parts.append(text[start:i])
            start = i + 1
    return [part for part in parts + [text[start:]] if part.strip()]


def plain_type(parameter):
    kind = re.sub(r"=.*", "", parameter, flags=re.S)
    kind = re.sub(r"\b(const|auto|typename)\b|&", " ", kind).split()
    return "".join(kind[:-1]) if len(kind) > 1 else "".join(kind)


def bare(kind):
    """A type as a call may mean it: texts are alike, numbers are, and an optional value is like the value."""
    inner = re.fullmatch(r"std::optional<(.*)>", kind)
    kind = inner.group(1) if inner else kind
    return "text" if kind in TEXTS else "number" if kind in NUMBERS else kind.split("::")[-1]


def functions(text):
    return [(name, [bare(plain_type(parameter)) for parameter in split_list(parameters)]) for name, parameters in FUNCTION.findall(text)]


def helpers(path):
    parts = re.findall(r"^namespace \{\n(.*?)^\}  // namespace\n", path.read_text(encoding="utf-8"), re.M | re.S)
    return [found for part in parts for found in functions(without_comments(part))]


def own_units(folder):
    kept_alone = {"fixed_width_reference.cpp", "hourly_reference.cpp"}  # compiled by themselves: src/CMakeLists.txt
    return [path for path in sorted(folder.rglob("*.cpp")) if path.name not in kept_alone]


source = pathlib.Path(sys.argv[1])
faults = []
visible = collections.defaultdict(list)  # of headers of this floor and the lower ones
for floor in FLOORS:
    for header in sorted((source / "src" / floor).rglob("*.hpp")):
        for name, types in functions(without_comments(header.read_text(encoding="utf-8"))):
            visible[name].append((header, types))
    for folder in (source / "src" / floor, source / "tests" / floor):
        owned = collections.defaultdict(list)
        for path in own_units(folder):
            for name, types in helpers(path):
                owned[name].append((path, types))
        for name, own in owned.items():
            pairs = itertools.chain(itertools.combinations(own, 2), itertools.product(own, visible[name]))
            faults += sorted({f"{name}: {a[0]} and {b[0]}" for a, b in pairs if a[0] != b[0] and a[1] == b[1]})
print("\n".join(faults + [f"{len(faults)} helpers that a call may mistake for another function"]))
sys.exit(bool(faults))
