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
    def started(self, name):
        return subprocess.Popen(self.assess(name, *SIGNED), cwd=self.work, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
                                stderr=subprocess.DEVNULL, env=self.environment)

    def wait_for_seal(self, save, name):
        while save.poll() is None and not self.is_sealed(name):
            time.sleep(0.001)

    def one_save_s(self, name):
        """How long a save takes until the record is sealed, and from there to its end."""
        began = time.monotonic()
        save = self.started(name)
        self.wait_for_seal(save, name)
        sealed = time.monotonic()
        save.wait()
        return sealed - began, time.monotonic() - sealed

    def is_sealed(self, name):
        return os.path.exists(f"{self.work}/{name}/seal.json")

    def rows_of(self, name):
        with sqlite3.connect(f"file:{self.work}/data/zeroline/register.db?mode=ro", uri=True) as register:
            self.expect(register.execute("PRAGMA integrity_check").fetchall() == [("ok",)], f"{name}: integrity check")
            return register.execute("SELECT COUNT(*) FROM folder WHERE path = ?", (f"{self.work}/{name}",)).fetchone()[0]

    def kill(self, name, seconds, after_the_seal):
        save = self.started(name)
        if after_the_seal:
            self.wait_for_seal(save, name)
        time.sleep(seconds)
        save.send_signal(signal.SIGKILL)
        save.wait()

    def all(self, rounds):
        self.one_save_s("first")  # makes the key and the register
        to_seal_s, to_end_s = self.one_save_s("whole")
        moments, sealed, delivered = random.Random(15), [], 0
        for i in range(rounds):
            name = f"save{i}"
            late = i % 2 == 1  # while it is registered
            self.kill(name, moments.uniform(0.0, to_end_s if late else 1.1 * to_seal_s), late)
            was_sealed = self.is_sealed(name)
            rows_before = self.rows_of(name)
            next_start = self.run(self.command("register", "due"))
            self.expect(next_start.returncode == 0, f"{name}: the next start: {next_start.stderr}")
            self.expect(self.is_sealed(name) == was_sealed, f"{name}: a sealed record stays sealed")
            self.expect(self.rows_of(name) == (1 if was_sealed else 0), f"{name}: sealed {was_sealed}, rows {self.rows_of(name)}")
            sealed += [name] if was_sealed else []
            delivered += self.rows_of(name) - rows_before
        checked = self.run(self.command("register", "check"))
        self.expect(checked.returncode == 0, f"all as registered: {checked.stdout}")
        self.expect(self.run(self.command("recheck", "first", "whole", *sealed)).returncode == 0, "every sealed record is intact")
        self.expect(rounds < 20 or 0 < len(sealed) < rounds, f"killed before and after the seal: {len(sealed)} of {rounds} sealed")
        print(f"killed {rounds} times in saves of {to_seal_s:.2f} s and {to_end_s:.2f} s from the seal on: {len(sealed)} records were "
              f"sealed by then, all registered once, {delivered} of them by the next start")
        for failure in self.failures:
            print("FAIL", failure)
        return 1 if self.failures else 0


if __name__ == "__main__":
    sys.exit(KilledSaves(*sys.argv[1:4]).all(int(sys.argv[4])))
