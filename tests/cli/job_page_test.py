"""The report of a job in a browser: whatever people typed into the fields of a call is text on the page and nothing else,
and the page prints to two sheets of A4 and of Letter.

    job_page_test.py PROGRAM

Ends with 77 (skipped) where no Chromium is installed.
"""

import html
import html.parser
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

SKIPPED = 77
ENVIRONMENT = {"PATH": os.environ["PATH"], "HOME": os.environ.get("HOME", "/tmp"), "LC_ALL": "C.UTF-8"}

# Were any of it taken for more than text, the title of the page would change, or an element of its own would stand in it.
HOSTILE = ("</title></style></h1><script>document.title='taken'</script><img src=x onerror=\"document.title='taken'\">"
           "<svg onload=document.title='taken'><a href=javascript:document.title='taken'>'; DROP TABLE entry; -- "
           "\x1b[31m\u202e\u009b2J\n{{}} %s &lt;b&gt;")
ELEMENTS = {"html", "head", "meta", "title", "style", "body", "main", "div", "h1", "h2", "h3", "p", "ul", "li", "section",
            "table", "thead", "tbody", "tr", "th", "td", "span", "i", "b", "img", "footer", "caption", "figure", "details",
            "summary"}


class Page(html.parser.HTMLParser):
    """What stands in a page that a browser has read."""

    def __init__(self):
        super().__init__()
        self.wrong = []
        self.text = ""
        self.title = ""
        self._tag = ""

    def handle_starttag(self, tag, attrs):
        self._tag = tag
        if tag not in ELEMENTS:
            self.wrong.append(f"an element <{tag}>")
        for name, value in attrs:
            if name.startswith("on") or name == "href" or (name == "src" and not (value or "").startswith("data:")):
                self.wrong.append(f"<{tag} {name}={value!r}>")

    def handle_data(self, data):
        self.text += data
        if self._tag == "title":
            self.title += data


def run(program, *words, folder, may_end=(0,)):
    done = subprocess.run([program, "job", *words, "--book", "book.db"], env=ENVIRONMENT, cwd=folder, capture_output=True,
                          text=True, check=False)
    if done.returncode not in may_end:
        sys.exit(f"ohmwright job {words[0]}: {done.returncode}: {done.stderr}")
    return done.stdout


def browse(browser, folder, *words):
    return subprocess.run([browser, "--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking",
                           f"--user-data-dir={folder}/browser", *words],
                          cwd=folder, capture_output=True, text=True, timeout=180, check=False).stdout


def report(program, folder):
    page = folder / "report.html"
    run(program, "report", "--job", "1", "--format", "html", "--out", str(page), folder=folder)
    return page


def hostile_call(program, folder):
    bad = HOSTILE
    run(program, "open", bad, "--complaint", bad, "--appliance", "upright-timer-bimetal-120v", "--answer", f"tried={bad}",
        "--answer", f"refrigerant={bad}", "--who", bad[:190], folder=folder)
    run(program, "read", "heater-alone=OL", "--who", bad[:190], folder=folder, may_end=(1,))
    run(program, "note", bad, folder=folder)
    run(program, "wait", "part", "--because", bad, folder=folder)
    run(program, "visit", folder=folder)
    run(program, "replace", "heater", "--new", "heater-180w-230v", "--because", bad, folder=folder)
    run(program, "correct", "last", "--because", bad, folder=folder)
    run(program, "close", "declined", "--because", bad, folder=folder)


def whole_call(program, folder):
    run(program, "open", "Freezer warm", "--complaint", "milk is warm", "--appliance", "upright-timer-bimetal-120v",
        "--symptom", "frost-whole-coil", "--answer", "tingles=no", "--answer", "room=24C", folder=folder)
    run(program, "read", "heater-alone=OL", folder=folder, may_end=(1,))
    run(program, "read", "thermostat-alone=0.3", folder=folder, may_end=(0, 3))
    run(program, "replace", "heater", "--new", "heater-450w-120v", folder=folder)
    run(program, "read", "heater", "insulation=200M", "--test", "500V", "--proved-dead", folder=folder, may_end=(3,))
    run(program, "verify", "--earth-bond", "0.12ohm", "--test-current", "10A", folder=folder, may_end=(3,))
    run(program, "read", "heater-alone=32.1", folder=folder)
    run(program, "verify", "--forced-defrost", "ended", "--live-agreed", folder=folder, may_end=(3,))
    run(program, "close", "repaired", "--call-back", "2999-12-01", folder=folder)


