#!/usr/bin/env python3
"""Saved records before independent eyes (sha256sum, openssl, python3-jsonschema), and saves that are killed or meet a full disk.

usage: evidence.py PROGRAM WORK_FOLDER SOURCE_FOLDER
"""
import glob
import json
import math
import os
import pty
import random
import resource
import select
import shutil
import signal
import subprocess
import sys
import termios
import time

import jsonschema

RUN = {
    "schema": "zeroline/run/1", "operator": "operator 3", "place": "workshop", "began": "2026-11-25T09:12:04+01:00",
    "spans": [{"what": "zero-before", "from_s": 0, "to_s": 5},
              {"what": "automatic", "preset": "day", "from_s": 5.5, "to_s": 28},
              {"what": "zero-after", "from_s": 29, "to_s": 32.5}],
    "confirmed": ["no-patient-connected", "outlet-blocked", "trigger-off"], "restored": True,
    "displayed": [{"preset": "day", "insufflation": 40, "exsufflation": -40, "shows": "live"}],
}
SCHEMA_OF = {"record": "record", "order": "work-order", "instrument": "instrument", "run": "run", "bench": "bench", "seal": "seal",
             "addendum": "addendum", "earlier": "earlier"}


def drawn_trace():
    """100 readings a second: rest, seven cycles of 1 s at +40, -40 and 0 cmH2O, rest."""
    rows, level = ["time_s,pressure_cmH2O"], 0.0
    for target, count in [(0, 600)] + 7 * [(40, 100), (-40, 100), (0, 100)] + [(0, 600)]:
        for i in range(count):
            at = len(rows) - 1
            value = level + (target - level) * min(1.0, (i + 1) / 8) + 0.02 * math.sin(0.7 * at)
            rows.append(f"{at / 100:.2f},{value:.4f}")
        level = target
    return "\n".join(rows) + "\n"


