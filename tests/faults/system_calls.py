"""Every system call of an operation goes wrong once: the shim lets the n-th of a kind fail, cut or be the last."""
import os
import shutil
import time

from bench import SIGNED, must, one_line

# A call, and what can go wrong with it. "any" counts them all: the process dies just before.
FAULTS = [("write", "ENOSPC"), ("write", "ENOSPC+"), ("write", "EIO"), ("write", "short"), ("write", "EINTR"), ("read", "EIO"),
          ("read", "EINTR"), ("read", "short"), ("sync", "EIO"), ("sync", "ENOSPC"), ("open", "EMFILE"), ("open", "EACCES"),
          ("open", "ENOSPC"), ("rename", "EIO"), ("rename", "ENOSPC"), ("mkdir", "ENOSPC"), ("unlink", "EIO"), ("lock", "ENOLCK"),
          ("any", "kill")]
HARMLESS = {"short", "EINTR"}  # what every program meets on a sound machine: nothing may come of it


class Operation:
    """What is done, and what must hold afterwards however it ended."""

    def __init__(self, name, arguments, holds, prepare=lambda bench: None):
        self.name, self.arguments, self.holds, self.prepare = name, arguments, holds, prepare


def save_holds(bench, done):
    must(done.status != 0 or bench.is_there("r1"), "status 0, and no record is there")
    bench.whole_or_finished("r1", "assess", *bench.evidence("r1"), *SIGNED)


def addenda(bench):
    return len(os.listdir(bench.path("r0", "addenda"))) if bench.is_there("r0/addenda") else 0


def addendum_holds(bench, done, first=2):
    bench.intact("r0")
    must(done.status != 0 or addenda(bench) == first, "status 0, and no addendum is there")
    before = addenda(bench)
    bench.good("sign", "r0", "--signer", "Third Person", "--role", "lead")
    must(addenda(bench) == before + 1, "an addendum took the place of another")
    bench.intact("r0")


def key_holds(bench, done):
    if bench.run("key").check("key").status != 0:
        bench.good("key", "--change")
    bench.good("key")
    bench.good("recheck", "r0", "--trust", "data/zeroline/bench.key.public")
    bench.good("assess", *bench.evidence("r1"), *SIGNED)
    bench.good("recheck", "r1", "--trust", "data/zeroline/bench.key.public")


def leave_unsigned(bench):
    done = bench.run("assess", *bench.evidence("r1"))
    must(done.status == 3 and bench.is_there("r1.part"), f"no unsigned .part: {done.status} {one_line(done.said)}")


def lose_key(bench):
    os.remove(bench.path("data/zeroline/bench.key"))
    time.sleep(1.1)  # a seal of the same second would be after the loss


def loss_holds(bench, done):
    if bench.run("key").check("key").status != 0:
        bench.good("key", "--lost", "stolen")
    key_holds(bench, done)


def operations(bench):
    return [Operation("save", ["assess", *bench.evidence("r1"), *SIGNED], save_holds),
            Operation("signing", ["assess", "r1.part", *SIGNED], save_holds, leave_unsigned),
            Operation("review", ["sign", "r0", "--signer", "Third Person", "--role", "lead"], addendum_holds),
            Operation("first review", ["sign", "r0", "--signer", "Third Person", "--role", "lead"],
                      lambda bench, done: addendum_holds(bench, done, 1), lambda bench: shutil.rmtree(bench.path("r0/addenda"))),
            Operation("correction", ["sign", "r0", "--signer", "Third Person", "--correction", "serial K4417", "--reason", "typing error"],
                      addendum_holds),
            Operation("key change", ["key", "--change"], key_holds),
            Operation("lost key", ["key", "--lost", "stolen"], loss_holds, lose_key)]


def with_fault(shim, bench, fault):
    return {"LD_PRELOAD": shim, "ZEROLINE_FAULT_UNDER": bench.folder, "ZEROLINE_FAULT": fault}


def counts_of(shim, bench, operation):
    """How many calls of each kind the operation makes when nothing goes wrong."""
    file = bench.folder + ".counts"
    if os.path.exists(file):
        os.remove(file)
    done = bench.run(*operation.arguments, environment={**with_fault(shim, bench, ""), "ZEROLINE_FAULT_COUNTS": file})
    must(done.status == 0, f"{operation.name} without a fault: status {done.status}: {one_line(done.said)}")
    words = [line.split() for line in open(file).read().splitlines()]
    return {call: max(int(count) for name, count in words if name == call) for call, _ in FAULTS}


def try_fault(base, shim, folder, operation, fault):
    bench = base.copy(folder)
    before = bench.inputs()
    kills = fault.endswith(":kill")
    done = bench.run(*operation.arguments, killed=kills, environment=with_fault(shim, bench, fault)).check(operation.name)
    if fault.rstrip("+").split(":")[2] in HARMLESS:
        must(done.status == 0, f"status {done.status}: {one_line(done.said)}")
    operation.holds(bench, done)
    bench.intact("r0")
    must(bench.inputs() == before, "an input was changed")
    must(not bench.litter(), f"left behind: {bench.litter()}")


def cases(base, shim, folder, one_in):
    """(group, name, act) for every n of every kind of call of every operation."""
    for operation in operations(base):
        prepared = base.copy(f"{folder}/{operation.name.replace(' ', '-')}")
        operation.prepare(prepared)
        counts = counts_of(shim, prepared.copy(f"{folder}/counted"), operation)
        number = 0
        for call, what in FAULTS:
            for n in range(1, counts[call] + 1):
                number += 1
                if number % one_in:
                    continue
                fault = f"{call}:{n}:{what}"
                place = f"{folder}/{operation.name.replace(' ', '-')}-{fault.replace(':', '-')}"
                yield (f"{operation.name}: a call fails or is the last", f"{operation.name} {fault}", place,
                       lambda prepared=prepared, place=place, operation=operation, fault=fault:
                       try_fault(prepared, shim, place, operation, fault))
