"""No program or library of a build tree or installation lets the loader look in the current folder.

usage: library_path_test.py FOLDER...    reads each ELF file under bin/ and lib/ with readelf

An empty piece of a RUNPATH is the current folder (ld.so(8), as for LD_LIBRARY_PATH): a technician who starts the program
among downloaded files would load what lies there under a library's name.
"""

import pathlib
import re
import subprocess
import sys


def elf_files(folder):
    for part in ("bin", "lib"):
        for path in sorted((folder / part).rglob("*")):
            if path.is_file() and not path.is_symlink():
                with path.open("rb") as file:
                    if file.read(4) == b"\x7fELF":
                        yield path


def run_paths(path):
    dynamic = subprocess.run(["readelf", "-d", "-W", path], capture_output=True, text=True, check=True).stdout
    return re.findall(r"\((?:RUNPATH|RPATH)\).*\[(.*)\]", dynamic)


def faults(path):
    for run_path in run_paths(path):
        for piece in run_path.split(":"):
            if not piece:
                yield f"{path}: the current folder is searched for libraries: [{run_path}]"
            elif not piece.startswith(("$ORIGIN", "/")):
                yield f"{path}: {piece} depends on the current folder"


def main():
    looked_at = 0
    found = []
    for folder in sys.argv[1:]:
        for path in elf_files(pathlib.Path(folder)):
            looked_at += 1
            found += faults(path)
    print("\n".join(found) if found else f"{looked_at} files, none searches the current folder")
    sys.exit(1 if found or looked_at == 0 else 0)


main()
