"""The one peer of the benchmarks that node runs."""

import subprocess


def has_duckdb():
    """Whether node finds DuckDB; says that it is skipped where it does not."""
    try:
        found = subprocess.run(["node", "-e", "require('@duckdb/node-api')"], capture_output=True, check=False)
    except FileNotFoundError:
        found = None
    if found is not None and found.returncode == 0:
        return True
    print("skipped: node does not find @duckdb/node-api")
    return False
