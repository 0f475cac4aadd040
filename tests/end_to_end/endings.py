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
import shutil
import signal
import subprocess
import sys
import termios
import threading
import time

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, HERE)
from broken_input import BENCH, INSTRUMENT, ORDER, changed  # noqa: E402

PATIENCE_S = 280  # nothing here takes so long, also where the machine is busy
SHORT = changed(changed(changed(ORDER, ["prescription", "presets", 0, "insufflation", "duration"], 0.5),
                        ["prescription", "presets", 0, "exsufflation", "duration"], 0.5),
                ["prescription", "presets", 0, "pause", "duration"], 0.5)
SHORT["contact"] = "the desk of the tests"
COUNTED = changed(changed(INSTRUMENT, ["language"],
                          {"kind": "numeric-lines", "field": 2, "count_field": 1, "unit": "cmH2O"}), ["rate", "nominal_hz"], 250)


class Running:
    """A process whose words are collected while it runs, on pipes or at a terminal of its own."""

    def __init__(self, arguments, at_terminal=False):
        self.said, self.leader, follower = "", None, subprocess.PIPE
        if at_terminal:
            self.leader, follower = pty.openpty()
            termios.tcsetwinsize(follower, (50, 400))  # no sentence is broken where it is looked for
        self.process = subprocess.Popen(arguments, stdin=follower if at_terminal else subprocess.DEVNULL,
                                        stdout=subprocess.PIPE, stderr=follower)
        if at_terminal:
            os.close(follower)
        self.source = self.leader if at_terminal else self.process.stderr.fileno()
        self.results = []
        self.readers = [threading.Thread(target=self._listen), threading.Thread(target=self._collect)]
        for reader in self.readers:
            reader.start()

    def _listen(self):
        while True:
            try:
                block = os.read(self.source, 65536)
            except OSError:  # the terminal is gone
                return
            if not block:
                return
            self.said += block.decode(errors="replace")

    def _collect(self):
        self.results.append(self.process.stdout.read().decode())

    def wait_for(self, words, seconds=PATIENCE_S):
        """Until these words were said. A busy machine takes longer: only silence for minutes is a failure."""
        deadline = time.monotonic() + seconds
        while words not in self.said:
            if self.process.poll() is not None or time.monotonic() > deadline:
                raise AssertionError(f"'{words}' was not said, only:\n{self.said[-2000:]}")
            time.sleep(0.05)

    def type(self, keys):
        os.write(self.leader, keys.encode())

    def enter_until_the_end(self):
        deadline = time.monotonic() + PATIENCE_S
        while self.process.poll() is None and time.monotonic() < deadline:
            self.type("\n")
            time.sleep(0.3)
        return self.end()

    def end(self, seconds=PATIENCE_S):
        """Status, standard output, and what was said."""
        try:
            self.process.wait(seconds)
        except subprocess.TimeoutExpired:
            self.process.kill()
            raise AssertionError(f"never ended; last words:\n{self.said[-2000:]}")
        for reader in self.readers:
            reader.join(20)
        if self.leader is not None:
            os.close(self.leader)
        return self.process.returncode, "".join(self.results), self.said


