#!/usr/bin/env python3
"""Which share of the values of sealed records lies outside the old U plus the new U when this program measures their traces.

    tests/outside/method_change.py PROGRAM RECORD_FOLDER...

A line a quantity (docs/records.md): how many values, how many of them outside |old - new| <= U(old) + U(new), the largest
difference over that sum. Exit status 1 where none could be compared.
"""
import json
import subprocess
import sys
from collections import defaultdict

MARK = "_uncertainty_"


def values_of(record):
    """Every value of a cycle that has an uncertainty: its place, its name, value and U."""
    for cycle in record["cycles"]:
        for phase in ("insufflation", "exsufflation", "pause"):
            for key, uncertainty in (cycle[phase] or {}).items():
                if MARK not in key or uncertainty is None:
                    continue
                value = cycle[phase].get(key.replace(MARK, "_"))
                if value is not None:
                    start = cycle[phase]["start_s"]
                    yield (phase, key.replace(MARK, "_")), start, value, uncertainty


def nearest(wanted, candidates):
    return min(candidates, key=lambda one: abs(one[0] - wanted), default=None)


def compare(old, new, counts):
    by_name = defaultdict(list)
    for name, start, value, uncertainty in values_of(new):
        by_name[name].append((start, value, uncertainty))
    for name, start, value, uncertainty in values_of(old):
        counts[name][0] += 1
        match = nearest(start, by_name[name])
        # A phase that is no longer where it was has no value to be compared.
        if match is None or abs(match[0] - start) > 0.2:
            counts[name][3] += 1
            continue
        ratio = abs(match[1] - value) / max(uncertainty + match[2], 1e-12)
        counts[name][1] += ratio > 1.0
        counts[name][2] = max(counts[name][2], ratio)


def main(program, folders):
    counts = defaultdict(lambda: [0, 0, 0.0, 0])
    for folder in folders:
        with open(f"{folder}/record.json", encoding="utf-8") as file:
            old = json.load(file)
        said = subprocess.run([program, "assess", "--json", folder], capture_output=True, text=True, check=False).stdout
        compare(old, json.loads(said), counts)
    print(f"{'quantity':40} {'values':>7} {'outside':>8} {'share':>7} {'largest':>8} {'gone':>5}")
    for (phase, key), (values, outside, largest, gone) in sorted(counts.items()):
        print(f"{phase + ' ' + key:40} {values:7} {outside:8} {100.0 * outside / values:6.1f}% {largest:8.2f} {gone:5}")
    values = sum(count[0] for count in counts.values())
    outside = sum(count[1] for count in counts.values())
    print(f"{'all':40} {values:7} {outside:8} {100.0 * outside / max(values, 1):6.1f}%")
    return 0 if values else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2:]))
