#!/usr/bin/env python3
"""What shells propose, asked of bash itself; the manual pages, asked of man's own formatter.

usage: completion_test.py PAGES PROGRAM
"""
import os
import pathlib
import shutil
import subprocess
import sys

pages = pathlib.Path(sys.argv[1])
program = pathlib.Path(sys.argv[2]).resolve()
environment = dict(os.environ, PATH=f"{program.parent}:{os.environ['PATH']}", LC_ALL="C.UTF-8")


def proposed(*words):
    """Words that bash proposes for the last of them."""
    line = " ".join(words)
    script = f"""source {pages}/bash-completion/completions/ohmwright
COMP_WORDS=({' '.join(repr(word) for word in words)}); COMP_CWORD={len(words) - 1}; COMP_LINE={line!r}
_ohmwright; printf '%s\\n' "${{COMPREPLY[@]}}" """
    ran = subprocess.run(["bash", "--norc", "-c", script], text=True, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                         env=environment, check=False)
    if ran.returncode != 0 or ran.stderr:
        sys.exit(f"{words}: {ran.stderr}")
    return ran.stdout.split()


def expect(words, *wanted, exactly=False):
    got = proposed(*words)
    for word in wanted:
        if word not in got:
            sys.exit(f"{words}: {word} is not among {got}")
    if exactly and sorted(got) != sorted(wanted):
        sys.exit(f"{words}: {got} are more than {wanted}")


expect(["ohmwright", "ch"], "check", "chart", exactly=True)
expect(["ohmwright", "plugin", "in"], "inspect", exactly=True)
expect(["ohmwright", "job", "re"], "read", "replace", "report", exactly=True)
expect(["ohmwright", "check", "hea"], "heater", exactly=True)
expect(["ohmwright", "check", "heater", "--conf"], "--confidence", exactly=True)
expect(["ohmwright", "check", "heater", "32", "--format", ""], "text", "json", "html", exactly=True)
expect(["ohmwright", "plugin", "new", "x", "--like", "b"], "board-output", exactly=True)

for shell, file in (("zsh", "zsh/site-functions/_ohmwright"), ("fish", "fish/vendor_completions.d/ohmwright.fish"),
                    ("bash", "bash-completion/completions/ohmwright")):
    if not (pages / file).exists():
        sys.exit(f"{file} is missing")
    if shutil.which(shell):
        subprocess.run([shell, "-n" if shell != "fish" else "--no-execute", str(pages / file)], check=True)
    else:
        print(f"the completion for {shell} is not parsed: {shell} is not installed")

manuals = sorted((pages / "man" / "man1").glob("*.1"))
if len(manuals) < 12:
    sys.exit(f"only {len(manuals)} manual pages")
for manual in manuals:
    text = manual.read_text(encoding="utf-8")
    for section in (".SH NAME", ".SH SYNOPSIS", '.SH "EXIT STATUS"'):
        if section not in text:
            sys.exit(f"{manual}: no {section}")
    if shutil.which("groff"):
        ran = subprocess.run(["groff", "-man", "-Tutf8", "-ww", str(manual)], text=True, stdout=subprocess.PIPE,
                             stderr=subprocess.PIPE, check=True)
        if ran.stderr:
            sys.exit(f"{manual}: {ran.stderr}")
