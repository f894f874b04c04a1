#!/usr/bin/env python3
"""Writes the texts of a kind file, or of the cautions, that people read as a source that xgettext understands.

usage: kind_file_texts.py KIND.kind.json|cautions.json OUT.cpp
"""
import json
import pathlib
import sys

sys.dont_write_bytecode = True  # nothing is left beside the sources
from json_texts import marked, texts_of  # noqa: E402: behind that

kind = json.loads(pathlib.Path(sys.argv[1]).read_text(encoding="utf-8"))
pathlib.Path(sys.argv[2]).write_text(marked(texts_of(kind, ("title", "text", "brief"), ("texts",))), encoding="utf-8")
