#!/usr/bin/env python3
"""`validate` on the program as it is built: every published value is met, and the saved page stands before other tools.

usage: validate.py PROGRAM WORK_FOLDER
"""
import hashlib
import os
import re
import shutil
import subprocess
import sys

GROUPS = ["units", "statistics", "uncertainty", "decision", "waveform", "protocol", "hashes", "signature"]


def main():
    program, work = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
    shutil.rmtree(work, ignore_errors=True)
    os.makedirs(work)
    environment = dict(os.environ, XDG_DATA_HOME=work + "/data", XDG_CONFIG_HOME=work + "/nowhere")
    done = subprocess.run([program, "validate", "--out", "page.txt", "--signer", "A. Person"], cwd=work, env=environment,
                          stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=60)
    said = done.stdout
    failures = [f"status {done.returncode}: {done.stderr}"] if done.returncode else []
    failures += [line for line in said.splitlines() if line.startswith("FAILED")]
    failures += [f"no group {group}" for group in GROUPS if f"\n{group}\n" not in said]
    values = int(re.search(r"(\d+) published values, 0 not met", said).group(1)) if not failures else 0
    failures += [f"only {values} values"] if values < 60 else []
    failures += [] if said.rstrip().endswith("published values, 0 not met") else ["the page does not end with its total"]
    with open(program, "rb") as own:
        if hashlib.sha256(own.read()).hexdigest() not in said:
            failures.append("the program's own checksum is not named")
    check = subprocess.run(["sha256sum", "--strict", "-c", "page.txt.sha256"], cwd=work, capture_output=True, text=True)
    failures += [] if check.returncode == 0 else [check.stdout + check.stderr]
    again = subprocess.run([program, "validate", "--out", "page.txt"], cwd=work, env=environment, capture_output=True, text=True)
    failures += [] if again.returncode == 2 and "already" in again.stderr else ["the page was overwritten"]
    print(f"{values} published values")
    for failure in failures:
        print("FAILED  " + failure)
    sys.exit(1 if failures else 0)


if __name__ == "__main__":
    main()