def call_of_many_readings(program, folder):
    """Twelve readings on two visits, with every caution that they carry."""
    run(program, "open", "Freezer warm", "--complaint", "milk is warm", "--appliance", "upright-timer-bimetal-120v",
        "--symptom", "frost-whole-coil", "--answer", "tingles=no", "--answer", "room=24C", folder=folder)
    for value in ("heater-alone=OL", "thermostat-alone=0.3", "plug=212", "timer-motor=6k", "fan-alone=68", "harness=OL",
                  "run-harness=90", "heater-alone=OL"):
        run(program, "read", value, folder=folder, may_end=(0, 1, 3))
    run(program, "wait", "part", folder=folder)
    run(program, "visit", folder=folder)
    run(program, "replace", "heater", "--new", "heater-450w-120v", folder=folder)
    run(program, "read", "heater", "insulation=200M", "--test", "500V", "--proved-dead", folder=folder, may_end=(3,))
    run(program, "verify", "--earth-bond", "0.12ohm", "--test-current", "10A", folder=folder, may_end=(3,))
    for value in ("heater-alone=32.1", "thermostat-alone=0.2", "harness=33"):
        run(program, "read", value, folder=folder, may_end=(0, 1, 3))
    run(program, "verify", "--forced-defrost", "ended", "--live-agreed", folder=folder, may_end=(3,))
    run(program, "close", "repaired", "--call-back", "2999-12-01", folder=folder)


def sheets_of(browser, folder, text, size):
    sized = folder / f"{size}.html"
    sized.write_text(text.replace("@page { margin: 1cm; }", f"@page {{ margin: 1cm; size: {size}; }}"), "utf-8")
    browse(browser, folder, "--no-pdf-header-footer", f"--print-to-pdf={size}.pdf", sized.as_uri())
    return len(re.findall(rb"/Type */Page\b", (folder / f"{size}.pdf").read_bytes()))


def reach_of_the_readings(browser, folder, text, width):
    """How far right the cells of the table of readings reach on a screen that is so wide [CSS pixels]."""
    page = folder / "on_a_screen.html"
    page.write_text(f"<iframe id=f style='border:0' width={width} height=800 srcdoc=\"{html.escape(text)}\"></iframe>"
                    "<script>onload = () => document.title = 'reach ' + Math.max(...[...f.contentDocument"
                    ".querySelectorAll('.stacks td')].map(cell => cell.getBoundingClientRect().right))</script>", "utf-8")
    found = re.search(r"<title>reach ([0-9.]+)</title>", browse(browser, folder, "--dump-dom", page.as_uri()))
    return float(found.group(1)) if found else float("inf")


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    browser = shutil.which("chromium") or shutil.which("chromium-browser")
    if browser is None:
        print("skipped: no Chromium is installed")
        return SKIPPED
    wrong = []
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        hostile_call(program, folder)
        page = Page()
        page.feed(browse(browser, folder, "--dump-dom", report(program, folder).as_uri()))
        wrong += page.wrong
        if "taken" in page.title.split("<")[0] or not page.title.startswith("Job 1: </title>"):
            wrong.append(f"the page is called {page.title!r}")
        if page.text.count("<script>") < 5:
            wrong.append("what was typed is not on the page as it was typed")
        for raw in ("\x1b", "\u202e", "\u009b"):
            if raw in page.text:
                wrong.append(f"{raw!r} is on the page")
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        whole_call(program, folder)
        text = report(program, folder).read_text(encoding="utf-8")
        smallest = min(float(size) for size in re.findall(r"font-size: ([0-9.]+)pt", text))
        if smallest < 8.0:  # common practice, no source
            wrong.append(f"letters of {smallest} points in print")
        for size in ("A4", "letter"):
            sheets = sheets_of(browser, folder, text, size)
            if sheets != 2:
                wrong.append(f"{sheets} sheets of {size}, expected 2")
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        call_of_many_readings(program, folder)
        text = report(program, folder).read_text(encoding="utf-8")
        for size in ("A4", "letter"):
            sheets = sheets_of(browser, folder, text, size)
            if sheets > 2:
                wrong.append(f"{sheets} sheets of {size} for twelve readings, expected 2 at most")
        for width in (390, 1200):
            # the text column ends where the page's own margin begins: 46rem wide, in the middle (framework's html.cpp)
            edge = min(width, (width + 46 * 16) / 2)
            reach = reach_of_the_readings(browser, folder, text, width)
            if reach > edge:
                wrong.append(f"on {width} pixels the readings reach to {reach}, expected {edge} at most")
    for line in wrong:
        print(line)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
