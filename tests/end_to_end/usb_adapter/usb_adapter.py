#!/usr/bin/env python3
"""A USB serial adapter without hardware: the program in a QEMU guest, an emulated FTDI adapter, pulled and put back.

usage: usb_adapter.py PROGRAM WORK_FOLDER

The guest (a Debian kernel, unpacked from its package, nothing installed) runs `zeroline ports` and `zeroline capture`;
this side sends 250 readings a second into the adapter, takes it away after some seconds and puts it back, first as it
was, then behind a stranger that has taken its place, so that it comes back on another port. Checked: the port is listed
with its USB ids, the capture says twice that the instrument is gone and is back, finds it by its serial number, and
the trace shows both gaps. Exit 0 when all of it holds, 1 when not, 77 (loud) where QEMU or a kernel is not to be had.
"""
import fcntl
import glob
import json
import os
import re
import shutil
import socket
import struct
import subprocess
import sys
import termios
import threading
import time

HERE = os.path.dirname(os.path.abspath(__file__))
MODULES = ["usb/common/usb-common", "usb/core/usbcore", "usb/host/uhci-hcd", "usb/serial/usbserial", "usb/serial/ftdi_sio"]
ADAPTER = "usb-serial,chardev=line,id=adapter,bus=usb.0,port=1,serial=EA0001,always-plugged=on"
STRANGER = "usb-serial,chardev=nobody,id=stranger,bus=usb.0,port=2,serial=EA0002,always-plugged=on"
INSTRUMENT = {
    "schema": "zeroline/instrument/1", "name": "emulated adapter", "serial": "EA-1",
    "port": {"baud": 115200, "data_bits": 8, "parity": "none", "stop_bits": 1},
    "language": {"kind": "numeric-lines", "field": 1, "separator": ",", "unit": "cmH2O", "count_field": 2},
    "range": {"low": -100, "high": 100, "resolution": 0.01, "unit": "cmH2O"},
    "rate": {"nominal_hz": 250, "clock_ppm": 100},
    "calibration": {"certificate": "CAL-1", "on": "2026-01-01", "due": "2099-01-01", "expanded_uncertainty": 0.2,
                    "coverage_factor": 2.0},
}


def skip(why):
    print("=" * 78 + f"\nSKIPPED: the USB adapter test did not run: {why}\n" + "=" * 78)
    sys.exit(77)


def kernel(work):
    """Kernel image and module folder, unpacked from Debian's package."""
    image = glob.glob(f"{work}/kernel/boot/vmlinuz-*")
    if not image:
        names = subprocess.run(["apt-cache", "depends", "linux-image-amd64"], capture_output=True, text=True).stdout
        name = re.search(r"Depends: (linux-image-\S+)", names)
        if not name:
            skip("apt-cache knows no linux-image-amd64")
        os.makedirs(f"{work}/kernel", exist_ok=True)
        if subprocess.run(["apt-get", "download", "-qq", name[1]], cwd=work).returncode:
            skip("the kernel package could not be downloaded")
        package = glob.glob(f"{work}/linux-image-*.deb")[0]
        subprocess.run(["dpkg", "-x", package, f"{work}/kernel"], check=True)
        os.remove(package)
        image = glob.glob(f"{work}/kernel/boot/vmlinuz-*")
    return image[0], glob.glob(f"{work}/kernel/lib/modules/*/kernel/drivers")[0]


def libraries(program):
    listed = subprocess.run(["ldd", program], capture_output=True, text=True, check=True).stdout
    return re.findall(r"(/\S+)\s+\(0x", listed)


def initramfs(work, program, drivers):
    root = f"{work}/root"
    shutil.rmtree(root, ignore_errors=True)
    for folder in ("bin", "modules", "lib", "lib64"):
        os.makedirs(f"{root}/{folder}")
    shutil.copy(shutil.which("busybox"), f"{root}/bin/busybox")
    shutil.copy(program, f"{root}/bin/zeroline")
    subprocess.run(["strip", f"{root}/bin/zeroline"])
    for library in libraries(program):
        shutil.copy(library, f"{root}/lib64" if "ld-linux" in library else f"{root}/lib")
    for module in MODULES:
        shutil.copy(f"{drivers}/{module}.ko", f"{root}/modules")
    shutil.copy(f"{HERE}/guest_init", f"{root}/init")
    os.chmod(f"{root}/init", 0o755)
    with open(f"{root}/instrument.json", "w") as out:
        json.dump(INSTRUMENT, out)
    archive = f"{work}/initramfs.cpio"
    with open(archive, "wb") as out:
        files = subprocess.run(["find", "."], cwd=root, capture_output=True, check=True).stdout
        subprocess.run(["cpio", "-o", "-H", "newc", "--quiet"], cwd=root, input=files, stdout=out, check=True)
    return archive


class Transducer(threading.Thread):
    """Sends 250 readings a second into the adapter's other side; what nobody takes is lost, as on a real line."""

    MOST_WAITING = 512

    def __init__(self, path):
        super().__init__(daemon=True)
        self.line = socket.socket(socket.AF_UNIX)
        self.line.connect(path)

    def run(self):
        begin = time.monotonic()
        count = 0
        while True:
            due = int((time.monotonic() - begin) * 250)
            lines = b"".join(b"%.2f,%d\r\n" % (20.0 + (n % 100) / 100.0, n) for n in range(count, due))
            count = max(count, due)
            try:
                waiting = struct.unpack("i", fcntl.ioctl(self.line, termios.TIOCOUTQ, b"\0" * 4))[0]
                if waiting < self.MOST_WAITING:
                    self.line.sendall(lines)
            except OSError:
                return
            time.sleep(0.004)


