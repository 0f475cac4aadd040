#!/usr/bin/env python3
"""The procedures over real pseudo-terminals: each shipped one to its end with --yes, one of a department's own answered by
a person at the keys, and wrong ones refused before a port is opened.

usage: procedures.py PROGRAM WORK_FOLDER
"""
import json
import os
import pty
import select
import subprocess
import sys
import threading
import time

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from main_job import BENCH, ORDER, bench  # noqa: E402

HERE = os.path.dirname(os.path.abspath(__file__))
OWN = {
    "schema": "zeroline/procedure/1", "name": "ward check", "revision": "B",
    "steps": [
        {"kind": "nobody-connected"},
        {"kind": "check", "item": "case", "say": "Look at the case."},
        {"kind": "check", "item": "clock", "say": "Look at the clock."},
        {"kind": "value", "item": "earth resistance", "say": "Type the earth resistance.", "unit": "ohm", "high": 0.3,
         "basis": "rule 7 of the tests"},
        {"kind": "settings-found"}, {"kind": "zero"}, {"kind": "plug"},
        {"kind": "each-preset", "steps": [{"kind": "manual"}, {"kind": "automatic", "power": "mains"},
                                          {"kind": "rest", "seconds": 5}]},
        {"kind": "confirm", "say": "Put the tool away."},
        {"kind": "zero-again"}, {"kind": "hand-back"}],
}


def folder_for(work, name):
    folder = f"{work}/{name}"
    subprocess.run(["rm", "-rf", folder], check=True)
    os.makedirs(folder)
    # A healthy timer is a share off: at 5 s that is more than at 1 s.
    tolerances = dict(ORDER["tolerances"], duration={"absolute": 0.1, "relative": 0.05})
    with open(f"{folder}/order.json", "w") as out:
        json.dump(dict(ORDER, tolerances=tolerances), out)
    with open(f"{folder}/own.json", "w") as out:
        json.dump(OWN, out)
    with open(f"{HERE}/../../fixtures/demonstration/instrument.json") as text, open(f"{folder}/instrument.json", "w") as out:
        out.write(text.read())
    return folder


def command(program, folder, port, procedure, *more):
    return [program, "--bench", BENCH, "verify", "--order", f"{folder}/order.json", "--instrument",
            f"{folder}/instrument.json", "--port", port, "--panel", f"{folder}/panel", "--procedure", procedure,
            "--operator", "operator 1", "--place", "workshop", "--wait", "40", "--out", f"{folder}/record", *more]


def environment(work):
    return dict(os.environ, XDG_DATA_HOME=f"{work}/keys", XDG_CONFIG_HOME=f"{work}/nowhere")


def trouble_in(folder, asked):
    record = json.load(open(f"{folder}/record/record.json"))
    if record["verdict"] != "pass":
        return f"verdict {record['verdict']}: {record['reasons']}"
    items = [item["item"] for item in record["run"]["checklist"] or []]
    if items != asked:
        return f"checklist {items}, expected {asked}"
    checked = subprocess.run([PROGRAM, "recheck", f"{folder}/record"], stdin=subprocess.DEVNULL, capture_output=True, text=True)
    if checked.returncode != 0:
        return checked.stdout + checked.stderr
    if any(step["kind"] == "ladder" for step in json.load(open(f"{folder}/record/procedure.json"))["steps"]):
        off = [line for line in record.get("ladder", []) if abs(line["gain"] - 1.0) > 0.06]
        if len(record.get("ladder", [])) != 4 or off:
            return f"ladder: {record.get('ladder')}"
    printed = subprocess.run([PROGRAM, "print", f"{folder}/record", "--out", f"{folder}/page.pdf"], stdin=subprocess.DEVNULL,
                             capture_output=True, text=True)
    words = subprocess.run(["pdftotext", "-layout", f"{folder}/page.pdf", "-"], capture_output=True, text=True).stdout
    if printed.returncode != 0 or "procedure" not in words or ", revision 1" not in words:
        return f"the printed record does not name the procedure: {printed.stderr}{words[:2000]}"
    if "procedure.json" not in open(f"{folder}/record/manifest.sha256").read():
        return "the manifest does not name procedure.json"
    return None


def shipped(work, name):
    folder = folder_for(work, name)
    text = subprocess.run([PROGRAM, "new", "procedure", "--like", name], capture_output=True, text=True, check=True).stdout
    asked = [step["item"] for step in json.loads(text)["steps"] if "item" in step]
    simulated, port = bench(PROGRAM, folder, ["--follow", "--seed", "3"])
    began = time.monotonic()
    try:
        run = subprocess.run(command(PROGRAM, folder, port, name, "--yes"), stdin=subprocess.DEVNULL, capture_output=True,
                             text=True, timeout=600, env=environment(work))
    finally:
        simulated.terminate()
        simulated.wait(10)
    took = f"{time.monotonic() - began:.0f} s"
    if run.returncode != 0:
        return f"exit {run.returncode}\n{run.stdout}{run.stderr}", took
    return trouble_in(folder, asked), took


