#!/usr/bin/env python3
"""Runs the commands of docs/plugin-author.md, exactly as they stand there, in an empty folder and an empty home.

usage: page_test.py PAGE BUILD WORK COMPILER

A command is a line of a block marked ```sh; a line that ends in "# N" must end with that code, every other with 0. The
folder has .build/release, as a source tree has it, and nothing else.
"""
import os
import pathlib
import re
import shutil
import subprocess
import sys

page, build, work, compiler = sys.argv[1:5]
commands = []
for block in re.findall(r"^```sh\n(.*?)^```$", pathlib.Path(page).read_text(encoding="utf-8"), re.M | re.S):
    commands += [line for line in block.splitlines() if line.strip()]
if len(commands) < 15:
    sys.exit(f"only {len(commands)} commands on {page}")

work = pathlib.Path(work).resolve()
shutil.rmtree(work, ignore_errors=True)
(work / "place" / ".build").mkdir(parents=True)
(work / "home").mkdir()
(work / "place" / ".build" / "release").symlink_to(build, target_is_directory=True)

# One shell for all, so that what a line exports holds for the next.
script = ["run() { code=$?; if [ $code -ne $1 ]; then echo \"the page's line ended with $code, expected $1: $2\" >&2; exit 1; fi; }"]
for command in commands:
    expected = re.search(r"#\s*(\d+)\s*$", command)
    script += [command, f"run {expected.group(1) if expected else 0} '{command.replace(chr(39), chr(39) + chr(92) + chr(39) + chr(39))}'"]
environment = {
    "PATH": os.environ.get("PATH", "/usr/bin:/bin"),
    "HOME": str(work / "home"),
    "LC_ALL": "C.UTF-8",
    "CXX": compiler,
    "CMAKE_BUILD_PARALLEL_LEVEL": "2",
}
for name in ("CMAKE_CXX_COMPILER_LAUNCHER", "CCACHE_DIR", "CCACHE_NOHASHDIR", "CCACHE_SLOPPINESS"):
    if name in os.environ:
        environment[name] = os.environ[name]
ran = subprocess.run(["sh", "-c", "\n".join(script)], cwd=work / "place", env=environment, text=True,
                     stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
if ran.returncode != 0:
    sys.exit(f"{ran.stdout}\n{page}: its commands do not work as they stand there")
for text in ("vectors: 5 agree, 0 differ", "MEND  no figure and no text is a placeholder", "Nothing to mend.", "IN SPEC: Float switch"):
    if text not in ran.stdout:
        sys.exit(f"{ran.stdout}\n{page}: \"{text}\" is not in what its commands printed")
print(f"{len(commands)} commands with {compiler}")
