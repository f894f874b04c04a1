#!/usr/bin/env python3
"""The walls of docs/architecture.md, held by grep: which area may include which, and who knows a kind by name."""
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parents[3]
AREAS = ROOT / "framework" / "ohmwright"

# area: the areas it may include, beside itself
CORE = ["quantity", "uncertainty", "verdict", "component"]
MAY_INCLUDE = {
    "quantity": [],
    "uncertainty": ["quantity"],
    "verdict": ["quantity", "uncertainty"],
    "component": ["quantity", "uncertainty", "verdict"],
    "circuit": CORE,
    "plugin": CORE + ["document"],
    "document": CORE,
    "safety": CORE,
    "job": CORE + ["document"],
    "report": CORE + ["document", "safety", "plugin", "appliance", "locate", "cycles", "batch", "job"],
    "appliance": CORE + ["plugin", "document"],
    "locate": CORE + ["plugin", "circuit", "appliance"],
    "cycles": CORE + ["document"],
    "thermal": CORE + ["cycles"],
    "course": CORE + ["document", "plugin", "circuit", "appliance", "locate", "report"],
    "conformance": CORE + ["plugin", "document"],
    "instrument": CORE + ["document"],
    "batch": CORE + ["plugin", "document", "safety", "cycles"],
}
HEAVY = re.compile(r"#include <(Eigen|unsupported/Eigen|boost/dll|boost/math|valijson|CLI|nlohmann/json\.hpp|SQLiteCpp)")
OWN_INCLUDE = re.compile(r'#include <ohmwright/([a-z]+)/')
KIND_NAME = re.compile(r"defrost-sensor|bimetal")
LONGEST_FILE = 500
INHERITED_PIPE = re.compile(r"::pipe\(")
# Headers between two source files of one area, which nobody else includes: they may be heavy.
PRIVATE_HEADERS = ["ohmwright/uncertainty/fit_statistics.hpp"]

problems = []


def sources(folder):
    return sorted(p for p in folder.rglob("*") if p.suffix in (".cpp", ".hpp"))


for area in sorted(p for p in AREAS.iterdir() if p.is_dir()):
    if area.name not in MAY_INCLUDE:
        problems.append(f"{area}: an area that the table in {pathlib.Path(__file__).name} does not know")
        continue
    if not (area / "README.md").exists():
        problems.append(f"{area}: has no README.md")
    for path in sources(area):
        for included in OWN_INCLUDE.findall(path.read_text()):
            if included != area.name and included not in MAY_INCLUDE[area.name]:
                problems.append(f"{path}: {area.name} may not include {included}")

for path in sources(ROOT / "plugins"):
    for included in OWN_INCLUDE.findall(path.read_text()):
        if included not in CORE:
            problems.append(f"{path}: a plugin may not include {included}")

for folder in ("framework", "cli", "plugins"):
    for path in sources(ROOT / folder):
        text = path.read_text()
        for header in PRIVATE_HEADERS:
            if f"<{header}>" in text and path.parent != ROOT / "framework" / pathlib.Path(header).parent:
                problems.append(f"{path}: {header} is private to its area")
        private = any(str(path).endswith(header) for header in PRIVATE_HEADERS)
        if path.suffix == ".hpp" and HEAVY.search(text) and not private:
            problems.append(f"{path}: a heavy include belongs in a .cpp file")
        if "using namespace" in text and path.suffix == ".hpp":
            problems.append(f"{path}: using namespace in a header")
        if INHERITED_PIPE.search(text):
            problems.append(f"{path}: a pipe that other programs inherit; write pipe2 with O_CLOEXEC")
        if len(text.splitlines()) > LONGEST_FILE:
            problems.append(f"{path}: longer than {LONGEST_FILE} lines")
        if folder != "plugins" and KIND_NAME.search(text):
            problems.append(f"{path}: knows a kind by name")

for problem in problems:
    print(problem)
sys.exit(1 if problems else 0)
