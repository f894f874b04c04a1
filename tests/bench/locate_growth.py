#!/usr/bin/env python3
"""Time and memory of a search against its size, up to ten times the fifteen parts' 991 candidates: locate_growth.py
BUILD_FOLDER.

Runs locate_bench once a size, each in a process of its own, and prints the slope of the straight line through the
logarithms of all sizes: 1 is in proportion to the candidates.
"""
import json
import math
import os
import pathlib
import subprocess
import sys

build = pathlib.Path(sys.argv[1]).resolve()
PARTS = (15, 20, 30, 40, 48)


def measured(parts):
    """Candidates, processor time of the first answer and of that after the first reading [ms], peak memory [MiB]."""
    child = subprocess.Popen([build / "bin/locate_bench", f"--benchmark_filter=^(first_answer|answer_after_one)/{parts}$",
                              "--benchmark_format=json"], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    runs = json.load(child.stdout)["benchmarks"]
    _, status, usage = os.wait4(child.pid, 0)
    if status != 0:
        sys.exit(f"locate_bench ended with {status}")
    times = {run["name"].split("/")[0]: run["cpu_time"] for run in runs}
    candidates = next(run["candidates"] for run in runs if "candidates" in run)
    return candidates, times["first_answer"], times["answer_after_one"], usage.ru_maxrss / 1024


def slope(xs, ys):
    logs = [(math.log(x), math.log(y)) for x, y in zip(xs, ys)]
    mean_x = sum(x for x, _ in logs) / len(logs)
    mean_y = sum(y for _, y in logs) / len(logs)
    return sum((x - mean_x) * (y - mean_y) for x, y in logs) / sum((x - mean_x) ** 2 for x, _ in logs)


rows = [(parts, *measured(parts)) for parts in PARTS]
print("| parts | candidates | first answer | after the first reading | peak memory |\n| ---: | ---: | ---: | ---: | ---: |")
for parts, candidates, first, after, memory in rows:
    print(f"| {parts} | {candidates:.0f} | {first:.0f} ms | {after:.0f} ms | {memory:.1f} MiB |")
sizes = [row[1] for row in rows]
slopes = [f"{slope(sizes, [row[column] for row in rows]):.2f}" for column in (2, 3, 4)]
print(f"| slope against candidates | | {slopes[0]} | {slopes[1]} | {slopes[2]} |")
