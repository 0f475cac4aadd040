#!/usr/bin/env python3
"""Broken input of every kind: exit status 2, one line that names the place, and nothing left behind.

usage: broken_input.py PROGRAM WORK_FOLDER
"""
import copy
import json
import math
import os
import shutil
import subprocess
import sys

ORDER = {
    "schema": "zeroline/work-order/1", "work_order": "WO-1", "occasion": "pre-delivery", "customer": "ward",
    "unit": {"asset": "RC-1", "serial": "K1", "model": "demonstration unit"},
    "prescription": {"reference": "RX-1", "presets": [
        {"name": "day", "insufflation": {"pressure": 40, "duration": 1.0},
         "exsufflation": {"pressure": -40, "duration": 1.0}, "pause": {"duration": 1.0}}]},
    "decision_rule": "simple", "cycles": 3,
}
INSTRUMENT = {
    "schema": "zeroline/instrument/1", "name": "transducer", "serial": "P1", "port": {"baud": 115200, "data_bits": 8,
    "parity": "none", "stop_bits": 1}, "language": {"kind": "numeric-lines", "unit": "cmH2O"},
    "range": {"low": -100, "high": 100, "resolution": 0.01, "unit": "cmH2O"}, "rate": {"nominal_hz": 100, "clock_ppm": 100},
    "calibration": {"certificate": "C1", "on": "2026-06-03", "due": "2027-06-03", "expanded_uncertainty": 0.2,
                    "coverage_factor": 2.0},
}
RUN = {"schema": "zeroline/run/1", "began": "2026-11-25T09:12:04+01:00",
       "spans": [{"what": "zero-before", "from_s": 0.0, "to_s": 4.0},
                 {"what": "automatic", "preset": "day", "from_s": 4.0, "to_s": 9.0}]}
BENCH = {"schema": "zeroline/bench/1", "organisation": "workshop", "address": "street"}
TRACE = "time_s,pressure_cmH2O\n" + "".join(f"{i / 100:.2f},{0.01 * math.sin(i):.4f}\n" for i in range(1001))


def changed(tree, path, value):
    """A copy of a tree with the value at a path put in; the value None takes the member out."""
    tree = copy.deepcopy(tree)
    place = tree
    for key in path[:-1]:
        place = place[key]
    if value is None:
        del place[path[-1]]
    else:
        place[path[-1]] = value
    return tree


def with_line(number, text):
    lines = TRACE.split("\n")
    lines[number - 1] = text
    return "\n".join(lines)


