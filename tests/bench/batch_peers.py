#!/usr/bin/env python3
"""A batch of sensor readings beside its floor and its peers: batch_peers.py BUILD_FOLDER [LINES [ROUNDS]].

Every command is a process of its own that reads the file and writes to /dev/null, and every round runs each of them once,
one after the other, so that all have the same of what else the machine does. What is printed is the median of the rounds
and, for ratios, that of each round's own ratio, with the smallest and the largest. Processor time (user and system) hardly
depends on other work; wall time says what threads gain, and is worth as much as the machine is free.
DuckDB is a peer of this benchmark only: it is taken where node finds the module @duckdb/node-api (NODE_PATH), and left out
elsewhere. `batch_peers.py BUILD_FOLDER memory` prints the peak memory for growing input.
"""
import pathlib
import resource
import statistics
import subprocess
import sys
import time

from node_peer import has_duckdb

build = pathlib.Path(sys.argv[1]).resolve()
program = build / "bin/ohmwright"
options = ["--kind", "thermistor", "--ratings", "ntc-10k-b3977"]

# The shortest honest script: the curve and its limits at the temperature, no doubt of meter or thermometer.
PYTHON = """
import json, math, sys
for number, line in enumerate(open(sys.argv[1]), 1):
    part = json.loads(line)
    reading = part["readings"][0]
    ohm = float(reading["value"].split()[0]) * 1000
    kelvin = float(reading["conditions"]["part_temperature"].split()[0]) + 273.15
    nominal = 10000 * math.exp(3977 * (1 / kelvin - 1 / 298.15))
    good = 0.95 * nominal <= ohm <= 1.05 * nominal
    print(json.dumps({"line": number, "id": part["id"], "lot": part["lot"], "nominal": nominal, "measured": ohm,
                      "verdict": "within-limits" if good else "out-of-limits"}))
"""
DUCKDB = """
const { DuckDBInstance } = require('@duckdb/node-api');
(async () => {
  const db = await DuckDBInstance.create(':memory:', { threads: '1' });
  const connection = await db.connect();
  const result = await connection.runAndReadAll(`select count(id), count(lot), max(readings[1].value),
    max(readings[1].conditions.part_temperature) from read_ndjson('${process.argv[1]}')`);
  result.getRows();
})();
"""


def make(count):
    path = build / f"bench_batch_{count}.jsonl"
    if path.exists():
        return path
    with open(path, "w", encoding="ascii") as file:
        for i in range(count):  # mostly good parts, some near and some beyond a limit
            spread = (i * 7919 % 1000 - 500) / 500
            ohm = 10.92 * (1 + 0.03 * spread + (0.12 if i % 20 == 7 else 0))
            file.write(f'{{"id":"s-{i:07d}","lot":"L{i % 20:02d}","readings":[{{"value":"{ohm:.3f} kohm",'
                       f'"connection":"lead-off","conditions":{{"part_temperature":"{23 + i % 5 / 10:.1f} degC +- 0.2 K"}}}}]}}\n')
    return path


def make_table(count):
    """The same sensors as a CSV table."""
    path = build / f"bench_batch_{count}.csv"
    if path.exists():
        return path
    with open(path, "w", encoding="ascii") as file:
        file.write("id,lot,resistance [kohm],at,connection\n")
        for i in range(count):
            spread = (i * 7919 % 1000 - 500) / 500
            ohm = 10.92 * (1 + 0.03 * spread + (0.12 if i % 20 == 7 else 0))
            file.write(f"s-{i:07d},L{i % 20:02d},{ohm:.3f},{23 + i % 5 / 10:.1f} degC +- 0.2 K,lead-off\n")
    return path


def run(command):
    """Processor time and wall time of a whole process [s]."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    start = time.perf_counter()
    subprocess.run([str(word) for word in command], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=True)
    wall = time.perf_counter() - start
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime, wall


def of_rounds(values):
    """The median, and from the smallest to the largest."""
    return f"{statistics.median(values):.2f} ({min(values):.2f} to {max(values):.2f})"


def memory():
    print("| lines | threads | peak memory |\n| ---: | ---: | ---: |")
    for count in (10_000, 100_000, 1_000_000):
        for threads in (1, 2):
            child = subprocess.Popen([program, "batch", make(count), *options, "--threads", str(threads)],
                                     stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
            peak = 0
            while child.poll() is None:
                try:
                    status = pathlib.Path(f"/proc/{child.pid}/status").read_text(encoding="ascii")
                    peak = max([peak] + [int(line.split()[1]) for line in status.splitlines() if line.startswith("VmHWM")])
                except OSError:
                    pass
                time.sleep(0.005)
            print(f"| {count:,} | {threads} | {peak / 1024:.1f} MiB |", flush=True)


if sys.argv[2:] == ["memory"]:
    memory()
    sys.exit()

count = int(sys.argv[2]) if len(sys.argv) > 2 else 1_000_000
rounds = int(sys.argv[3]) if len(sys.argv) > 3 else 5
lines = make(count)
table = make_table(count)
FLOOR = "floor: simdjson reads every field of every line, and nothing else"
WRITES = "the same, and fmt writes records of that size"
ONE = "ohmwright batch"
TWO = "ohmwright batch --threads 2"
commands = {
    FLOOR: [build / "bin/batch_floor", lines],
    WRITES: [build / "bin/batch_floor", lines, "write"],
    ONE: [program, "batch", lines, *options, "--out", "/dev/null"],
    TWO: [program, "batch", lines, *options, "--threads", "2", "--out", "/dev/null"],
    "ohmwright batch, the same as a CSV table": [program, "batch", table, *options, "--out", "/dev/null"],
    "/usr/bin/python3, the shortest honest script": ["/usr/bin/python3", "-c", PYTHON, lines],
    "DuckDB, one thread, merely reading (whole process)": ["node", "-e", DUCKDB, lines],
}
if not has_duckdb():
    del commands["DuckDB, one thread, merely reading (whole process)"]
times = {name: [] for name in commands}
for round_number in range(rounds):
    for name, command in commands.items():
        if "python3" not in name or round_number == 0:  # an order of magnitude slower: once tells enough
            times[name].append(run(command))
print(f"| {count:,} lines, {lines.stat().st_size / 1e6:.0f} MB, {rounds} rounds | processor s | × floor | wall s |\n"
      "| --- | ---: | ---: | ---: |")
for name, pairs in times.items():
    ratios = [cpu / floor for (cpu, wall), (floor, floor_wall) in zip(pairs, times[FLOOR])]
    print(f"| {name} | {statistics.median(cpu for cpu, wall in pairs):.2f} | {of_rounds(ratios)} "
          f"| {statistics.median(wall for cpu, wall in pairs):.2f} |")
print("\n| of each round | median (smallest to largest) |\n| --- | ---: |")
print(f"| wall time of one thread over that of two | {of_rounds([a[1] / b[1] for a, b in zip(times[ONE], times[TWO])])} |")
print(f"| processor time of two threads over that of one | {of_rounds([b[0] / a[0] for a, b in zip(times[ONE], times[TWO])])} |")
print(f"| processor time over the floor that writes | {of_rounds([a[0] / b[0] for a, b in zip(times[ONE], times[WRITES])])} |")
