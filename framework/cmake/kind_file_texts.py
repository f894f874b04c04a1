#!/usr/bin/env python3
"""Writes the texts of a kind file, or of the cautions, that people read as a source that xgettext understands.

usage: kind_file_texts.py KIND.kind.json|cautions.json OUT.cpp
"""
import json
import pathlib
import sys

READ_BY_PEOPLE = ("title", "text", "brief")
LISTS = ("steps",)


def texts_of(node):
    if isinstance(node, list):
        for item in node:
            yield from texts_of(item)
    elif isinstance(node, dict):
        for name, value in node.items():
            if name in READ_BY_PEOPLE and isinstance(value, str):
                yield value
            elif name == "texts":
                yield from value.values()
            elif name in LISTS and all(isinstance(item, str) for item in value):
                yield from value
            else:
                yield from texts_of(value)


kind = json.loads(pathlib.Path(sys.argv[1]).read_text(encoding="utf-8"))
lines = [f"OHMWRIGHT_TEXT({json.dumps(text, ensure_ascii=False)})" for text in texts_of(kind)]
pathlib.Path(sys.argv[2]).write_text("\n".join(lines) + "\n", encoding="utf-8")
