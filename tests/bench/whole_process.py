#!/usr/bin/env python3
"""Wall times of whole processes, interleaved in one run, as medians and ratios: whole_process.py BUILD_FOLDER [RUNS].

Prints the table that docs/performance.md holds. The machine's speed drifts, so every round runs each command once and
only the ratios of medians are worth quoting.
"""
import pathlib
import statistics
import subprocess
import sys
import time

build = pathlib.Path(sys.argv[1]).resolve()
runs = int(sys.argv[2]) if len(sys.argv) > 2 else 200
plugin = build / "lib/ohmwright/plugins/defrost-sensor"
ratings = plugin / "ratings/ntc-10k-b3977.json"

commands = {
    "bare program: opens the same plugin, parses one JSON file": [
        build / "bin/bare_program", plugin / "defrost-sensor.ohmplug", ratings],
    "ohmwright check (ratings, one reading)": [
        build / "bin/ohmwright", "check", "defrost-sensor", "11.0k", "--at", "23C", "--ratings", "ntc-10k-b3977"],
    "/usr/bin/python3 -c pass": ["/usr/bin/python3", "-c", "pass"],
}
walls = {name: [] for name in commands}
for round_number in range(runs + 1):
    for name, command in commands.items():
        start = time.perf_counter()
        subprocess.run([str(word) for word in command], stdout=subprocess.DEVNULL, check=False)
        if round_number > 0:  # the first round warms the caches
            walls[name].append(time.perf_counter() - start)

medians = {name: statistics.median(wall) for name, wall in walls.items()}
floor = next(iter(medians.values()))
print(f"| whole process, median of {runs} | ms | ratio |\n| --- | ---: | ---: |")
for name, median in medians.items():
    print(f"| {name} | {1000 * median:.2f} | {median / floor:.2f} |")
