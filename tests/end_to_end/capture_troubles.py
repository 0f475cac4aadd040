#!/usr/bin/env python3
"""What goes wrong while `zeroline capture` or `listen` runs, as its user meets it: one clear line, the right status, a
file that loads.

usage: capture_troubles.py PROGRAM WORK_FOLDER
"""
import concurrent.futures
import fcntl
import json
import os
import pty
import resource
import shutil
import signal
import subprocess
import sys
import termios
import threading
import time
import tty

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from broken_input import ORDER  # noqa: E402

NOBODY = 65534
INSTRUMENT = {
    "schema": "zeroline/instrument/1", "name": "invented", "serial": "1",
    "port": {"baud": 115200, "data_bits": 8, "parity": "none", "stop_bits": 1},
    "language": {"kind": "numeric-lines", "field": 1, "separator": ",", "count_field": 2, "unit": "cmH2O"},
    "range": {"low": -100, "high": 100, "resolution": 0.01, "unit": "cmH2O"}, "rate": {"nominal_hz": 500, "clock_ppm": 100},
    "calibration": {"certificate": "CAL-1", "on": "2026-01-01", "due": "2099-01-01", "expanded_uncertainty": 0.2,
                    "coverage_factor": 2.0},
}


class Line:
    """An instrument on a pseudo-terminal: 500 lines a second, or what `text` makes of the count."""

    def __init__(self, text=lambda count: "%.2f,%d\r\n" % (count % 100 / 10, count)):
        self.master, slave = pty.openpty()
        tty.setraw(self.master)
        self.port = os.ttyname(slave)
        self.slave = slave
        os.chmod(self.port, 0o666)
        self.sent = 0
        self.over = threading.Event()
        self.thread = threading.Thread(target=self.run, args=(text,), daemon=True)
        self.thread.start()

    def run(self, text):
        os.set_blocking(self.master, False)
        begin = time.monotonic()
        while not self.over.wait(0.01):
            due = int((time.monotonic() - begin) * 500)
            lines = "".join(text(count) for count in range(self.sent, due)).encode("latin-1")
            self.sent = due
            try:
                os.write(self.master, lines)
            except BlockingIOError:
                termios.tcflush(self.slave, termios.TCIFLUSH)   # nobody reads: an instrument sends on

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.over.set()
        self.thread.join()
        os.close(self.master)
        os.close(self.slave)


class Bench:
    """A folder of the case's own, and the program in it."""

    def __init__(self, program, work, name):
        self.program = program
        self.folder = f"{work}/{name}"
        shutil.rmtree(self.folder, ignore_errors=True)
        os.makedirs(self.folder)
        os.chmod(self.folder, 0o777)
        self.trace = f"{self.folder}/trace.csv"
        with open(f"{self.folder}/instrument.json", "w") as out:
            json.dump(INSTRUMENT, out)

    def start(self, port, *more, command="capture", out=None, **how):
        where = ["--out", out or self.trace] if command == "capture" else []
        return subprocess.Popen([self.program, command, "--port", port, "--instrument", f"{self.folder}/instrument.json", *where,
                                 *more], stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
                                cwd=self.folder, **how)

    def wait_for_rows(self, least=100):
        until = time.monotonic() + 20
        while time.monotonic() < until and (not os.path.exists(self.trace) or self.rows() < least):
            time.sleep(0.02)

    def rows(self):
        return open(self.trace).read().count("\n") - 1

    def values(self):
        """Every row but the last one must be whole; the program must be able to read it."""
        text = open(self.trace).read()
        assert text.endswith("\n"), "the file ends in the middle of a row"
        rows = [row.split(",") for row in text.splitlines()[1:]]
        return [int(row[2]) for row in rows if row[1]]


def ended(process, timeout=20):
    out, said = process.communicate(timeout=timeout)
    return process.returncode, out, [line for line in said.splitlines() if not line.startswith("SIMULATED")]


def one_line(said, *words):
    assert len(said) == 1, f"one line was expected: {said}"
    for word in words:
        assert word in said[0], f"'{word}' is missing in: {said[0]}"


def as_nobody():
    os.setgid(NOBODY)
    os.setuid(NOBODY)


def interrupted_capture(bench):
    with Line() as line:
        process = bench.start(line.port)
        bench.wait_for_rows()
        process.send_signal(signal.SIGINT)
        status, _, said = ended(process)
    assert status == 0, f"status {status}: {said}"
    one_line(said, "readings saved in", "trace.csv")
    counts = bench.values()
    assert counts == list(range(counts[0], counts[-1] + 1)), "readings are missing"
    assert f"{len(counts)} readings" in said[0], said


def interrupted_before_a_reading(bench):
    with Line(lambda count: "") as line:
        process = bench.start(line.port)
        while not os.path.exists(bench.trace) and process.poll() is None:   # a busy machine takes its time to begin
            time.sleep(0.05)
        time.sleep(0.3)
        process.send_signal(signal.SIGINT)
        status, _, said = ended(process)
    assert status == 3, f"status {status}"
    one_line(said, "no byte has come", "Nothing was saved")
    assert not os.path.exists(bench.trace), "an empty trace was left"


