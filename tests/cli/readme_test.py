"""Holds the pages that show calls to what the program really prints.

In a page, a line "    $ ohmwright WORDS" is followed by a fenced block: the output of that call at 80 columns. With
--write the blocks are written anew, which is how they come to be; without it any difference is a failure.

    readme_test.py [--write] PROGRAM PAGE...
"""

import os
import pathlib
import re
import shlex
import subprocess
import sys

CALL = re.compile(r"^    \$ ohmwright (?P<words>[^\n]+)\n\n?```\n(?P<output>.*?)^```$", re.MULTILINE | re.DOTALL)


def printed(program: str, words: str) -> str:
    environment = {"PATH": os.environ["PATH"], "COLUMNS": "80", "NO_COLOR": "1", "LC_ALL": "C.UTF-8"}
    run = subprocess.run([program, *shlex.split(words)], env=environment, capture_output=True, text=True, check=False)
    return run.stdout + run.stderr


def main() -> int:
    arguments = sys.argv[1:]
    write = arguments[0] == "--write"
    program, *pages = arguments[1:] if write else arguments
    different, calls = 0, 0
    for page in map(pathlib.Path, pages):
        text = page.read_text(encoding="utf-8")

        def renewed(match: re.Match) -> str:
            nonlocal different, calls
            calls += 1
            output = printed(program, match["words"])
            if output != match["output"]:
                different += 1
                print(f"{page.name}: ohmwright {match['words']}\n--- shown\n{match['output']}--- printed\n{output}")
            return match[0][: match.start("output") - match.start()] + output + "```"

        renewed_text = CALL.sub(renewed, text)
        if write:
            page.write_text(renewed_text, encoding="utf-8")
    print(f"{calls} calls shown, {different} differ")
    return 0 if calls and (write or not different) else 1


if __name__ == "__main__":
    sys.exit(main())
