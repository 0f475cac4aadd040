#!/usr/bin/env python3
"""A USB serial adapter without hardware: the program in a QEMU guest, an emulated FTDI adapter, pulled and put back.

usage: usb_adapter.py PROGRAM WORK_FOLDER

The guest (a Debian kernel, unpacked from its package, nothing installed) runs `zeroline ports` and `zeroline capture`;
this side sends 250 readings a second into the adapter, takes it away after some seconds and puts it back. Checked: the
port is listed with its USB ids, the capture says that the instrument was lost and is back, and the trace holds both
sides of the gap. Exit 0 when all of it holds, 1 when not, 77 (loud) where QEMU or a kernel is not to be had.
"""
import glob
import json
import os
import re
import shutil
import socket
import subprocess
import sys
import threading
import time

HERE = os.path.dirname(os.path.abspath(__file__))
MODULES = ["usb/common/usb-common", "usb/core/usbcore", "usb/host/uhci-hcd", "usb/serial/usbserial", "usb/serial/ftdi_sio"]
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
    """Sends 250 readings a second into the adapter's other side, whether or not somebody listens."""

    def __init__(self, path):
        super().__init__(daemon=True)
        self.line = socket.socket(socket.AF_UNIX)
        self.line.connect(path)
        self.line.setblocking(False)

    def run(self):
        begin = time.monotonic()
        count = 0
        while True:
            due = int((time.monotonic() - begin) * 250)
            lines = b"".join(b"%.2f,%d\r\n" % (20.0 + (n % 100) / 100.0, n) for n in range(count, due))
            count = max(count, due)
            try:
                self.line.send(lines)
            except BlockingIOError:
                pass
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
        ["qemu-system-x86_64", "-accel", "tcg", "-m", "512", "-nographic", "-no-reboot", "-nodefaults",
         "-kernel", image, "-initrd", archive, "-append", "console=ttyS0 quiet panic=-1",
         "-serial", "stdio", "-monitor", "unix:monitor,server,nowait",
         "-device", "piix3-usb-uhci,id=usb",
         "-chardev", "socket,id=line,path=adapter,server=on,wait=off",
         "-device", "usb-serial,chardev=line,id=adapter,bus=usb.0,serial=EA0001,always-plugged=on"],
        cwd=work, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)


def pull_and_put_back(work, after_s, away_s):
    monitor = connect(f"{work}/monitor")
    time.sleep(after_s)
    command(monitor, "device_del adapter")
    time.sleep(away_s)
    command(monitor, "device_add usb-serial,chardev=line,id=adapter,bus=usb.0,serial=EA0001,always-plugged=on")


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
        if line == "@@ capture-begin":
            threading.Thread(target=pull_and_put_back, args=(work, 8, 3), daemon=True).start()
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
    expect(re.search(r"gone|lost", said) and "back" in said, "capture says that the instrument was lost and is back")
    rows = [line.split(",") for line in between(printed, "trace-begin", "trace-end") if line and line[0] in "0123456789"]
    notes = [(float(row[0]), row[-1]) for row in rows if row[-1] in ("lost", "back")]
    expect([note for _, note in notes] == ["lost", "back"], f"the trace holds one lost and one back: {notes}")
    arrivals = [float(row[0]) for row in rows if row[1]]
    gap, at = max((b - a, a) for a, b in zip(arrivals, arrivals[1:]))
    expect(2.0 < gap < 10.0, f"the trace shows the gap: {gap:.2f} s at {at:.2f} s")
    before = [a for a in arrivals if a <= at]
    rate = (len(before) - 1) / (before[-1] - before[0])
    expect(abs(rate - 250) < 12.5, f"before the gap {rate:.1f} readings a second of 250")
    expect(len(arrivals) - len(before) > 500, f"after the gap {len(arrivals) - len(before)} readings more")
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