def interrupted_listening(bench):
    with Line() as line:
        process = bench.start(line.port, command="listen")
        time.sleep(2.5)
        process.send_signal(signal.SIGINT)
        status, out, said = ended(process)
    assert status == 0 and said == [], f"status {status}: {said}"
    assert "Hz  noise" in out and "by count" not in out, out


def stuck_listening(bench):
    with Line(lambda count: "12.5,%d\r\n" % count) as line:
        process = bench.start(line.port, "--seconds", "7", command="listen")
        status, _, said = ended(process)
    assert status == 0, f"status {status}: {said}"
    one_line(said, "has not changed for 5 s", "blocked")


def garbage_only(bench):
    with Line(lambda count: "\x93\xfe\x07") as line:
        process = bench.start(line.port, "--wait", "3")
        status, _, said = ended(process)
    assert status == 3, f"status {status}: {said}"
    assert any("though bytes arrive" in text and "baud rate" in text for text in said), said


def file_may_not_grow(bench):
    def limit():
        resource.setrlimit(resource.RLIMIT_FSIZE, (6000, 6000))
    with Line() as line:
        process = bench.start(line.port, preexec_fn=limit)
        status, _, said = ended(process)
    assert status == 2, f"status {status}: {said}"
    assert sum("the file may not grow any further; what was written before is in the file" in text for text in said) == 1, said
    assert len(bench.values()) > 50, "what was written before is lost"


def full_disk(bench):
    disk = f"{bench.folder}/disk"
    os.makedirs(disk)
    if subprocess.run(["mount", "-t", "tmpfs", "-o", "size=16k", "tmpfs", disk], capture_output=True).returncode:
        return "SKIPPED: only the super-user may mount a small disk"
    try:
        bench.trace = f"{disk}/trace.csv"
        with Line() as line:
            process = bench.start(line.port)
            status, _, said = ended(process)
        assert status == 2, f"status {status}: {said}"
        assert sum("the disk is full; what was written before is in the file" in text for text in said) == 1, said
        assert len(bench.values()) > 50, "what was written before is lost"
    finally:
        subprocess.run(["umount", disk])


def read_only_folder(bench):
    if os.geteuid() != 0:
        return "SKIPPED: only the super-user can become somebody else"
    closed = f"{bench.folder}/closed"
    os.makedirs(closed, 0o755)
    with Line() as line:
        status, _, said = ended(bench.start(line.port, out=f"{closed}/trace.csv", preexec_fn=as_nobody))
    assert status == 2, f"status {status}: {said}"
    one_line(said, f"{closed}/trace.csv", "the folder is read-only", "a folder you may write to")


def no_permission(bench):
    if os.geteuid() != 0:
        return "SKIPPED: only the super-user can become somebody else"
    with Line() as line:
        os.chmod(line.port, 0o600)
        status, _, said = ended(bench.start(line.port, preexec_fn=as_nobody))
    assert status == 2, f"status {status}: {said}"
    one_line(said, line.port, "you may not open it; it belongs to group", "sudo adduser $USER")
    assert not os.path.exists(bench.trace), "a trace was left"


def taken_by_another_capture(bench):
    with Line() as line:
        first = bench.start(line.port)
        bench.wait_for_rows(10)
        second = bench.start(line.port, out=f"{bench.folder}/second.csv")
        status, _, said = ended(second)
        first.send_signal(signal.SIGINT)
        still, _, _ = ended(first)
    assert status == 2 and still == 0, f"status {status}, the first {still}"
    one_line(said, line.port, "another program is using it", "close the other program")
    assert not os.path.exists(f"{bench.folder}/second.csv"), "a trace was left"


def taken_exclusively(bench):
    if os.geteuid() != 0:
        return "SKIPPED: only the super-user can become somebody else"
    with Line() as line:
        fcntl.ioctl(line.slave, termios.TIOCEXCL)
        status, _, said = ended(bench.start(line.port, preexec_fn=as_nobody))
        fcntl.ioctl(line.slave, termios.TIOCNXCL)
    assert status == 2, f"status {status}: {said}"
    one_line(said, line.port, "another program is using it")


def no_such_port(bench):
    status, _, said = ended(bench.start("/dev/ttyUSB99"))
    assert status == 2, f"status {status}: {said}"
    one_line(said, "/dev/ttyUSB99: there is no such port", "zeroline ports")


def checked_before_leaving(bench, *more):
    with open(f"{bench.folder}/bench.json", "w") as out:
        json.dump({"schema": "zeroline/bench/1", "organisation": "workshop", "address": "1 Example Street"}, out)
    run = subprocess.run([bench.program, "ready", "--instrument", f"{bench.folder}/instrument.json", "--bench", "bench.json", *more],
                         cwd=bench.folder, stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=30)
    return run.returncode, run.stdout.splitlines()


