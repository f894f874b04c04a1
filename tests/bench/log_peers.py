#!/usr/bin/env python3
"""The log reader and its whole analysis beside other readers of the same file: log_peers.py BUILD_FOLDER [ROWS [RUNS]].

Every round runs each command once, so that the ratios of medians hold though the machine's speed drifts. DuckDB is a peer
of this benchmark only: it is taken where node finds the module @duckdb/node-api (NODE_PATH), and left out elsewhere.
`log_peers.py BUILD_FOLDER memory` streams logs of 0.1, 1 and 10 GB through a pipe and prints the peak memory.
"""
import pathlib
import statistics
import subprocess
import sys
import time

from node_peer import has_duckdb

build = pathlib.Path(sys.argv[1]).resolve()
bench = build / "bin/log_bench"

PYTHON = """
import csv, datetime, sys
rows = csv.reader(open(sys.argv[1])); next(rows)
total = 0.0; most = 0.0
for time, coil, power in rows:
    total += float(coil); most = max(most, float(power))
print(total, most)
"""
DUCKDB = """
const { DuckDBInstance } = require('@duckdb/node-api');
(async () => {
  const db = await DuckDBInstance.create(':memory:', { threads: '1' });
  const connection = await db.connect();
  const start = process.hrtime.bigint();
  const result = await connection.runAndReadAll(`select sum("coil"), sum("power"), max("t") from read_csv('${process.argv[1]}',
    header = true, delim = ',', columns = {'t': 'TIMESTAMP', 'coil': 'DOUBLE', 'power': 'DOUBLE'})`);
  result.getRows();
  console.log(Number(process.hrtime.bigint() - start) / 1e9);
})();
"""


def memory():
    print("| streamed | rows | peak memory |\n| --- | ---: | ---: |")
    for gigabytes, rows in (("0.1 GB", 3_200_000), ("1 GB", 32_000_000), ("10 GB", 320_000_000)):
        maker = subprocess.Popen([bench, "generate", str(rows)], stdout=subprocess.PIPE)
        reader = subprocess.run([bench, "analyse", "-"], stdin=maker.stdout, capture_output=True, text=True, check=True)
        maker.wait()
        first, second = reader.stdout.splitlines()
        print(f"| {gigabytes} | {first.split(',')[0]} | {second.split('peak ')[1]} |", flush=True)


if sys.argv[2:] == ["memory"]:
    memory()
    sys.exit()

rows = int(sys.argv[2]) if len(sys.argv) > 2 else 10_000_000
runs = int(sys.argv[3]) if len(sys.argv) > 3 else 5
log = build / f"bench_{rows}.csv"
if not log.exists():
    with open(log, "wb") as file:
        subprocess.run([bench, "generate", str(rows)], stdout=file, check=True)

commands = {
    "wc -l": ["wc", "-l", log],
    "log_bench read": [bench, "read", log],
    "log_bench analyse (all of it)": [bench, "analyse", log],
    "awk, sums": ["awk", "-F,", "{ s += $2; if ($3 > m) m = $3 } END { print s, m }", log],
    "/usr/bin/python3, csv module": ["/usr/bin/python3", "-c", PYTHON, log],
    "DuckDB, one thread, sums (whole process)": ["node", "-e", DUCKDB, log],
}
if not has_duckdb():
    del commands["DuckDB, one thread, sums (whole process)"]
walls = {name: [] for name in commands}
for round_number in range(runs + 1):
    for name, command in commands.items():
        slow = "python3" in name or "awk" in name
        if slow and round_number > 2:
            continue
        start = time.perf_counter()
        subprocess.run([str(word) for word in command], stdout=subprocess.DEVNULL, check=True)
        if round_number > 0:  # the first round warms the caches
            walls[name].append(time.perf_counter() - start)
medians = {name: statistics.median(wall) for name, wall in walls.items()}
floor = medians["wc -l"]
print(f"| {rows:,} rows, {log.stat().st_size / 1e6:.0f} MB | s | × wc -l |\n| --- | ---: | ---: |")
for name, median in medians.items():
    print(f"| {name} | {median:.3f} | {median / floor:.1f} |")
