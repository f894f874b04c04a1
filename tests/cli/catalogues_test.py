"""Holds the catalogues, framework/po/LANGUAGE.po, that of the shipped appliances and plugins/KIND/po/LANGUAGE.po, to the texts that are marked in the
sources: each that is there translates every one of them, none only fuzzily, and keeps the fields in braces. Says which
domains have none yet. A catalogue that is begun says in its head for which sources it is whole, "X-Ohmwright-Whole: PATTERN…", and
is held to those.

    catalogues_test.py SOURCE_FOLDER
"""

import pathlib
import re
import subprocess
import sys
import tempfile

FOLDERS = {"framework": "framework/po", "appliances": "framework/ohmwright/appliance/po"}
FIELD = re.compile(r"\{[a-z_]+\}")
TEXT = re.compile(r'^(msgid|msgstr) ((?:".*"\n?)+)', re.MULTILINE)


def template(sources, into):
    subprocess.run(["xgettext", "--language=C++", "--from-code=UTF-8", "--keyword=OHMWRIGHT_TEXT", "-o", str(into),
                    *map(str, sorted(sources))], check=True)
    text = into.read_text(encoding="utf-8")
    into.write_text(text.replace("charset=CHARSET", "charset=UTF-8"), encoding="utf-8")


def texts_of_data(root, file, work):
    """The texts of a file of data as a source."""
    source = work / "own.cpp"
    subprocess.run([sys.executable, str(root / "framework/cmake/kind_file_texts.py"), str(file), str(source)], check=True)
    return source


def appliance_texts(root, work):
    """What people read in the shipped appliances as a source."""
    source = work / "appliances.cpp"
    subprocess.run([sys.executable, str(root / "framework/cmake/appliance_texts.py"), str(source),
                    *map(str, root.glob("framework/ohmwright/appliance/appliances/*.json"))], check=True)
    return source


def sources_of(root, domain, work):
    """The files that hold the domain's texts; of a kind without C++ its own texts and those of its reader."""
    if domain == "appliances":
        return [appliance_texts(root, work)]
    if domain == "framework":
        cautions = texts_of_data(root, root / "framework/ohmwright/verdict/cautions.json", work)
        return [cautions, *root.glob("framework/**/*.cpp"), *root.glob("cli/**/*.cpp")]
    kind_file = root / "plugins" / domain / f"{domain}.kind.json"
    if not kind_file.exists():
        return list((root / "plugins" / domain).glob("**/*.cpp"))
    return [texts_of_data(root, kind_file, work), *(root / "plugins/kind-file").glob("**/*.cpp")]


def begun_for(catalogue):
    """The sources for which a catalogue says that it is whole; nothing: for all."""
    found = re.search(r'"X-Ohmwright-Whole: (.*?)\\n"', catalogue.read_text(encoding="utf-8"))
    return found[1].split() if found else []


def wrong_fields(catalogue):
    text = subprocess.run(["msgcat", "--no-wrap", str(catalogue)], check=True, capture_output=True, text=True).stdout
    for entry in text.split("\n\n"):
        texts = dict(TEXT.findall(entry + "\n"))
        original, translated = texts.get("msgid", ""), texts.get("msgstr", "")
        if original.strip() != '""' and set(FIELD.findall(original)) != set(FIELD.findall(translated)):
            yield f"{catalogue}: other fields than in {original.strip()}"


def main():
    root = pathlib.Path(sys.argv[1])
    domains = ["framework", "appliances", *sorted(p.parent.name for p in root.glob("plugins/*/CMakeLists.txt"))]
    wrong, whole, begun, without = [], [], [], []
    with tempfile.TemporaryDirectory() as name:
        work = pathlib.Path(name)
        for domain in domains:
            folder = root / FOLDERS.get(domain, f"plugins/{domain}/po")
            catalogues = sorted(folder.glob("*.po"))
            if not catalogues:
                without.append(domain)
                continue
            for catalogue in catalogues:
                patterns = begun_for(catalogue)
                sources = [path for pattern in patterns for path in root.glob(pattern)]
                template(sources or sources_of(root, domain, work), work / "texts.pot")
                compared = subprocess.run(["msgcmp", str(catalogue), str(work / "texts.pot")], capture_output=True, text=True,
                                          check=False)
                wrong += compared.stderr.splitlines() if compared.returncode else []
                wrong += wrong_fields(catalogue)
                (begun if patterns else whole).append(f"{domain} ({catalogue.stem})")
    print("begun:", ", ".join(begun) or "none")
    print("whole:", ", ".join(whole) or "none", "\nno catalogue yet:", ", ".join(without) or "none")
    print("\n".join(wrong))
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
