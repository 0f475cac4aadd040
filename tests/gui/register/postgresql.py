#!/usr/bin/env python3
"""A PostgreSQL server of the tests' own: on loopback, as a user without rights, in a folder that goes at the end.

usage: postgresql.py COMMAND...     runs COMMAND with ZEROLINE_TEST_SERVER=postgresql://zeroline@127.0.0.1:PORT

The password of the owner stands in the file that PGPASSFILE names, and nowhere else. Status 77 where this computer has
no server (packages postgresql and libqt6sql6-psql).
"""
import glob
import os
import pwd
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time

SKIPPED = 77
NO_SERVER = "SKIPPED: no PostgreSQL server here (packages postgresql, libqt6sql6-psql)"


def programs():
    """The folder of the newest server that is installed; none: no server."""
    found = sorted(glob.glob("/usr/lib/postgresql/*/bin/initdb"), key=lambda path: float(path.split("/")[4]))
    return os.path.dirname(found[-1]) if found else None


def free_port():
    with socket.socket() as listening:
        listening.bind(("127.0.0.1", 0))
        return listening.getsockname()[1]


class Server:
    """initdb refuses root: then the server runs as nobody."""

    def __init__(self):
        self.bin = programs()
        self.folder = tempfile.mkdtemp(prefix="zeroline-postgresql-")
        self.data, self.port, self.process = f"{self.folder}/data", free_port(), None
        self.as_user = {}
        if os.geteuid() == 0:
            nobody = pwd.getpwnam("nobody")
            self.as_user = {"user": nobody.pw_uid, "group": nobody.pw_gid, "extra_groups": []}
            os.chown(self.folder, nobody.pw_uid, nobody.pw_gid)
        os.chmod(self.folder, 0o755)
        secret = f"secret of {os.urandom(8).hex()}"
        with open(f"{self.folder}/first-password", "w") as out:
            out.write(secret)
        self.passwords = f"{self.folder}/pgpass"
        self.remember("zeroline", secret)
        subprocess.run([f"{self.bin}/initdb", "-D", self.data, "-U", "zeroline", "-E", "UTF8", "--locale=C.UTF-8", "-A",
                        "scram-sha-256", "--pwfile", f"{self.folder}/first-password"], check=True, cwd="/",
                       stdout=subprocess.DEVNULL, **self.as_user)
        self.url = f"postgresql://zeroline@127.0.0.1:{self.port}"
        self.environment = dict(os.environ, PGPASSFILE=self.passwords, ZEROLINE_TEST_SERVER=self.url)

    def remember(self, role, password):
        with open(self.passwords, "a") as out:
            out.write(f"127.0.0.1:{self.port}:*:{role}:{password}\n")
        os.chmod(self.passwords, 0o600)

    def start(self, seconds=60):
        """Again and again until it answers: processes of a server that was killed need a moment to go."""
        deadline = time.monotonic() + seconds
        while time.monotonic() < deadline:
            if self.process is None or self.process.poll() is not None:
                self.process = subprocess.Popen(
                    [f"{self.bin}/postgres", "-D", self.data, "-p", str(self.port), "-c", "listen_addresses=127.0.0.1", "-c",
                     f"unix_socket_directories={self.folder}", "-c", "log_min_messages=fatal"], cwd="/",
                    stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, **self.as_user)
            if subprocess.run([f"{self.bin}/pg_isready", "-q", "-h", "127.0.0.1", "-p", str(self.port)]).returncode == 0:
                return
            time.sleep(0.1)
        raise RuntimeError("the server does not answer")

    def kill(self):
        """As a power cut would: no time to finish anything."""
        self.process.send_signal(signal.SIGKILL)
        self.process.wait()

    def stop(self):
        if self.process is not None and self.process.poll() is None:
            self.process.send_signal(signal.SIGINT)
            try:
                self.process.wait(20)
            except subprocess.TimeoutExpired:
                self.kill()

    def sql(self, text, database="postgres"):
        """Rows as lists of texts, by psql, which shares no code with the program."""
        done = subprocess.run(["psql", "-X", "-q", "-A", "-t", "-F", "\t", "-d", f"{self.url}/{database}", "-c", text],
                              capture_output=True, text=True, env=self.environment, check=True)
        return [line.split("\t") for line in done.stdout.splitlines()]

    def __enter__(self):
        self.start()
        return self

    def __exit__(self, *_):
        self.stop()
        shutil.rmtree(self.folder, ignore_errors=True)


def main(command):
    if programs() is None:
        print(NO_SERVER)
        return SKIPPED
    with Server() as server:
        return subprocess.run(command, env=server.environment).returncode


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
