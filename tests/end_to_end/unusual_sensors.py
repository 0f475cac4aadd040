#!/usr/bin/env python3
"""Eight unusual sensors, each played on a pseudo-terminal by this script, from instrument file to trace and to record.

usage: unusual_sensors.py PROGRAM WORK_FOLDER SOURCE_FOLDER

The script shares nothing with the program: it knows docs/instruments.md only, and makes its checksums with the standard
library of Python. Each sensor repeats five pressures; the trace must hold them, in order, in the unit of its column.
Then each plays a unit that cycles: its capture must end in a record that passes, with the levels that were played.
One sensor goes the way of a person without a file: --raw, --find --out, capture; and two are refused as they must.
"""
import binascii
import concurrent.futures
import functools
import json
import math
import operator
import os
import pty
import re
import select
import shutil
import subprocess
import sys
import threading
import time
import tty

PRESSURES = [-40.03, -12.5, 0.0, 7.25, 40.0]
PASCAL = {"cmH2O": 98.0665, "mmH2O": 9.80665, "hPa": 100.0, "mbar": 100.0, "Pa": 1.0}   # NIST SP 811, appendix B.8
RATE_HZ = 100
STX, ETX = "\x02", "\x03"


def xor(text):
    return f"{functools.reduce(operator.xor, text.encode()):02X}"


def crc(text):
    return f"{binascii.crc_hqx(text.encode(), 0xFFFF):04X}"   # CRC-16/CCITT


def total(text):
    return f"{sum(text.encode()) % 256:02X}"


def lines(**keys):
    return {"kind": "numeric-lines", **keys}


def sentence(p, i):
    body = f"PPRS,{i},{p:.2f}"
    return f"${body}*{xor(body)}\r\n"


def answer(p, i):
    body = f">{p:+.2f}"
    return f"{body}*{crc(body)}\r"


# Name: language, what the sensor says of pressure p at count i, the query it waits for.
SENSORS = {
    "unit in the field": (lines(unit="hPa", unit_field=1), lambda p, i: f"{p:.2f}hPa\r\n", None),
    "named fields": (lines(unit="cmH2O", separator=";", field="P", unit_field="P", count_field="N"),
                     lambda p, i: f"P={p:+.2f}cmH2O;T=21.5;N={i}\r\n" if i % 2 else f"N={i};P={p:+.2f}cmH2O;T=21.5\r\n", None),
    "frames without line ends": (lines(unit="cmH2O", frame_start=STX, frame_end=ETX, scale=0.01, offset=-100),
                                 lambda p, i: f"{STX}{round((p + 100) * 100)}{ETX}", None),
    "quoted fields": (lines(unit="mmH2O", field=2, unit_field=3, count_field=1),
                      lambda p, i: f'"{i}","{p:.2f}","mmH2O","ward 4, bed 2"\r\n', None),
    "sentence with xor": (lines(unit="cmH2O", prefix="$PPRS,", field=2, count_field=1, checksum="xor8"), sentence, None),
    "sum behind the frame": (lines(unit="mbar", unit_field=1, frame_start=STX, checksum="sum8", checksum_separator=ETX),
                             lambda p, i: f"{STX}{p:.2f} mbar{ETX}{total(f'{p:.2f} mbar')}\r\n", None),
    "query of its own": ({"kind": "polled-lines", "unit": "cmH2O", "query": "RD01", "line_end": "\r", "prefix": ">",
                          "checksum": "crc16-ccitt"}, answer, "RD01\r"),
    "suction positive": ({"kind": "scpi-query", "unit": "Pa", "query": "READ?", "scale": -1}, lambda p, i: f"{-p:.2f}\n", "READ?\n"),
}


# A unit that cycles: cmH2O and seconds. Rest, eight cycles, rest; each level is reached as a first-order lag reaches it.
PLATEAU, PHASE_S, REST_S, CYCLES, LAG_S = 40.0, 1.0, 8.0, 8, 0.03
PLAYED = [(0.0, REST_S), *[(level, PHASE_S) for _ in range(CYCLES) for level in (PLATEAU, -PLATEAU, 0.0)], (0.0, REST_S)]


def cycling(t):
    """The pressure in cmH2O, t seconds after the sensor was switched on."""
    pressure = 0.0
    for level, lasts in PLAYED:
        pressure = level + (pressure - level) * math.exp(-min(t, lasts) / LAG_S)
        t -= lasts
        if t < 0:
            break
    return pressure


