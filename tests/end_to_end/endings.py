#!/usr/bin/env python3
"""How runs end other than by a pass: Ctrl-C, kill -9, an instrument that goes and comes back, a person at the keys, a pipe that
closes, a disk that is full.

usage: endings.py PROGRAM WORK_FOLDER [NAME...]
"""
import concurrent.futures
import json
import os
import pty
import re
import select
import shutil
import signal
import subprocess
import sys
import time

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, HERE)
from broken_input import INSTRUMENT, ORDER, changed  # noqa: E402

SHORT = changed(changed(changed(ORDER, ["prescription", "presets", 0, "insufflation", "duration"], 0.5),
                        ["prescription", "presets", 0, "exsufflation", "duration"], 0.5),
                ["prescription", "presets", 0, "pause", "duration"], 0.5)
SHORT["contact"] = "the desk of the tests"
COUNTED = changed(changed(INSTRUMENT, ["language"],
                          {"kind": "numeric-lines", "field": 2, "count_field": 1, "unit": "cmH2O"}), ["rate", "nominal_hz"], 250)


class Bench:
    """A virtual bench in a process of its own, and a folder for one run."""

    def __init__(self, program, work, name, *extra):
        self.program, self.folder = program, os.path.join(work, name)
        shutil.rmtree(self.folder, ignore_errors=True)
        os.makedirs(self.folder)
        for file, tree in [("order.json", SHORT), ("instrument.json", COUNTED)]:
            with open(self.path(file), "w") as out:
                json.dump(tree, out)
        self.process = subprocess.Popen(
            [program, "virtual-bench", "--order", self.path("order.json"), "--instrument", self.path("instrument.json"),
             "--panel", self.path("panel"), "--link", self.path("port"), *extra],
            stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
        self.port = self.process.stdout.readline().strip()

    def __enter__(self):
        return self

    def __exit__(self, *unused):
        self.process.terminate()
        self.process.wait(10)

    def path(self, name):
        return os.path.join(self.folder, name)

    def arguments(self, *extra):
        return [self.program, "verify", "--order", self.path("order.json"), "--instrument", self.path("instrument.json"),
                "--port", self.path("port"), "--out", self.path("record"), "--wait", "20", *extra]

    def verify(self, *extra):
        return subprocess.Popen(self.arguments("--yes", "--panel", self.path("panel"), *extra), stdin=subprocess.DEVNULL,
                                stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)

    def assess(self, name):
        return subprocess.run([self.program, "assess", self.path(name)], stdin=subprocess.DEVNULL, capture_output=True,
                              text=True, timeout=60)


def expect(condition, what):
    if not condition:
        raise AssertionError(what)


def interrupted(program, work):
    """Ctrl-C: status 3, everything captured kept as a .part, which assess makes a record of."""
    with Bench(program, work, "interrupted") as bench:
        run = bench.verify()
        time.sleep(15)
        run.send_signal(signal.SIGINT)
        out, err = run.communicate(timeout=20)
        expect(run.returncode == 3, f"status {run.returncode}: {err}")
        expect("record.part" in out and "Give the unit back" in err, out + err)
        expect(not os.path.exists(bench.path("record")), "a record")
        expect(os.path.getsize(bench.path("record.part/trace.csv")) > 20000, "no trace")
        log = json.load(open(bench.path("record.part/run.json")))
        expect(log["restored"] is False and log["spans"][0]["what"] == "zero-before", str(log))
        done = bench.assess("record.part")
        expect(done.returncode == 3 and "completed" in done.stdout, done.stdout + done.stderr)
        expect(os.path.exists(bench.path("record/record.json")), "not completed")
        again = bench.assess("record")
        expect("same as saved" in again.stdout, again.stdout)


def killed(program, work):
    """kill -9 in the middle: what is on disk is a .part that can be completed."""
    with Bench(program, work, "killed") as bench:
        run = bench.verify()
        time.sleep(20)
        run.kill()
        run.communicate()
        done = bench.assess("record.part")
        expect(done.returncode == 3 and "completed" in done.stdout, done.stdout + done.stderr)


def given_no_time(program, work):
    """Interrupted before anything came: nothing is left."""
    with Bench(program, work, "at-once", "--fault", "unplugged@0s") as bench:
        run = bench.verify("--wait", "2")
        out, err = run.communicate(timeout=60)
        expect(run.returncode in (2, 3), f"status {run.returncode}: {out}{err}")
        expect(not os.path.exists(bench.path("record")), "a record of nothing")


def gone_and_back(program, work):
    """The adapter is pulled while the unit cycles and put back: the run waits, goes on, and finds the instrument by its link."""
    with Bench(program, work, "gone-and-back", "--fault", "unplugged-and-back@34s") as bench:
        run = bench.verify()
        out, err = run.communicate(timeout=280)
        expect(run.returncode in (0, 1, 3), f"status {run.returncode}: {out}{err}")
        expect("gone" in err and "back" in err, err)
        folder = "record" if os.path.exists(bench.path("record")) else "record.part"
        rows = open(bench.path(folder + "/trace.csv")).read()
        expect(",lost" in rows and ",back" in rows, "the trace does not say so")


def over_pressure(program, work):
    """A critical finding stops the run, and the record says whom to call."""
    with Bench(program, work, "over-pressure", "--fault", "over-pressure") as bench:
        run = bench.verify()
        out, err = run.communicate(timeout=280)
        expect(run.returncode == 1, f"status {run.returncode}: {out}{err}")
        expect("keep this unit out of use" in out and "the desk of the tests" in out, out)
        record = json.load(open(bench.path("record/record.json")))
        expect(record["critical"] and record["verdict"] == "fail", record["verdict"])
        expect(record["origin"] == "simulated" and "SIMULATED" in out, "not marked as simulated")


def at_the_keys(program, work):
    """A person at a terminal: every question answered by keys, progress on the screen, a record at the end."""
    with Bench(program, work, "at-the-keys") as bench:
        leader, follower = pty.openpty()
        run = subprocess.Popen(bench.arguments(), stdin=follower, stdout=subprocess.PIPE, stderr=follower, text=True)
        os.close(follower)
        said, answered = "", 0
        questions = [(r"Settings as (found|left)[^:]*:[^\]]*\]:", ""), (r"\[Enter\] done", ""), (r"\[Enter: yes, n: no\]", ""),
                     (r"What did the unit display[^\]]*\]:", "+40/-40")]
        deadline = time.time() + 200
        while run.poll() is None and time.time() < deadline:
            if select.select([leader], [], [], 0.1)[0]:
                try:
                    said += os.read(leader, 65536).decode(errors="replace")
                except OSError:
                    break
            for pattern, answer in questions:
                found = None
                for found in re.finditer(pattern, said[answered:]):
                    pass
                if found:
                    answered = len(said)
                    os.write(leader, (answer + "\n").encode())
                    break
        out = run.communicate(timeout=20)[0]
        os.close(leader)
        expect(run.returncode == 0, f"status {run.returncode}: {out}\n{said[-2000:]}")
        log = json.load(open(bench.path("record/run.json")))
        expect(log["displayed"][0]["insufflation"] == 40 and log["restored"] is True, str(log))
        expect("####" in said, "no progress on a terminal")


def given_back(program, work):
    """'b' ends the run by way of the hand-back list; the unit is needed, the run is kept as incomplete."""
    with Bench(program, work, "given-back") as bench:
        leader, follower = pty.openpty()
        run = subprocess.Popen(bench.arguments(), stdin=follower, stdout=subprocess.PIPE, stderr=follower, text=True)
        os.close(follower)
        time.sleep(2)
        os.write(leader, b"\nb\n" + 30 * b"\n")
        said = b""
        while run.poll() is None:
            if select.select([leader], [], [], 0.1)[0]:
                try:
                    said += os.read(leader, 65536)
                except OSError:
                    break
        out = run.communicate(timeout=20)[0]
        os.close(leader)
        expect(run.returncode == 3, f"status {run.returncode}: {out}{said}")
        expect(b"mains lead" in said, said.decode(errors="replace"))


def no_answer(program, work):
    """A closed terminal ends the run; nothing hangs."""
    with Bench(program, work, "no-answer") as bench:
        run = subprocess.run(bench.arguments(), stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=20)
        expect(run.returncode == 2 and "standard input" in run.stderr, run.stderr)
        expect(not os.path.exists(bench.path("record.part")), "something left")


def full_output(program, work):
    """Results that cannot be written are no success, and a closed pipe kills nobody."""
    os.makedirs(work, exist_ok=True)
    with open("/dev/full", "w") as full:
        done = subprocess.run([program, "new", "order"], stdout=full, stderr=subprocess.PIPE, text=True, timeout=20)
    expect(done.returncode == 2 and len(done.stderr.splitlines()) == 1, done.stderr)
    piped = subprocess.Popen([program, "new", "order"], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    piped.stdout.close()
    piped.wait(20)
    expect(piped.returncode >= 0, f"killed by {piped.returncode}")
    piped.stderr.close()


def captured(program, work):
    """capture: the asked time, rows with counts, never over an existing file, nothing left where nothing came."""
    with Bench(program, work, "captured") as bench:
        line = ["--port", bench.path("port"), "--instrument", bench.path("instrument.json")]
        out = bench.path("trace.csv")
        done = subprocess.run([program, "capture", *line, "--out", out, "--seconds", "3"], stdin=subprocess.DEVNULL,
                              capture_output=True, text=True, timeout=60)
        expect(done.returncode == 0 and "readings saved" in done.stderr, done.stderr)
        rows = open(out).read().splitlines()
        expect(700 < len(rows) < 900, f"{len(rows)} rows")
        heard = subprocess.run([program, "listen", *line, "--seconds", "2.5"], stdin=subprocess.DEVNULL,
                               capture_output=True, text=True, timeout=60)
        expect(heard.returncode == 0 and "Hz" in heard.stdout and "readings;" in heard.stdout, heard.stdout + heard.stderr)
        wrong = changed(COUNTED, ["language", "separator"], ";")
        with open(bench.path("wrong.json"), "w") as file:
            json.dump(wrong, file)
        deaf = subprocess.run([program, "capture", "--port", bench.path("port"), "--instrument", bench.path("wrong.json"),
                               "--out", bench.path("none.csv"), "--wait", "4"], stdin=subprocess.DEVNULL, capture_output=True,
                              text=True, timeout=60)
        expect(deaf.returncode == 3 and "reads as a pressure" in deaf.stderr, deaf.stderr)
        expect(not os.path.exists(bench.path("none.csv")), "an empty trace left")


ENDINGS = [interrupted, killed, given_no_time, gone_and_back, over_pressure, at_the_keys, given_back, no_answer, full_output,
           captured]


def main():
    program, work = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
    chosen = [one for one in ENDINGS if not sys.argv[3:] or one.__name__ in sys.argv[3:]]
    failed = 0
    with concurrent.futures.ThreadPoolExecutor(len(chosen)) as pool:
        for one, done in [(one, pool.submit(one, program, work)) for one in chosen]:
            try:
                done.result()
                print(f"ok      {one.__name__}")
            except Exception as error:  # every kind of trouble is a failure of that ending
                failed += 1
                print(f"FAILED  {one.__name__}: {error}")
    sys.exit(1 if failed else 0)


if __name__ == "__main__":
    main()