def command(monitor, text):
    monitor.sendall(text.encode() + b"\n")
    time.sleep(0.3)
    return monitor.recv(65536).decode(errors="replace")


def connect(path, seconds=10):
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        try:
            line = socket.socket(socket.AF_UNIX)
            line.connect(path)
            return line
        except OSError:
            line.close()
            time.sleep(0.05)
    raise TimeoutError(path)


def boot(work, image, archive):
    for name in ("adapter", "monitor"):
        if os.path.exists(f"{work}/{name}"):
            os.remove(f"{work}/{name}")
    return subprocess.Popen(
        ["qemu-system-x86_64", "-accel", "tcg", "-m", "2048", "-nographic", "-no-reboot", "-nodefaults",
         "-kernel", image, "-initrd", archive, "-append", "console=ttyS0 quiet panic=-1",
         "-serial", "stdio", "-monitor", "unix:monitor,server,nowait",
         "-device", "piix3-usb-uhci,id=usb",
         "-chardev", "socket,id=line,path=adapter,server=on,wait=off",
         "-chardev", "null,id=nobody",
         "-device", ADAPTER],
        cwd=work, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)


def pull_and_put_back(work):
    monitor = connect(f"{work}/monitor")
    time.sleep(5)
    command(monitor, "device_del adapter")
    time.sleep(2)
    command(monitor, f"device_add {ADAPTER}")
    time.sleep(4)
    command(monitor, "device_del adapter")
    time.sleep(1)
    command(monitor, f"device_add {STRANGER}")
    time.sleep(1)
    command(monitor, f"device_add {ADAPTER}")


def run(work, image, archive):
    """Runs the guest to its end; returns what it printed."""
    guest = boot(work, image, archive)
    killer = threading.Timer(180, guest.kill)
    killer.start()
    connect(f"{work}/monitor").close()
    Transducer(f"{work}/adapter").start()
    printed = []
    for raw in guest.stdout:
        line = raw.decode(errors="replace").rstrip("\r\n")
        line = line[line.find("@@ "):] if "@@ " in line else line   # the firmware's screen codes stand before the first
        printed.append(line)
        if line == "@@ capture-runs":
            threading.Thread(target=pull_and_put_back, args=(work,), daemon=True).start()
    killer.cancel()
    return printed


def between(lines, begin, end):
    return lines[lines.index(f"@@ {begin}") + 1:lines.index(f"@@ {end}")]


def check(printed):
    failures = []

    def expect(held, what):
        print(("ok      " if held else "FAILED  ") + what)
        if not held:
            failures.append(what)

    ports = "\n".join(between(printed, "ports-begin", "ports-end"))
    expect("ttyUSB0" in ports and "0403" in ports.lower() and "6001" in ports, "ports lists the adapter with its USB ids 0403:6001")
    status = next(i for i, line in enumerate(printed) if line.startswith("@@ capture-status"))
    said = "\n".join(printed[printed.index("@@ capture-begin") + 1:status])
    print(said)
    expect(printed[status] == "@@ capture-status 0", "capture ends with status 0")
    expect("the instrument on /dev/ttyUSB0 is gone; plug it in again" in said, "capture says that the instrument is gone")
    expect(said.count("the instrument is back; it goes on") == 2, "capture says twice that the instrument is back")
    rows = [line.split(",") for line in between(printed, "trace-begin", "trace-end") if line and line[0] in "0123456789"]
    notes = [(float(row[0]), row[-1]) for row in rows if row[-1] in ("lost", "back")]
    expect([note for _, note in notes] == ["lost", "back"] * 2, f"the trace holds lost and back twice: {notes}")
    arrivals = [float(row[0]) for row in rows if row[1]]
    gaps = sorted((b - a, a) for a, b in zip(arrivals, arrivals[1:]))[-2:]
    expect(all(1.0 < gap < 8.0 for gap, _ in gaps), f"the trace shows both gaps (length, begin): {gaps}")
    first, second = sorted(at for _, at in gaps)
    before = [(float(row[0]), int(row[2])) for row in rows if row[1] and float(row[0]) <= first]
    rate = (before[-1][1] - before[0][1]) / (before[-1][0] - before[0][0])
    # The emulated machine keeps its own time, a tenth off where the computer has other work.
    expect(abs(rate - 250) < 37.5, f"before the gaps {rate:.1f} readings a second of 250 by their count")
    expect(len(before) > 500, f"of which {len(before)} came")
    expect(sum(first < a <= second for a in arrivals) > 250, "between the gaps it reads on")
    expect(sum(a > second for a in arrivals) > 250, "after the gaps it reads on, on the other port")
    other = "\n".join(between(printed, "ports-after-begin", "ports-after-end"))
    expect('"EA0001"' in other[other.find("ttyUSB1"):] and '"EA0002"' in other[:other.find("ttyUSB1")],
           "the instrument is on ttyUSB1, a stranger on ttyUSB0")
    return failures


def main():
    program, work = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
    if not shutil.which("qemu-system-x86_64") or not shutil.which("busybox") or not shutil.which("cpio"):
        skip("qemu-system-x86, busybox-static or cpio is missing")
    os.makedirs(work, exist_ok=True)
    image, drivers = kernel(work)
    printed = run(work, image, initramfs(work, program, drivers))
    with open(f"{work}/guest.log", "w") as log:
        log.write("\n".join(printed))
    try:
        failures = check(printed)
    except (ValueError, StopIteration):
        print("\n".join(printed[-40:]))
        failures = ["the guest did not get through"]
    sys.exit(1 if failures else 0)


if __name__ == "__main__":
    main()
