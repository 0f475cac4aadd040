#!/usr/bin/env python3
"""Records that one build of the program made, computed again by another build (another compiler): nothing may differ but rounding.

usage: two_builds.py PROGRAM OTHER_PROGRAM WORK_FOLDER SOURCE_FOLDER
"""
import json
import math
import os
import random
import re
import subprocess
import sys

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from evidence import Evidence  # noqa: E402

TRACES = 24


def level_at(shape, since, start, target):
    """How a unit goes from one pressure to the next: by an exponential, a straight line, or with ringing."""
    way = target - start
    if shape["edge"] == "line":
        return start + way * min(1.0, since / shape["rise_s"])
    if shape["edge"] == "exponential":
        return target - way * math.exp(-2.2 * since / shape["rise_s"])
    return target - way * math.exp(-4.0 * since / shape["rise_s"]) * math.cos(9.0 * since / shape["rise_s"])


def trace_of(dice):
    """A run of seven cycles with figures by chance: pressure, edges, noise, an oscillation, spikes."""
    shape = {"edge": dice.choice(["line", "exponential", "ringing"]), "rise_s": dice.uniform(0.05, 0.25)}
    noise, pressure = dice.uniform(0.01, 0.15), dice.uniform(36.0, 43.0)
    swing, spikes = dice.choice([0.0, 0.0, 3.0]), dice.choice([0.0, 0.002])
    rows, start, at = ["time_s,pressure_cmH2O"], 0.0, 0
    for target, count in [(0, 600)] + 7 * [(1, 100), (-1, 100), (0, 100)] + [(0, 600)]:
        for i in range(count):
            value = level_at(shape, (i + 1) / 100, start, target * pressure) + dice.gauss(0.0, noise)
            value += swing * math.sin(2 * math.pi * 8.0 * at / 100) if target else 0.0
            value += dice.choice([-30.0, 30.0]) if dice.random() < spikes else 0.0
            rows.append(f"{at / 100:.2f},{value:.4f}")
            at += 1
        start = target * pressure
    return "\n".join(rows) + "\n"


def largest_difference(one, other, path=""):
    """The largest relative difference of two numbers in the same place, and where; of anything else only whether it is the same."""
    if isinstance(one, dict) and isinstance(other, dict) and one.keys() == other.keys():
        return max((largest_difference(one[key], other[key], f"{path}/{key}") for key in one if key != "software"), default=(0.0, path))
    if isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        return max((largest_difference(a, b, f"{path}/{i}") for i, (a, b) in enumerate(zip(one, other))), default=(0.0, path))
    if isinstance(one, float) and isinstance(other, float):
        return (abs(one - other) / max(abs(one), abs(other), 1e-3), path)
    return (0.0 if one == other else math.inf, path)


def main():
    program, other, work, source = map(os.path.abspath, sys.argv[1:5])
    evidence = Evidence(program, work, source)
    dice = random.Random(20261125)
    names = [f"r{i:02}" for i in range(TRACES)]
    for name in names:
        with open(f"{work}/trace.csv", "w") as out:
            out.write(trace_of(dice))
        done = evidence.run(evidence.assess(name, "--signer", "Operator Three"))
        evidence.expect(done.returncode in (0, 1, 3, 4), f"{name}: {done.returncode} {done.stderr}")
    worst = ((0.0, ""), "")
    for name in names:
        saved = json.load(open(f"{work}/{name}/record.json"))
        now = json.loads(evidence.run([other, "assess", "--json", name]).stdout)
        worst = max(worst, (largest_difference(saved, now), name))
    checked = evidence.run([other, "recheck", *names])
    evidence.expect(checked.returncode == 0 and f"{TRACES} records: {TRACES} intact" in checked.stdout, checked.stdout + checked.stderr)
    evidence.expect(len(re.findall("computed again by version", checked.stdout)) == TRACES, "both programs are the same build")
    print(f"{TRACES} records, largest relative difference of a number: {worst}")
    for failure in evidence.failures:
        print("FAILED  " + failure)
    sys.exit(1 if evidence.failures else 0)


if __name__ == "__main__":
    main()