DAY = ["prescription", "presets", 0]
# What is wrong, the file it is in, its content, what the one line must name.
FILES = [
    ("order cut short", "order.json", '{\n  "schema": "zeroline/work-order/1",\n', ["order.json", "line 3"]),
    ("order with a comma too many", "order.json", '{\n"schema": "zeroline/work-order/1",\n}', ["order.json", "line 2, column 34", "comma behind the last one"]),
    ("order with a key twice", "order.json", '{"schema": "a",\n "schema": "b"}', ["order.json", "line 2", "schema"]),
    ("order that is no object", "order.json", "[]", ["order.json", "object"]),
    ("order that is empty", "order.json", "", ["order.json", "line 1"]),
    ("order that is nothing but spaces", "order.json", " \n \n", ["order.json", "nothing in it"]),
    ("trace of nothing but its header", "trace.csv", "time_s,pressure_cmH2O\n", ["trace.csv", "no row has a reading"]),
    ("order that is binary", "order.json", "\x00\x01\x02", ["order.json", "line 1"]),
    ("order of a newer version", "order.json", changed(ORDER, ["schema"], "zeroline/work-order/2"), ["/schema", "2", "1"]),
    ("instrument as order", "order.json", INSTRUMENT, ["order.json", "/"]),
    ("order without a number", "order.json", changed(ORDER, ["work_order"], None), ["/work_order", "missing"]),
    ("order with an unknown key", "order.json", changed(ORDER, ["flavour"], 1), ["/flavour", "unknown key"]),
    ("positive exsufflation", "order.json", changed(ORDER, DAY + ["exsufflation", "pressure"], 40),
     ["/prescription/presets/0/exsufflation/pressure", "negative"]),
    ("negative insufflation", "order.json", changed(ORDER, DAY + ["insufflation", "pressure"], -40),
     ["/prescription/presets/0/insufflation/pressure", "positive"]),
    ("pressure beyond plausibility", "order.json", changed(ORDER, DAY + ["insufflation", "pressure"], 400),
     ["/prescription/presets/0/insufflation/pressure", "70"]),
    ("duration beyond plausibility", "order.json", changed(ORDER, DAY + ["exsufflation", "duration"], 0.1),
     ["/prescription/presets/0/exsufflation/duration", "0.2"]),
    ("pause beyond plausibility", "order.json", changed(ORDER, DAY + ["pause", "duration"], 0.1),
     ["/prescription/presets/0/pause/duration"]),
    ("text for a pressure", "order.json", changed(ORDER, DAY + ["insufflation", "pressure"], "40"),
     ["/prescription/presets/0/insufflation/pressure"]),
    ("no preset", "order.json", changed(ORDER, ["prescription", "presets"], []), ["/prescription/presets"]),
    ("two presets of one name", "order.json",
     changed(ORDER, ["prescription", "presets"], 2 * ORDER["prescription"]["presets"]), ["/prescription/presets/1"]),
    ("tolerance without a basis", "order.json", changed(ORDER, ["tolerances"], {"pressure": {"absolute": 2}}),
     ["/tolerances", "basis"]),
    ("unknown occasion", "order.json", changed(ORDER, ["occasion"], "birthday"), ["/occasion", "home-visit"]),
    ("unknown decision rule", "order.json", changed(ORDER, ["decision_rule"], "kind"), ["/decision_rule", "guarded"]),
    ("half a cycle", "order.json", changed(ORDER, ["cycles"], 2.5), ["/cycles"]),
    ("day that does not exist", "order.json", changed(ORDER, ["prescription", "ordered_on"], "2026-02-30"),
     ["/prescription/ordered_on"]),
    ("instrument of an unknown unit", "instrument.json", changed(INSTRUMENT, ["language", "unit"], "cmh2o"),
     ["instrument.json", "/language/unit"]),
    ("instrument of an unknown language", "instrument.json", changed(INSTRUMENT, ["language", "kind"], "morse"),
     ["/language/kind"]),
    ("range the wrong way round", "instrument.json", changed(INSTRUMENT, ["range", "low"], 200), ["/range"]),
    ("no rate", "instrument.json", changed(INSTRUMENT, ["rate"], None), ["/rate"]),
    ("negative uncertainty", "instrument.json", changed(INSTRUMENT, ["calibration", "expanded_uncertainty"], -1),
     ["/calibration/expanded_uncertainty"]),
    ("calibration points not in order", "instrument.json",
     changed(INSTRUMENT, ["calibration", "points"], [[0, 0], [-10, -10]]), ["/calibration/points"]),
    ("calibration due before it was made", "instrument.json", changed(INSTRUMENT, ["calibration", "due"], "2020-01-01"),
     ["/calibration/due"]),
    ("run log of an unknown preset", "run.json", changed(RUN, ["spans", 1, "preset"], "night"), ["run.json", "/spans/1/preset"]),
    ("spans that overlap", "run.json", changed(RUN, ["spans", 1, "from_s"], 1.0), ["/spans/"]),
    ("span outside the trace", "run.json", changed(RUN, ["spans", 1, "to_s"], 99.0), ["/spans/1"]),
    ("span that ends before it begins", "run.json", changed(RUN, ["spans", 0, "to_s"], -1.0), ["/spans/0"]),
    ("unknown kind of span", "run.json", changed(RUN, ["spans", 0, "what"], "lunch"), ["/spans/0/what"]),
    ("no moment", "run.json", changed(RUN, ["began"], "yesterday"), ["/began"]),
    ("bench with an unknown key", "bench.json", changed(BENCH, ["colour"], "blue"), ["bench.json", "/colour"]),
    ("bench with a limit of nothing", "bench.json", changed(BENCH, ["house"], {"limits": {"zero_offset": 0}}),
     ["/house/limits/zero_offset"]),
    ("trace without a header", "trace.csv", "0,0\n1,1\n", ["trace.csv", "line 1"]),
    ("trace without a pressure", "trace.csv", "time_s,colour\n0,1\n", ["trace.csv", "line 1"]),
    ("trace of an unknown unit", "trace.csv", "time_s,pressure_furlong\n0,1\n", ["trace.csv", "line 1"]),
    ("text in a number", "trace.csv", with_line(500, "4.98,loud"), ["trace.csv", "line 500"]),
    ("not a number in a trace", "trace.csv", with_line(500, "4.98,nan"), ["trace.csv", "line 500"]),
    ("infinity in a trace", "trace.csv", with_line(500, "4.98,inf"), ["trace.csv", "line 500"]),
    ("time that runs backwards", "trace.csv", with_line(500, "1.00,0.0"), ["trace.csv", "line 500"]),
    ("a row with a cell missing", "trace.csv", with_line(500, "4.98"), ["trace.csv", "line 500"]),
    ("trace that is empty", "trace.csv", "", ["trace.csv"]),
]
ASSESS = ["--bench", "bench.json", "assess", "--order", "order.json", "--trace", "trace.csv", "--instrument",
          "instrument.json", "--run", "run.json", "--out", "out"]
