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
    """The order is for the occasion of the procedure of that name; the others go by any."""
    folder = f"{work}/{name}"
    subprocess.run(["rm", "-rf", folder], check=True)
    os.makedirs(folder)
    # A healthy timer is a share off: at 5 s that is more than at 1 s.
    tolerances = dict(ORDER["tolerances"], duration={"absolute": 0.1, "relative": 0.05})
    with open(f"{folder}/order.json", "w") as out:
        occasion = name if name in ("periodic", "home-visit") else ORDER["occasion"]
        json.dump(dict(ORDER, tolerances=tolerances, occasion=occasion), out)
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
        if len(record.get("strength", [])) != 2 or "strength-under-flow" in record["not_tested"]:
            return f"strength: {record.get('strength')}"
    printed = subprocess.run([PROGRAM, "print", f"{folder}/record", "--out", f"{folder}/page.pdf"], stdin=subprocess.DEVNULL,
                             capture_output=True, text=True)
    words = subprocess.run(["pdftotext", "-layout", f"{folder}/page.pdf", "-"], capture_output=True, text=True).stdout
    if printed.returncode != 0 or "procedure" not in words or ", revision " not in words:
        return f"the printed record does not name the procedure: {printed.stderr}{words[:2000]}"
    if "procedure.json" not in open(f"{folder}/record/manifest.sha256").read():
        return "the manifest does not name procedure.json"
    return None


def shipped(work, name):
    folder = folder_for(work, name)
    text = subprocess.run([PROGRAM, "new", "procedure", "--like", name], capture_output=True, text=True, check=True).stdout
    asked = [step["item"] if "item" in step else "instrument check" for step in json.loads(text)["steps"]
             if "item" in step or step["kind"] == "instrument-check"]
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
    # A home visit by its steps, a delivery by the order: what is done at the end would be wrong for one of them.
    run = subprocess.run(command(PROGRAM, folder, "/dev/null", "home-visit", "--yes"), stdin=subprocess.DEVNULL,
                         capture_output=True, text=True, timeout=30, env=environment(work))
    if run.returncode != 2 or "'home-visit', the order is for 'pre-delivery'" not in run.stderr:
        return f"another occasion: exit {run.returncode}, {run.stderr}", ""
    ready = subprocess.run([PROGRAM, "--bench", BENCH, "ready", "--order", f"{folder}/order.json", "--procedure", "home-visit"],
                           stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=30, env=environment(work))
    if "MISS  procedure: " not in ready.stdout or "the order is for 'pre-delivery'" not in ready.stdout:
        return f"ready: {ready.stdout}{ready.stderr}", ""
    return None, f"{len(cases)} refused"


def at_the_keys(work, name, procedure, answers, bench_file=BENCH):
    """A person at the keys: each sentence of `answers` gets its keys, once, after as many seconds; questions get Enter."""
    folder = folder_for(work, name)
    with open(f"{folder}/own.json", "w") as out:
        json.dump(procedure, out)
    simulated, port = bench(PROGRAM, folder, ["--follow", "--seed", "3"])
    master, slave = pty.openpty()
    began = time.monotonic()
    typed = command(PROGRAM, folder, port, f"{folder}/own.json")
    typed[typed.index("--bench") + 1] = bench_file
    run = subprocess.Popen(typed, stdin=slave, stdout=slave, stderr=slave, env=environment(work))
    os.close(slave)
    said, told, asked = "", set(), 0
    questions = ("[Enter: yes", "Enter: not read]", "Enter: operator 1;", "Role [Enter", "Meaning [Enter")
    try:
        while run.poll() is None and time.monotonic() - began < 280:
            if not select.select([master], [], [], 0.2)[0]:
                continue
            try:
                said += os.read(master, 65536).decode(errors="replace")
            except OSError:
                break
            for sentence, keys, after_s in answers:
                if sentence in said and sentence not in told:
                    told.add(sentence)
                    threading.Timer(after_s, os.write, (master, keys.encode())).start()
            # Questions of the hand-back list and of the signature: Enter.
            for _ in range(sum(said.count(question) for question in questions) - asked):
                asked += 1
                threading.Timer(0.3, os.write, (master, b"\n")).start()
        run.wait(20)
    finally:
        run.kill()
        simulated.terminate()
        simulated.wait(10)
    kept = [f for f in (f"{folder}/record", f"{folder}/record.part") if os.path.isdir(f)]
    return folder, kept[0] if kept else None, said, f"{time.monotonic() - began:.0f} s"


