#!/usr/bin/env python3
"""What scripts need of the program: tables as CSV, answers as JSON, results of many as they are done, a table that fits a screen.

usage: scripts.py PROGRAM WORK_FOLDER SOURCE_FOLDER
"""
import csv
import fcntl
import io
import json
import os
import pty
import re
import shutil
import struct
import subprocess
import sys
import termios
import time

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from evidence import Evidence  # noqa: E402

MANY = 40


def rows_of(text):
    return list(csv.DictReader(io.StringIO(text)))


class Scripts(Evidence):
    def screen(self, columns):
        """Both ends of a terminal that is so wide."""
        ours, theirs = pty.openpty()
        fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, columns, 0, 0))
        return ours, theirs

    def seen(self, ours):
        text = b""
        while True:
            try:
                block = os.read(ours, 65536)
            except OSError:  # Linux says so where the other end is closed
                block = b""
            if not block:
                os.close(ours)
                return text.decode()
            text += block

    # The order's number would be computed by a spreadsheet; the record is sealed with it.
    def make_record(self):
        with open(f"{self.work}/order.json") as kept:
            order = json.load(kept)
        order["work_order"] = "=2041"
        with open(f"{self.work}/order.json", "w") as out:
            json.dump(order, out)
        self.must(self.assess("r", "--signer", "Operator Three"))

    def tables(self):
        record = json.load(open(f"{self.work}/r/record.json"))
        for what in ("judgements", "cycles"):
            done = self.must(self.command("export", "r", "--what", what))
            rows = rows_of(done.stdout)
            self.expect(len(rows) == len(record[what]) > 3, f"{len(rows)} rows of {what}")
            self.expect(all(row["work_order"] == "'=2041" for row in rows), f"{what}: {rows[0]['work_order']}")
            self.expect('"\'=2041"' in done.stdout and done.stderr == "", done.stderr)
        judged = rows_of(self.must(self.command("export", "r", "--what", "judgements")).stdout)
        for row, saved in zip(judged, record["judgements"]):
            self.expect(row["measurand"] == saved["measurand"], row["measurand"])
            worst = None if row["worst"] == "" else float(row["worst"])
            self.expect(worst == saved["worst"], f"{row['measurand']}: {row['worst']} for {saved['worst']}")

    # The trace that is handed on is a trace: judged as imported, it comes to the same levels.
    def trace(self):
        self.must(self.command("export", "r", "--out", "derived.csv"))
        with open(f"{self.work}/derived.csv") as kept:
            lines = kept.read().splitlines()
        self.expect(lines[0] == "time_s,pressure_cmH2O" and len(lines) == 1 + 3300, f"{lines[0]}, {len(lines)} lines")
        self.must(self.command("export", "r", "--out", "derived.csv"), status=2)
        self.must(self.command("export", "r", "--out", "r/derived.csv"), status=2)
        self.expect(not os.path.exists(f"{self.work}/r/derived.csv"), "something was put into a record")
        again = self.must(self.command("assess", "--order", "order.json", "--trace", "derived.csv", "--run", "run.json", "--json"), status=None)
        self.expect(len(json.loads(again.stdout)["cycles"]) == 7, "the derived trace has other cycles")

    def changed_and_wrong(self):
        shutil.copytree(f"{self.work}/r", f"{self.work}/changed")
        with open(f"{self.work}/changed/trace.csv", "a") as out:
            out.write("99.0,0.0\n")
        refused = self.must(self.command("export", "changed"), status=2)
        self.expect("is not intact: trace.csv" in refused.stderr and refused.stdout == "", refused.stderr)
        self.expect("expected trace, judgements or cycles" in self.must(self.command("export", "r", "--what", "all"), status=2).stderr, "--what")

    def answers(self):
        done = self.must(self.command("recheck", "r", "changed", "nowhere", "--json"), status=2)
        found = [json.loads(line) for line in done.stdout.splitlines()]
        self.expect([one["outcome"] for one in found] == ["intact", "not-intact", "unreadable"], done.stdout)
        self.expect([one["status"] for one in found] == [0, 1, 2] and len({tuple(one) for one in found}) == 1, done.stdout)
        self.expect("nowhere" in done.stderr, done.stderr)
        ready = json.loads(self.must(self.command("ready", "--order", "order.json", "--on", "2026-12-01", "--json"), status=None).stdout)
        checks = {one["what"]: one["ok"] for one in ready["checks"]}
        self.expect(ready["day"] == "2026-12-01" and checks["sealing"] and checks["key"] and checks["disk"], str(ready))
        self.expect(ready["ready"] == all(checks.values()), str(ready))
        proof = json.loads(self.must(self.command("validate", "--json")).stdout)
        self.expect(proof["agrees"] and len(proof["checks"]) >= 60 and proof["files"][0]["sha256"], "validate --json")

    # A key that is gone is found before the visit, not after the run.
    def key_gone(self):
        key = f"{self.work}/data/zeroline/bench.key"
        keys = [key] if os.path.exists(key) else [f"{self.work}/bench.key"]
        os.rename(keys[0], keys[0] + ".away")
        done = self.must(self.command("ready", "--on", "2026-12-01"), status=1)
        self.expect("MISS  key: " in done.stdout and "--lost" in done.stdout, done.stdout)
        os.rename(keys[0] + ".away", keys[0])

    def an_unknown_key(self):
        elsewhere = dict(self.environment, XDG_DATA_HOME=f"{self.work}/other")
        done = subprocess.run([self.program, "recheck", "r"], cwd=self.work, env=elsewhere, stdin=subprocess.DEVNULL, capture_output=True, text=True)
        self.expect(done.returncode == 0 and done.stdout.startswith("intact, key not known"), done.stdout + done.stderr)
        self.must(self.command("recheck", "."), status=2)

    # 40 records: the first line is there long before the last, in order; a pipe hears of nothing else, a terminal of how many are done.
    def many(self, command):
        names = [f"m{i:02}" for i in range(MANY)]
        for name in names:
            if not os.path.exists(f"{self.work}/{name}"):
                shutil.copytree(f"{self.work}/r", f"{self.work}/{name}")
        ours, theirs = self.screen(80)
        begun = time.monotonic()
        with subprocess.Popen(self.command(command, *names), cwd=self.work, env=self.environment, stdin=subprocess.DEVNULL,
                              stdout=subprocess.PIPE, stderr=theirs, text=True) as running:
            os.close(theirs)
            lines = [running.stdout.readline()]
            first_s = time.monotonic() - begun
            words = self.seen(ours)
            lines += running.stdout.readlines()
        whole_s = time.monotonic() - begun
        print(f"{command}: first line after {first_s:.2f} of {whole_s:.2f} s")
        self.expect(first_s < 0.5 * whole_s, f"{command}: first line after {first_s:.2f} of {whole_s:.2f} s")
        self.expect([name for line in lines for name in re.findall(r" (m\d\d) ", line)] == names, "".join(lines))
        self.expect(re.search(rf"\b\d+ of {MANY}\b", words), f"{command}: no progress on a terminal: {words}")
        self.expect(self.must(self.command(command, *names)).stderr == "", f"{command}: words in a pipe")

    def fits_a_screen(self):
        ours, theirs = self.screen(80)
        with subprocess.Popen(self.command("assess", "r"), cwd=self.work, env=self.environment, stdin=subprocess.DEVNULL,
                              stdout=theirs, stderr=subprocess.DEVNULL):
            os.close(theirs)
            shown = self.seen(ours).replace("\r", "")
        table = shown[shown.index("preset '"):shown.index("no room for: ")]
        self.expect(all(len(line) <= 80 for line in table.splitlines()), table)
        whole = self.must(self.command("assess", "r")).stdout
        self.expect("no room" not in whole and " displayed " in whole, whole)

    def what_to_do_next(self):
        for what, word in (("order", "zeroline ready --order"), ("instrument", "zeroline listen"), ("bench", "--bench")):
            done = self.must(self.command("new", what, "--out", f"new-{what}.json"))
            self.expect(word in done.stderr and done.stdout == "", f"new {what}: {done.stderr}")


def main():
    scripts = Scripts(*map(os.path.abspath, sys.argv[1:4]))
    scripts.make_record()
    scripts.tables()
    scripts.trace()
    scripts.changed_and_wrong()
    scripts.answers()
    scripts.key_gone()
    scripts.an_unknown_key()
    scripts.many("recheck")
    scripts.many("assess")
    scripts.fits_a_screen()
    scripts.what_to_do_next()
    for failure in scripts.failures:
        print("FAILED  " + failure)
    sys.exit(1 if scripts.failures else 0)


if __name__ == "__main__":
    main()
