#!/usr/bin/env python3
"""Every fault of the virtual bench over the wire: bench on a pseudo-terminal, `zeroline verify`, record; verdict and
findings are held against diagnosis_table.json. Prints a table; each run of a middle or large size that was not as it must
be is told as it ends.

Both programs are the real ones; their clock runs K times faster (faster_clock.cpp, preloaded).
Ends with status 1 where less than 95 % of the middle and large sizes, or 99 % of the healthy units, are right.
"""
import argparse
import concurrent.futures
import json
import os
import shutil
import subprocess
import sys
import tempfile
import time

HERE = os.path.dirname(os.path.abspath(__file__))
DEMONSTRATION = os.path.join(HERE, "..", "..", "fixtures", "demonstration")
TABLE = json.load(open(os.path.join(HERE, "diagnosis_table.json")))["faults"]
NAMES_OF_SIZES = ["small", "middle", "large"]
HEALTHY = {"fault": "healthy", "sizes": [0], "verdict": ["pass"], "named": ["none"]}
LONGEST_S = 900  # of the bench's clock; no run takes so long
OSCILLATION = {"frequency": 10, "amplitude": 4, "during": "both"}


def written(path, tree):
    with open(path, "w") as out:
        json.dump(tree, out)
    return path


def order_for(fault):
    """The demonstration's order with the house tolerances."""
    order = json.load(open(f"{DEMONSTRATION}/order.json"))
    del order["tolerances"]
    if fault == "oscillation-weak":
        order["prescription"]["presets"][0]["oscillation"] = OSCILLATION
    return order