class Evidence:
    def __init__(self, program, work, source):
        self.program, self.work, self.source = program, work, source
        self.failures = []
        shutil.rmtree(work, ignore_errors=True)
        os.makedirs(work)
        order = json.load(open(f"{source}/fixtures/demonstration/order.json"))
        for phase in ("insufflation", "exsufflation", "pause"):
            order["prescription"]["presets"][0][phase]["duration"] = 1.0
        for name, content in [("order.json", json.dumps(order)), ("run.json", json.dumps(RUN)), ("trace.csv", drawn_trace())]:
            with open(f"{work}/{name}", "w") as out:
                out.write(content)
        for name in ("instrument.json", "bench.json"):
            shutil.copy(f"{source}/fixtures/demonstration/{name}", work)
        self.environment = dict(os.environ, XDG_DATA_HOME=f"{work}/data", XDG_CONFIG_HOME=f"{work}/nowhere")

    def expect(self, true, what):
        if not true:
            self.failures.append(what)

    def command(self, *arguments):
        return [self.program, "--bench", "bench.json", *arguments]

    def assess(self, out, *more):
        return self.command("assess", "--order", "order.json", "--trace", "trace.csv", "--instrument", "instrument.json", "--run",
                            "run.json", "--out", out, *more)

    def run(self, command, **more):
        return subprocess.run(command, cwd=more.pop("cwd", self.work), stdin=subprocess.DEVNULL, capture_output=True, text=True,
                              timeout=60, env=self.environment, **more)

    def must(self, command, status=0, **more):
        done = self.run(command, **more)
        self.expect(status is None or done.returncode == status, f"{' '.join(command[:6])}: status {done.returncode}\n{done.stdout}{done.stderr}")
        return done

    # A sealed record, a review, a correction, a record as found inside another one.
    def make_records(self):
        signed = ["--signer", "Operator Three", "--role", "operator"]
        self.must(self.assess("r1", *signed))
        self.must(self.command("sign", "r1", "--signer", "Second Person", "--role", "lead"))
        self.must(self.command("sign", "r1", "--signer", "Second Person", "--correction", "serial K4417", "--reason", "typing error"))
        self.must(self.command("assess", "r1", "--instrument", "instrument.json", "--reason", "certificate arrived later", "--out",
                               "r2", *signed))
        checked = self.must(self.command("recheck", "r1", "r2"))
        self.expect("2 records: 2 intact" in checked.stdout and "correction: serial K4417" in checked.stdout, checked.stdout)
        self.expect(os.stat(f"{self.work}/data/zeroline/bench.key").st_mode & 0o777 == 0o600, "the key's permissions")

    def look_from_outside(self):
        for folder in ("r1", "r1/addenda/001", "r1/addenda/002", "r2"):
            self.must(["sha256sum", "--strict", "-c", "manifest.sha256"], cwd=f"{self.work}/{folder}")
        self.must(self.command("recheck", "r1", "r2", "--export", "out"))
        verify = ["openssl", "pkeyutl", "-verify", "-rawin", "-pubin", "-inkey", "public-key.pem", "-sigfile", "signature.bin", "-in",
                  "manifest.sha256"]
        for folder in ("r1", "r1/addenda/001", "r1/addenda/002", "r2"):
            self.must(verify, cwd=f"{self.work}/out/{folder}")
        with open(f"{self.work}/out/r1/manifest.sha256", "a") as changed:
            changed.write("#\n")
        self.must(verify, 1, cwd=f"{self.work}/out/r1")

    def check_schemas(self):
        schemas = {os.path.basename(f).split(".")[0]: json.load(open(f)) for f in glob.glob(f"{self.source}/docs/schemas/*.json")}
        for name, schema in schemas.items():
            jsonschema.Draft7Validator.check_schema(schema)
        files = glob.glob(f"{self.work}/r[12]/**/*.json", recursive=True) + glob.glob(f"{self.source}/fixtures/demonstration/*.json")
        for what in ("order", "instrument", "bench"):
            self.must(self.command("new", what, "--out", f"new-{what}.json"))
            files.append(f"{self.work}/new-{what}.json")
        for file in files:
            kind = SCHEMA_OF[os.path.basename(file).removeprefix("new-").removesuffix(".json")]
            for error in jsonschema.Draft7Validator(schemas[kind]).iter_errors(json.load(open(file))):
                self.failures.append(f"{file}: {list(error.absolute_path)}: {error.message[:200]}")
        self.expect(len(files) >= 18, f"only {len(files)} files checked")

    def check_keys(self):
        known = self.must(self.command("key")).stdout
        self.expect("key " in known and "Demonstration Workshop" in known, known)
        with open(f"{self.work}/known", "w") as out:
            out.write([line for line in known.splitlines() if line.startswith("key ")][0] + "\n")
        self.expect("known: Demonstration" in self.must(self.command("recheck", "r1", "--trust", "known")).stdout, "the name of a known key")
        self.must(self.command("key", "--change"))
        self.must(self.assess("r3", "--signer", "Operator Three"))
        self.expect("is not known" in self.must(self.command("recheck", "r3", "--trust", "known"), 1).stdout, "an unknown key")
        self.must(self.command("recheck", "r1", "r3", "--trust", "data/zeroline/bench.key.public"))
        self.must(self.command("key", "--backup", "backup.key"))
        shutil.copy(f"{self.work}/backup.key", f"{self.work}/data/zeroline/bench.key")
        self.must(self.assess("r4", "--signer", "Operator Three"))
        self.must(self.command("recheck", "r4", "--trust", "data/zeroline/bench.key.public"))

    def check_unsealed(self):
        done = self.must(self.assess("unsigned"), 3)
        self.expect("Missing: printed name of who signs" in done.stderr and "unsigned.part" in done.stderr, done.stderr)
        self.must(self.command("assess", "unsigned.part", "--signer", "Operator Three"))
        self.must(self.command("recheck", "unsigned"))
        without_bench = [part for part in self.assess("nobody", "--signer", "Operator Three") if part not in ("--bench", "bench.json")]
        done = self.must(without_bench, 3)
        self.expect("organisation" in done.stderr and "address" in done.stderr, done.stderr)
        self.must(self.command("assess", "nobody.part", "--signer", "Operator Three"))
        self.must(self.command("recheck", "nobody"))

    # A sealed record that was taken up again as an unfinished one, and made to claim more than it did: it was sealed as captured
    # here, under the first signer's name and time, and nobody was asked.
    def check_forged(self):
        shutil.copytree(f"{self.work}/r1", f"{self.work}/forged.part", ignore=shutil.ignore_patterns("addenda"))
        run = json.load(open(f"{self.work}/forged.part/run.json"))
        with open(f"{self.work}/forged.part/run.json", "w") as out:
            json.dump(dict(run, origin="captured-here"), out)
        done = self.must(self.command("assess", "forged.part"), 3)
        self.expect("Missing: printed name of who signs" in done.stderr, done.stderr)
        self.expect("nothing proves that it was captured here" in done.stderr, done.stderr)
        self.must(self.command("assess", "forged.part", "--signer", "Second Person"))
        record = json.load(open(f"{self.work}/forged/record.json"))
        self.expect((record["origin"], record["issue"]["signer"]) == ("imported", "Second Person"), str(record["issue"]))
        self.must(self.command("recheck", "forged"))

    # Whoever sits at a terminal is asked.
    def check_questions(self):
        ours, theirs = pty.openpty()
        process = subprocess.Popen(self.assess("asked"), cwd=self.work, stdin=theirs, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                                   text=True, env=self.environment)
        os.write(ours, b"\n\nreviewed and signed\n")
        out, said = process.communicate(timeout=30)
        os.close(ours), os.close(theirs)
        self.expect(process.returncode == 0 and "Printed name" in said, f"{process.returncode} {said}")
        issue = json.load(open(f"{self.work}/asked/record.json"))["issue"]
        self.expect((issue["signer"], issue["role"], issue["meaning"]) == ("operator 3", "operator", "reviewed and signed"), str(issue))

    def at_terminal(self, command, answers):
        """Types each answer when its question stands there; status, and all that the terminal showed."""
        ours, theirs = pty.openpty()
        termios.tcsetwinsize(theirs, (50, 400))  # no sentence is broken where it is looked for
        process = subprocess.Popen(command, cwd=self.work, stdin=theirs, stdout=theirs, stderr=theirs, env=self.environment)
        os.close(theirs)
        shown, deadline = "", time.monotonic() + 60
        while time.monotonic() < deadline:
            if not select.select([ours], [], [], 0.1)[0]:
                continue
            try:
                block = os.read(ours, 65536)
            except OSError:  # nobody is at the other side any more
                break
            shown += block.decode(errors="replace")
            if answers and answers[0][0] in shown.rsplit("\n", 1)[-1]:
                os.write(ours, (answers.pop(0)[1] + "\n").encode())
        os.close(ours)
        return process.wait(10), shown

    # The passphrase of a key is asked for without showing it; without it nothing is sealed, and nothing lost.
    def check_passphrase(self):
        secret, key = "four words and one", self.command("key", "--passphrase")
        ask, new, again = "Passphrase of the key", "New passphrase", "Once more"
        cases = [(key, [(new, secret), (again, secret)], 0, "with passphrase"),
                 (key, [(ask, secret), (new, "left words"), (again, "right words")], 2, "typed differently"),
                 (self.assess("locked", "--signer", "Operator Three"), [(ask, "four words")], 2, "does not open it"),
                 (self.command("assess", "locked.part", "--signer", "Operator Three"), [(ask, "")], 2, "none was typed"),
                 (self.command("assess", "locked.part", "--signer", "Operator Three"), [(ask, secret)], 0, "completed"),
                 (self.command("sign", "locked", "--signer", "Second Person"), [(ask, secret)], 0, "review"),
                 (key, [(ask, secret), (new, ""), (again, "")], 0, "Hand out")]
        for command, answers, expected, says in cases:
            typed = [answer for _, answer in answers if answer]
            status, shown = self.at_terminal(command, answers)
            self.expect(status == expected and says in shown and not answers, f"{command[3:6]}: {status}: {shown}")
            self.expect(not [one for one in typed if one in shown], f"what was typed is seen: {shown}")
            if expected == 0 and says == "with passphrase":
                done = self.must(self.assess("nobody-there", "--signer", "Operator Three"), 2)
                self.expect("none was typed" in done.stderr and len(done.stderr.splitlines()) == 1, done.stderr)
        self.must(self.command("assess", "nobody-there.part", "--signer", "Operator Three"))
        self.must(self.command("recheck", "locked", "nobody-there"))

    # A key that nobody knows is told in front and is no fault of the record; a lost one is revoked with a date.
    def check_strangers_and_lost_keys(self):
        key, thiefs = f"{self.work}/data/zeroline/bench.key", f"{self.work}/thief"
        theirs = dict(self.environment, XDG_DATA_HOME=thiefs)
        subprocess.run(self.assess("strange", "--signer", "Somebody"), cwd=self.work, env=theirs, stdin=subprocess.DEVNULL,
                       capture_output=True, check=True)
        for trust, status in (([], 0), (["--trust", "data/zeroline/bench.key.public"], 1)):
            said = self.must(self.command("recheck", "strange", "r1", *trust), status).stdout
            self.expect("intact, key not known" in said and "NOT INTACT" not in said and "0 not intact" in said, said)
        self.must(self.command("print", "strange", "--what", "label", "--out", "label.pdf"), 2)
        os.rename(key, f"{self.work}/taken.key")
        for command in (self.command("key"), self.assess("without", "--signer", "Operator Three")):
            done = self.must(command, 2)
            self.expect("the key is missing" in done.stderr and len(done.stderr.splitlines()) == 1, done.stderr)
        self.expect(not os.path.exists(key), "a missing key was replaced unasked")
        self.must(self.command("key", "--lost", "laptop stolen"))
        shutil.rmtree(thiefs)
        os.makedirs(f"{thiefs}/zeroline")
        os.rename(f"{self.work}/taken.key", f"{thiefs}/zeroline/bench.key")
        subprocess.run(self.assess("stolen", "--signer", "Somebody"), cwd=self.work, env=theirs, stdin=subprocess.DEVNULL,
                       capture_output=True, check=True)
        said = self.must(self.command("recheck", "r1", "stolen"), 1).stdout
        self.expect("1 intact, 1 not intact" in said and "is revoked from" in said and "(laptop stolen)" in said, said)
        self.must(self.command("assess", "without.part", "--signer", "Operator Three"))
        self.must(self.command("recheck", "without", "--trust", "data/zeroline/bench.key.public"))

    # A name that holds a line of its own, or turns letters round, is shown and not obeyed.
    def check_names(self):
        order = json.load(open(f"{self.work}/order.json"))
        order["unit"]["asset"] = "RC-1\npass forged\u202e\x1b[2K"
        order["prescription"]["presets"][0]["name"] = "day\npass forged\u2066"
        run = json.load(open(f"{self.work}/run.json"))
        run["spans"][1]["preset"] = run["displayed"][0]["preset"] = order["prescription"]["presets"][0]["name"]
        for name, tree in (("odd-order.json", order), ("odd-run.json", run)):
            with open(f"{self.work}/{name}", "w") as out:
                json.dump(tree, out)
        swap = {"order.json": "odd-order.json", "run.json": "odd-run.json"}
        self.must([swap.get(word, word) for word in self.assess("odd", "--signer", "A\u202eB")], None)
        os.rename(f"{self.work}/odd", f"{self.work}/odd\npass forged")
        for command in ("recheck", "assess", "assess --budget"):
            done = self.must(self.command(*command.split(), "odd\npass forged"), None)
            said = done.stdout + done.stderr
            self.expect(done.returncode in (0, 3) and not [c for c in said if c in "\u202e\u2066\x1b"] and "\\u202e" in said,
                        f"{command}: {done.returncode}: {said}")
            self.expect(not [line for line in said.splitlines() if line.startswith("pass forged")], f"{command}: {said}")

    # A record that was edited went onto clean paper of every kind.
    def check_paper(self):
        if "libqrencode" not in self.run(self.command("--version")).stdout:
            print("a build without the printed record: paper is left out")
            return
        shutil.copytree(f"{self.work}/r1", f"{self.work}/edited")
        text = open(f"{self.work}/edited/record.json").read()
        with open(f"{self.work}/edited/record.json", "w") as out:
            out.write(text.replace('"critical": false', '"critical": true', 1))
        for what in ("record", "label", "home"):
            done = self.must(self.command("print", "edited", "--what", what, "--out", f"{what}.pdf"), 2)
            self.expect("not intact" in done.stderr and not os.path.exists(f"{self.work}/{what}.pdf"), f"{what}: {done.stderr}")

    def check_output(self):
        self.expect("holds no record" in self.must(self.command("recheck", "."), 2).stderr, "recheck of a folder without a record")
        nobody, ours = os.pipe()
        os.close(nobody)
        done = subprocess.run(self.command("recheck", *(100 * ["r1"])), cwd=self.work, env=self.environment, stdout=ours,
                              stderr=subprocess.PIPE, text=True, timeout=60)
        os.close(ours)
        self.expect(done.returncode == 0 and not done.stderr, f"a closed pipe: {done.returncode}: {done.stderr}")

    def whole_or_to_be_finished(self, name, what):
        """After a save that was cut off: a record, or a FOLDER.part that assess finishes, or nothing yet."""
        if os.path.exists(f"{self.work}/{name}"):
            self.must(self.command("recheck", name))
            return "whole"
        if not os.path.exists(f"{self.work}/{name}.part"):
            return "nothing"
        done = self.run(self.command("assess", f"{name}.part", "--signer", "Operator Three"))
        self.expect(done.returncode in (0, 3) and not done.stderr, f"{what}: assess {name}.part: {done.returncode} {done.stderr}")
        self.must(self.command("recheck", name))
        return "finished"

    def kill_saves(self, times):
        dice = random.Random(6)
        became = {}
        for i in range(times):
            name = f"killed-{i}"
            process = subprocess.Popen(self.assess(name, "--signer", "Operator Three"), cwd=self.work, stdin=subprocess.DEVNULL,
                                       stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=self.environment)
            # Saving begins when the FOLDER.part appears: before that there is nothing that could be lost.
            while process.poll() is None and not glob.glob(f"{self.work}/{name}.part") and not os.path.exists(f"{self.work}/{name}"):
                time.sleep(0.0005)
            time.sleep(dice.uniform(0.0, self.save_s))
            process.send_signal(signal.SIGKILL)
            process.wait()
            how = self.whole_or_to_be_finished(name, "killed")
            became[how] = became.get(how, 0) + 1
        print(f"killed while saving, {times} times: {became}")
        self.expect(set(became) <= {"whole", "finished"}, f"a save that was killed left nothing: {became}")
        self.expect(not glob.glob(f"{self.work}/*.part*"), f"left behind: {glob.glob(self.work + '/*.part*')}")

    def measure_save(self):
        process = subprocess.Popen(self.assess("measured", "--signer", "Operator Three"), cwd=self.work, stdin=subprocess.DEVNULL,
                                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=self.environment)
        while process.poll() is None and not glob.glob(f"{self.work}/measured*"):
            time.sleep(0.0005)
        begun = time.monotonic()
        process.wait()
        self.save_s = time.monotonic() - begun

    # The disk is full after so many bytes of a file.
    def fill_disk(self):
        became = {}
        # A trace of few rows, so that the disk is full in the result as often as in the evidence.
        with open(f"{self.work}/trace.csv", "w") as out:
            out.write("\n".join(["time_s,pressure_cmH2O"] + drawn_trace().splitlines()[1::4]) + "\n")
        largest = os.path.getsize(f"{self.work}/r1/record.json")
        for i in range(12):
            limit = (i + 1) * largest // 12 - 1
            done = self.run(self.assess(f"full-{i}", "--signer", "Operator Three"),
                            preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit)))
            self.expect(done.returncode == 2 and len(done.stderr.splitlines()) == 1 and "File too large" in done.stderr,
                        f"full after {limit} bytes: status {done.returncode}: {done.stderr}")
            how = self.whole_or_to_be_finished(f"full-{i}", f"full after {limit} bytes")
            became[how] = became.get(how, 0) + 1
        print(f"disk full while saving, 12 times: {became}")


def main():
    evidence = Evidence(os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2]), os.path.abspath(sys.argv[3]))
    evidence.make_records()
    for step in (evidence.look_from_outside, evidence.check_schemas, evidence.check_keys, evidence.check_unsealed, evidence.check_forged,
                 evidence.check_questions, evidence.check_passphrase, evidence.check_strangers_and_lost_keys, evidence.check_names,
                 evidence.check_paper, evidence.check_output, evidence.measure_save, lambda: evidence.kill_saves(30), evidence.fill_disk):
        if evidence.failures:
            break
        step()
    for failure in evidence.failures:
        print("FAILED  " + failure)
    sys.exit(1 if evidence.failures else 0)


if __name__ == "__main__":
    main()
