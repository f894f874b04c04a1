"""The page of an exercise in a browser: what it records is what the program records, at the width of a phone, by buttons
and fields that a keyboard reaches, without a network.

    course_page_test.py PROGRAM

Ends with 77 (skipped) where no Chromium is installed.
"""

import html
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

SKIPPED = 77
ENVIRONMENT = {"PATH": os.environ["PATH"], "HOME": os.environ.get("HOME", "/tmp"), "LC_ALL": "C.UTF-8",
               "OHMWRIGHT_PASSPHRASE": "four plain test words"}

# What a student does, as the program's words; the script below does the same with the page's fields.
DEEDS = ["measure volts-defrost live-agreed", "unplug", "prove-dead", "measure harness lead-off",
         "measure harness in-circuit", "measure heater-alone lead-off range=600", "measure heater-alone lead-off",
         "measure thermostat-alone@chilled lead-off", "look frost-whole-coil", "note the harness tells most",
         "measure volts-run", "plug-in", "measure volts-heater@forced-defrost live-agreed", "measure plug"]

SCRIPT = r"""
const deeds = %s;
function choose(id, value) {
  byId(id).value = value;
  byId(id).dispatchEvent(new Event("change"));
}
const begunHere = byId("kept").hidden;
const unseen = [];
/// Whether what was just said is on the screen and has the focus.
function look(what) {
  const box = byId("message").getBoundingClientRect();
  const isInView = box.top >= 0 && Math.min(box.bottom, box.top + 200) <= window.innerHeight;
  if (!byId("message").textContent || !isInView || document.activeElement !== byId("message"))
    unseen.push(what + ": " + Math.round(box.top) + " to " + Math.round(box.bottom) + " of " + window.innerHeight);
}
for (const deed of deeds) {
  const [action, ...rest] = deed.split(" ");
  if (action === "measure") {
    const [point, setUp] = rest[0].split("@");
    choose("point", point);
    choose("set-up", setUp || "");
    for (const box of document.querySelectorAll('input[name="leads"]'))
      box.checked = box.value === (rest.includes("lead-off") ? "off" : rest.includes("in-circuit") ? "in" : "");
    const range = rest.find((word) => word.startsWith("range="));
    choose("range", range ? range.slice(6) + " ohm" : "auto");
    byId("live-agreed").checked = rest.includes("live-agreed");
    byId("measure-form").querySelector("button").scrollIntoView();
    byId("measure-form").requestSubmit();
    if (deed === deeds[deeds.length - 1]) look("the stop");
  } else if (action === "look") {
    choose("look", rest[0]);
    byId("look-form").requestSubmit();
  } else if (action === "note") {
    byId("note").value = rest.join(" ");
    byId("note-form").requestSubmit();
  } else {
    byId(action).click();
  }
}
for (const box of document.querySelectorAll('input[name="because"]')) box.checked = ["4", "7"].includes(box.value);
choose("first", "heater.open");
byId("give").scrollIntoView();
byId("answer-form").requestSubmit();
look("no confidence");
byId("confidence").value = "70";
byId("why").value = "<b>& why";
byId("who").value = "Ann: probes; Ben";
byId("give").scrollIntoView();
byId("answer-form").requestSubmit();
look("the check word");
const controls = [...document.querySelectorAll("button, select, input, textarea")];
parent.postMessage(JSON.stringify({
  record: byId("record").value,
  begunHere,
  unseen,
  message: byId("message").textContent,
  unreachable: controls.filter((one) => one.tabIndex < 0).length,
  unnamed: controls.filter((one) => one.tagName !== "BUTTON" && one.labels.length === 0).map((one) => one.id),
  width: window.innerWidth,
  content: document.documentElement.scrollWidth,
}), "*");
"""

# The same page opened again: the next pupil of the day at this computer, before and after the record was saved.
AGAIN = r"""
const asked = !byId("kept").hidden && byId("work").hidden;
const text = byId("kept-text").textContent;
const shown = byId("log").textContent + byId("record").value;
remember(keptAs + "-saved", "yes");
takeUpOrBegin();
parent.postMessage(JSON.stringify({ asked, text, shown, entries: entries, record: byId("record").value }), "*");
"""

# A browser's own window may be no narrower than 500 pixels; a frame may.
PHONE = """<!DOCTYPE html><body><script>
const seen = [];
addEventListener("message", (event) => {
  seen.push(JSON.parse(event.data));
  if (seen.length === 1) {
    document.querySelector("iframe").src = "again.html";
    return;
  }
  const out = document.createElement("pre");
  out.id = "out";
  out.textContent = JSON.stringify(seen);
  document.body.append(out);
});
</script><iframe src="driven.html" width="390" height="844"></iframe></body>"""


def run(program, *words, folder):
    done = subprocess.run([program, *words], env=ENVIRONMENT, cwd=folder, capture_output=True, text=True, check=False)
    if done.returncode not in (0, 1):
        sys.exit(f"ohmwright {' '.join(words)}: {done.stderr}")
    return done.stdout


def entries(record):
    return [json.loads(line)["entry"] for line in record.splitlines() if line]


def in_browser(browser, page, folder):
    dumped = subprocess.run(
        [browser, "--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking",
         f"--user-data-dir={folder}/browser", "--window-size=390,2000", "--virtual-time-budget=3000", "--dump-dom",
         page.as_uri()],
        capture_output=True, text=True, timeout=180, check=False).stdout
    found = re.search(r'<pre id="out">(.*?)</pre>', dumped, re.DOTALL)
    if not found:
        sys.exit(f"the page's script came to no end:\n{dumped[-3000:]}")
    return json.loads(html.unescape(found[1]))


