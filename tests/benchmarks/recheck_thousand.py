#!/usr/bin/env python3
"""`recheck` of many records on all cores, beside two independent processes on half of them each, in turns in one run.

usage: recheck_thousand.py PROGRAM [RECORDS] [TURNS]

Every record holds 60 s at 250 Hz and is a folder of its own; seal and recomputation are those of any record.
"""
import json
import math
import os
import random
import shutil
import statistics
import subprocess
import sys
import tempfile
import time

HERE = os.path.dirname(os.path.abspath(__file__))
DEMONSTRATION = os.path.join(HERE, "..", "..", "fixtures", "demonstration")
RUN = {
    "schema": "zeroline/run/1", "operator": "operator 3", "place": "workshop", "began": "2026-11-25T09:12:04+01:00",
    "spans": [{"what": "zero-before", "from_s": 0, "to_s": 5},
              {"what": "automatic", "preset": "day", "from_s": 5.5, "to_s": 53},
              {"what": "zero-after", "from_s": 54, "to_s": 59.5}],
    "confirmed": ["no-patient-connected", "outlet-blocked", "trigger-off"], "restored": True,
}


def drawn_trace():
    noise, rows, level = random.Random(1), [], 0.0
    for target, seconds in [(0, 6)] + 9 * [(40, 1.5), (-40, 1.5), (0, 2)] + [(0, 9)]:
        for i in range(round(seconds * 250)):
            value = target + (level - target) * math.exp(-i / 250 / 0.045) + noise.gauss(0, 0.05)
            rows.append(f"{len(rows) / 250:.3f},{value:.3f}")
        level = target
    return "time_s,pressure_cmH2O\n" + "\n".join(rows) + "\n"


def main():
    program = os.path.abspath(sys.argv[1])
    records = int(sys.argv[2]) if len(sys.argv) > 2 else 1000
    turns = int(sys.argv[3]) if len(sys.argv) > 3 else 3
    work = tempfile.mkdtemp()
    try:
        environment = dict(os.environ, XDG_DATA_HOME=work + "/data")
        for name, content in [("run.json", json.dumps(RUN)), ("trace.csv", drawn_trace())]:
            with open(f"{work}/{name}", "w") as out:
                out.write(content)
        subprocess.run([program, "--bench", f"{DEMONSTRATION}/bench.json", "assess", "--order", f"{DEMONSTRATION}/order.json",
                        "--instrument", f"{DEMONSTRATION}/instrument.json", "--trace", "trace.csv", "--run", "run.json",
                        "--signer", "A. Person", "--out", "first"], cwd=work, env=environment, check=False,
                       stdout=subprocess.DEVNULL, stdin=subprocess.DEVNULL)
        folders = [f"r{i:04}" for i in range(records)]
        for folder in folders:
            shutil.copytree(f"{work}/first", f"{work}/{folder}")
        half = records // 2
        together, apart = [], []
        for _ in range(turns):
            begun = time.monotonic()
            subprocess.run([program, "recheck", *folders], cwd=work, check=True, stdout=subprocess.DEVNULL)
            together.append(time.monotonic() - begun)
            begun = time.monotonic()
            two = [subprocess.Popen(["taskset", "-c", str(core), program, "recheck", *part], cwd=work, stdout=subprocess.DEVNULL)
                   for core, part in enumerate((folders[:half], folders[half:]))]
            for process in two:
                process.wait()
            apart.append(time.monotonic() - begun)
        one, two = statistics.median(together), statistics.median(apart)
        size = sum(os.path.getsize(f"{work}/first/{name}") for name in os.listdir(f"{work}/first"))
        print(f"{records} records of {size / 1e3:.0f} kB: one program {one:.2f} s ({records / one:.0f} a second), "
              f"two programs on a core each {two:.2f} s, speed against them {two / one:.2f}")
    finally:
        shutil.rmtree(work)


if __name__ == "__main__":
    main()
