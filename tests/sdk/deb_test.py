#!/usr/bin/env python3
"""Makes the Debian package and looks into it: what it needs, what it holds, and whether it works where it is unpacked.

usage: deb_test.py BUILD WORK
"""
import os
import pathlib
import re
import shutil
import subprocess
import sys

build, work = sys.argv[1:3]
work = pathlib.Path(work).resolve()
shutil.rmtree(work, ignore_errors=True)
work.mkdir(parents=True)
if not shutil.which("dpkg-shlibdeps") or not shutil.which("cpack"):
    print("SKIPPED: dpkg-shlibdeps or cpack is not installed")
    sys.exit(0)


def run(*command):
    ran = subprocess.run(command, text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False,
                         env=dict(os.environ, LC_ALL="C.UTF-8", HOME=str(work)))
    if ran.returncode != 0:
        sys.exit(f"{command}: ended with {ran.returncode}\n{ran.stdout}")
    return ran.stdout


os.umask(0o022)
run("cpack", "--config", f"{build}/CPackConfig.cmake", "-G", "DEB", "-B", str(work))
package = str(next(work.glob("*.deb")))
depends = run("dpkg-deb", "--field", package, "Depends")
for needed in ("libc6", "libstdc++6", "libsodium23", "libseccomp2", "zlib1g"):
    if needed not in depends:
        sys.exit(f"{needed} is not among what the package needs: {depends}")
contents = run("dpkg-deb", "--contents", package)
for file in ("usr/bin/ohmwright", "usr/lib/ohmwright/ohmwright-plugin-worker", "usr/share/man/man1/ohmwright.1",
             "usr/share/man/man1/ohmwright-plugin.1", "usr/share/bash-completion/completions/ohmwright",
             "usr/share/zsh/site-functions/_ohmwright", "usr/share/fish/vendor_completions.d/ohmwright.fish",
             "usr/share/ohmwright/schemas/kind.schema.json", "usr/share/ohmwright/templates/common/CMakeLists.txt",
             "usr/lib/ohmwright/plugins/kinds.index.json", "usr/share/doc/ohmwright/docs/technician.md",
             "usr/share/doc/ohmwright/docs/scale/batch-shard.slurm",
             "usr/lib/cmake/ohmwright/ohmwright-config.cmake", "usr/include/ohmwright/component/kind.hpp"):
    if f"./{file}\n" not in contents:
        sys.exit(f"{file} is not in the package:\n{contents}")
for line in contents.splitlines():
    if re.match(r"^[^l].{4}w|^[^l].{7}w", line):
        sys.exit(f"others could write to it, so its plugins would be refused: {line}")
run("dpkg-deb", "--extract", package, str(work / "unpacked"))
printed = run(str(work / "unpacked" / "usr" / "bin" / "ohmwright"), "kinds")
if "Refused" in printed or not re.search(r"^[a-z-]+$", printed, re.M):
    sys.exit(printed)
print("the package works where it is unpacked")
