#!/bin/sh
# From nothing to a first verdict on a bare Debian 12: installs what is missing, builds the release preset, judges a
# shipped example. Safe to run again; it only adds packages and writes below .build/.
set -eu
root=$(CDPATH= cd -- "$(dirname -- "$0")/.." && pwd)
cd "$root"

echo '1/3 Packages (cli/packages.txt)'
sh cli/install-packages.sh build

echo '2/3 Building the release preset into .build/release'
cmake --preset release -DOHMWRIGHT_BUILD_TESTS=OFF -DOHMWRIGHT_BUILD_BENCHMARKS=OFF >/dev/null
cmake --build --preset release

ohmwright="$root/.build/release/bin/ohmwright"
echo '3/3 A first call: a defrost sensor that reads 11.0 kohm in a cabinet at 23 degC'
echo
echo "\$ ohmwright check defrost-sensor 11.0k --at 23C --ratings ntc-10k-b3977"
echo
"$ohmwright" check defrost-sensor 11.0k --at 23C --ratings ntc-10k-b3977
cat <<TEXT

Where to go next
  $ohmwright check --help      more ways to type a reading
  $ohmwright ratings           the classes of parts that are shipped
  docs/technician.md           one call from complaint to verdict
TEXT