LINE = ["--instrument", "instrument.json"]
VERIFY = ["verify", "--order", "order.json", *LINE, "--out", "out"]
# What is wrong, the command line, what the one line must name.
COMMANDS = [
    ("unknown command", ["measure"], ["measure"]),
    ("no command, and no display for the window", ["--bench", "bench.json"], ["zeroline --help"]),
    ("an unknown language", ["--language", "xx", "ports"], ["--language", "xx"]),
    ("a global option with a wrong value behind the command", ["ports", "--language", "xx"], ["--language", "xx"]),
    ("unknown option", ["ports", "--loud"], ["--loud"]),
    ("no order", ["assess", "--trace", "trace.csv"], ["--order"]),
    ("no trace", ["assess", "--order", "order.json"], ["--trace"]),
    ("folders beside files", ["assess", "out", "--order", "order.json"], ["either"]),
    ("a folder that is no record", ["assess", "nowhere"], ["nowhere"]),
    ("an order that is not there", ["assess", "--order", "nowhere.json", "--trace", "trace.csv"], ["nowhere.json", "No such file"]),
    ("a folder for an order", ["assess", "--order", ".", "--trace", "trace.csv"], ["folder"]),
    ("a bench file that is not there", ["--bench", "nowhere.json", *ASSESS[2:]], ["nowhere.json"]),
    ("a record that would be overwritten", [*ASSESS[:-1], "there"], ["there", "already"]),
    ("an unfinished run of that name", [*ASSESS[:-1], "left"], ["left.part"]),
    ("no value for an option", ["assess", "--order"], ["--order"]),
    ("unknown template", ["new", "cake"], ["cake"]),
    ("template over a file", ["new", "order", "--out", "order.json"], ["order.json", "already"]),
    ("verify without a port", VERIFY, ["--port"]),
    ("verify at a port that is not there", [*VERIFY, "--port", "/dev/nowhere"], ["/dev/nowhere"]),
    ("verify with nobody to ask", [*VERIFY, "--port", "/dev/null"], ["standard input"]),
    ("--yes on what is no pseudo-terminal", [*VERIFY, "--port", "/dev/null", "--yes"], ["--yes", "pseudo-terminal"]),
    ("a displayed value of an unknown preset", [*VERIFY, "--port", "/dev/null", "--displayed", "night=+40/-40"],
     ["--displayed", "night", "day"]),
    ("a displayed value without an exsufflation", [*VERIFY, "--port", "/dev/null", "--displayed", "day=40"], ["--displayed"]),
    ("an environment nobody can read", [*VERIFY, "--port", "/dev/null", "--environment", "warm"], ["--environment"]),
    ("an attempt that is no number", [*VERIFY, "--port", "/dev/null", "--attempt", "first"], ["--attempt", "first"]),
    ("half an attempt", [*VERIFY, "--port", "/dev/null", "--attempt", "1.5"], ["--attempt", "whole number"]),
    ("a cause without an attempt", [*VERIFY, "--port", "/dev/null", "--cause", "plug"], ["--replaces", "--evidence"]),
    ("a cause outside the set-up", [*VERIFY, "--port", "/dev/null", "--replaces", "1", "--cause", "weather"], ["--cause", "plug"]),
    ("an attempt that replaces itself", [*VERIFY, "--port", "/dev/null", "--replaces", "1", "--cause", "plug", "--evidence",
                                         "it leaked"], ["--replaces", "before this one"]),
    ("a wait that is no number", [*VERIFY, "--port", "/dev/null", "--wait", "soon"], ["--wait"]),
    ("capture at a port that is not there", ["capture", "--port", "/dev/nowhere", *LINE, "--out", "new.csv"], ["/dev/nowhere"]),
    ("capture over a trace", ["capture", "--port", "/dev/null", *LINE, "--out", "trace.csv"], ["trace.csv", "already"]),
    ("capture for no time", ["capture", "--port", "/dev/null", *LINE, "--out", "new.csv", "--seconds", "-1"], ["--seconds"]),
    ("capture at a file", ["capture", "--port", "order.json", *LINE, "--out", "new.csv"], ["order.json"]),
    ("listen at a port that is not there", ["listen", "--port", "/dev/nowhere", *LINE], ["/dev/nowhere"]),
    ("a day that is none", ["ready", "--on", "2026-02-30"], ["--on", "2026-02-30", "YYYY-MM-DD"]),
    ("an unknown fault", ["virtual-bench", "--fault", "hiccup"], ["hiccup", "low-insufflation"]),
    ("a fault of no size", ["virtual-bench", "--fault", "residual=big"], ["big"]),
    ("a seed that is no number", ["virtual-bench", "--seed", "seven"], ["--seed"]),
    ("following nothing", ["virtual-bench", "--follow"], ["--follow", "--panel"]),
    ("following and a script", ["virtual-bench", "--follow", "--panel", "panel", "--script", "script.txt"], ["--follow"]),
    ("a script with an unknown word", ["virtual-bench", "--script", "script.txt"], ["script.txt", "line 2"]),
]


