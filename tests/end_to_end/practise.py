#!/usr/bin/env python3
"""`zeroline practise` at a terminal: a person at the keys goes through the run, answers, and only then is told what it
was. Nothing is left of it, not even where it is killed off by Ctrl-C. The program's clock runs faster (faster_clock.cpp).

usage: practise.py PROGRAM CLOCK WORK_FOLDER
"""
import os
import pty
import re
import select
import shutil
import subprocess
import sys
import time

PROGRAM, CLOCK, WORK = sys.argv[1:4]
QUESTION = "What was it?"
LONGEST_S = 120


def environment():
    return dict(os.environ, LD_PRELOAD=CLOCK, ZEROLINE_TEST_SPEED="5", TMPDIR=f"{WORK}/passing",
                XDG_DATA_HOME=f"{WORK}/data", XDG_CONFIG_HOME=f"{WORK}/nowhere")


class Learner:
    """Presses Enter where the run asks for it, answers the question, or ends the run by Ctrl-C at a word."""

    def __init__(self, answer, leaves_at=None, more=()):
        self.answer, self.leaves_at = answer, leaves_at
        master, slave = pty.openpty()
        self.process = subprocess.Popen([PROGRAM, "practise", *more], stdin=slave, stdout=slave, stderr=slave,
                                        env=environment(), start_new_session=True,
                                        preexec_fn=lambda: __import__("fcntl").ioctl(0, 0x540E, 0))  # TIOCSCTTY
        os.close(slave)
        self.keys, self.said, self.seen = master, "", 0

    def type(self, text):
        os.write(self.keys, text.encode())

    def look(self):
        new = self.said[self.seen:]
        if QUESTION in new:
            self.type(self.answer + "\n")
        elif self.leaves_at and self.leaves_at in new:
            self.type("\x03")
        elif "[g] go on" in new:
            self.type("g\n")
        elif "[Enter" in new:
            self.type("\n")
        else:
            return
        self.seen = len(self.said)

    def go(self):
        until = time.monotonic() + LONGEST_S
        while time.monotonic() < until:
            if select.select([self.keys], [], [], 0.05)[0]:
                try:
                    self.said += os.read(self.keys, 4096).decode(errors="replace")
                except OSError:  # the program has closed its side
                    break
            else:
                self.look()
        try:
            return self.process.wait(10)
        except subprocess.TimeoutExpired:
            self.process.kill()
            raise


def practise(answer, seed, **more):
    learner = Learner(answer, more=["--seed", str(seed)], **more)
    status = learner.go()
    return status, learner.said


def check(holds, what, said):
    if not holds:
        sys.exit(f"FAILED: {what}\n{said}")


def nothing_is_left(said):
    left = [os.path.join(folder, name) for place in ("passing", "data", "nowhere")
            for folder, _, names in os.walk(f"{WORK}/{place}") for name in names]
    check(not left, f"left behind: {left}", said)


def learns(seed):
    """First by a wrong answer, then by what it was."""
    status, said = practise("series-ends", seed)
    before, _, after = said.partition(QUESTION)
    steps = [line for line in before.replace("\r", "\n").splitlines() if re.search(r"^(PRACTICE  )?(Order|Zero|Manual): ", line)]
    check(len(steps) >= 3 and all(line.startswith("PRACTICE") for line in steps), "a step without its mark", said)
    # What a run tells while the set-up can still be mended is told here too; what it comes to is not.
    for word in ("within limits", "outside limits", "Unit accuracy", "It was "):
        check(word.lower() not in before.lower(), f"'{word}' before the answer", said)
    check(status == 1 and "It was something else." in after, f"exit {status} for a wrong answer", said)
    check("PRACTICE: " in after and "nothing is kept" in after, "the result is not marked", said)
    check("sealed" not in after.lower(), "something was sealed", said)
    nothing_is_left(said)
    told = re.search(r"It was ([a-z-]+)[,:]", " ".join(after.split()))
    check(told, "what it was is not said", said)
    status, said = practise(told[1] if told[1] != "nothing" else "0", seed)
    check(status == 0 and "Right. It was " + told[1] in " ".join(said.split()), f"exit {status} for the right answer", said)
    nothing_is_left(said)
    print(f"ok      seed {seed}: {told[1]}")
    return told[1]


def main():
    shutil.rmtree(WORK, ignore_errors=True)
    os.makedirs(f"{WORK}/passing")
    tasks = {learns(seed) for seed in (1, 2, 3)}
    check(len(tasks) > 1, f"always the same task: {tasks}", "")
    status, said = practise("0", 1, leaves_at="Manual: ")
    check(status == 3 and QUESTION not in said, f"exit {status} after Ctrl-C", said)
    nothing_is_left(said)
    nobody = subprocess.run([PROGRAM, "practise"], stdin=subprocess.DEVNULL, capture_output=True, text=True, env=environment())
    check(nobody.returncode == 2 and nobody.stderr.count("\n") == 1, "nobody is there to answer", nobody.stderr)
    print("ok      broken off, and nobody there")


if __name__ == "__main__":
    main()
