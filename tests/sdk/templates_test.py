#!/usr/bin/env python3
"""Makes a kind of every sort with `ohmwright plugin new`, and runs the three commands that it prints.

usage: templates_test.py BUILD WORK COMPILER

Each builds against the installed package with all warnings, passes its vectors, and makes `plugin test` ask for its
placeholders and for nothing else.
"""
import os
import pathlib
import re
import shutil
import subprocess
import sys

build, work, compiler = sys.argv[1:4]
work = pathlib.Path(work).resolve()
shutil.rmtree(work, ignore_errors=True)
(work / "home").mkdir(parents=True)
os.umask(0o022)
environment = dict(os.environ, HOME=str(work / "home"), CXX=compiler, LC_ALL="C.UTF-8",
                   CXXFLAGS="-Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror")
for name in ("OHMWRIGHT_PLUGIN_PATH", "XDG_CONFIG_HOME", "LD_LIBRARY_PATH"):
    environment.pop(name, None)


def run(command, expected, **options):
    ran = subprocess.run(command, cwd=work, env=environment, text=True, stdout=subprocess.PIPE,
                         stderr=subprocess.STDOUT, check=False, **options)
    if ran.returncode != expected:
        sys.exit(f"{command}: ended with {ran.returncode}, expected {expected}\n{ran.stdout}")
    return ran.stdout


prefix = work / "prefix"
run(["cmake", "--install", build, "--prefix", str(prefix)], 0)
program = str(prefix / "bin" / "ohmwright")
sorts = {"resistor": ["--like", "resistor"], "switch": ["--like", "switch"], "motor": ["--like", "motor"],
         "board-output": ["--like", "board-output"], "kind-file": ["--without-code"]}
for sort, options in sorts.items():
    kind = f"new-{sort}"
    printed = run([program, "plugin", "new", kind, *options], 0)
    commands = re.findall(r"^    (.+)$", printed, re.M)
    if len(commands) != 4:
        sys.exit(f"three commands and the way to the test are printed, not {len(commands)}:\n{printed}")
    output = "".join(run(["sh", "-c", command], 0) for command in commands[:3])
    if " agree, 0 differ" not in output:
        sys.exit(f"{sort}: its vectors are not judged by the commands that are printed\n{output}")
    report = run(["sh", "-c", commands[3]], 1)
    asked = re.findall(r"^  MEND  (.+)$", report, re.M)
    if asked != ["no figure and no text is a placeholder"]:
        sys.exit(f"{sort}: asked to mend {asked}\n{report}")
# An open circuit behind a good reading is no good part, and a finger on a probe no stuck contact.
for words, code in (("closed_contact=0.5ohm closed_contact=OL open_contact=OL", 1), ("open_contact=OL open_contact=900k", 3),
                    ("open_contact=900k", 3), ("open_contact=5Mohm closed_contact=0.5ohm", 0)):
    run([program, "check", "new-switch", *words.split(), "--lead-off", "--ratings", "generic", "--plugins", "new-switch/build"],
        code)
low = run([program, "check", "new-resistor", "OL", "--range", "60ohm", "--lead-off", "--ratings", "generic", "--plugins",
           "new-resistor/build"], 3)
if "OL on that range says little" not in low or "Nothing conducts" in low:
    sys.exit(low)
refused = run([program, "plugin", "new", "new-switch"], 2)
if "new-switch is there already" not in refused:
    sys.exit(refused)
print(f"{len(sorts)} sorts with {compiler}")
