#!/usr/bin/env python3
"""Writes what people read of appliance files as a source that xgettext understands, each text once.

usage: appliance_texts.py OUT.cpp APPLIANCE.json…
"""
import json
import pathlib
import sys

READ_BY_PEOPLE = ("title", "check", "meaning", "confirmed_by", "way_out")
NO_WORDS = ("ratings",)


def texts_of(node):
    if isinstance(node, list):
        for item in node:
            yield from texts_of(item)
    elif isinstance(node, dict):
        for name, value in node.items():
            if name in NO_WORDS:
                continue
            if name in READ_BY_PEOPLE and isinstance(value, str):
                yield value
            elif name == "steps":
                yield from value
            elif name == "evidence" and isinstance(value, dict):
                yield from (title for title in value.values() if isinstance(title, str))
            else:
                yield from texts_of(value)


lines = dict.fromkeys(f"OHMWRIGHT_TEXT({json.dumps(text, ensure_ascii=False)})"
                      for file in sorted(sys.argv[2:])
                      for text in texts_of(json.loads(pathlib.Path(file).read_text(encoding="utf-8"))))
pathlib.Path(sys.argv[1]).write_text("\n".join(lines) + "\n", encoding="utf-8")
