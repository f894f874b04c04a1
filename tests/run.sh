#!/bin/sh
# Installs what is missing, builds and passes the tests.
#   sh tests/run.sh         the ten-minute tier: release build, one compiler, fuzz corpora replayed
#   sh tests/run.sh --all   adds formatting, the tests by the other compiler with both sanitizers, fuzzing, a cluster,
#                           pages in a browser, benchmark programs, every public header compiled alone, all cases of
#                           the longest tests
#   sh tests/run.sh --tidy  clang-tidy alone, which takes as long as many of the others together
# Safe to run again; writes below .build/ only.
set -eu
umask 022 # a plugin that others can write to is refused
root=$(CDPATH= cd -- "$(dirname -- "$0")/.." && pwd)
cd "$root"

case "${1:-}" in
  '') tier=test ;;
  --all | --tidy) tier=all ;;
  *) echo 'usage: sh tests/run.sh [--all|--tidy]' >&2; exit 2 ;;
esac

step() { printf '\n== %s\n' "$1"; }

step 'Packages (cli/packages.txt)'
sh cli/install-packages.sh "$tier"
sh cli/keep-others-out.sh "$root"

if [ "${1:-}" = --tidy ]; then
  step 'clang-tidy over all that is installed (preset tidy)'
  exec cmake --workflow --preset tidy
fi

if [ "$tier" = all ]; then
  step 'Formatting (clang-format 14)'
  git ls-files '*.cpp' '*.hpp' | xargs clang-format --dry-run --Werror
  step 'clang++ with AddressSanitizer and UndefinedBehaviorSanitizer (preset asan)'
  cmake --preset asan -D OHMWRIGHT_OUTSIDE_TESTS=OFF
  cmake --build --preset asan
  # Nothing runs in what must not compile, and nm lists otherwise what a sanitizer adds to the symbols of a library. The
  # long sweeps repeat what shorter tests of the same code do (the kit of authors forks thousands of times, and strangers
  # build plugins, which costs sanitized programs most), and a browser tests pages and no memory of ours. Of the whole
  # program those that read what people type and give it run here: a search by the program takes seconds of a sanitizer,
  # and the tests of the search itself are here. The workflow preset asan runs them all.
  long='SimulatedLogs.GiveTheir|OptimalPolicy|JoinedPlaces|LeaveTheKit|LogSweep|DryAppliances|Energising'
  program='JobCall|Traps|Locate|Evidence|Course|Curve|Each/PlanOfEach|PlanOfASearch|ApplianceVerb|Seeded|OtherAppliances'
  program="$program|KindAdvice|Language|ManualRange"
  ctest --preset asan --exclude-regex \
    "compile_fail|AreThoseThatNmFinds|$long|^cli_program_test[.]($program)|^sdk[.]|in_a_browser|pages_show|catalogues"
  step 'Fuzz targets, 5 s each (tests/fuzz/long.sh)'
  sh tests/fuzz/long.sh 5
fi

step 'Release build (preset release)'
if [ "$tier" = all ]; then
  cmake --preset release
else # without what tests nothing of the program
  cmake --preset release -D OHMWRIGHT_BUILD_BENCHMARKS=OFF -D OHMWRIGHT_CHECK_HEADERS=OFF
fi
cmake --build --preset release

if [ "$tier" = all ]; then
  step 'A batch on a cluster of one machine (tests/scale/cluster.sh)'
  sh tests/scale/cluster.sh .build/release/bin/ohmwright || [ $? -eq 77 ]
fi

# Some minutes more: the longest tests take all of their cases, and the job book is killed 500 times, not 40.
if [ "$tier" = all ]; then
  export OHMWRIGHT_THOROUGH=1 OHMWRIGHT_KILLS="${OHMWRIGHT_KILLS:-500}"
fi

step 'Tests (preset release)'
exec ctest --preset release