CONFIRMS = [(f": {sentence}", "\n", 0.5) for sentence in (
    "Take the hose off", "Copy the settings as found", "Take the sensing line off", "Put the tool away", "Switch the unit off")]


def by_hand(work):
    """A person at the keys: one item in order, one not applicable, a value with a comma; then Enter until it is over."""
    answers = [(": Look at the case.", "\n", 0.5), (": Look at the clock.", "x it has none\n", 0.5),
               (": Type the earth resistance.", "much\n0,12\n", 0.5)]
    _, kept, said, took = at_the_keys(work, "by-hand", OWN, answers + CONFIRMS)
    if kept is None:
        return f"no record\n{said[-3000:]}", ""
    answered = {item["item"]: item for item in json.load(open(f"{kept}/run.json"))["checklist"]}
    expected = {"case": ("ok", ""), "clock": ("not-applicable", "it has none"),
                "earth resistance": ("ok", "0.12 ohm (at most 0.3, rule 7 of the tests)"),
                "Put the tool away.": ("ok", "confirmed")}
    got = {name: (item["outcome"], item["remark"]) for name, item in answered.items()}
    spans = [(span["what"], span.get("power")) for span in json.load(open(f"{kept}/run.json"))["spans"]]
    if got != expected or ("automatic", "mains") not in spans or spans[-1][0] != "zero-after":
        return f"{got}\n{spans}\n{said[-3000:]}", ""
    return None, took


def set_up(work):
    """The instrument against a second gauge, the set-up by itself, strength with an orifice: all in one run, by a person."""
    steps = [step for step in OWN["steps"] if step["kind"] not in ("check", "value", "confirm")]
    steps.insert(3, {"kind": "instrument-check"})
    steps.insert(4, {"kind": "leak-test"})
    steps.insert(7, {"kind": "strength", "orifice": "plate 2", "diameter": 8})
    own_bench = f"{work}/bench-with-gauge.json"
    with open(own_bench, "w") as out:
        json.dump(dict(json.load(open(BENCH)), second_gauge={"name": "water column 2", "uncertainty": 0.2}), out)
    gauge = [(f"Press to about {sign}{level} cmH2O and hold it", f"{sign}{level}.0\n", 6.0)
             for sign, level in (("+", 20), ("+", 40), ("-", 20), ("-", 40))]
    folder, kept, said, took = at_the_keys(work, "set-up", dict(OWN, steps=steps), gauge + CONFIRMS, own_bench)
    if kept is None or not os.path.exists(f"{kept}/record.json"):
        return f"no record\n{said[-3000:]}", ""
    record = json.load(open(f"{kept}/record.json"))
    item = {one["item"]: one for one in record["run"]["checklist"]}.get("instrument check", {})
    checks = json.load(open(f"{folder}/instrument.checks.json"))["checks"]
    if item.get("outcome") != "ok" or "water column 2" not in item["remark"] or len(checks[0]["points"]) != 4:
        return f"{item}\n{checks}\n{said[-3000:]}", ""
    if [leak["loss_cmH2O_per_s"] < 0.3 for leak in record.get("leak_test", [])] != [True, True]:
        return f"{record.get('leak_test')}\n{said[-3000:]}", ""
    shares = [round(one["share"], 2) for one in record.get("strength", [])]
    if len(shares) != 2 or not all(0.85 < share < 0.9 for share in shares) or "strength-under-flow" in record["not_tested"]:
        return f"{record.get('strength')}\n{said[-3000:]}", ""
    if record["verdict"] != "pass" or "Strength with orifice 'plate 2' (8 mm)" not in said:
        return f"{record['verdict']} {record['reasons']}\n{said[-3000:]}", ""
    checked = subprocess.run([PROGRAM, "recheck", kept], stdin=subprocess.DEVNULL, capture_output=True, text=True)
    return (None if checked.returncode == 0 else checked.stdout + checked.stderr), took


def main():
    work = sys.argv[2]
    failures = 0
    jobs = [("wrong ones", lambda: wrong(work)), ("by hand", lambda: by_hand(work)), ("ladder", lambda: ladder(work)),
            ("set-up and strength", lambda: set_up(work))]
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
