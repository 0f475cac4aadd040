#!/usr/bin/env python3
"""The suite of faults: what goes wrong around the program, and what must hold after it.

usage: faults.py PROGRAM SHIM WORK_FOLDER SOURCE_FOLDER [--one-in N] [--only TEXT] [--jobs N] [--table FILE] [PART...]

PART is calls, structure, memory, at-once or run; all without one. --one-in takes every N-th case of each part,
--only those whose name holds TEXT: the name of a loss repeats it. Prints a table:
faults tried, survived, lost; every loss is named with the folder it left. Exit status 1 where something was lost.

What must hold: nothing sealed lies (recheck says intact, or the folder is a .part that can be finished), nothing that was there
is lost, a documented exit status, with 2 exactly one line, and nothing left behind that stands in the way of a name.
"""
import argparse
import concurrent.futures
import os
import shutil
import sys
import time

import processes
import structure
import system_calls
from bench import Bench, Lost

# Beside how many cases each part's own is taken: a run lasts as long as at the bench.
PARTS = {
    "calls": lambda base, shim, folder, one_in: system_calls.cases(base, shim, folder, one_in),
    "structure": lambda base, shim, folder, one_in: structure.cases(base, folder, one_in),
    "memory": lambda base, shim, folder, one_in: processes.memory_cases(base, folder, one_in),
    "at-once": lambda base, shim, folder, one_in: processes.at_once_cases(base, folder, one_in),
    "run": lambda base, shim, folder, one_in: processes.run_cases(base, shim, folder, one_in),
}


def outcome_of(act, place):
    try:
        act()
    except Lost as lost:
        return str(lost)
    except (OSError, ValueError, AssertionError) as odd:
        return f"{type(odd).__name__}: {odd}"
    shutil.rmtree(place, ignore_errors=True)
    return ""


class Table:
    def __init__(self):
        self.tried, self.lost = {}, {}

    def add(self, group, name, trouble, place):
        self.tried[group] = self.tried.get(group, 0) + 1
        if trouble:
            self.lost.setdefault(group, []).append((name, trouble))
            print(f"LOST  {name}: {trouble}  [{place}]", flush=True)

    def rows(self):
        rows = [(group, tried, len(self.lost.get(group, []))) for group, tried in self.tried.items()]
        return rows + [("in all", sum(row[1] for row in rows), sum(row[2] for row in rows))]

    def text(self):
        lines = ["| what goes wrong | tried | survived | lost |", "| --- | ---: | ---: | ---: |"]
        return "\n".join(lines + [f"| {what} | {tried} | {tried - lost} | {lost} |" for what, tried, lost in self.rows()])


def arguments():
    parser = argparse.ArgumentParser()
    for name in ("program", "shim", "work", "source"):
        parser.add_argument(name)
    parser.add_argument("--one-in", type=int, default=1)
    parser.add_argument("--only", default="")
    parser.add_argument("--jobs", type=int, default=os.cpu_count())
    parser.add_argument("--table")
    parser.add_argument("parts", nargs="*", default=list(PARTS))
    return parser.parse_intermixed_args()


def main():
    given = arguments()
    began = time.monotonic()
    program, shim, work = (os.path.abspath(path) for path in (given.program, given.shim, given.work))
    shutil.rmtree(work, ignore_errors=True)
    base = Bench(program, f"{work}/base").make(os.path.abspath(given.source))
    table = Table()
    with concurrent.futures.ThreadPoolExecutor(given.jobs) as pool:
        waiting = []
        for part in given.parts or list(PARTS):
            for group, name, place, act in PARTS[part](base, shim, f"{work}/{part}", given.one_in):
                if given.only in name:
                    waiting.append((group, name, place, pool.submit(outcome_of, act, place)))
        for group, name, place, outcome in waiting:
            table.add(group, name, outcome.result(), place)
    print(table.text())
    print(f"took {time.monotonic() - began:.0f} s")
    if given.table:
        with open(given.table, "w") as out:
            out.write(table.text() + "\n")
    sys.exit(1 if table.lost else 0)


if __name__ == "__main__":
    main()
