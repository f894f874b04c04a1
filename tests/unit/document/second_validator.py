#!/usr/bin/env python3
"""Every shipped JSON file against its schema, by another validator than the program's; and the schemas themselves.

usage: second_validator.py SOURCE_FOLDER. Ends with 77 ("skipped") where python3-jsonschema is not installed.
"""
import json
import pathlib
import sys

try:
    import jsonschema
except ImportError:
    print("skipped: python3-jsonschema is not installed")
    sys.exit(77)

root = pathlib.Path(sys.argv[1])
problems = []
checked = 0


def load(path):
    return json.loads(path.read_text(encoding="utf-8"))


def checker(path):
    """The validator of a schema, which is first checked against the meta-schema of draft 7."""
    schema = load(path)
    if schema.get("$schema") != "http://json-schema.org/draft-07/schema#":
        problems.append(f"{path}: does not say that it is of draft 7")
    jsonschema.Draft7Validator.check_schema(schema)
    return jsonschema.Draft7Validator(schema)


def check(validator, value, name):
    global checked
    checked += 1
    for error in validator.iter_errors(value):
        problems.append(f"{name}: /{'/'.join(map(str, error.absolute_path))}: {error.message}")


schemas = {path.name.split(".")[0]: checker(path) for path in sorted((root / "schemas").glob("*.schema.json"))}
for path in sorted(root.glob("framework/ohmwright/document/meters/*.json")):
    check(schemas["meter"], load(path), path)
check(schemas["cautions"], load(root / "framework/ohmwright/verdict/cautions.json"), "cautions.json")
for kind in sorted(path for path in (root / "plugins").iterdir() if path.is_dir()):
    for path in sorted(kind.glob("*.kind.json")):
        check(schemas["kind"], load(path), path)
    own = kind / "ratings.schema.json"
    ratings_of_kind = checker(own) if own.exists() else None
    for path in sorted(kind.glob("ratings/*.json")):
        ratings = load(path)
        check(schemas["ratings"], ratings, path)
        if ratings_of_kind:
            check(ratings_of_kind, ratings.get("ratings"), path)
    for path in sorted(kind.glob("controls/*.json")):
        check(schemas["control"], load(path), path)
    for path in sorted(kind.glob("vectors/*.json")):
        vectors = load(path)
        check(schemas["vectors"], vectors, path)
        for vector in vectors.get("vectors", []):
            if ratings_of_kind and isinstance(vector.get("ratings"), dict):
                check(ratings_of_kind, vector["ratings"], f"{path}: {vector.get('id')}")

for problem in problems:
    print(problem)
print(f"{len(schemas)} schemas, {checked} documents, {len(problems)} problems")
sys.exit(1 if problems or checked < 3 or len(schemas) < 5 else 0)
