#!/bin/sh
# From nothing to a first verdict on a bare Debian 12: installs what is missing, builds the release preset, judges a
# first part. Safe to run again; it only adds packages and writes below .build/.
set -eu
umask 022 # a plugin that others can write to is refused
root=$(CDPATH= cd -- "$(dirname -- "$0")/.." && pwd)
cd "$root"

echo '1/3 Packages (cli/packages.txt)'
sh cli/install-packages.sh build

echo '2/3 Building the release preset into .build/release'
sh cli/keep-others-out.sh "$root"
cmake --preset release -DOHMWRIGHT_BUILD_TESTS=OFF -DOHMWRIGHT_BUILD_BENCHMARKS=OFF -DOHMWRIGHT_CHECK_HEADERS=OFF >/dev/null
cmake --build --preset release

ohmwright="$root/.build/release/bin/ohmwright"
echo '3/3 A first call: a 10 kohm sensor, its connector off, reads 11.0 kohm at 23 degC'
echo
echo '$ ohmwright check thermistor --lead-off 11.0k --at 23C --ratings ntc-10k-b3977'
echo
code=0
"$ohmwright" check thermistor --lead-off 11.0k --at 23C --ratings ntc-10k-b3977 || code=$?
# 0 in spec, 1 out of spec, 3 cannot tell yet: all three are answers.
case $code in 0 | 1 | 3) ;; *) exit "$code" ;; esac
cat <<TEXT

Where to go next
  $ohmwright ratings           the classes of parts that are shipped, for --ratings NAME
  $ohmwright check --help      more ways to type a reading
  docs/technician.md           one call from complaint to verdict
TEXT
