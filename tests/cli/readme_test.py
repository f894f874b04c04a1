"""Holds the pages that show calls to what the program really prints.

In a page, a line "    $ ohmwright WORDS" is followed by a fenced block: the output of that call at 80 columns. With
--write the blocks are written anew, which is how they come to be; without it any difference is a failure.

A line "`PATH`" followed by a fenced block of JSON or CSV is a file that the page tells its reader to make: it is made in an
empty folder, in which the calls of that page then run.

    readme_test.py [--write] PROGRAM PAGE...
"""

import os
import pathlib
import re
import shlex
import subprocess
import sys
import tempfile

CALL = re.compile(r"^    \$ ohmwright (?P<words>[^\n]+)\n\n?```\n(?P<output>.*?)^```$", re.MULTILINE | re.DOTALL)

FILE = re.compile(r"^`(?P<path>[^`\n]+)`\n\n```(?:json|csv)\n(?P<text>.*?)^```$", re.MULTILINE | re.DOTALL)

CHECK_WORD = re.compile(r"\b[0-9a-f]{4}-[0-9a-f]{4}\b")


def make_files(text: str, folder: pathlib.Path) -> None:
    os.umask(0o022)  # a kind file that others can write to is refused
    for match in FILE.finditer(text):
        path = folder / match["path"]
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(match["text"], encoding="utf-8")


def printed(program: str, words: str, folder: str) -> str:
    environment = {"PATH": os.environ["PATH"], "COLUMNS": "80", "NO_COLOR": "1", "LC_ALL": "C.UTF-8"}
    run = subprocess.run([program, *shlex.split(words)], env=environment, cwd=folder, capture_output=True, text=True,
                         check=False)
    output = run.stdout + run.stderr
    # A record's check word is another one each time, of the same length.
    return CHECK_WORD.sub("3f2a-91c0", output) if re.search(r"check\s+word", output) else output


def main() -> int:
    arguments = sys.argv[1:]
    write = arguments[0] == "--write"
    program, *pages = arguments[1:] if write else arguments
    program = str(pathlib.Path(program).resolve())
    different, calls = 0, 0
    for page in map(pathlib.Path, pages):
        text = page.read_text(encoding="utf-8")

        def renewed(match: re.Match) -> str:
            nonlocal different, calls
            calls += 1
            output = printed(program, match["words"], folder)
            if output != match["output"]:
                different += 1
                print(f"{page.name}: ohmwright {match['words']}\n--- shown\n{match['output']}--- printed\n{output}")
            return match[0][: match.start("output") - match.start()] + output + "```"

        with tempfile.TemporaryDirectory() as folder:
            make_files(text, pathlib.Path(folder))
            renewed_text = CALL.sub(renewed, text)
        if write:
            page.write_text(renewed_text, encoding="utf-8")
    print(f"{calls} calls shown, {different} differ")
    return 0 if calls and (write or not different) else 1


if __name__ == "__main__":
    sys.exit(main())
