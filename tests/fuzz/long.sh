#!/bin/sh
# The long mode of the fuzz targets: clang's libFuzzer with both sanitizers, SECONDS (default 60) for each target.
# New inputs are kept below .build/fuzz; what fails is printed and left there. usage: sh tests/fuzz/long.sh [SECONDS]
set -eu
root=$(CDPATH= cd -- "$(dirname -- "$0")/../.." && pwd)
seconds=${1:-60}
build="$root/.build/fuzz"
cmake -S "$root" -B "$build" -G Ninja -DCMAKE_CXX_COMPILER=clang++ -DCMAKE_BUILD_TYPE=Debug \
  -DCMAKE_CXX_FLAGS='-O1 -g1 -fsanitize=fuzzer-no-link' -DOHMWRIGHT_SANITIZE=ON \
  -DOHMWRIGHT_BUILD_TESTS=OFF -DOHMWRIGHT_BUILD_BENCHMARKS=OFF -DOHMWRIGHT_BUILD_FUZZERS=ON >/dev/null
targets=''
for source in "$root"/tests/fuzz/*.cpp; do
  name=$(basename "$source" .cpp)
  [ "$name" = replay_main ] || targets="$targets $name"
done
# shellcheck disable=SC2086 # the list is meant to be split into words
cmake --build "$build" --target $(printf 'fuzz_%s ' $targets)
for name in $targets; do
  mkdir -p "$build/found/$name"
  echo "== $name, $seconds s"
  (cd "$build/found/$name" && "$build/bin/fuzz_$name" -max_total_time="$seconds" -rss_limit_mb=2048 -timeout=10 \
    -verbosity=0 -print_final_stats=1 "$build/found/$name" "$root/tests/fuzz/corpus/$name")
done
