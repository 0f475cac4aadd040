#!/usr/bin/env python3
"""Ctrl-C and a polite kill end every command within a second, and what stands on the disk is whole.

usage: signals.py PROGRAM WORK_FOLDER SOURCE_FOLDER
"""
import os
import signal
import subprocess
import sys
import time

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from endings import Bench, expect  # noqa: E402
from evidence import Evidence  # noqa: E402

WITHIN_S = 1.0
MANY = 600  # records to look at take minutes


def seconds_to_end(evidence, command, which, after_s=0.6):
    """How long a command goes on after a signal; none where it had ended before."""
    process = subprocess.Popen(command, cwd=evidence.work, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
                               stderr=subprocess.DEVNULL, env=evidence.environment)
    time.sleep(after_s)
    expect(process.poll() is None, f"{' '.join(command)[:80]} ended by itself")
    process.send_signal(which)
    begun = time.monotonic()
    process.wait(120)
    return time.monotonic() - begun


def long_trace(evidence):
    """An hour and more, so that judging takes seconds."""
    rows = open(f"{evidence.work}/trace.csv").read().splitlines()
    values = [row.split(",")[1] for row in rows[1:]]
    with open(f"{evidence.work}/long.csv", "w") as out:
        out.write(rows[0] + "\n")
        for i in range(3_000_000):
            out.write(f"{i / 100:.2f},{values[i % len(values)]}\n")


def main():
    program, work, source = (os.path.abspath(path) for path in sys.argv[1:4])
    evidence = Evidence(program, f"{work}/evidence", source)
    evidence.must(evidence.assess("r1", "--signer", "Operator Three"))
    long_trace(evidence)
    late = []
    with Bench(program, work, "lines") as bench:
        line = ["--port", bench.path("port"), "--instrument", bench.path("instrument.json")]
        commands = {
            "assess of a long trace": evidence.command("assess", "--order", "order.json", "--trace", "long.csv", "--instrument",
                                                       "instrument.json"),
            "assess into a record": evidence.command("assess", "--order", "order.json", "--trace", "long.csv", "--instrument",
                                                     "instrument.json", "--run", "run.json", "--out", "cut", "--signer", "A"),
            "recheck of many": evidence.command("recheck", *(MANY * ["r1"])),
            "assess of many": evidence.command("assess", *(MANY * ["r1"])),
            "listen": [program, "listen", *line],
            "capture": [program, "capture", *line, "--out", "captured.csv"],
            "virtual-bench": [program, "virtual-bench", "--order", bench.path("order.json")],
        }
        for name, command in commands.items():
            for which in (signal.SIGINT, signal.SIGTERM):
                if os.path.exists(f"{evidence.work}/captured.csv"):
                    os.remove(f"{evidence.work}/captured.csv")
                took = seconds_to_end(evidence, command, which)
                print(f"{name}, {which.name}: {took:.2f} s")
                if took > WITHIN_S:
                    late.append(f"{name}, {which.name}: {took:.2f} s")
                left = [one for one in os.listdir(evidence.work) if one.startswith("cut")]
                if "cut.part" in left:
                    evidence.must(evidence.command("assess", "cut.part", "--signer", "Operator Three"), None)
                elif left:  # ended before its cut.part appeared: what it had begun goes with the next save
                    evidence.must(evidence.assess("cut", "--signer", "Operator Three"))
                if left:
                    evidence.must(evidence.command("recheck", "cut"))
                    subprocess.run(["rm", "-r", f"{evidence.work}/cut"], check=True)
                left = [one for one in os.listdir(evidence.work) if one.startswith("cut")]
                expect(not left, f"left behind: {left}")
    for failure in evidence.failures + late:
        print("FAILED  " + failure)
    sys.exit(1 if evidence.failures or late else 0)


if __name__ == "__main__":
    main()