def write(folder, name, content):
    with open(os.path.join(folder, name), "w", encoding="latin-1") as out:
        out.write(content if isinstance(content, str) else json.dumps(content, indent=1))


def fresh(work):
    shutil.rmtree(work, ignore_errors=True)
    os.makedirs(os.path.join(work, "there"))
    os.makedirs(os.path.join(work, "left.part"))
    for name, content in [("order.json", ORDER), ("instrument.json", INSTRUMENT), ("run.json", RUN), ("bench.json", BENCH),
                          ("trace.csv", TRACE), ("script.txt", "plug 1\njump 2\n")]:
        write(work, name, content)


def run(program, work, arguments):
    environment = dict(os.environ, XDG_CONFIG_HOME=os.path.join(work, "nowhere"))
    for display in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        environment.pop(display, None)
    return subprocess.run([program, *arguments], cwd=work, stdin=subprocess.DEVNULL, capture_output=True, text=True,
                          timeout=30, env=environment)


def troubles_of(program, work, arguments, names):
    before = sorted(os.listdir(work))
    done = run(program, work, arguments)
    lines = done.stderr.splitlines()
    troubles = []
    if done.returncode != 2:
        troubles.append(f"status {done.returncode}, expected 2")
    if len(lines) != 1:
        troubles.append(f"{len(lines)} lines, expected one")
    if done.stdout:
        troubles.append("a result on standard output")
    troubles += [f"'{name}' is not named" for name in names if name not in done.stderr]
    if sorted(os.listdir(work)) != before:
        troubles.append(f"left behind: {sorted(set(os.listdir(work)) - set(before))}")
    return [f"{trouble}: {done.stderr.strip()}" for trouble in troubles]


def main():
    program, work = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
    fresh(work)
    whole = run(program, work, ASSESS)
    failures = [] if whole.returncode == 3 else [f"the whole input: status {whole.returncode}: {whole.stderr}"]
    cases = [(what, name, content, ASSESS, names) for what, name, content, names in FILES]
    cases += [(what, None, None, arguments, names) for what, arguments, names in COMMANDS]
    for what, name, content, arguments, names in cases:
        fresh(work)
        if name:
            write(work, name, content)
        failures += [f"{what}: {trouble}" for trouble in troubles_of(program, work, arguments, names)]
    print(f"{len(cases)} kinds of broken input, {len(failures)} troubles")
    for failure in failures:
        print("  " + failure)
    sys.exit(1 if failures else 0)


if __name__ == "__main__":
    main()