def pages_on_paper(browser, page, folder):
    pdf = folder / (page.stem + ".pdf")
    subprocess.run([browser, "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer",
                    f"--user-data-dir={folder}/browser", f"--print-to-pdf={pdf}", page.as_uri()],
                   capture_output=True, timeout=180, check=False)
    return len(re.findall(rb"/Type\s*/Page\b", pdf.read_bytes()))


def sheet_on_paper(program, browser, folder):
    """What is wrong with a worksheet as it is printed, in A4 and Letter: the circuit takes one page."""
    wrong = []
    sheets = {}
    for name, more in (("with", ["--appliance", "upright-timer-bimetal-120v"]), ("without", [])):
        sheets[name] = run(program, "course", "worksheet", "class/exercise-001.json", *more, folder=folder)
    if "<svg" not in sheets["with"] and "data:image/svg" not in sheets["with"]:
        return wrong  # no Graphviz here
    for size in ("A4", "letter"):
        counts = {}
        for name, sheet in sheets.items():
            page = folder / f"{name}-{size}.html"
            page.write_text(sheet.replace("@page { margin", f"@page {{ size: {size}; margin")
                            .replace("size: landscape", f"size: {size} landscape"), encoding="utf-8")
            counts[name] = pages_on_paper(browser, page, folder)
        if not counts["without"] <= counts["with"] - 1 <= counts["without"] + 1 or counts["with"] > 5:
            wrong.append(f"on {size} the sheet takes {counts['with']} pages, {counts['without']} without its circuit")
    return wrong


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    browser = shutil.which("chromium") or shutil.which("chromium-browser")
    if browser is None:
        print("skipped: no Chromium is installed")
        return SKIPPED
    wrong = []
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        run(program, "course", "make", "upright-timer-bimetal-120v", "--seed", "3", "--page", "--out", "class", "--key",
            "the.key", folder=folder)
        text = (folder / "class/exercise-001.html").read_text(encoding="utf-8")
        if re.search(r"<[a-z]+ [^>]*(src|href)=|url\(|@import|https?://|fetch\(", text):
            wrong.append("the page refers to something outside of it")
        driven = folder / "driven.html"
        driven.write_text(text.replace("</body>", f"<script>{SCRIPT % json.dumps(DEEDS)}</script></body>"), encoding="utf-8")
        (folder / "phone.html").write_text(PHONE, encoding="utf-8")
        (folder / "again.html").write_text(text.replace("</body>", f"<script>{AGAIN}</script></body>"), encoding="utf-8")
        seen, again = in_browser(browser, folder / "phone.html", folder)
        wrong += sheet_on_paper(program, browser, folder)
        if not seen["begunHere"]:
            wrong.append("the first to open the page is asked whose record lies there")
        if seen["unseen"]:
            wrong.append(f"out of sight on a phone, or without the focus: {seen['unseen']}")
        if not again["asked"] or "Ann: probes" not in again["text"] or again["shown"]:
            wrong.append(f"whoever comes next is not asked, or sees the record: {again}")
        if again["entries"] != 1 or entries(again["record"])[0]["session"] == entries(seen["record"])[0]["session"]:
            wrong.append(f"after a saved answer no new record begins: {again}")
        word = json.loads(seen["record"].splitlines()[-1])["hash"]
        if f"{word[:4]}-{word[4:8]}" not in seen["message"]:
            wrong.append(f"no check word after the answer: {seen['message']}")

        run(program, "course", "practise", "class/exercise-001.json", "--record", "cli.record", *DEEDS, folder=folder)
        run(program, "course", "answer", "class/exercise-001.json", "--record", "cli.record", "--named", "heater.open",
            "--because", "4,7", "--confidence", "70", "--why", "<b>& why", "--student", "Ann: probes", "--student", "Ben",
            folder=folder)
        of_page, of_program = entries(seen["record"]), entries((folder / "cli.record").read_text(encoding="utf-8"))
        for start in (of_page[0], of_program[0]):  # drawn, and the time
            if not re.fullmatch(r"[0-9a-f]{8}", start.pop("session")) or not re.fullmatch(
                    r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ", start.pop("begun")):
                wrong.append("a start without its word and time")
        for number, (one, other) in enumerate(zip(of_page, of_program)):
            if one != other:
                wrong.append(f"entry {number}: the page {one}, the program {other}")
        if len(of_page) != len(of_program):
            wrong.append(f"the page has {len(of_page)} entries, the program {len(of_program)}")
        if "ohms-on-live" not in json.dumps(of_page):
            wrong.append("ohms on a live circuit went unnoticed")

        (folder / "handed-in").mkdir()
        (folder / "handed-in/page.record").write_text(seen["record"], encoding="utf-8")
        (folder / "handed-in/edited.record").write_text(seen["record"].replace("harness tells", "harness told"),
                                                        encoding="utf-8")
        table = run(program, "course", "grade", "handed-in", "--key", "the.key", "--format", "csv", folder=folder)
        rows = {line.split(",")[0]: line for line in table.splitlines()}
        if ",no," not in rows["page.record"] or ",yes," not in rows["edited.record"]:
            wrong.append(f"edits are not told apart:\n{table}")
        if seen["unreachable"] or seen["unnamed"]:
            wrong.append(f"not for a keyboard or a reader of screens: {seen['unreachable']}, {seen['unnamed']}")
        if seen["content"] > seen["width"]:
            wrong.append(f"the page is {seen['content']} wide on a screen of {seen['width']}")
    print("\n".join(wrong) or f"{len(of_page)} entries alike, {seen['width']} px wide")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
