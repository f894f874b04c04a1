#!/usr/bin/env python3
"""Writes what people read of appliance files as a source that xgettext understands, each text once.

usage: appliance_texts.py OUT.cpp APPLIANCE.json…
"""
import json
import pathlib
import sys

sys.dont_write_bytecode = True  # nothing is left beside the sources
from json_texts import marked, texts_of  # noqa: E402: behind that

READ_BY_PEOPLE = ("title", "check", "meaning", "confirmed_by", "way_out")

texts = dict.fromkeys(text for file in sorted(sys.argv[2:])
                      for text in texts_of(json.loads(pathlib.Path(file).read_text(encoding="utf-8")), READ_BY_PEOPLE,
                                           ("evidence",), no_words=("ratings",)))
pathlib.Path(sys.argv[1]).write_text(marked(texts), encoding="utf-8")
