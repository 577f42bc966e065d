"""Groups at scale: parts of a run made side by side, runs killed at any time, memory that does not grow with the class.

Needs GNU parallel and qpdf. Every figure is compared within one run, as a ratio or for equality.
"""

import hashlib
import os
import random
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

BIN = Path(os.environ.get("CARGO_TARGET_DIR", "target")) / "release" / "sheafling"
BIN = BIN.resolve()

PLAN = "title: Week of blends\nsheets: [sound-boxes, blend-sort, first-blend]\n"
STEPS = [("l-blends", "bl cl fl"), ("a-e", "st sp sn"), ("ai-ay", "tr dr gr")]


def group(count):
    rows = [f"Child {n + 1},{STEPS[n % 3][0]},{STEPS[n % 3][1]}" for n in range(count)]
    return "name,step,focus\n" + "\n".join(rows) + "\n"


def tree(folder):
    files = {}
    for path in sorted(Path(folder).rglob("*")):
        if path.is_file():
            files[str(path.relative_to(folder))] = hashlib.sha256(path.read_bytes()).hexdigest()
    return files


def command(room, out, *more):
    return [str(BIN), "packet", str(room / "week.yaml"), "--group", str(room / "class.csv"), "--seed", "calm-otter-5",
            "--out", str(out), *more]


def run(args):
    done = subprocess.run(args, capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit(f"{' '.join(args)} failed: {done.stderr}")
    return done.stdout


def most_memory(args):
    """The most memory that a command held, in kilobytes."""
    child = subprocess.Popen(args, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
    errors = child.stderr.read()
    _, status, usage = os.wait4(child.pid, 0)
    if status != 0:
        sys.exit(f"{' '.join(args)} failed: {errors.decode()}")
    return usage.ru_maxrss


def parts(room):
    """The parts that GNU parallel makes are the whole."""
    (room / "class.csv").write_text(group(48))
    run(command(room, room / "whole"))
    line = " ".join(command(room, room / "parts", "--shard", "{}/16"))
    subprocess.run(["parallel", "--will-cite", "--jobs", "2", line, ":::", *[str(n + 1) for n in range(16)]], check=True,
                   stdout=subprocess.DEVNULL)
    assert tree(room / "parts") == tree(room / "whole"), "the parts are not the whole"
    print(f"16 parts made side by side are the run of 48: {len(tree(room / 'whole'))} files, byte for byte")


def killed(room, times):
    """Runs killed at any time leave only whole files, and go on to the same."""
    whole = tree(room / "whole")
    start = time.monotonic()
    run(command(room, room / "timed"))
    length = time.monotonic() - start
    chance = random.Random(20260101)
    found = set()
    for _ in range(times):
        shutil.rmtree(room / "broken", ignore_errors=True)
        child = subprocess.Popen(command(room, room / "broken"), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        time.sleep(chance.uniform(0, length))
        child.send_signal(signal.SIGKILL)
        child.wait()
        left = {name: mark for name, mark in tree(room / "broken").items() if not name.endswith(".part")}
        for name, mark in left.items():
            assert whole.get(name) == mark, f"{name} is not whole"
        found.add(len(left))
        run(command(room, room / "broken", "--resume"))
        assert tree(room / "broken") == whole, "a run that goes on does not come to the same"
    print(f"{times} runs killed: {min(found)} to {max(found)} of {len(whole)} files were there, all whole; each went on to the same")


def memory(room, count):
    """Ten times the children take hardly more memory."""
    (room / "week.yaml").write_text("title: One sheet\nsheets: [sound-boxes]\nkey: none\n")
    figures = {}
    for number in (count // 10, count):
        (room / "class.csv").write_text(group(number))
        start = time.monotonic()
        figures[number] = most_memory(command(room, room / f"class-{number}"))
        took = time.monotonic() - start
        made = len(list((room / f"class-{number}").glob("child-*.pdf")))
        assert made == number, f"{made} of {number} packets"
        print(f"{number} children: {figures[number] / 1024:.0f} MB at the most, {1000 * took / number:.1f} ms a child")
    ratio = figures[count] / figures[count // 10]
    assert ratio < 1.6, f"memory grows with the class: {ratio:.2f} times"
    sample = sorted((room / f"class-{count}").glob("child-*.pdf"))[:: max(1, count // 20)]
    for path in sample:
        subprocess.run(["qpdf", "--check", str(path)], check=True, stdout=subprocess.DEVNULL)
    print(f"ten times the children: {ratio:.2f} times the memory; {len(sample)} files looked at by qpdf")


def main():
    times, count = (int(word) for word in (sys.argv[1:] or ["50", "10000"]))
    with tempfile.TemporaryDirectory() as name:
        room = Path(name)
        (room / "week.yaml").write_text(PLAN)
        parts(room)
        killed(room, times)
        memory(room, count)


main()
