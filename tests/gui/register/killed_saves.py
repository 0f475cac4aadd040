#!/usr/bin/env python3
"""Saves that are killed at any moment: the register stays whole, and what was sealed is in it after the next start, once.

usage: killed_saves.py PROGRAM WORK_FOLDER SOURCE_FOLDER ROUNDS
The register is looked at by Python's own sqlite3.
"""
import os
import random
import signal
import sqlite3
import subprocess
import sys
import time

sys.path.insert(0, os.path.join(sys.argv[3], "tests", "end_to_end"))
from evidence import Evidence  # noqa: E402

SIGNED = ("--signer", "Operator Three", "--role", "operator")


class KilledSaves(Evidence):
    def one_save_s(self):
        began = time.monotonic()
        self.must(self.assess("whole", *SIGNED))
        return time.monotonic() - began

    def is_sealed(self, name):
        return os.path.exists(f"{self.work}/{name}/seal.json")

    def rows_of(self, name):
        with sqlite3.connect(f"file:{self.work}/data/zeroline/register.db?mode=ro", uri=True) as register:
            self.expect(register.execute("PRAGMA integrity_check").fetchall() == [("ok",)], f"{name}: integrity check")
            return register.execute("SELECT COUNT(*) FROM folder WHERE path = ?", (f"{self.work}/{name}",)).fetchone()[0]

    def kill_after(self, name, seconds):
        save = subprocess.Popen(self.assess(name, *SIGNED), cwd=self.work, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
                                stderr=subprocess.DEVNULL, env=self.environment)
        time.sleep(seconds)
        save.send_signal(signal.SIGKILL)
        save.wait()

    def all(self, rounds):
        longest = self.one_save_s()
        moments, sealed = random.Random(15), []
        for i in range(rounds):
            name = f"save{i}"
            self.kill_after(name, moments.uniform(0.4, 1.1) * longest)
            was_sealed = self.is_sealed(name)
            next_start = self.run(self.command("register", "due"))
            self.expect(next_start.returncode == 0, f"{name}: the next start: {next_start.stderr}")
            self.expect(self.is_sealed(name) == was_sealed, f"{name}: a sealed record stays sealed")
            self.expect(self.rows_of(name) == (1 if was_sealed else 0), f"{name}: sealed {was_sealed}, rows {self.rows_of(name)}")
            sealed += [name] if was_sealed else []
        checked = self.run(self.command("register", "check"))
        self.expect(checked.returncode == 0, f"all as registered: {checked.stdout}")
        self.expect(self.run(self.command("recheck", "whole", *sealed)).returncode == 0, "every sealed record is intact")
        self.expect(rounds < 20 or 0 < len(sealed) < rounds, f"killed before and after the seal: {len(sealed)} of {rounds} sealed")
        print(f"killed {rounds} times in saves of {longest:.2f} s: {len(sealed)} records were sealed by then, all registered once")
        for failure in self.failures:
            print("FAIL", failure)
        return 1 if self.failures else 0


if __name__ == "__main__":
    sys.exit(KilledSaves(*sys.argv[1:4]).all(int(sys.argv[4])))
