#!/usr/bin/env python3
"""Writes the tables of docs/performance.md anew: write_performance.py BUILD_FOLDER [WORD...].

In the page, a line "    python3 tests/bench/SCRIPT .build/release ARGUMENTS" is followed by the tables that it prints. They are run
one after the other and their tables put in place of those that stand there; with words only the scripts whose line holds one
of them. The sentences between tables are people's: look whether they still hold.
"""
import pathlib
import re
import shlex
import subprocess
import sys

root = pathlib.Path(__file__).resolve().parents[2]
page = root / "docs/performance.md"
build = sys.argv[1]
words = sys.argv[2:]
BLOCK = re.compile(r"^    python3 (?P<script>tests/bench/\S+) \.build/release(?P<arguments>[^#\n]*)(?P<remark>#[^\n]*)?\n\n"
                   r"(?P<tables>(?:\|[^\n]*\n|\n(?=\|))+)", re.MULTILINE)


def renewed(match):
    if words and not any(word in match[0].split("\n", 1)[0] for word in words):
        return match[0]
    command = [sys.executable, match["script"], build, *shlex.split(match["arguments"])]
    print("running", *command[1:], flush=True)
    output = subprocess.run(command, cwd=root, capture_output=True, text=True, check=True).stdout
    tables = "\n".join(line for line in output.splitlines() if line.startswith("|") or not line.strip()).strip("\n")
    return match[0][:match.start("tables") - match.start()] + tables + "\n"


page.write_text(BLOCK.sub(renewed, page.read_text(encoding="utf-8")), encoding="utf-8")
