#!/bin/sh
# Catalogues of two languages that nobody speaks, made from all texts of SOURCES, so that a test can see which of them
# come through gettext: in "qpb" every text stands in brackets, in "qpf" the fields of every text have wrong names too.
# usage: sh made_languages.sh FOLDER DOMAIN SOURCES...     makes FOLDER/{qpb,qpf}/LC_MESSAGES/DOMAIN.mo
set -eu
folder=$1
domain=$2
shift 2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

xgettext --language=C++ --from-code=UTF-8 --keyword=OHMWRIGHT_TEXT --no-wrap --package-name=ohmwright \
  -o "$work/texts.pot" "$@"
sed -i 's/charset=CHARSET/charset=UTF-8/' "$work/texts.pot"
msgen --no-wrap -o "$work/english.po" "$work/texts.pot"
msgfilter --no-wrap --keep-header -i "$work/english.po" -o "$work/qpb.po" sed -e '1s/^/⟦/' -e '$s/$/⟧/' 2>/dev/null
msgfilter --no-wrap --keep-header -i "$work/qpb.po" -o "$work/qpf.po" sed -e 's/{/{no_/g' 2>/dev/null
for language in qpb qpf; do
  mkdir -p "$folder/$language/LC_MESSAGES"
  msgfmt -o "$folder/$language/LC_MESSAGES/$domain.mo" "$work/$language.po"
done