def ladder(work):
    """A unit whose insufflation timer runs 8 % long and whose blower is 8 % weak: the ladder's lines find both, and what
    is dialled in last is what is prescribed."""
    folder = folder_for(work, "ladder")
    steps = [step for step in OWN["steps"] if step["kind"] not in ("check", "value", "confirm")]
    steps.insert(5, {"kind": "ladder", "from": 20, "rise": 10, "durations": [0.5, 2], "cycles": 1})
    with open(f"{folder}/own.json", "w") as out:
        json.dump(dict(OWN, steps=steps), out)
    simulated, port = bench(PROGRAM, folder, ["--follow", "--seed", "3", "--fault", "timer-one-phase=8", "--fault", "weak-blower=8"])
    began = time.monotonic()
    try:
        run = subprocess.run(command(PROGRAM, folder, port, f"{folder}/own.json", "--yes"), stdin=subprocess.DEVNULL,
                             capture_output=True, text=True, timeout=600, env=environment(work))
    finally:
        simulated.terminate()
        simulated.wait(10)
    record = json.load(open(f"{folder}/record/record.json"))
    lines = {line["measurand"]: line for line in record.get("ladder", [])}
    expected = {"insufflation-pressure": 0.92, "exsufflation-pressure": 0.92, "insufflation-duration": 1.08,
                "exsufflation-duration": 1.0}
    for name, gain in expected.items():
        line = lines.get(name)
        if line is None or abs(line["gain"] - gain) > line["gain_uncertainty"] + 0.03:
            return f"{name}: {line}, expected a gain of {gain}\n{run.stdout}{run.stderr}", ""
    left = record["run"]["settings_left"]["day"]
    if left["insufflation"]["pressure"] != 40 or "Straight line through" not in run.stdout:
        return f"left at {left}\n{run.stdout}", ""
    return None, f"{time.monotonic() - began:.0f} s"


# Slips of a person who writes a procedure: what is done to the text or to the steps, and what the refusal must name.
LADDER = {"kind": "ladder", "from": 30, "rise": 5}
WRONG_TEXTS = [
    (lambda text: text.replace('"revision": "B",', '"revision": "B"', 1), "no comma behind this"),
    (lambda text: text.replace('"hand-back"}', '"hand-back"},', 1), "a comma behind the last one"),
    (lambda text: text.replace("0.3", "0,3", 1), "a decimal comma in 0,3"),
    (lambda text: text.replace('"ward check"', "'ward check'", 1), "a single quotation mark"),
    (lambda text: text.replace('"name"', '// ours\n"name"', 1), "a remark"),
    (lambda text: text.replace("procedure/1", "procedure/2", 1), "/schema"),
]
WRONG_STEPS = [
    (lambda steps: steps.pop(4), "/steps/4"),  # a step of the frame is missing
    (lambda steps: steps[1].pop("item"), "/steps/1/item"),
    (lambda steps: steps[3].pop("basis"), "/steps/3/basis"),
    (lambda steps: steps[2].update(colour=1), "/steps/2/colour"),
    (lambda steps: steps.pop(), "/steps"),
    (lambda steps: steps[7]["steps"].pop(1), "/steps/7/steps"),  # nothing to judge
    (lambda steps: steps[2].update(kind="wish"), "/steps/2/kind"),
    (lambda steps: steps.insert(5, steps.pop(6)), "/steps/5/kind"),  # the plug before zero
    (lambda steps: steps[3].update(low=0.5), "/steps/3/high"),  # limits the wrong way round
    (lambda steps: steps[3].update(high="0.3"), "/steps/3/high"),
    (lambda steps: steps[7]["steps"][2].update(seconds=0), "/steps/7/steps/2/seconds"),
    (lambda steps: steps[7]["steps"][1].update(power="solar"), "/steps/7/steps/1/power"),
    (lambda steps: steps[2].update(item="case"), "/steps/2/item"),  # an item that stands twice
    (lambda steps: steps[8].update(say="   "), "/steps/8/say"),
    (lambda steps: steps.insert(5, dict(LADDER)), "/steps/5/kind"),  # a ladder before what is prescribed
    (lambda steps: steps.insert(8, dict(LADDER, cycles=200)), "/steps/8/cycles: 200; expected a whole number from 1 to 20"),
    (lambda steps: steps.insert(8, dict(LADDER, to=20)), "/steps/8/to"),
    (lambda steps: steps.append({"kind": "confirm", "say": "Sign the slip."}), "/steps/11"),
]