def ready_to_leave(bench):
    with Line() as line:
        status, said = checked_before_leaving(bench, "--port", line.port)
    missing = [text for text in said if text.startswith("MISS")]
    assert all(text.startswith("MISS  battery") for text in missing), said   # whatever this computer's battery is at
    assert (status, said[-1]) == ((1, "not ready: 1 missing") if missing else (0, "ready")), said
    assert any(text.startswith("ok    sensor: invented reads on") for text in said), said
    assert any(text.startswith("ok    sealing: ") for text in said), said


def not_ready_to_leave(bench):
    with open(f"{bench.folder}/order.json", "w") as out:
        out.write('{"schema": "zeroline/work-order/1",')
    with Line(lambda count: "") as line:
        status, said = checked_before_leaving(bench, "--port", line.port, "--order", "order.json", "--on", "2099-01-02")
    assert status == 1 and said[-1].startswith("not ready: "), said
    for miss in ("MISS  order: order.json", "MISS  calibration: certificate CAL-1 was valid to 2099-01-01",
                 f"MISS  sensor: no byte for 2 s on {line.port}"):
        assert any(text.startswith(miss) for text in said), f"'{miss}' is missing in {said}"


def faster_than_the_line(bench):
    with open(f"{bench.folder}/instrument.json", "w") as out:
        json.dump({**INSTRUMENT, "port": {**INSTRUMENT["port"], "baud": 2400}}, out)
    with Line() as line:
        status, _, said = ended(bench.start(line.port, "--seconds", "1", command="listen"))
    assert status == 0, f"status {status}: {said}"
    one_line(said, "states 500 readings a second", "at 2400 baud this line carries at most")


def seconds_of_this_computer(bench):
    """An instrument that counts a hundred times as fast as its file states has no say in how long two seconds are."""
    with open(f"{bench.folder}/instrument.json", "w") as out:
        json.dump({**INSTRUMENT, "rate": {**INSTRUMENT["rate"], "nominal_hz": 5}}, out)
    with Line() as line:
        began = time.monotonic()
        status, _, said = ended(bench.start(line.port, "--seconds", "2"))
    assert status == 0, f"status {status}: {said}"
    assert 2.0 <= time.monotonic() - began < 15.0, "--seconds 2 took %.1f s" % (time.monotonic() - began)


def odd_readings(bench):
    """Sentinels and numbers that no trace holds: what is captured can be read again."""
    odd = {7: "9999999999,%d", 8: "3.4028235e38,%d", 9: "1.5,900719925474099%d", 10: "-1e300,%d"}
    with Line(lambda count: odd.get(count % 100, "%.2f,%%d" % (count % 100 / 10)) % count + "\r\n") as line:
        status, _, said = ended(bench.start(line.port, "--seconds", "1"))
    assert status == 0 and "readings without a value" in said[-1], f"status {status}: {said}"
    with open(f"{bench.folder}/order.json", "w") as out:
        json.dump(ORDER, out)
    again = subprocess.run([bench.program, "assess", "--order", "order.json", "--trace", bench.trace, "--instrument", "instrument.json"],
                           cwd=bench.folder, stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=60)
    assert again.returncode == 3 and not again.stderr, f"assess: status {again.returncode}: {again.stderr}"


def two_on_one_line(bench):
    """Two instruments that count each for itself."""
    with Line(lambda count: "%.2f,%d\r\n" % (count % 100 / 10, count // 2 + (5000 if count % 2 else 100))) as line:
        status, _, said = ended(bench.start(line.port, "--seconds", "2"))
    assert status == 0, f"status {status}: {said}"
    assert any("are two instruments on this line?" in text for text in said), said
    assert "times the count ran back" in said[-1], said


def more_than_stated(bench):
    """Two instruments that do not count: readings come twice as often as the file states."""
    with open(f"{bench.folder}/instrument.json", "w") as out:
        json.dump({**INSTRUMENT, "rate": {**INSTRUMENT["rate"], "nominal_hz": 250}}, out)
    with Line() as line:
        status, _, said = ended(bench.start(line.port, "--seconds", "4"))
    assert status == 0, f"status {status}: {said}"
    assert any("readings a second come, the instrument file states 250" in text for text in said), said


CASES = [interrupted_capture, interrupted_before_a_reading, interrupted_listening, stuck_listening, garbage_only, file_may_not_grow,
         full_disk, read_only_folder, no_permission, taken_by_another_capture, taken_exclusively, no_such_port, faster_than_the_line, ready_to_leave,
         not_ready_to_leave, seconds_of_this_computer, odd_readings, two_on_one_line, more_than_stated]


def main():
    program, work = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
    with concurrent.futures.ThreadPoolExecutor(4) as pool:
        runs = {case.__name__: pool.submit(case, Bench(program, work, case.__name__)) for case in CASES}
    failures = 0
    for name, run in runs.items():
        try:
            print(f"ok      {name} {run.result() or ''}")
        except (AssertionError, OSError, ValueError, subprocess.SubprocessError) as trouble:
            failures += 1
            print(f"FAILED  {name}: {trouble}")
    sys.exit(1 if failures else 0)


if __name__ == "__main__":
    main()
