#!/usr/bin/env python3
"""The virtual bench in its three languages, healthy and with the faults of set-up and line, through `zeroline capture`.

usage: three_languages.py PROGRAM WORK_FOLDER

Every run is a process pair of its own, many at once. The bench shares no code with the decoders; what each fault must do
to a trace follows from its description in docs/virtual-bench.md.
"""
import concurrent.futures
import json
import os
import shutil
import statistics
import subprocess
import sys

LANGUAGES = {
    "lines": {"kind": "numeric-lines", "field": 2, "separator": ",", "count_field": 1, "unit": "cmH2O", "overrange_words": ["OL"]},
    "query": {"kind": "scpi-query", "query": "MEAS:PRES?", "unit": "Pa", "timeout_s": 0.3},
    "registers": {"kind": "modbus-rtu", "address": 1, "function": 4, "register": 2, "type": "float32", "word_order": "low-first",
                  "unit": "hPa", "timeout_s": 0.3},
}
CMH2O = {"lines": 1.0, "query": 1 / 98.0665, "registers": 1 / 0.980665}   # NIST SP 811, appendix B.8
SCRIPT = "open-to-air 1.5\nplug 0.5\nhold-exsufflation 2.5\nrelease 1\nopen-to-air 60\n"
SECONDS = 5.5
RATE = 100


def rate_with(fault):
    # At 100 Hz a hum of 50 Hz is met at one phase all along, now and then near its zeros; at 90 Hz at all of them.
    return 90 if fault.startswith("mains-hum") else RATE


def instrument(language, rate):
    return {"schema": "zeroline/instrument/1", "name": "invented", "serial": "1",
            "port": {"baud": 115200, "data_bits": 8, "parity": "none", "stop_bits": 1},
            "language": LANGUAGES[language], "range": {"low": -100, "high": 100, "resolution": 0.01, "unit": "cmH2O"},
            "rate": {"nominal_hz": rate, "clock_ppm": 100},
            "calibration": {"certificate": "CAL-1", "on": "2026-01-01", "due": "2099-01-01", "expanded_uncertainty": 0.2,
                            "coverage_factor": 2.0}}


class Captured:
    """A trace as the file has it, pressures in cmH2O."""

    def __init__(self, file, language):
        rows = [line.rstrip("\n").split(",") for line in open(file)]
        columns = {name: at for at, name in enumerate(rows[0])}
        value = next(at for name, at in columns.items() if name.startswith("pressure"))
        self.rows = rows[1:]
        self.times = [float(row[0]) for row in self.rows if row[value]]
        self.pressures = [float(row[value]) * CMH2O[language] for row in self.rows if row[value]]
        self.notes = [row[columns["note"]] for row in self.rows if row[columns["note"]]]
        self.counts = [int(row[columns["count"]]) for row in self.rows if row[value]] if "count" in columns else []

    def noted(self, word):
        return sum(word in note for note in self.notes)

    def lost(self):
        return sum(b - a - 1 for a, b in zip(self.counts, self.counts[1:]))

    def between(self, begin, end):
        return [p for t, p in zip(self.times, self.pressures) if begin <= t < end]


