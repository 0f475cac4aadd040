"""Tampering by structure: whole files, links, pipes and folders in their place, keys of JSON, lines of the manifest. And inputs
that are JSON but not what they should be."""
import json
import os
import shutil

from bench import must, one_line

PATIENCE_S = 30


def files_in(folder):
    return sorted(os.path.relpath(os.path.join(at, name), folder) for at, _, names in os.walk(folder) for name in names)


def removed(path):
    os.remove(path)


def emptied(path):
    open(path, "w").close()


def doubled(path):
    shutil.copy(path, path + ".copy")


def as_link_inside(path):
    kept = path + ".elsewhere"
    os.rename(path, os.path.join(os.path.dirname(path), "..", os.path.basename(kept)))
    os.symlink(os.path.join("..", os.path.basename(kept)), path)


def as_link_outside(path):
    outside = os.path.join(os.path.dirname(path), "..", "..", os.path.basename(path) + ".outside")
    shutil.copy(path, outside)
    os.remove(path)
    os.symlink(os.path.abspath(outside), path)


def as_pipe(path):
    os.remove(path)
    os.mkfifo(path)


def as_folder(path):
    os.remove(path)
    os.mkdir(path)


def as_dangling_link(path):
    os.remove(path)
    os.symlink("/nowhere/at/all", path)


FILE_CHANGES = [removed, emptied, doubled, as_link_inside, as_link_outside, as_pipe, as_folder, as_dangling_link]


def change_lines(path, change):
    lines = open(path).read().splitlines(keepends=True)
    changed = change(lines)
    with open(path, "w") as out:
        out.write("".join(changed))
    return changed != lines


LINE_CHANGES = {
    "reordered": lambda lines: lines[:-2] + [lines[-1], lines[-2]],
    "first twice": lambda lines: lines[:1] + lines,
    "last twice": lambda lines: lines + lines[-1:],
    "last dropped": lambda lines: lines[:-1],
    "blank line": lambda lines: lines + ["\n"],
    "line ends of another system": lambda lines: [line.replace("\n", "\r\n") for line in lines],
    "no end of the last line": lambda lines: lines[:-1] + [lines[-1].rstrip("\n")],
    "a remark": lambda lines: lines + ["# a remark\n"],
}


def places(tree, at=()):
    """Every key and element of a JSON tree, as a path."""
    children = tree.items() if isinstance(tree, dict) else enumerate(tree) if isinstance(tree, list) else ()
    for key, child in children:
        yield at + (key,)
        yield from places(child, at + (key,))


def changed_tree(tree, path, change):
    tree = json.loads(json.dumps(tree))
    parent = tree
    for key in path[:-1]:
        parent = parent[key]
    change(parent, path[-1])
    return tree


def replace_by(value):
    def act(parent, key):
        parent[key] = value
    return act


def drop(parent, key):
    del parent[key]


class Raw(str):
    """Text that stands in JSON as it is."""


DEEP = Raw("[" * 100_000 + "]" * 100_000)
JSON_CHANGES = {"dropped": drop, "null": replace_by(None), "a text": replace_by("\u202e\u009b2K<b>x</b>\n" * 3), "no number": replace_by(-1e300),
                "a list": replace_by([]), "deep": replace_by("\0deep"), "long": replace_by("x" * 100_000)}


def as_text(tree):
    return json.dumps(tree).replace('"\\u0000deep"', DEEP)


def key_twice(text, key):
    return text.replace(f'"{key}"', f'"{key}": 0, "{key}"', 1)