class Sensor:
    """Plays until closed: five pressures in turn, or those of `pressure`, which is given seconds.

    Where it is not asked it reads 100 times a second by its own clock: what a busy computer held up comes late, all at once.
    """

    def __init__(self, says, query=None, pressure=None):
        self.pressure = pressure
        self.master, self.slave = pty.openpty()
        tty.setraw(self.slave)
        os.set_blocking(self.master, False)
        self.port, self.says, self.query, self.over = os.ttyname(self.slave), says, query, False
        self.thread = threading.Thread(target=self.play)
        self.thread.start()

    def play(self):
        asked, count, began = "", 0, time.monotonic()
        while not self.over:
            if self.query:
                if select.select([self.master], [], [], 0.05)[0]:
                    asked += os.read(self.master, 4096).decode("ascii", "replace")
                while self.query in asked:
                    asked = asked[asked.index(self.query) + len(self.query):]
                    count += self.say(count, time.monotonic() - began)
                continue
            self.say(count, count / RATE_HZ)
            count += 1
            time.sleep(max(0.0, began + count / RATE_HZ - time.monotonic()))

    def say(self, count, t):
        pressure = self.pressure(t) if self.pressure else PRESSURES[count % len(PRESSURES)]
        try:
            os.write(self.master, self.says(pressure, count).encode())
            return 1
        except BlockingIOError:   # nobody reads
            return 0

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.over = True
        self.thread.join()
        os.close(self.master)
        os.close(self.slave)


def instrument(language):
    return {"schema": "zeroline/instrument/1", "name": "invented", "serial": "1",
            "port": {"baud": 115200, "data_bits": 8, "parity": "none", "stop_bits": 1}, "language": language,
            "range": {"low": -100, "high": 100, "resolution": 0.01, "unit": "cmH2O"},
            "rate": {"nominal_hz": 100, "clock_ppm": 100},
            "calibration": {"certificate": "CAL-1", "on": "2026-01-01", "due": "2099-01-01", "expanded_uncertainty": 0.2,
                            "coverage_factor": 2.0}}


def run(program, *arguments):
    return subprocess.run([program, *arguments], stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=60)


def fresh(path):
    if os.path.exists(path):
        os.remove(path)
    return path


def captured(program, sensor, file, trace, unit):
    """The pressures of a second's trace, in `unit`."""
    ran = run(program, "capture", "--port", sensor.port, "--instrument", file, "--out", fresh(trace), "--seconds", "1", "--wait", "10")
    assert ran.returncode == 0, f"status {ran.returncode}: {ran.stderr}"
    rows = [line.rstrip("\n").split(",") for line in open(trace)]
    at = next(i for i, name in enumerate(rows[0]) if name.startswith("pressure_"))
    factor = PASCAL[rows[0][at].removeprefix("pressure_")] / PASCAL[unit]
    return [float(row[at]) * factor for row in rows[1:] if row[at]]


def check_pressures(found):
    assert len(found) > 20, f"{len(found)} readings"
    steps = [min(range(len(PRESSURES)), key=lambda i: abs(PRESSURES[i] - p)) for p in found]
    wrong = [p for p, i in zip(found, steps) if abs(p - PRESSURES[i]) > 1e-6]
    assert not wrong, f"never sent: {wrong[:5]}"
    in_order = sum((b - a) % len(PRESSURES) == 1 for a, b in zip(steps, steps[1:]))
    assert in_order > 0.9 * (len(steps) - 1), f"{in_order} of {len(steps) - 1} follow each other"


def from_file_to_trace(program, work, name):
    language, says, query = SENSORS[name]
    file, trace = (f"{work}/{name.replace(' ', '-')}.{end}" for end in ("json", "csv"))
    with open(file, "w") as out:
        json.dump(instrument(language), out)
    with Sensor(says, query) as sensor:
        check_pressures(captured(program, sensor, file, trace, language["unit"]))


def order_and_run(work, source):
    """The demonstration's order with the times that are played, and what was confirmed and seen while they were."""
    with open(f"{source}/fixtures/demonstration/order.json") as file:
        order = json.load(file)
    preset = order["prescription"]["presets"][0]
    preset["insufflation"]["duration"] = preset["exsufflation"]["duration"] = preset["pause"]["duration"] = PHASE_S
    cycles_s = 3 * PHASE_S * CYCLES
    run_log = {"schema": "zeroline/run/1", "operator": "operator 3", "place": "workshop", "began": "2026-11-25T09:12:04+01:00",
               "spans": [{"what": "zero-before", "from_s": 0.5, "to_s": REST_S - 2},
                         {"what": "automatic", "preset": preset["name"], "from_s": REST_S - 1.5, "to_s": REST_S + cycles_s + 0.5},
                         {"what": "zero-after", "from_s": REST_S + cycles_s + 1, "to_s": REST_S + cycles_s + REST_S - 2}],
               "confirmed": ["no-patient-connected", "outlet-blocked", "trigger-off"], "restored": True, "origin": "captured-here",
               "displayed": [{"preset": preset["name"], "insufflation": PLATEAU, "exsufflation": -PLATEAU, "shows": "live"}]}
    for name, content in (("order", order), ("run", run_log)):
        with open(f"{work}/{name}.json", "w") as out:
            json.dump(content, out)


