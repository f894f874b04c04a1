#!/bin/sh
# Installs what is missing of cli/packages.txt: sh cli/install-packages.sh build|test|all
# Does nothing, and asks for no rights, when everything is there.
set -eu
here=$(CDPATH= cd -- "$(dirname -- "$0")" && pwd)

case "${1:-build}" in
  build) groups='build' ;;
  test) groups='build|test' ;;
  all) groups='build|test|all' ;;
  *) echo "usage: sh cli/install-packages.sh build|test|all" >&2; exit 2 ;;
esac

missing=''
for package in $(sed -n -E "s/^($groups) +([^ ]+).*/\2/p" "$here/packages.txt"); do
  status=$(dpkg-query -W -f='${Status}' "$package" 2>/dev/null || true)
  [ "$status" = 'install ok installed' ] || missing="$missing $package"
done
[ -n "$missing" ] || exit 0

echo "Installing:$missing"
if [ "$(id -u)" = 0 ]; then as_root=''; else as_root='sudo'; fi
$as_root apt-get update -qq
# shellcheck disable=SC2086 # the list is meant to be split into words
$as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing >/dev/null
