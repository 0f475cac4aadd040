#!/usr/bin/env python3
"""The set-up by itself, over real pseudo-terminals: the leak test of one that is tight and of one that is not, the
instrument held against a second gauge, and what a run then says of it.

usage: set_up.py PROGRAM WORK_FOLDER SOURCES
"""
import json
import os
import pty
import re
import select
import sqlite3
import subprocess
import sys
import time

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from main_job import BENCH, ORDER, bench  # noqa: E402

PROGRAM, WORK, SOURCES = sys.argv[1:4]
LEAK = "open-to-air 9\nsyringe 40 14\nopen-to-air 1\nsyringe -40 14\nopen-to-air 5\n"
PATIENCE_S = 120


def folder_for(name, script):
    folder = f"{WORK}/{name}"
    subprocess.run(["rm", "-rf", folder], check=True)
    os.makedirs(folder)
    with open(f"{folder}/order.json", "w") as out:
        json.dump(ORDER, out)
    with open(f"{folder}/script", "w") as out:
        out.write(script)
    with open(f"{SOURCES}/fixtures/demonstration/instrument.json") as text, open(f"{folder}/instrument.json", "w") as out:
        out.write(text.read())
    return folder


def expect(true, why):
    if not true:
        sys.exit(f"FAILED: {why}")


def leak_test(name, *faults):
    folder = folder_for(name, LEAK)
    simulated, port = bench(PROGRAM, folder, ["--script", f"{folder}/script", "--seed", "3", *faults])
    try:
        run = subprocess.run([PROGRAM, "leak-test", "--port", port, "--instrument", f"{folder}/instrument.json"],
                             stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=PATIENCE_S)
    finally:
        simulated.terminate()
        simulated.wait(10)
    return run, [float(lost) for lost in re.findall(r"(-?[\d.]+) cmH2O/s lost", run.stdout)]


class Person:
    """Types an answer where the program asks."""

    def __init__(self, arguments, work):
        self.master, slave = pty.openpty()
        self.said, self.out = "", ""
        self.run = subprocess.Popen(arguments, stdin=slave, stdout=subprocess.PIPE, stderr=slave, text=True,
                                    env=dict(os.environ, XDG_DATA_HOME=f"{work}/keys", XDG_CONFIG_HOME=f"{work}/nowhere"))
        os.close(slave)

    def wait_for(self, what, times=1):
        deadline = time.monotonic() + PATIENCE_S
        while self.said.count(what) < times:
            expect(time.monotonic() < deadline and self.run.poll() is None, f"'{what}' did not come: {self.said[-1500:]}")
            if select.select([self.master], [], [], 0.2)[0]:
                self.said += os.read(self.master, 65536).decode(errors="replace")

    def type(self, text):
        os.write(self.master, text.encode() + b"\n")

    def end(self):
        self.out = self.run.communicate(timeout=60)[0]
        return self.run.returncode


def check_instrument(folder, typed):
    """The hand presses 20, 40, -20 and -40; the person waits until it has and types what the second gauge shows."""
    script = "open-to-air 9\nsyringe 20 12\nsyringe 40 12\nsyringe -20 12\nsyringe -40 30\n"
    with open(f"{folder}/script", "w") as out:
        out.write(script)
    simulated, port = bench(PROGRAM, folder, ["--script", f"{folder}/script", "--seed", "3"])
    began = time.monotonic()
    try:
        person = Person([PROGRAM, "check-instrument", "--port", port, "--instrument", f"{folder}/instrument.json",
                         "--gauge", "water column 2", "--gauge-uncertainty", "0.2", "--operator", "operator 1"], WORK)
        for i, (at_s, value) in enumerate(zip((13, 25, 37, 49), typed)):
            person.wait_for("What does the second gauge show", i + 1)
            time.sleep(max(0.0, began + at_s - time.monotonic()))
            if i == 0:
                person.type("about twenty")  # asked again, in words
                person.wait_for("What does the second gauge show", 2)
                person.said = person.said.replace("What does the second gauge show", "", 1)
            person.type(value)
        return person.end(), person
    finally:
        simulated.terminate()
        simulated.wait(10)


def verify(folder):
    simulated, port = bench(PROGRAM, folder, ["--seed", "3"])
    try:
        run = subprocess.run([PROGRAM, "--bench", BENCH, "verify", "--yes", "--order", f"{folder}/order.json",
                              "--instrument", f"{folder}/instrument.json", "--port", port, "--panel", f"{folder}/panel",
                              "--operator", "operator 1", "--place", "workshop", "--out", f"{folder}/record"],
                             stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=PATIENCE_S,
                             env=dict(os.environ, XDG_DATA_HOME=f"{WORK}/keys", XDG_CONFIG_HOME=f"{WORK}/nowhere"))
    finally:
        simulated.terminate()
        simulated.wait(10)
    items = {item["item"]: item for item in json.load(open(f"{folder}/record/record.json"))["run"]["checklist"]}
    return run, items.get("instrument check")


def tight():
    run, lost = leak_test("tight")
    expect(run.returncode == 0 and len(lost) == 2 and all(0.02 < one < 0.2 for one in lost), f"{run}")
    expect("The set-up is tight." in run.stdout, run.stdout)


def leaky():
    run, lost = leak_test("leaky", "--fault", "leaky-plug=15")
    expect(run.returncode == 1 and len(lost) == 2 and all(one > 3.0 for one in lost), f"{run}")
    expect("OUTSIDE the limit of 1 cmH2O/s" in run.stdout and "The set-up leaks" in run.stdout, run.stdout)


def second_gauge():
    folder = folder_for("second-gauge", "")
    status, person = check_instrument(folder, ("19,9", "39.7", "-20.0", "-39.8"))
    expect(status == 0, f"{status}: {person.said}{person.out}")
    expect("a number" in person.said, "what is no number was not asked for again")
    kept = json.load(open(f"{folder}/instrument.checks.json"))
    errors = [point["error"] for point in kept["checks"][0]["points"]]
    expect(len(errors) == 4 and max(abs(one) for one in errors) < 0.8, str(errors))
    with sqlite3.connect(f"file:{WORK}/keys/zeroline/register.db?mode=ro", uri=True) as register:
        rows = register.execute("SELECT kind, indicated - reference FROM instrument_check ORDER BY place").fetchall()
    shown = [round(error, 3) for kind, error in rows if kind == "second gauge, simulated"]
    expect(shown == [round(error, 3) for error in errors], f"registered as the check ended: {rows} {errors}")
    run, item = verify(folder)
    expect(run.returncode == 0 and item["outcome"] == "ok" and "water column 2" in item["remark"], f"{run}{item}")


def out_of_order():
    """A span error of 3 cmH2O: the unit is not blamed for it."""
    folder = folder_for("out-of-order", "")
    status, person = check_instrument(folder, ("18.4", "37.0", "-18.4", "-37.0"))
    expect(status == 1 and "OUTSIDE the limit" in person.out, f"{status}: {person.said}{person.out}")
    run, item = verify(folder)
    expect(run.returncode == 3 and item["outcome"] == "not-ok", f"{run}{item}")
    expect("not in order at its last check" in run.stderr, run.stderr)


if __name__ == "__main__":
    subprocess.run(["rm", "-rf", f"{WORK}/keys"], check=True)  # and with it the register of an earlier trial
    for job in sys.argv[4:] or ("tight", "leaky", "second_gauge", "out_of_order"):
        globals()[job]()
        print(f"ok {job}")
