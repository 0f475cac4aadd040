"""Faults that come from outside a process: too little memory, others at the same work, and signals over a whole run."""
import json
import os
import random
import resource
import signal
import subprocess
import sys
import time

from bench import HERE, Lost, SIGNED, must, one_line

sys.path.insert(0, HERE + "/../end_to_end")
from endings import COUNTED, SHORT  # noqa: E402

RUN_S = 45          # a run of five short cycles takes about half a minute
ENDS_WITHIN_S = 10  # of a signal, on a machine that does much else


# Memory.

def limited(megabytes):
    def limit():
        resource.setrlimit(resource.RLIMIT_AS, (megabytes << 20, megabytes << 20))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    return limit


def least_to_start(base):
    """Below this the program does not even start: what the loader says then is not ours."""
    low, high = 8, 4096
    while high - low > 4:
        middle = (low + high) // 2
        done = base.end(base.start("--version", preexec_fn=limited(middle)))
        low, high = (low, middle) if done.status == 0 else (middle, high)
    return high


def try_memory(base, place, arguments, megabytes, holds):
    bench = base.copy(place)
    done = bench.run(*arguments, preexec_fn=limited(megabytes))
    # What libraries do when they get no memory is theirs: the process may die, what is saved may not suffer.
    must(done.status in (0, 2) or done.status < 0, f"status {done.status}: {one_line(done.said)}")
    done.killed = True
    holds(bench, done.check("little memory"))
    bench.intact("r0")
    must(not bench.litter(), f"left behind: {bench.litter()}")


def memory_cases(base, folder, one_in):
    from system_calls import addendum_holds, save_holds
    least = least_to_start(base)
    jobs = [("save", ["assess", *base.evidence("r1"), *SIGNED], save_holds),
            ("review", ["sign", "r0", "--signer", "Third Person", "--role", "lead"], addendum_holds),
            ("recheck", ["recheck", "r0"], lambda bench, done: None)]
    number = 0
    for name, arguments, holds in jobs:
        for megabytes in list(range(least, least + 160, 4)) + list(range(least + 160, least + 480, 20)):
            number += 1
            if number % one_in == 0:
                place = f"{folder}/memory-{number}"
                yield ("little memory (RLIMIT_AS)", f"{name} in {megabytes} MB", place,
                       lambda place=place, arguments=arguments, megabytes=megabytes, holds=holds:
                       try_memory(base, place, arguments, megabytes, holds))


# Others at the same work.

def at_once(bench, commands):
    running = [bench.start(*arguments) for arguments in commands]
    done = [bench.end(process).check(" ".join(process.args[3:5])) for process in running]
    must(any(one.status == 0 for one in done), "none of them came to its end: " + " | ".join(one_line(one.said) for one in done))
    return done


def finish_at_once(bench, how_many):
    """A .part that lacks a signature, finished by several at once."""
    done = bench.run("assess", *bench.evidence("r1"))
    must(done.status == 3 and bench.is_there("r1.part"), f"no unsigned .part: {done.status} {one_line(done.said)}")
    at_once(bench, how_many * [["assess", "r1.part", *SIGNED]])
    bench.intact("r1")


def save_at_once(bench, how_many):
    at_once(bench, how_many * [["assess", *bench.evidence("r1"), *SIGNED]])
    bench.intact("r1")


def sign_at_once(bench, how_many):
    done = at_once(bench, how_many * [["sign", "r0", "--signer", "Third Person", "--role", "lead"]])
    bench.intact("r0")
    signed = sum(one.status == 0 for one in done)
    there = len(os.listdir(bench.path("r0", "addenda"))) - 1
    must(there == signed, f"{signed} say they signed, {there} addenda are there")


def change_at_once(bench, how_many):
    at_once(bench, how_many * [["key", "--change"]])
    bench.good("key")
    bench.good("recheck", "r0", "--trust", "data/zeroline/bench.key.public")


def sign_while_key_changes(bench, how_many):
    at_once(bench, [["key", "--change"]] + (how_many - 1) * [["sign", "r0", "--signer", "Third Person", "--role", "lead"]])
    bench.good("recheck", "r0", "--trust", "data/zeroline/bench.key.public")


def try_at_once(base, place, act, how_many):
    bench = base.copy(place)
    act(bench, how_many)
    bench.intact("r0")
    must(not bench.litter(), f"left behind: {bench.litter()}")


def at_once_cases(base, folder, one_in):
    number = 0
    for round_ in range(20):
        for act in (finish_at_once, save_at_once, sign_at_once, change_at_once, sign_while_key_changes):
            for how_many in (2, 3):
                number += 1
                if number % one_in == 0:
                    place = f"{folder}/at-once-{number}"
                    yield ("two or three at once", f"{act.__name__} {how_many} ({round_})", place,
                           lambda place=place, act=act, how_many=how_many: try_at_once(base, place, act, how_many))


# Signals and failing calls over the whole of a run.

