#!/usr/bin/env python3
"""A unit as found, as left, and a second attempt, over real pseudo-terminals: one record in the end that holds all of them.

usage: as_left.py PROGRAM WORK_FOLDER
"""
import json
import os
import subprocess
import sys

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, HERE)
from endings import Bench, expect  # noqa: E402


def command(program, *arguments):
    return subprocess.run([program, *arguments], stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=120)


def record_of(folder):
    with open(f"{folder}/record.json") as file:
        return json.load(file)


def one_run(program, work, name, status, more=(), faults=()):
    """A run of the same unit and order on a bench of its own; its record stands beside the others."""
    with Bench(program, work, f"bench-{name}", *faults) as bench:
        got, out, said = bench.verify(*more, record=f"../{name}").end()
    expect(got == status, f"{name}: status {got}: {out}{said}")
    return out, said


def check_found_and_left(program, work):
    found, left = f"{work}/found", f"{work}/left"
    status = command(program, "verify", "--order", "o", "--port", "p", "--instrument", "i", "--out", left, "--done", "x").returncode
    expect(status == 2 and not os.path.exists(f"{left}.part"), "--done alone was taken")
    one_run(program, work, "found", 1, faults=("--fault", "low-exsufflation"))
    # Made as left with a plug that leaks, so that it has to be tried again.
    more = ("--as-found", found, "--done", "intake filter replaced")
    one_run(program, work, "left", 1, more, ("--fault", "low-insufflation"))
    record = record_of(left)
    earlier = record["issue"]["earlier"]
    expect(record["attempt"] == 1, "the run as found was counted as an attempt as left")
    expect((earlier["relation"], earlier["verdict"], earlier["reason"]) == ("as-found", "fail", "intake filter replaced"), str(earlier))
    expect(earlier["record_number"] == record_of(found)["issue"]["record_number"], "another record is named")
    expect(record_of(f"{left}/as-found") == record_of(found), "another record is held")


def check_attempt(program, work):
    left, again = f"{work}/left", f"{work}/again"
    more = ("--replaces", "1", "--cause", "plug", "--evidence", "the plug leaked 3 cmH2O/s, another one holds")
    out, said = one_run(program, work, "again", 0, more)
    expect("attempt 1, fail" in said and f"{work}/left" in said and f"{work}/found" not in said, said)
    expect("Attempt 2 stands: pass; attempt 1 is replaced by attempt 2 (plug" in out, out)
    record = record_of(again)
    expect(record["verdict"] == "pass" and record["attempt"] == 2, f"{record['verdict']}, attempt {record['attempt']}")
    expect(record["issue"]["earlier"]["relation"] == "attempt", str(record["issue"]["earlier"]))
    expect(record_of(f"{again}/attempt-before") == record_of(left), "another attempt is held")
    expect(record_of(f"{again}/attempt-before/as-found")["verdict"] == "fail", "the record as found is not held")


def check_recheck(program, work):
    folders = [f"{work}/{name}" for name in ("found", "left", "again")]
    done = command(program, "recheck", *folders)
    expect(done.returncode == 0 and "3 records: 3 intact" in done.stdout, done.stdout + done.stderr)
    for inside in ("attempt-before/trace.csv", "attempt-before/as-found/record.json"):
        file = f"{work}/again/{inside}"
        with open(file, "rb") as saved:
            whole = saved.read()
        with open(file, "wb") as changed:
            changed.write(whole.replace(b"3", b"4", 1))
        done = command(program, "recheck", f"{work}/again")
        expect(done.returncode == 1 and inside in done.stdout, f"{inside}: {done.stdout}{done.stderr}")
        with open(file, "wb") as restored:
            restored.write(whole)
    expect(command(program, "recheck", f"{work}/again").returncode == 0, "not restored")


def check_page(work):
    page = f"{work}/again/record.pdf"
    if not os.path.exists(page):  # a build without the window prints nothing
        return
    text = subprocess.run(["pdftotext", "-layout", page, "-"], capture_output=True, text=True, check=True).stdout
    for words in ("As found, as left, attempts", "As found: record", "Done between: intake filter replaced",
                  "Before attempt 2: attempt 1, record", "as found, worst", "as left, attempt 1", "attempt 2, worst",
                  "Attempt 2 stands: pass"):
        expect(words in " ".join(text.split()), f"the page does not say '{words}':\n{text}")


def main():
    program, work = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
    subprocess.run(["rm", "-rf", work], check=True)
    os.makedirs(work)
    check_found_and_left(program, work)
    check_attempt(program, work)
    check_recheck(program, work)
    check_page(work)
    print("as found, as left and attempts are one record")


if __name__ == "__main__":
    main()
