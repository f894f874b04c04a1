#!/bin/sh
# A checkout that a group can write to: its plugins are refused, cli/keep-others-out.sh mends that and says what it did,
# and a second run has nothing to do. usage: sh keep_others_out_test.sh SOURCE BUILD LIBDIR
set -eu
source=$1
build=$2
libdir=$3
umask 002
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
trap 'exit 1' HUP INT TERM
fail() { echo "FAILED: $1"; exit 1; }

copy="$place/checkout/.build/dev"
mkdir -p "$copy/bin" "$copy/$libdir"
cp "$build/bin/ohmwright" "$copy/bin/"
cp -R "$build/$libdir/ohmwright" "$copy/$libdir/"
cp -P "$build/$libdir"/libohmwright_core.so* "$copy/$libdir/"  # found beside the program, as in an installation
chmod -R g+w "$place/checkout"

"$copy/bin/ohmwright" kinds >"$place/before"
grep -q Refused "$place/before" || fail 'plugins that a group can write to are refused'
grep -q "chmod go-w" "$place/before" || fail 'the refusal says what to do'

sh "$source/cli/keep-others-out.sh" "$place/checkout" >"$place/said"
grep -q "^chmod go-w $place/checkout " "$place/said" || fail 'it says that it closes the checkout'
grep -q "^chmod go-w below $copy " "$place/said" || fail 'it says that it closes what was built'

"$copy/bin/ohmwright" kinds >"$place/after"
! grep -q Refused "$place/after" || fail "nothing is refused any more: $(cat "$place/after")"
[ -s "$place/after" ] || fail 'there are kinds'

sh "$source/cli/keep-others-out.sh" "$place/checkout" >"$place/again"
[ ! -s "$place/again" ] || fail "a second run has nothing to do: $(cat "$place/again")"

mkdir "$place/fresh"
chmod 0755 "$place/fresh"
[ -z "$(sh "$source/cli/keep-others-out.sh" "$place/fresh")" ] || fail 'a closed checkout without a build needs nothing'