def wrong(work):
    """Each is refused with status 2, in one line that names file, place and what is wrong; no record is begun."""
    folder = folder_for(work, "wrong")

    def spoiled(spoil):
        tree = json.loads(json.dumps(OWN))
        spoil(tree["steps"])
        return json.dumps(tree)

    cases = [(spoil(json.dumps(OWN)), named) for spoil, named in WRONG_TEXTS]
    cases += [(spoiled(spoil), named) for spoil, named in WRONG_STEPS]
    for text, named in cases:
        with open(f"{folder}/own.json", "w") as out:
            out.write(text)
        run = subprocess.run(command(PROGRAM, folder, "/dev/null", f"{folder}/own.json", "--yes"), stdin=subprocess.DEVNULL,
                             capture_output=True, text=True, timeout=30, env=environment(work))
        if run.returncode != 2 or "own.json: " not in run.stderr or named not in run.stderr or run.stderr.count("\n") != 1 \
                or os.path.exists(f"{folder}/record.part"):
            return f"{named}: exit {run.returncode}, {run.stderr}", ""
    run = subprocess.run(command(PROGRAM, folder, "/dev/null", "nonsense", "--yes"), stdin=subprocess.DEVNULL,
                         capture_output=True, text=True, timeout=30, env=environment(work))
    if run.returncode != 2 or "pre-delivery" not in run.stderr:
        return f"nonsense: exit {run.returncode}, {run.stderr}", ""
    return None, f"{len(cases)} refused"


def by_hand(work):
    """A person at the keys: one item in order, one not applicable, a value with a comma; then Enter until it is over."""
    folder = folder_for(work, "by-hand")
    simulated, port = bench(PROGRAM, folder, ["--follow", "--seed", "3"])
    master, slave = pty.openpty()
    began = time.monotonic()
    run = subprocess.Popen(command(PROGRAM, folder, port, f"{folder}/own.json"), stdin=slave, stdout=slave, stderr=slave,
                           env=environment(work))
    os.close(slave)
    said, answers = "", [("Look at the case.", "\n"), ("Look at the clock.", "x it has none\n"),
                         ("Type the earth resistance.", "much\n0,12\n")]
    confirms = ["The hose is off", "Copy the settings as found", "Take the sensing line off", "Put the tool away",
                "Switch the unit off"]
    told = set()
    try:
        while run.poll() is None and time.monotonic() - began < 280:
            if not select.select([master], [], [], 0.2)[0]:
                continue
            try:
                said += os.read(master, 65536).decode(errors="replace")
            except OSError:
                break
            for sentence, keys in answers + [(sentence, "\n") for sentence in confirms]:
                if f": {sentence}" in said and sentence not in told:
                    told.add(sentence)
                    threading.Timer(0.5, os.write, (master, keys.encode())).start()
            # Questions of the hand-back list and of the signature: Enter.
            for question in ("[Enter: yes", "Enter: not read]", "Enter: operator 1;", "Role [Enter", "Meaning [Enter"):
                if said.count(question) > sum(1 for one in told if isinstance(one, tuple) and one[0] == question):
                    told.add((question, len(told)))
                    threading.Timer(0.3, os.write, (master, b"\n")).start()
        run.wait(20)
    finally:
        run.kill()
        simulated.terminate()
        simulated.wait(10)
    kept = [f for f in (f"{folder}/record", f"{folder}/record.part") if os.path.isdir(f)]
    if not kept:
        return f"no record\n{said[-3000:]}", ""
    answered = {item["item"]: item for item in json.load(open(f"{kept[0]}/run.json"))["checklist"]}
    expected = {"case": ("ok", ""), "clock": ("not-applicable", "it has none"),
                "earth resistance": ("ok", "0.12 ohm (at most 0.3, rule 7 of the tests)")}
    got = {name: (item["outcome"], item["remark"]) for name, item in answered.items()}
    spans = [(span["what"], span.get("power")) for span in json.load(open(f"{kept[0]}/run.json"))["spans"]]
    if got != expected or ("automatic", "mains") not in spans or spans[-1][0] != "zero-after":
        return f"{got}\n{spans}\n{said[-3000:]}", ""
    return None, f"{time.monotonic() - began:.0f} s"


def main():
    work = sys.argv[2]
    failures = 0
    jobs = [("wrong ones", lambda: wrong(work)), ("by hand", lambda: by_hand(work)), ("ladder", lambda: ladder(work))]
    jobs += [(name, lambda name=name: shipped(work, name)) for name in ("guided", "pre-delivery", "periodic", "home-visit")]
    results = {}
    threads = [threading.Thread(target=lambda name=name, job=job: results.update({name: job()})) for name, job in jobs]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    for name, _ in jobs:
        trouble, took = results.get(name, ("it broke off", ""))
        failures += trouble is not None
        print(f"{'FAILED ' if trouble else 'ok     '} {name} {took}" + (f": {trouble}" if trouble else ""))
    sys.exit(1 if failures else 0)


PROGRAM = sys.argv[1]
if __name__ == "__main__":
    main()