class Bench:
    """A virtual bench in a process of its own that follows the run, and a folder for it."""

    def __init__(self, program, work, name, *extra):
        self.program, self.folder = program, os.path.join(work, name)
        shutil.rmtree(self.folder, ignore_errors=True)
        os.makedirs(self.folder)
        for file, tree in [("order.json", SHORT), ("instrument.json", COUNTED), ("bench.json", BENCH)]:
            with open(self.path(file), "w") as out:
                json.dump(tree, out)
        self.process = subprocess.Popen(
            [program, "virtual-bench", "--order", self.path("order.json"), "--instrument", self.path("instrument.json"),
             "--follow", "--panel", self.path("panel"), "--link", self.path("port"), *extra],
            stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
        self.port = self.process.stdout.readline().strip()

    def __enter__(self):
        return self

    def __exit__(self, *unused):
        self.process.terminate()
        self.process.wait(60)

    def path(self, name):
        return os.path.join(self.folder, name)

    def verify(self, *extra, record="record", at_terminal=False, wait="60", panel=True):
        words = ([] if at_terminal else ["--yes"]) + (["--panel", self.path("panel")] if panel else [])
        return Running([self.program, "verify", "--bench", self.path("bench.json"), "--order", self.path("order.json"),
                        "--instrument", self.path("instrument.json"), "--port", self.path("port"), "--out",
                        self.path(record), "--operator", "operator 1", "--place", "workshop", "--wait", wait, *words, *extra],
                       at_terminal)

    def assess(self, *names):
        return subprocess.run([self.program, "assess", *map(self.path, names), "--signer", "operator 1"], stdin=subprocess.DEVNULL,
                              capture_output=True, text=True, timeout=PATIENCE_S)


def expect(condition, what):
    if not condition:
        raise AssertionError(what)


def interrupted(program, work):
    """Ctrl-C: status 3, everything captured kept as a .part, which assess makes a record of."""
    with Bench(program, work, "interrupted") as bench:
        run = bench.verify()
        run.wait_for("exsufflation seen")
        run.process.send_signal(signal.SIGINT)
        status, out, said = run.end()
        expect(status == 3, f"status {status}: {said}")
        expect("record.part" in out and "Give the unit back" in said, out + said)
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
        run.wait_for("Automatic:")
        run.process.kill()
        run.end()
        rows = os.path.getsize(bench.path("record.part/trace.csv"))
        done = bench.assess("record.part")
        expect(done.returncode == 3 and "completed" in done.stdout, done.stdout + done.stderr)
        # What the journal had not entered yet is kept, and not judged.
        after = bench.path("record/trace-after.csv")
        kept = os.path.getsize(after) if os.path.exists(after) else 0
        expect(os.path.getsize(bench.path("record/trace.csv")) + kept == rows, "bytes of the trace are lost")
        checked = subprocess.run([program, "recheck", bench.path("record")], capture_output=True, text=True, timeout=PATIENCE_S)
        expect(checked.returncode == 0 and "the capture was cut off" in checked.stdout, checked.stdout + checked.stderr)


def full_disk(program, work):
    """The disk is full in the middle of a run: that is what is said, and the unit is given back all the same."""
    with Bench(program, work, "full-disk") as bench:
        os.makedirs(bench.path("disk"))
        if subprocess.run(["mount", "-t", "tmpfs", "-o", "size=140k", "tmpfs", bench.path("disk")], capture_output=True).returncode:
            return print("SKIPPED full_disk: only the super-user may mount a small disk")
        try:
            status, out, said = bench.verify(record="disk/record").end()
            expect(status == 3, f"status {status}: {out}{said}")
            expect("the disk is full" in said and "did not come back" not in said, said)
            expect("Give the unit back" in said and "tee and sensing line off" in said, f"no hand-back list: {said}")
            expect(os.path.getsize(bench.path("disk/record.part/trace.csv")) > 20000, "what was captured before is lost")
            shutil.copytree(bench.path("disk/record.part"), bench.path("saved.part"))
        finally:
            subprocess.run(["umount", bench.path("disk")])
        done = bench.assess("saved.part")
        expect(done.returncode == 3 and "completed" in done.stdout, done.stdout + done.stderr)


def given_no_time(program, work):
    """An instrument that is gone before anything came: nothing is left."""
    with Bench(program, work, "at-once", "--fault", "unplugged@0s") as bench:
        status, out, said = bench.verify(wait="2").end()
        expect(status in (2, 3), f"status {status}: {out}{said}")
        expect(not os.path.exists(bench.path("record")), "a record of nothing")


def gone_and_back(program, work):
    """The adapter is pulled while the unit cycles and put back: the run waits, goes on, and finds the instrument by its link."""
    with Bench(program, work, "gone-and-back", "--fault", "unplugged-and-back") as bench:
        status, out, said = bench.verify().end()
        expect(status in (0, 1, 3), f"status {status}: {out}{said}")
        expect("is gone" in said and "is back" in said, said)
        folder = "record" if os.path.exists(bench.path("record")) else "record.part"
        rows = open(bench.path(folder + "/trace.csv")).read()
        expect(",lost" in rows and ",back" in rows, "the trace does not say so")


def over_pressure(program, work):
    """Too much pressure in a hold by hand stops the run there, and the record says whom to call, and what became of the unit."""
    with Bench(program, work, "over-pressure", "--fault", "over-pressure") as bench:
        status, out, said = bench.verify("--keep-out", "too much pressure", "--loaner", "RC-0200").end()
        expect(out.count("The unit: kept out of use (too much pressure).") == 1 and "Loaner arranged: RC-0200." in out, out)
        expect(status == 1, f"status {status}: {out}{said}")
        expect("keep this unit out of use" in out and "the desk of the tests" in out, out)
        expect("Automatic:" not in said, said)
        record = json.load(open(bench.path("record/record.json")))
        expect(record["critical"] and record["verdict"] == "fail", record["verdict"])
        expect(record["run"]["disposition"] == {"unit": "kept-out", "reason": "too much pressure", "loaner": "RC-0200"}, str(record["run"]))
        recheck = subprocess.run([program, "recheck", bench.path("record")], capture_output=True, text=True, timeout=PATIENCE_S)
        expect(recheck.returncode == 0, recheck.stdout + recheck.stderr)
        tag = subprocess.run([program, "print", bench.path("record"), "--what", "tag", "--out", bench.path("tag.pdf")],
                             capture_output=True, text=True, timeout=PATIENCE_S)
        expect(tag.returncode == 0 and os.path.getsize(bench.path("tag.pdf")) > 1000, tag.stdout + tag.stderr)
        expect(record["origin"] == "simulated" and "SIMULATED" in out, "not marked as simulated")


def at_the_keys(program, work):
    """A person at a terminal: every question answered by keys, progress on the screen, a record at the end."""
    with Bench(program, work, "at-the-keys") as bench:
        run = bench.verify(at_terminal=True)
        answers = {r"Settings as (found|left)[^:]*:[^\]]*\]:": "", r"\[Enter\] done": "", r"\[Enter: yes, n: no\]": "",
                   r"(Printed name|Role|Meaning)[^\]]*\]:": ""}
        answered, deadline = 0, time.monotonic() + PATIENCE_S
        while run.process.poll() is None and time.monotonic() < deadline:
            said = run.said
            asked = [(match.end(), key) for pattern, key in answers.items() for match in re.finditer(pattern, said)
                     if match.end() > answered]
            if asked:
                answered = len(said)
                run.type(max(asked)[1] + "\n")
            time.sleep(0.1)
        status, out, said = run.end()
        expect(status == 0, f"status {status}: {out}\n{said[-2000:]}")
        log = json.load(open(bench.path("record/run.json")))
        expect(log["displayed"][0]["insufflation"] == 40 and log["restored"] is True, str(log))
        expect("####" in said, "no progress on a terminal")
        expect("; judged: 0 of" in said, "the first cycle was heard and not counted")


def given_back(program, work):
    """'b' ends the run by way of the hand-back list; the unit is needed, the run is kept as incomplete."""
    with Bench(program, work, "given-back") as bench:
        run = bench.verify(at_terminal=True)
        run.wait_for("[Enter] done")
        run.type("g\n")  # a key that help offers works or says why not
        run.wait_for("Nothing stands in the way that 'g' could pass over")
        run.type("b\n")
        run.wait_for("Give the unit back")
        status, out, said = run.enter_until_the_end()
        expect(status == 3 and "tee and sensing line off" in said, f"status {status}: {out}{said}")


def needed_at_once(program, work):
    """'b' at the very first question, before anything was done."""
    with Bench(program, work, "needed-at-once") as bench:
        run = bench.verify(at_terminal=True, panel=False)  # without a panel, settings are asked for first
        run.wait_for("Settings as found")
        run.type("b\n")
        status, out, said = run.enter_until_the_end()
        expect(status == 3 and "The unit is needed" in said and "tee and sensing line off" in said, f"status {status}: {out}{said}")


def stated_as_prescribed(program, work):
    """Enter at the settings states them; what is typed is copied out. The log tells one from the other."""
    for typed, stated in (("", True), ("+35/-40 1.5/1.5/2", False)):
        with Bench(program, work, "stated" if stated else "copied") as bench:
            run = bench.verify(at_terminal=True, panel=False)
            run.wait_for("Settings as found")
            if typed:
                run.type("+53/-40 1.5/1.5/2\n")  # two figures the wrong way round: seen, and typed again
                run.wait_for("taken as +53 / -40 cmH2O, 1.5 / 1.5 / 2 s")
                run.type(typed + "\n")
                run.wait_for("taken as +35 / -40 cmH2O, 1.5 / 1.5 / 2 s")
            run.type("\n")
            run.wait_for("[Enter] done")
            run.type("b\n")
            run.enter_until_the_end()
            log = json.load(open(bench.path("record.part/run.json")))
            expect(("found-as-prescribed" in log["confirmed"]) == stated, str(log))
            expect("left-as-prescribed" in log["confirmed"], str(log))
            expect(log["settings_found"]["day"]["insufflation"]["pressure"] == (40 if stated else 35), str(log))


def needs_first(program, work):
    """What sealing needs is asked for before anything is opened, and a blank answer is none."""
    with Bench(program, work, "needs-first") as bench:
        run = Running([program, "verify", "--order", bench.path("order.json"), "--instrument", bench.path("instrument.json"), "--port",
                       bench.path("port"), "--out", bench.path("record")], at_terminal=True)
        run.wait_for("Organisation that runs this bench [-: not known now]:")
        run.type("  \n")
        run.wait_for("Nothing was typed")
        for question, answer in [("Organisation", "workshop"), ("Address of the organisation", "1 Example Street"),
                                 ("Place of the run", "upstairs"), ("Name of who runs it and signs", "operator 2")]:
            run.wait_for(question)
            expect(not os.path.exists(bench.path("record.part")), f"begun before '{question}'")
            run.type(answer + "\n")
        run.wait_for("Settings as found")
        expect("will not be sealed" not in run.said, run.said)
        expect(json.load(open(bench.path("record.part/bench.json")))["address"] == "1 Example Street", "not kept")
        run.type("b\n")
        status, out, said = run.enter_until_the_end()
        log = json.load(open(bench.path("record.part/run.json")))
        expect(log["place"] == "upstairs" and log["operator"] == "operator 2", str(log))


def attempts(program, work):
    """A second attempt is numbered and kept; the first one's fail stands unless its cause in the set-up is named."""
    with Bench(program, work, "attempts", "--fault", "over-pressure") as bench:
        expect(bench.verify(record="first").end()[0] == 1, "the first did not fail")
        record = json.load(open(bench.path("first/record.json")))
        expect(record["attempt"] == 1, "not the first attempt")
        status, out, said = bench.verify("--attempt", "1", record="again").end()
        expect(status == 2 and "--attempt" in said and len(said.splitlines()) == 1, said)
        status, out, said = bench.verify("--replaces", "1", "--cause", "instrument", record="again").end()
        expect(status == 2 and "--evidence" in said, said)
        status, out, said = bench.verify("--replaces", "1", "--cause", "instrument", "--evidence", "span checked, was off",
                                         record="second").end()
        expect("attempt 1, fail" in said, said)
        expect("attempt 2 fail (in place of 1: instrument). Attempt 2 stands: fail; attempt 1" in out, out)
        record = json.load(open(bench.path("second/record.json")))
        expect(record["attempt"] == 2 and record["run"]["replaces"]["cause"] == "instrument", str(record["run"]))
        again = bench.assess("first", "second")
        expect("Attempt 2 stands" in again.stdout and again.returncode == 1, again.stdout)


def no_answer(program, work):
    """A closed terminal ends the run; nothing hangs."""
    with Bench(program, work, "no-answer") as bench:
        run = subprocess.run([program, "verify", "--order", bench.path("order.json"), "--instrument",
                              bench.path("instrument.json"), "--port", bench.path("port"), "--out", bench.path("record")],
                             stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=PATIENCE_S)
        expect(run.returncode == 2 and "standard input" in run.stderr, run.stderr)
        expect(not os.path.exists(bench.path("record.part")), "something left")


def full_output(program, work):
    """Results that cannot be written are no success, and a closed pipe kills nobody."""
    os.makedirs(work, exist_ok=True)
    with open("/dev/full", "w") as full:
        done = subprocess.run([program, "new", "order"], stdout=full, stderr=subprocess.PIPE, text=True, timeout=PATIENCE_S)
    expect(done.returncode == 2 and len(done.stderr.splitlines()) == 1, done.stderr)
    # Nobody reads any more, as after `| head`: nothing to complain of.
    nobody, ours = os.pipe()
    os.close(nobody)
    piped = subprocess.run([program, "new", "order"], stdout=ours, stderr=subprocess.PIPE, text=True, timeout=PATIENCE_S)
    os.close(ours)
    expect(piped.returncode == 0 and piped.stderr == "", f"{piped.returncode}: {piped.stderr}")


def passphrase_first(program, work):
    """The passphrase of the key is asked for before anything is opened, and is seen nowhere."""
    with Bench(program, work, "passphrase-first") as bench:
        with open(bench.path("bench.json"), "w") as out:
            json.dump({**BENCH, "key_file": "own.key"}, out)
        secret = "four words and one"
        set_it = Running([program, "--bench", bench.path("bench.json"), "key", "--passphrase"], at_terminal=True)
        for question in ("New passphrase", "Once more"):
            set_it.wait_for(question)
            set_it.type(secret + "\n")
        status, out, said = set_it.end()
        expect(status == 0 and "with passphrase" in out and secret not in said, f"status {status}: {out}{said}")
        for typed, ending in (("four words", "does not open it"), (secret, "Settings as found")):
            run = bench.verify(at_terminal=True, panel=False)
            run.wait_for("Passphrase of the key in")
            expect(not os.path.exists(bench.path("record.part")), "begun before the passphrase was typed")
            run.type(typed + "\n")
            if typed == secret:
                run.wait_for(ending)
                run.type("b\n")
                run.enter_until_the_end()
            else:
                status, out, said = run.end()
                expect(status == 2 and ending in said, f"status {status}: {out}{said}")
                expect(not os.path.exists(bench.path("record.part")), "something left")
            expect(typed not in run.said, f"the passphrase is seen: {run.said}")
        expect(os.path.exists(bench.path("record.part/journal.jsonl")), "nothing was captured")


def captured(program, work):
    """capture: the asked time, rows with counts, never over an existing file, nothing left where nothing came."""
    with Bench(program, work, "captured") as bench:
        line = ["--port", bench.path("port"), "--instrument", bench.path("instrument.json")]
        out = bench.path("trace.csv")
        done = subprocess.run([program, "capture", *line, "--out", out, "--seconds", "3"], stdin=subprocess.DEVNULL,
                              capture_output=True, text=True, timeout=PATIENCE_S)
        expect(done.returncode == 0 and "readings saved" in done.stderr and "nothing lost" in done.stderr, done.stderr)
        rows = open(out).read().splitlines()
        # A busy machine may stop a little later, never earlier.
        expect(700 < len(rows), f"{len(rows)} rows")
        heard = subprocess.run([program, "listen", *line, "--seconds", "2.5"], stdin=subprocess.DEVNULL,
                               capture_output=True, text=True, timeout=PATIENCE_S)
        expect(heard.returncode == 0 and "Hz" in heard.stdout and "readings;" in heard.stdout, heard.stdout + heard.stderr)
        wrong = changed(COUNTED, ["language", "separator"], ";")
        with open(bench.path("wrong.json"), "w") as file:
            json.dump(wrong, file)
        deaf = subprocess.run([program, "capture", "--port", bench.path("port"), "--instrument", bench.path("wrong.json"),
                               "--out", bench.path("none.csv"), "--wait", "4"], stdin=subprocess.DEVNULL, capture_output=True,
                              text=True, timeout=PATIENCE_S)
        expect(deaf.returncode == 3 and "reads as a pressure" in deaf.stderr, deaf.stderr)
        expect(not os.path.exists(bench.path("none.csv")), "an empty trace left")


ENDINGS = [interrupted, killed, full_disk, given_no_time, gone_and_back, over_pressure, at_the_keys, given_back, needed_at_once, stated_as_prescribed, needs_first,
           attempts, no_answer, full_output, passphrase_first, captured]


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
