"""What the suite of faults works with: a folder with a sealed record and everything to make another, and what must hold after
whatever happened."""
import hashlib
import json
import os
import re
import shutil
import subprocess
import sys

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, HERE + "/../end_to_end")
from evidence import RUN, drawn_trace  # noqa: E402

SIGNED = ["--signer", "Operator Three", "--role", "operator"]
INPUTS = ["order.json", "instrument.json", "bench.json", "run.json", "trace.csv"]
PATIENCE_S = 120
# A file half written has a name of its own; what of a name is random differs.
LITTER = re.compile(r"\.(new|part|tmp)(/|$)|\.(?!sha256$|public$)[A-Za-z0-9]{6}$")
DOCUMENTED = range(0, 5)


class Lost(Exception):
    """Something that must hold after a fault does not."""


def must(true, what):
    if not true:
        raise Lost(what)


def digest(path):
    return hashlib.sha256(open(path, "rb").read()).hexdigest()


def one_line(text):
    return " / ".join(text.strip().splitlines())[:400]


class Done:
    """How a command ended."""

    def __init__(self, status, out, said, killed=False):
        self.status, self.out, self.said, self.killed = status, out, said, killed

    def check(self, what):
        """A documented status, and for what went wrong one line that says so. A process that was killed owes nothing."""
        if self.killed and self.status < 0:
            return self
        must(self.status >= 0, f"{what}: died of signal {-self.status}: {one_line(self.said)}")
        must(self.status in DOCUMENTED, f"{what}: status {self.status}: {one_line(self.said)}")
        if self.status == 2:
            must(len(self.said.splitlines()) == 1 and self.said.startswith("zeroline: "),
                 f"{what}: status 2 without one clear line: {one_line(self.said) or 'nothing was said'}")
        return self


class Bench:
    """One folder: inputs, the bench's key, and r0, a sealed record with a review."""

    def __init__(self, program, folder):
        self.program, self.folder = program, os.path.abspath(folder)
        self.environment = dict(os.environ, XDG_DATA_HOME=self.path("data"), XDG_CONFIG_HOME=self.path("nowhere"),
                                XDG_CACHE_HOME=self.path("../cache"), QT_QPA_PLATFORM="offscreen")
        self.environment.pop("LD_PRELOAD", None)

    def path(self, *names):
        return os.path.join(self.folder, *names)

    def make(self, source):
        shutil.rmtree(self.folder, ignore_errors=True)
        os.makedirs(self.folder)
        order = json.load(open(f"{source}/fixtures/demonstration/order.json"))
        for phase in ("insufflation", "exsufflation", "pause"):
            order["prescription"]["presets"][0][phase]["duration"] = 1.0
        contents = {"order.json": json.dumps(order, indent=2), "run.json": json.dumps(RUN, indent=2), "trace.csv": drawn_trace()}
        for name, content in contents.items():
            with open(self.path(name), "w") as out:
                out.write(content)
        for name in ("instrument.json", "bench.json"):
            shutil.copy(f"{source}/fixtures/demonstration/{name}", self.path(name))
        self.good("assess", *self.evidence("r0"), *SIGNED)
        self.good("sign", "r0", "--signer", "Second Person", "--role", "lead")
        self.good("recheck", "r0")
        return self

    def copy(self, folder):
        shutil.rmtree(folder, ignore_errors=True)
        shutil.copytree(self.folder, folder, symlinks=True)
        return Bench(self.program, folder)

    def evidence(self, out):
        return ["--order", "order.json", "--trace", "trace.csv", "--instrument", "instrument.json", "--run", "run.json", "--out", out]

    def command(self, *arguments):
        return [self.program, "--bench", "bench.json", *arguments]

    def start(self, *arguments, **more):
        environment = dict(self.environment, **more.pop("environment", {}))
        return subprocess.Popen(self.command(*arguments), cwd=self.folder, env=environment, stdin=subprocess.DEVNULL,
                                stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, errors="replace", **more)

    def end(self, process, killed=False, patience_s=PATIENCE_S):
        try:
            out, said = process.communicate(timeout=patience_s)
        except subprocess.TimeoutExpired:
            process.kill()
            process.communicate()
            raise Lost(f"hangs: {' '.join(process.args[3:])}")
        return Done(process.returncode, out, said, killed)

    def run(self, *arguments, killed=False, **more):
        return self.end(self.start(*arguments, **more), killed)

    def good(self, *arguments):
        done = self.run(*arguments)
        must(done.status == 0, f"{' '.join(arguments)}: status {done.status}: {one_line(done.said + done.out)}")
        return done

    def is_there(self, name):
        return os.path.lexists(self.path(name))

    def intact(self, name):
        self.good("recheck", name)

    def litter(self):
        names = (os.path.relpath(os.path.join(at, name), self.folder) for at, folders, files in os.walk(self.folder)
                 for name in folders + files)
        return sorted(name for name in names if LITTER.search(name))

    def inputs(self):
        return {name: digest(self.path(name)) for name in INPUTS}

    def whole_or_finished(self, name, *again):
        """The record `name` is whole, or its .part can be finished, or nothing is there and the same command makes it."""
        if self.is_there(name):
            how = "whole"
        elif self.is_there(name + ".part"):
            self.good("assess", name + ".part", *SIGNED)
            how = "finished"
        else:
            self.good(*again)
            how = "made anew"
        self.intact(name)
        return how