class Run:
    """A virtual bench that follows, and `verify` beside it."""

    def __init__(self, bench):
        self.bench = bench
        for name, tree in (("order.json", SHORT), ("instrument.json", COUNTED)):
            with open(bench.path(name), "w") as out:
                json.dump(tree, out)
        self.unit = subprocess.Popen([bench.program, "virtual-bench", "--order", "order.json", "--instrument", "instrument.json",
                                      "--follow", "--panel", "panel", "--link", "port"], cwd=bench.folder, text=True,
                                     stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
        self.port = self.unit.stdout.readline().strip()

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.unit.terminate()
        self.unit.communicate()

    def verify(self, environment):
        return self.bench.start("verify", "--yes", "--order", "order.json", "--instrument", "instrument.json", "--port", self.port,
                                "--panel", "panel", "--operator", "operator 3", "--place", "workshop", "--wait", "20", *SIGNED,
                                "--out", "r1", environment=environment)


def run_holds(bench):
    """What a run left is a record, or unfinished and can be finished, or nothing, and its name is free."""
    if bench.is_there("r1"):
        bench.intact("r1")
        return
    if bench.is_there("r1.part"):
        done = bench.run("assess", "r1.part", *SIGNED).check("assess r1.part")
        must(done.status != 2, f"assess r1.part: {one_line(done.said)}")
        must(bench.is_there("r1"), f"assess r1.part: status {done.status}, no record: {one_line(done.said)}")
        bench.intact("r1")


def try_signal(base, place, number, after_s):
    bench = base.copy(place)
    with Run(bench) as run:
        process = run.verify({})
        try:
            out, said = process.communicate(timeout=after_s)
        except subprocess.TimeoutExpired:
            process.send_signal(number)
            began = time.monotonic()
            try:
                out, said = process.communicate(timeout=ENDS_WITHIN_S)
            except subprocess.TimeoutExpired:
                process.kill()
                process.communicate()
                raise Lost(f"still runs {time.monotonic() - began:.0f} s after the signal")
    if number != signal.SIGKILL:
        must(process.returncode in range(0, 5), f"status {process.returncode}: {one_line(said)}")
    free_again(bench)


def free_again(bench):
    if bench.is_there("r1.part") and not rows(bench.path("r1.part", "trace.csv")):
        return  # nothing was captured: the next case, a run under the same name
    run_holds(bench)
    bench.intact("r0")
    must(not bench.litter(), f"left behind: {bench.litter()}")


def rows(trace):
    return os.path.exists(trace) and open(trace, errors="replace").read().count("\n") > 1


def try_call_in_run(base, shim, place, fault):
    from system_calls import with_fault
    bench = base.copy(place)
    with Run(bench) as run:
        done = bench.end(run.verify(with_fault(shim, bench, fault)), killed=fault.endswith("kill"))
    if not (done.killed and done.status < 0):
        must(done.status in range(0, 5), f"status {done.status}: {one_line(done.said)}")
    free_again(bench)


def killed_before_its_first_row(base, place):
    """A name under which nothing was captured is free for the next run."""
    bench = base.copy(place)
    os.mkdir(bench.path("r1.part"))
    for name in ("order.json", "instrument.json", "bench.json"):
        os.link(bench.path(name), bench.path("r1.part", name))
    with open(bench.path("r1.part", "trace.csv"), "w") as out:
        out.write("arrival_s,pressure_cmH2O,count,note\n")
    with Run(bench) as run:
        done = bench.end(run.verify({}))
    must(done.status in (0, 1, 4), f"status {done.status}: {one_line(done.said)}")
    bench.intact("r1")


def run_cases(base, shim, folder, one_in):
    yield ("a run is cut off", "killed before its first row", f"{folder}/no-row", lambda: killed_before_its_first_row(base, f"{folder}/no-row"))
    dice = random.Random(20261129)
    jobs = []
    for i in range(120):
        number = (signal.SIGKILL, signal.SIGTERM, signal.SIGHUP, signal.SIGINT)[i % 4]
        after_s = dice.uniform(0.0, RUN_S)
        place = f"{folder}/signal-{i}"
        jobs.append(("a run is cut off", f"{number.name} after {after_s:.1f} s", place,
                     lambda place=place, number=number, after_s=after_s: try_signal(base, place, number, after_s)))
    for call, whats, most in (("write", ("ENOSPC+", "EIO", "short", "EINTR"), 60), ("sync", ("EIO",), 8), ("open", ("EMFILE",), 24),
                              ("rename", ("EIO",), 8), ("mkdir", ("ENOSPC",), 2), ("any", ("kill",), 90)):
        for what in whats:
            for n in sorted({round(most ** (i / 11)) for i in range(12)}):
                fault = f"{call}:{n}:{what}"
                place = f"{folder}/run-{fault.replace(':', '-')}"
                jobs.append(("a call fails in a run", f"run {fault}", place,
                             lambda place=place, fault=fault: try_call_in_run(base, shim, place, fault)))
    yield from jobs[::one_in]
