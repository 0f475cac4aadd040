#!/usr/bin/env python3
"""`register import` of many records, each with its own number and rechecked on the way in: records a second on all cores,
and for each second of processor time, which says more on a busy machine.

usage: import_thousand.py PROGRAM [RECORDS]
"""
import concurrent.futures
import json
import os
import resource
import shutil
import subprocess
import sys
import tempfile
import time

from recheck_thousand import DEMONSTRATION, RUN, drawn_trace


def processor_time_s():
    """Of the programs that were run and have ended."""
    usage = resource.getrusage(resource.RUSAGE_CHILDREN)
    return usage.ru_utime + usage.ru_stime


def main():
    program = os.path.abspath(sys.argv[1])
    records = int(sys.argv[2]) if len(sys.argv) > 2 else 1000
    work = tempfile.mkdtemp()
    try:
        environment = dict(os.environ, XDG_DATA_HOME=work + "/data", QT_QPA_PLATFORM="offscreen")
        for name, content in [("run.json", json.dumps(RUN)), ("trace.csv", drawn_trace())]:
            with open(f"{work}/{name}", "w") as out:
                out.write(content)
        command = [program, "--bench", f"{DEMONSTRATION}/bench.json"]

        def make(i):
            subprocess.run([*command, "assess", "--order", f"{DEMONSTRATION}/order.json", "--instrument",
                            f"{DEMONSTRATION}/instrument.json", "--trace", "trace.csv", "--run", "run.json", "--signer", "A. Person",
                            "--number", f"N-{i}", "--out", f"r{i:04}"], cwd=work, env=environment, check=False,
                           stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, stdin=subprocess.DEVNULL)
        make(0)
        with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as several:
            list(several.map(make, range(1, records)))
        folders = [f"r{i:04}" for i in range(records)]
        begun, used = time.monotonic(), processor_time_s()
        done = subprocess.run([*command, "register", "import", *folders, "--register", "new.db"], cwd=work, env=environment,
                              check=True, capture_output=True, text=True)
        seconds, used = time.monotonic() - begun, processor_time_s() - used
        registered = done.stdout.count("registered")
        print(f"{registered} of {records} records rechecked and registered in {seconds:.1f} s: {records / seconds:.0f} a second on "
              f"{os.cpu_count()} cores; processor time {used:.1f} s: {records / used:.0f} a second of one core")
    finally:
        shutil.rmtree(work)


if __name__ == "__main__":
    main()
