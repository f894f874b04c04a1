#!/bin/sh
# The long mode of the fuzz targets: clang's libFuzzer with both sanitizers (preset asan), SECONDS (default 60) each.
# New inputs are kept below .build/fuzz; what fails is printed and left there. usage: sh tests/fuzz/long.sh [SECONDS]
set -eu
root=$(CDPATH= cd -- "$(dirname -- "$0")/../.." && pwd)
seconds=${1:-60}
build="$root/.build/asan"
found="$root/.build/fuzz/found"
cd "$root"
cmake --preset asan >/dev/null
targets=''
for source in "$root"/tests/fuzz/*.cpp; do
  name=$(basename "$source" .cpp)
  [ "$name" = replay_main ] || targets="$targets $name"
done
# shellcheck disable=SC2086 # the list is meant to be split into words
cmake --build --preset asan --target $(printf 'fuzz_%s ' $targets)
for name in $targets; do
  mkdir -p "$found/$name"
  echo "== $name, $seconds s"
  (cd "$found/$name" && "$build/bin/fuzz_$name" -max_total_time="$seconds" -rss_limit_mb=2048 -timeout=10 \
    -verbosity=0 -print_final_stats=1 "$found/$name" "$root/tests/fuzz/corpus/$name")
done
