#!/bin/sh
# A plugin in a folder that others can write to is refused, and so is one below such a folder: whoever can write there
# could put another in its place. A checkout made with umask 002 is such a folder. This takes the right from others, on
# the checkout's folder and on what was built, and says so: sh cli/keep-others-out.sh CHECKOUT
# Nothing to do, nothing said. Folders above the checkout are not touched; ohmwright names them when it refuses.
set -eu
checkout=${1:?usage: sh cli/keep-others-out.sh CHECKOUT}

close() {
  echo "chmod go-w $1   (others could change the plugins in it)"
  chmod go-w "$1" || echo "  that failed; ohmwright will say what to do before it loads a plugin" >&2
}

for folder in "$checkout" "$checkout/.build"; do
  if [ -n "$(find "$folder" -maxdepth 0 -perm /022 ! -perm -1000 2>/dev/null)" ]; then close "$folder"; fi
done
[ -d "$checkout/.build" ] || exit 0
for build in "$checkout"/.build/*; do
  [ -d "$build" ] || continue
  if [ -n "$(find "$build" ! -type l -perm /022 -print -quit)" ]; then
    echo "chmod go-w below $build   (others could change the plugins in it)"
    find "$build" ! -type l -perm /022 -exec chmod go-w {} + ||
      echo "  that failed; ohmwright will say what to do before it loads a plugin" >&2
  fi
done
