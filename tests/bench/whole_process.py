#!/usr/bin/env python3
"""Times of whole processes, interleaved in one run, as medians and ratios: whole_process.py BUILD_FOLDER [RUNS].

Prints the table that docs/performance.md holds. The machine's speed drifts, so every round runs each command once and
only the ratios of medians are worth quoting. Wall time means something where the machine has nothing else to do; the time
of the processor, in the program and in the system for it, does so elsewhere too.
"""
import pathlib
import resource
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
    "ohmwright check defrost-sensor (ratings, one reading)": [
        build / "bin/ohmwright", "check", "defrost-sensor", "11.0k", "--at", "23C", "--ratings", "ntc-10k-b3977"],
    "the same by an alias: ohmwright check thermistor": [
        build / "bin/ohmwright", "check", "thermistor", "11.0k", "--at", "23C", "--ratings", "ntc-10k-b3977"],
    "/usr/bin/python3 -c pass": ["/usr/bin/python3", "-c", "pass"],
}
walls = {name: [] for name in commands}
processor = {name: [] for name in commands}


def used():
    usage = resource.getrusage(resource.RUSAGE_CHILDREN)
    return usage.ru_utime + usage.ru_stime


for round_number in range(runs + 1):
    for name, command in commands.items():
        before = used()
        start = time.perf_counter()
        subprocess.run([str(word) for word in command], stdout=subprocess.DEVNULL, check=False)
        if round_number > 0:  # the first round warms the caches
            walls[name].append(time.perf_counter() - start)
            processor[name].append(used() - before)

wall = {name: statistics.median(times) for name, times in walls.items()}
cpu = {name: statistics.median(times) for name, times in processor.items()}
floor = next(iter(commands))
print(f"| whole process, median of {runs} | wall ms | ratio | processor ms | ratio |\n| --- | ---: | ---: | ---: | ---: |")
for name in commands:
    print(f"| {name} | {1000 * wall[name]:.2f} | {wall[name] / wall[floor]:.2f} "
          f"| {1000 * cpu[name]:.2f} | {cpu[name] / cpu[floor]:.2f} |")
