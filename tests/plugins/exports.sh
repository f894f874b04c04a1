#!/bin/sh
# Says whether a plugin exports the two symbols of the boundary and nothing else.  usage: exports.sh FILE.ohmplug
set -eu
expected='ohmwright_plugin_entry_v2
ohmwright_plugin_stamp'
found=$(nm -D --defined-only "$1" | awk '{ print $3 }' | LC_ALL=C sort)
if [ "$found" != "$expected" ]; then
  printf '%s: it must export exactly\n%s\nbut exports\n%s\n' "$1" "$expected" "$found" >&2
  exit 1
fi