def sees_tampering(bench, name, how):
    done = bench.end(bench.start("recheck", name), patience_s=PATIENCE_S)
    must(done.status in (1, 2), f"{how}: recheck says {done.status}: {one_line(done.out)}")
    must(done.status != 1 or "NOT INTACT" in done.out, f"{how}: {one_line(done.out)}")
    must(not [c for c in done.out + done.said if c < " " and c != "\n"], f"{how}: control characters reach the terminal")
    again = bench.end(bench.start("assess", name), patience_s=PATIENCE_S)
    must(again.status >= 0, f"{how}: assess dies of signal {-again.status}")
    paper = bench.end(bench.start("print", name, "--out", "paper.pdf"), patience_s=PATIENCE_S)
    must(paper.status == 2 and not bench.is_there("paper.pdf"), f"{how}: printed all the same: {paper.status} {one_line(paper.said)}")


def tamper(base, place, how, change):
    bench = base.copy(place)
    if change(bench.path("r0")) is not False:
        sees_tampering(bench, "r0", how)


def record_cases(base, place):
    record = base.path("r0")
    for file in files_in(record):
        for change in FILE_CHANGES:
            yield (f"{file} {change.__name__}", lambda at, file=file, change=change: change(os.path.join(at, file)))
        if file.endswith("manifest.sha256"):
            for name, change in LINE_CHANGES.items():
                yield (f"{file} {name}", lambda at, file=file, change=change: change_lines(os.path.join(at, file), change))
        if file.endswith(".json"):
            yield from json_cases(record, file)
    for extra in ("more.txt", "addenda/001/addenda", "addenda/more.txt", "addenda/003", "as-found", ".hidden"):
        yield (f"{extra} added", lambda at, extra=extra: add(os.path.join(at, extra)))


def add(path):
    if path.endswith(".txt") or path.endswith(".hidden"):
        with open(path, "w") as out:
            out.write("added\n")
    else:
        os.makedirs(path)
        with open(path + "/more.txt", "w") as out:
            out.write("added\n")


def json_cases(record, file):
    text = open(os.path.join(record, file)).read()
    tree = json.loads(text)
    for path in list(places(tree))[:400:7]:
        for name, change in JSON_CHANGES.items():
            changed = as_text(changed_tree(tree, path, change))
            yield (f"{file} {'/'.join(map(str, path))} {name}", lambda at, changed=changed: write(os.path.join(at, file), changed))
    for key in list(tree)[:6]:
        yield (f"{file} {key} twice", lambda at, key=key: write(os.path.join(at, file), key_twice(text, key)))


def write(path, text):
    with open(path, "w") as out:
        out.write(text)


def read_with_care(bench, how, *arguments):
    done = bench.end(bench.start(*arguments), patience_s=PATIENCE_S)
    done.check(how)
    must(not [c for c in done.out + done.said if c < " " and c not in "\n\t"], f"{how}: control characters reach the terminal")


def try_input(base, place, how, file, text):
    bench = base.copy(place)
    write(bench.path(file), text)
    read_with_care(bench, how, "assess", *bench.evidence("r1")[:-2])
    if os.path.isdir(bench.path("r1.part")) or os.path.isdir(bench.path("r1")):
        must(False, f"{how}: something was saved that nobody asked for")


def input_cases(base):
    for file in ("order.json", "instrument.json", "run.json", "bench.json"):
        tree = json.load(open(base.path(file)))
        for path in places(tree):
            for name, change in JSON_CHANGES.items():
                yield f"{file} {'/'.join(map(str, path))} {name}", file, as_text(changed_tree(tree, path, change))
        for key in tree:
            yield f"{file} {key} twice", file, key_twice(json.dumps(tree), key)


def cases(base, folder, one_in):
    for number, (how, change) in enumerate(record_cases(base, folder)):
        if number % one_in == 0:
            place = f"{folder}/tampered-{number}"
            yield ("a record is tampered with", how, place, lambda place=place, how=how, change=change: tamper(base, place, how, change))
    for number, (how, file, text) in enumerate(input_cases(base)):
        if number % one_in == 0:
            place = f"{folder}/input-{number}"
            yield ("an input is not what it should be", how, place,
                   lambda place=place, how=how, file=file, text=text: try_input(base, place, how, file, text))
