#!/usr/bin/env python3
"""Many records judged again at once: one line each in the order given, one line for what cannot be read, totals that count it.

usage: assess_many.py PROGRAM WORK_FOLDER SOURCE_FOLDER
"""
import os
import shutil
import sys

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from evidence import Evidence  # noqa: E402


def main():
    program, work, source = map(os.path.abspath, sys.argv[1:4])
    evidence = Evidence(program, work, source)
    evidence.run(evidence.assess("first", "--signer", "Operator Three"))
    names = [f"r{i}" for i in range(8)]
    for name in names:
        shutil.copytree(f"{work}/first", f"{work}/{name}")
    with open(f"{work}/r2/trace.csv", "w") as out:
        out.write("time_s,pressure_cmH2O\n0.00,0.1\n0.01,much\n")
    os.remove(f"{work}/r5/order.json")
    given = names[:4] + ["nowhere"] + names[4:]
    done = evidence.run(evidence.command("assess", *given))
    lines, troubles = done.stdout.splitlines(), done.stderr.splitlines()
    readable = [name for name in names if name not in ("r2", "r5")]
    for line, name in zip(lines, readable):
        evidence.expect(f"  {name}  " in line and line.endswith("same as saved"), f"{name}: {line}")
    evidence.expect(lines[len(readable)].startswith("9 records: ") and "3 unreadable" in lines[len(readable)], done.stdout)
    evidence.expect(len(troubles) == 3 and all(line.startswith("zeroline: ") for line in troubles), done.stderr)
    for line, what in zip(troubles, ["r2/trace.csv: line 3", "nowhere", "r5/order.json"]):
        evidence.expect(what in line, f"{what}: {line}")
    evidence.expect(done.returncode == 2, f"status {done.returncode}")
    again = evidence.run(evidence.command("assess", *given))
    evidence.expect((again.stdout, again.stderr) == (done.stdout, done.stderr), "another run prints something else")
    print(done.stdout + done.stderr)
    for failure in evidence.failures:
        print("FAILED  " + failure)
    sys.exit(1 if evidence.failures else 0)


if __name__ == "__main__":
    main()