class Wire:
    """A bench, a run and their record."""

    def __init__(self, options, row, size, seed):
        self.row, self.size, self.seed = row, size, seed
        self.options = options
        self.fault = [] if row is HEALTHY else ["--fault", row["fault"] + (f"={size:g}" if size else "")]

    def play(self):
        folder = tempfile.mkdtemp(dir=self.options.work)
        try:
            status, said = self.run_in(folder)
            self.look_at(self.record_in(folder), status, said)
        except (OSError, ValueError, subprocess.SubprocessError) as error:
            self.verdict, self.findings, self.right, self.is_named = f"no record: {error}", [], False, False
        finally:
            shutil.rmtree(folder, ignore_errors=True)
        return self

    def run_in(self, folder):
        options = self.options
        environment = dict(os.environ, LD_PRELOAD=options.clock, ZEROLINE_TEST_SPEED=str(options.speed),
                           XDG_DATA_HOME=f"{options.work}/data", XDG_CONFIG_HOME=f"{options.work}/nowhere")
        shutil.copy(f"{DEMONSTRATION}/instrument.json", folder)
        files = ["--order", written(f"{folder}/order.json", order_for(self.row["fault"])), "--instrument",
                 f"{folder}/instrument.json", "--panel", f"{folder}/panel"]
        bench = subprocess.Popen([options.program, "virtual-bench", *files, "--follow", "--link", f"{folder}/port",
                                  "--seed", str(self.seed), *self.fault], env=environment, stdin=subprocess.DEVNULL,
                                 stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
        try:
            bench.stdout.readline()
            run = subprocess.run([options.program, "--bench", f"{DEMONSTRATION}/bench.json", "verify", "--yes", *files,
                                  "--port", f"{folder}/port", "--operator", "operator 1", "--place", "workshop",
                                  "--out", f"{folder}/record"], env=environment, stdin=subprocess.DEVNULL,
                                 capture_output=True, text=True, timeout=60 + LONGEST_S / options.speed)
        finally:
            bench.terminate()
            bench.wait(10)
        return run.returncode, run.stdout + run.stderr

    def record_in(self, folder):
        """A run that was not seen to its end has no record.json until somebody asks for it."""
        kept = next((path for path in (f"{folder}/record", f"{folder}/record.part") if os.path.exists(path)), None)
        if kept is None or os.path.exists(f"{kept}/record.json"):
            return kept and json.load(open(f"{kept}/record.json"))
        judged = subprocess.run([self.options.program, "assess", "--json", kept], stdin=subprocess.DEVNULL, text=True,
                                capture_output=True, timeout=120,
                                env=dict(os.environ, XDG_DATA_HOME=f"{self.options.work}/data"))
        return json.loads(judged.stdout) if judged.stdout else None

    def look_at(self, record, status, said):
        if record is None:
            self.verdict, self.findings = f"no record, exit {status}: {said.strip()[-300:]}", []
        else:
            self.verdict = record["verdict"] + (", critical" if record["critical"] else "")
            self.findings = sorted({finding["code"] for finding in record["findings"]})
        self.right = record is not None and self.is_right(record)
        self.is_named = record is not None and any(code == "none" or set(code.split("+")) <= set(self.findings)
                                                   for code in self.row["named"])

    def is_right(self, record):
        """By its tolerances: what is judged is what counts, and nothing is left open."""
        by_tolerances = "fail" if any(one["verdict"] == "fail" for one in record["judgements"]) else "pass"
        words = {by_tolerances if word == "judged" else word for word in self.row["verdict"]}
        accuracy = self.row.get("unit_accuracy")
        return self.verdict in words and accuracy in (None, record["unit_accuracy"])

    def was_held_up(self):
        """By a busy machine: no record came of it, or readings got lost that the fault does not lose."""
        return self.verdict.startswith("no record") or ("gap" in self.findings and "gap" not in self.row["named"])

    def told(self):
        return (f"{self.row['fault']} {self.size:g} seed {self.seed}: verdict {self.verdict}, expected "
                f"{' or '.join(self.row['verdict'])}; findings {', '.join(self.findings) or 'none'}, expected "
                f"{' or '.join(self.row['named'])}")


def wanted(options):
    only = set(options.faults or [])
    unknown = only - {row["fault"] for row in TABLE} - {"healthy"}
    if unknown:
        sys.exit(f"no such fault in diagnosis_table.json: {', '.join(sorted(unknown))}")
    for seed in range(options.first_seed, options.first_seed + options.seeds):
        for row in TABLE:
            for size, name in zip(row["sizes"], NAMES_OF_SIZES if len(row["sizes"]) == 3 else ["only"]):
                if (not only or row["fault"] in only) and name in options.sizes + ["only"]:
                    yield row, size, name, seed
    for seed in range(1, 1 + options.healthy * (not only or "healthy" in only)):
        yield HEALTHY, 0, "only", seed


def is_trouble(run):
    """A small size need not show."""
    return run.name != "small" and not (run.right and run.is_named)


def share(count, of):
    return f"{count}/{of}"


def print_table(runs):
    print("| fault | size | runs | verdict right | named | verdicts |\n| --- | --- | --- | --- | --- | --- |")
    rows = {}
    for run in runs:
        rows.setdefault((run.row["fault"], run.size), []).append(run)
    order = [row["fault"] for row in [HEALTHY] + TABLE]
    for (fault, size), ones in sorted(rows.items(), key=lambda item: (order.index(item[0][0]), item[1][0].place)):
        verdicts = [one.verdict.split(":")[0] for one in ones]
        counted = "; ".join(v + ("" if verdicts.count(v) == len(ones) else f" {share(verdicts.count(v), len(ones))}")
                            for v in sorted(set(verdicts)))
        right = "" if ones[0].name == "small" else share(sum(one.right for one in ones), len(ones))
        print(f"| {fault} | {f'{size:g}' if size else ''} | {len(ones)} | {right} | "
              f"{share(sum(one.is_named for one in ones), len(ones))} | {counted} |")


def arguments():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--program", default="build/release/zeroline")
    parser.add_argument("--clock", default="build/release/tests/end_to_end/faster_clock.so")
    parser.add_argument("--faults", nargs="*", metavar="CODE", help="only these; 'healthy' for the healthy units")
    parser.add_argument("--sizes", nargs="*", default=NAMES_OF_SIZES, choices=NAMES_OF_SIZES)
    parser.add_argument("--seeds", type=int, default=5, metavar="N")
    parser.add_argument("--first-seed", type=int, default=1, metavar="N")
    parser.add_argument("--healthy", type=int, default=20, metavar="N", help="so many healthy units")
    parser.add_argument("--speed", type=int, default=6, metavar="K", help="how many times as fast as at a bench")
    parser.add_argument("--jobs", type=int, default=2 * os.cpu_count(), metavar="N", help="so many runs at once")
    options = parser.parse_args()
    options.program, options.clock = os.path.abspath(options.program), os.path.abspath(options.clock)
    for needed in (options.program, options.clock):
        if not os.path.exists(needed):
            parser.error(f"{needed}: there is no such file; build the targets zeroline and faster_clock")
    return options


def play_all(options):
    def one(row, size, name, seed):
        wire = Wire(options, row, size, seed)
        wire.name, wire.place, wire.again = name, row["sizes"].index(size), False
        if wire.play().was_held_up():  # once more, and it is told
            print(wire.told() + "; played again", file=sys.stderr, flush=True)
            wire.again = True
            wire.play()
        return wire

    runs = []
    with concurrent.futures.ThreadPoolExecutor(options.jobs) as pool:
        for done in concurrent.futures.as_completed([pool.submit(one, *job) for job in wanted(options)]):
            runs.append(done.result())
            if is_trouble(runs[-1]):
                print(runs[-1].told(), file=sys.stderr, flush=True)
    return runs


def main():
    options = arguments()
    began = time.monotonic()
    with tempfile.TemporaryDirectory() as options.work:
        runs = play_all(options)
    print_table(runs)
    counted = [run for run in runs if run.row is not HEALTHY and run.name != "small"]
    healthy = [run for run in runs if run.row is HEALTHY]
    passed = True
    for what, ones, least in (("middle and large", counted, 0.95), ("healthy", healthy, 0.99)):
        right, named = sum(one.right for one in ones), sum(one.is_named for one in ones)
        if ones:
            print(f"\n{what}: verdict right {share(right, len(ones))} ({100 * right / len(ones):.1f} %), "
                  f"named {share(named, len(ones))} ({100 * named / len(ones):.1f} %)", end="")
            passed = passed and min(right, named) >= least * len(ones)
    again = sum(run.again for run in runs)
    print(f"\n\n{len(runs)} runs in {time.monotonic() - began:.0f} s, the clock {options.speed} times as fast; {again} were held up "
          "and played twice")
    sys.exit(0 if passed else 1)


if __name__ == "__main__":
    main()
