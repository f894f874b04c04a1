#!/usr/bin/env python3
"""Peak memory of every verb on a large example: memory_of_verbs.py BUILD_FOLDER.

Needs /usr/bin/time (Debian: time), which starts the program itself, so that nothing of Python's counts. The examples are
made in a folder of their own below BUILD_FOLDER.
"""
import pathlib
import subprocess
import sys

build = pathlib.Path(sys.argv[1]).resolve()
program = build / "bin/ohmwright"
folder = build / "bench_memory"
folder.mkdir(exist_ok=True)
sensor = ["--ratings", "ntc-10k-b3977"]
large = "combination-two-evaporators-230v"


def written(name, lines):
    path = folder / name
    with open(path, "w", encoding="utf-8") as file:
        file.writelines(line + "\n" for line in lines)
    return path


def kiloohms(i):
    return 10.92 * (1 + 0.03 * ((i * 7919 % 1000 - 500) / 500))


def series(count):
    yield "at [degC],resistance [kohm]"
    yield from (f"{23 + i % 5 / 10:.1f},{kiloohms(i):.3f}" for i in range(count))


def batch_lines(count):
    return (f'{{"id":"s-{i}","lot":"L{i % 20}","readings":[{{"value":"{kiloohms(i):.3f} kohm","connection":"lead-off",'
            f'"conditions":{{"part_temperature":"23 degC +- 0.2 K"}}}}]}}' for i in range(count))


def log_rows(count):
    yield "time,coil [degC],power [W]"
    for i in range(count):
        second = 10 * i
        day, rest = divmod(second, 86400)
        on = second // 1800 % 2 == 0
        yield (f"2026-{3 + day // 28:02d}-{1 + day % 28:02d} {rest // 3600:02d}:{rest // 60 % 60:02d}:{rest % 60:02d},"
               f"{-24 + second % 1800 / 300 if on else -18:.1f},{95 if on else 2}")


def run(words, may_end_with=(0, 1, 3)):
    done = subprocess.run(["/usr/bin/time", "-f", "peak %M kB", program, *map(str, words)], cwd=folder, capture_output=True,
                          text=True, check=False)
    if done.returncode not in may_end_with:
        sys.exit(f"{words[0]} ended with {done.returncode}: {done.stderr}")
    return int(done.stderr.rsplit("peak ", 1)[1].split()[0]) / 1024


def book():
    """A job from its opening to its report, in a book of its own; the peak of its calls."""
    path = folder / "jobs.db"
    for old in folder.glob("jobs.db*"):
        old.unlink()
    book_of = ["--book", path, "--who", "bench"]
    peaks = [run(["job", "open", "upright", "--appliance", large, *book_of], (0, 1, 2, 3))]
    peaks += [run(["job", action, *book_of], (0, 1, 2, 3)) for action in ("next", "card", "why", "show", "list", "report")]
    return max(peaks)


def grading():
    for exercise in sorted((folder / "class").glob("*.json")):
        run(["course", "practise", exercise, "unplug", "prove-dead"], (0, 1, 2, 3))
        run(["course", "answer", exercise, "--nothing-wrong", "--confidence", "60"], (0, 1, 2, 3))
    return run(["course", "grade", "class", "--key", "class.key", "--passphrase-file", "pass.txt"])


(folder / "pass.txt").write_text("four words of nobody\n", encoding="ascii")
made = ["course", "make", large, "--count", "8", "--out", "class", "--key", "class.key", "--passphrase-file", "pass.txt"]
for old in [folder / "class.key", *folder.glob("class/*")]:
    old.unlink(missing_ok=True)
examples = {
    "check, one reading": ["check", "thermistor", "11.0k", "--at", "23C", *sensor],
    "check --series, 10,000 rows": ["check", "thermistor", "--series", written("series.csv", series(10_000)), *sensor],
    "chart, as a page with its picture": ["chart", "thermistor", "11.0k@23C", *sensor, "--format", "html", "--out", "chart.html"],
    "curve, 1,000 rows": ["curve", "thermistor", "--series", written("curve.csv", (
        f"{t},{r}" for t, r in [("at [degC]", "resistance [kohm]")] +
        [(f"{-30 + i * 0.08:.2f}", f"{10 * 2.718281828 ** (3977 * (1 / (243.15 + i * 0.08) - 1 / 298.15)):.5g}")
         for i in range(1000)]))],
    "compare, two classes": ["compare", "thermistor", "ntc-10k-b3977", "ntc-10k-b3435"],
    f"locate, {large}": ["locate", large],
    "locate --plan": ["locate", large, "--plan", "--format", "html", "--out", "plan.html"],
    "job, from its opening to its report, the largest call": book,
    "course make, 8 exercises": made,
    "course grade, a record of each": grading,
    "log, 1,000,000 rows": ["log", written("log.csv", log_rows(1_000_000))],
    "batch, 1,000,000 lines, two threads": ["batch", written("batch.jsonl", batch_lines(1_000_000)), "--kind", "thermistor",
                                            *sensor, "--threads", "2", "--out", "/dev/null"],
}
print("| verb, on a large example | peak memory |\n| --- | ---: |")
for name, example in examples.items():
    peak = example() if callable(example) else run(example)
    print(f"| {name} | {peak:.1f} MiB |", flush=True)