def from_file_to_record(program, work, source, name):
    language, says, query = SENSORS[name]
    file, trace, record = (f"{work}/{name.replace(' ', '-')}-{end}" for end in ("unit.json", "unit.csv", "record"))
    with open(file, "w") as out:
        json.dump(instrument(language) | {"rate": {"nominal_hz": 50 if query else 100, "clock_ppm": 100}}, out)
    for folder in (record, record + ".part"):
        shutil.rmtree(folder, ignore_errors=True)
    factor = PASCAL["cmH2O"] / PASCAL[language["unit"]]
    with Sensor(says, query, lambda t: factor * cycling(t)) as sensor:
        ran = run(program, "capture", "--port", sensor.port, "--instrument", file, "--out", fresh(trace), "--seconds",
                  str(sum(lasts for _, lasts in PLAYED) - 1), "--wait", "10")
    assert ran.returncode == 0, f"capture: status {ran.returncode}: {ran.stderr}"
    judged = run(program, "--bench", f"{source}/fixtures/demonstration/bench.json", "assess", "--trace", trace, "--order", f"{work}/order.json", "--instrument", file, "--run", f"{work}/run.json",
                 "--out", record, "--signer", "Operator Three", "--role", "operator")
    assert judged.returncode == 0, f"assess: status {judged.returncode}: {judged.stdout} {judged.stderr}"
    checked = run(program, "recheck", record)
    assert checked.returncode == 0, f"recheck: status {checked.returncode}: {checked.stdout} {checked.stderr}"
    with open(f"{record}/record.json") as file:
        found = json.load(file)
    assert found["verdict"] == "pass", found["verdict"]
    for judged in found["judgements"][:2]:
        assert abs(abs(judged["mean"]) - PLATEAU) < 0.02 and judged["n"] >= 5, judged


def without_a_file(program, work):
    with Sensor(SENSORS["unit in the field"][1]) as sensor:
        raw = run(program, "listen", "--port", sensor.port, "--raw", "--seconds", "0.5")
        assert raw.returncode == 0 and "\n-40.03hPa\n" in raw.stdout, f"{raw.returncode} {raw.stdout[:200]} {raw.stderr}"
        file = fresh(f"{work}/found.json")
        found = run(program, "listen", "--port", sensor.port, "--find", "--out", file)
        assert found.returncode == 0, f"{found.returncode} {found.stdout} {found.stderr}"
        assert re.search(r"reads -?\d+\.\d+ hPa", found.stdout), found.stdout
        again = run(program, "listen", "--port", sensor.port, "--find", "--out", file)
        assert again.returncode != 0 and "nothing is overwritten" in again.stderr, again.stderr
        check_pressures(captured(program, sensor, file, f"{work}/found.csv", "hPa"))


def unknown_unit(program, work):
    with Sensor(lambda p, i: f"{p:.2f} furlong\r\n") as sensor:
        file = fresh(f"{work}/furlong.json")
        found = run(program, "listen", "--port", sensor.port, "--find", "--out", file)
    assert found.returncode != 0 and '"furlong"' in found.stderr and "cmH2O" not in found.stdout, f"{found.stdout} {found.stderr}"
    assert not os.path.exists(file)


def beyond_the_range(program, work):
    file = f"{work}/too-large.json"
    with open(file, "w") as out:
        json.dump(instrument(lines(unit="cmH2O")), out)
    with Sensor(lambda p, i: f"{10 * p:.2f}\r\n") as sensor:
        heard = run(program, "listen", "--port", sensor.port, "--instrument", file, "--seconds", "1", "--wait", "10")
    assert "beyond the range of the instrument file" in heard.stderr, heard.stderr
    assert re.search(r"; \d+ beyond the range", heard.stdout), heard.stdout


def main():
    program, work, source = map(os.path.abspath, sys.argv[1:4])
    os.makedirs(work, exist_ok=True)
    order_and_run(work, source)
    jobs = {f"{name}, to a trace": functools.partial(from_file_to_trace, program, work, name) for name in SENSORS}
    jobs |= {f"{name}, to a record": functools.partial(from_file_to_record, program, work, source, name) for name in SENSORS}
    jobs |= {job.__name__: functools.partial(job, program, work) for job in (without_a_file, unknown_unit, beyond_the_range)}
    failures = 0
    with concurrent.futures.ThreadPoolExecutor(len(jobs)) as pool:
        runs = {name: pool.submit(job) for name, job in jobs.items()}
        for name, ran in runs.items():
            trouble = ran.exception()
            failures += trouble is not None
            print(f"FAILED  {name}: {trouble!r}" if trouble else f"ok      {name}")
    sys.exit(1 if failures else 0)


if __name__ == "__main__":
    main()
