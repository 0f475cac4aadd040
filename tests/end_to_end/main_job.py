#!/usr/bin/env python3
"""The main job over real pseudo-terminals: simulated bench, `zeroline verify --yes`, record, `zeroline assess` on it.

usage: main_job.py PROGRAM WORK_FOLDER healthy FIRST_SEED LAST_SEED
       main_job.py PROGRAM WORK_FOLDER faults

Every run is a process pair of its own, all at once: a run lasts as long as at the bench, and costs little.
"""
import concurrent.futures
import json
import os
import shutil
import subprocess
import sys

ORDER = {
    "schema": "zeroline/work-order/1", "work_order": "WO-E2E", "occasion": "pre-delivery", "customer": "ward of the tests",
    "unit": {"asset": "T-1", "serial": "S-1", "model": "demonstration unit", "display_step": 1},
    "prescription": {"reference": "RX-1", "presets": [
        {"name": "day", "insufflation": {"pressure": 40, "duration": 1.0}, "exsufflation": {"pressure": -40, "duration": 1.0},
         "pause": {"duration": 1.0}, "flow": "full", "trigger": "on"}]},
    "tolerances": {"basis": "figures of this test", "approved_by": "the test", "pressure": {"absolute": 2},
                   "duration": {"absolute": 0.1}, "residual": {"absolute": 1}, "zero": {"absolute": 1, "within": 0.5},
                   "display": {"absolute": 3}},
    "decision_rule": "simple", "cycles": 5, "lead_cycles": 1, "contact": "the desk of the tests",
}
BENCH = os.path.dirname(os.path.abspath(__file__)) + "/../../fixtures/demonstration/bench.json"
# Fault at its middle size, exit status, verdict, a finding that names it (any one of them).
FAULTS = [
    ("low-insufflation", [1], "fail", ["insufflation-off"]),
    ("low-exsufflation", [1], "fail", ["exsufflation-off"]),
    ("over-pressure", [1], "fail", ["over-pressure"]),
    ("residual", [1], "fail", ["residual-pressure"]),
    ("slow-swing", [0, 1], None, ["slow-swing"]),
    ("missed-phase", [1], "fail", ["missing-insufflation", "missing-exsufflation"]),
    ("timer-one-phase", [1], "fail", ["one-duration-off"]),
    ("zero-offset", [3], "incomplete", ["zero-offset"]),
    ("usb-batches", [0], "pass", ["batched"]),
    ("dropped-samples", [0, 3], None, ["gap"]),
    ("unplugged", [3], "incomplete", ["gap"]),
    ("display-wrong", [1], "fail", ["display-differs"]),
    ("settings-wrong", [1], "fail", ["settings-differ"]),
]


def bench(program, folder, extra):
    process = subprocess.Popen([program, "virtual-bench", "--order", f"{folder}/order.json", "--instrument",
                                f"{folder}/instrument.json", "--panel", f"{folder}/panel", *extra],
                               stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
    return process, process.stdout.readline().strip()


def one_run(program, work, name, extra):
    """Plays one run; returns exit status, record (or None) and everything that was said."""
    folder = f"{work}/{name}"
    shutil.rmtree(folder, ignore_errors=True)
    os.makedirs(folder)
    with open(f"{folder}/order.json", "w") as out:
        json.dump(ORDER, out)
    here = os.path.dirname(os.path.abspath(__file__))
    shutil.copy(f"{here}/../../fixtures/demonstration/instrument.json", f"{folder}/instrument.json")
    simulated, port = bench(program, folder, extra)
    try:
        run = subprocess.run([program, "--bench", BENCH, "verify", "--yes", "--order", f"{folder}/order.json", "--instrument",
                              f"{folder}/instrument.json", "--port", port, "--panel", f"{folder}/panel", "--operator",
                              "operator 1", "--place", "workshop", "--wait", "20", "--out", f"{folder}/record"],
                             stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=280,
                             env=dict(os.environ, XDG_DATA_HOME=f"{work}/keys"))
    finally:
        simulated.terminate()
        simulated.wait(10)
    said = run.stdout + run.stderr
    saved = [f for f in (f"{folder}/record/record.json", f"{folder}/record.part/record.json") if os.path.exists(f)]
    record = json.load(open(saved[0])) if saved else None
    return run.returncode, record, said


def assessed_again(program, work, name, record):
    again = subprocess.run([program, "assess", "--json", f"{work}/{name}/record"], stdin=subprocess.DEVNULL,
                           capture_output=True, text=True, timeout=60,
                           env=dict(os.environ, XDG_DATA_HOME=f"{work}/keys"))
    return json.loads(again.stdout) == record


def check_healthy(program, work, seed):
    status, record, said = one_run(program, work, f"seed-{seed}", ["--seed", str(seed)])
    if status != 0 or record is None or record["verdict"] != "pass" or record["unit_accuracy"] != "pass":
        return f"exit {status}\n{said}"
    if record["origin"] != "simulated":
        return f"origin {record['origin']}"
    if not assessed_again(program, work, f"seed-{seed}", record):
        return "assess on the folder computes another record"
    checked = subprocess.run([program, "recheck", f"{work}/seed-{seed}/record"], stdin=subprocess.DEVNULL,
                             capture_output=True, text=True, timeout=60)
    if checked.returncode != 0:
        return f"recheck: {checked.stdout}{checked.stderr}"
    return None


def check_fault(program, work, fault):
    code, statuses, verdict, accepted = fault
    status, record, said = one_run(program, work, code, ["--seed", "7", "--fault", code])
    if status not in statuses:
        return f"exit {status}, expected one of {statuses}\n{said}"
    if record is None:
        return None if status == 3 and any(word in said for word in accepted + ["gone", "zero reads"]) else f"no record\n{said}"
    if verdict and record["verdict"] != verdict:
        return f"verdict {record['verdict']}, expected {verdict}\n{said}"
    found = {finding["code"] for finding in record["findings"]}
    if not found & set(accepted):
        return f"findings {sorted(found)}, expected one of {accepted}\n{said}"
    if code == "settings-wrong" and record["unit_accuracy"] != "pass":
        return f"unit accuracy {record['unit_accuracy']}: set wrong is no fault of the unit\n{said}"
    if code == "over-pressure" and not record["critical"]:
        return f"over-pressure is critical\n{said}"
    return None


def main():
    program, work, what = sys.argv[1:4]
    if what == "healthy":
        seeds = range(int(sys.argv[4]), int(sys.argv[5]) + 1)
        jobs = {f"seed {seed}": (check_healthy, seed) for seed in seeds}
    else:
        jobs = {fault[0]: (check_fault, fault) for fault in FAULTS}
    with concurrent.futures.ThreadPoolExecutor(len(jobs)) as pool:
        results = {name: pool.submit(check, program, work, item) for name, (check, item) in jobs.items()}
    failures = 0
    for name, result in results.items():
        trouble = result.result()
        failures += trouble is not None
        print(f"{'FAILED ' if trouble else 'ok     '} {name}" + (f": {trouble}" if trouble else ""))
    sys.exit(1 if failures else 0)


if __name__ == "__main__":
    main()