def capture(program, work, language, fault):
    folder = f"{work}/{language}-{fault or 'healthy'}"
    shutil.rmtree(folder, ignore_errors=True)
    os.makedirs(folder)
    with open(f"{folder}/instrument.json", "w") as out:
        json.dump(instrument(language, rate_with(fault)), out)
    with open(f"{folder}/script", "w") as out:
        out.write(("once\n" if "back" in fault else "") + SCRIPT)
    bench = subprocess.Popen([program, "virtual-bench", "--instrument", f"{folder}/instrument.json", "--script", f"{folder}/script",
                              "--link", f"{folder}/port", *(["--fault", fault] if fault else [])],
                             stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
    try:
        bench.stdout.readline()
        run = subprocess.run([program, "capture", "--port", f"{folder}/port", "--instrument", f"{folder}/instrument.json", "--out",
                              f"{folder}/trace.csv", "--seconds", str(SECONDS), "--wait", "10"],
                             stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=60)
    finally:
        bench.terminate()
        bench.wait(10)
    if run.returncode != 0:
        raise AssertionError(f"status {run.returncode}: {run.stderr}")
    return Captured(f"{folder}/trace.csv", language), run.stderr


def healthy(trace, said, language):
    # How often an instrument can be asked depends on how busy this computer is; what talks by itself must all be there.
    assert len(trace.times) > (0.9 if language == "lines" else 0.2) * RATE * SECONDS, f"{len(trace.times)} readings"
    assert "by count" not in said, said
    assert abs(statistics.mean(trace.between(0.3, 1.2))) < 0.4, "zero"
    assert -60 < min(trace.pressures) < -25, f"exsufflation to {min(trace.pressures)}"
    # A busy computer may answer too late, is asked again, and the late answer is let pass: that is told, and no fault.
    assert trace.notes == [] or "requests not answered" in said, f"{trace.notes} {said}"
    assert ("the instrument says it is" in said) == (language == "query"), said


def zero_offset(trace, _, __):
    assert 2.5 < statistics.mean(trace.between(0.3, 1.2)) < 3.5, "zero"


def mains_hum(trace, _, __):
    assert statistics.stdev(trace.between(0.3, 1.2)) > 0.5, "noise"


def swapped_ports(trace, _, __):
    assert max(trace.pressures) > 25, "exsufflation must read positive"


def one_sided(trace, _, __):
    assert -1.5 < min(trace.pressures) < -0.5, f"down to {min(trace.pressures)}"


def clipped(trace, _, __):
    lowest = min(trace.pressures)
    # Held for 2.5 of 5.5 s; how many readings that is depends on how often a busy computer could ask.
    assert sum(p < lowest + 0.02 for p in trace.pressures) > 0.2 * len(trace.pressures), "a flat end"


def unit_mismatch(trace, _, __):
    assert -6 < min(trace.pressures) < -2.5, f"down to {min(trace.pressures)}"   # kPa read as hPa, Pa or cmH2O: a tenth


def absolute(trace, _, __):
    assert min(trace.pressures) > 900, f"down to {min(trace.pressures)}"


def stuck(trace, _, __):
    since = longest = 0
    for at in range(1, len(trace.pressures)):
        since = since if trace.pressures[at] == trace.pressures[since] else at
        longest = max(longest, trace.times[at] - trace.times[since])
    assert longest > 0.5, f"the same reading for {longest} s at most"


def batches(trace, _, language):
    gaps = [b - a for a, b in zip(trace.times, trace.times[1:])]
    if language == "lines":
        assert sum(gap > 0.02 for gap in gaps) > 100, "readings come in bunches"
    else:
        assert statistics.median(gaps) > 0.015, "an answer waits for the next transfer"


def slow_sampling(trace, _, language):
    if language == "lines":
        assert 5 < len(trace.times) / SECONDS < 20, f"{len(trace.times)} readings"
    else:
        changes = sum(a != b for a, b in zip(trace.pressures, trace.pressures[1:]))
        assert changes < 0.3 * RATE * SECONDS, f"{changes} changes"


def dropped(trace, said, language):
    if language == "lines":
        assert trace.lost() > 3 and "readings lost by count" in said, said
    else:
        assert "requests not answered" in said, said
    healthy_zero(trace)


def damaged(trace, said, _):
    assert trace.noted("discarded") > 0 and "bytes not understood" in said, f"{trace.notes} {said}"
    healthy_zero(trace)


def healthy_zero(trace):
    assert all(abs(p) < 0.5 for p in trace.between(0.3, 1.2)), "nothing damaged may become a reading"


def away_and_back(trace, said, _):
    assert "is gone" in said and "is back" in said, said
    assert trace.noted("lost") == 1 and trace.noted("back") == 1, trace.notes
    gaps = [b - a for a, b in zip(trace.times, trace.times[1:])]
    assert 1.5 < max(gaps) < 4, f"a gap of {max(gaps)} s"


CHECKS = {
    "": healthy, "zero-offset=3": zero_offset, "mains-hum=3": mains_hum, "swapped-ports": swapped_ports, "one-sided-sensor": one_sided,
    "clipped": clipped, "unit-mismatch=0.0980665": unit_mismatch, "absolute-sensor": absolute, "stuck-reading@2.5s": stuck,
    "usb-batches=32": batches, "slow-sampling=10": slow_sampling, "dropped-samples=5": dropped, "garbage-bytes=5": damaged,
    "torn-frames=5": damaged, "unplugged-and-back=2@2s": away_and_back,
}


def trouble_of(fault, language, captured):
    try:
        CHECKS[fault](*captured(), language)
    except (AssertionError, ValueError, statistics.StatisticsError) as trouble:
        return str(trouble) or "the check failed"
    return None


def main():
    program, work = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
    jobs = [(language, fault) for language in LANGUAGES for fault in CHECKS]
    with concurrent.futures.ThreadPoolExecutor(23) as pool:
        runs = {job: pool.submit(capture, program, work, *job) for job in jobs}
    failures = 0
    for (language, fault), run in runs.items():
        trouble = trouble_of(fault, language, run.result)
        if trouble:   # dozens of programs at once hold each other up: what is wrong is wrong by itself too
            print(f"again   {language} {fault}: {trouble}")
            trouble = trouble_of(fault, language, lambda: capture(program, work, language, fault))
        failures += trouble is not None
        print(f"FAILED  {language} {fault}: {trouble}" if trouble else f"ok      {language} {fault}")
    sys.exit(1 if failures else 0)


if __name__ == "__main__":
    main()
