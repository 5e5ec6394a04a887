"""Spoilt inputs by the hundred, and what must hold of each (`promise.py`).

    python -m tests.fuzz --seconds 60 --seed 1          a run
    python -m tests.fuzz --only "hang list XLSX"        one sort of input
    python -m tests.fuzz --case tests/fuzz/cases/NAME   a kept case

The same seed gives the same inputs. The first input of each new fault is kept in `tests/fuzz/cases/`.
"""

from __future__ import annotations

import argparse
import importlib
import os
import re
import shutil
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from random import Random

from tests.fuzz.inputs import CALLS, CHEAP, SORTS, Input
from tests.fuzz.promise import Tried

CASES = Path(__file__).parent / "cases"
SELDOM = {"plenty": 8}  # sorts that take seconds each: only in every so many rounds
LARGEST = 200_000  # bytes of a case that is kept


def main() -> int:
    """The status of a run: 0 where every promise was kept."""
    asked = argparse.ArgumentParser(prog="python -m tests.fuzz")
    asked.add_argument("--seconds", type=float, default=60.0)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--only", choices=list(SORTS), help="one sort of input")
    asked.add_argument("--number", type=int, help="with --only: this input of it alone")
    asked.add_argument("--workers", type=int, default=os.cpu_count() or 1)
    asked.add_argument("--case", type=Path, help="a folder that holds calls.txt and a scene")
    given = asked.parse_args()
    with tempfile.TemporaryDirectory() as scratch:
        if given.case:
            broken = one(read_case(given.case), Path(scratch) / "case")
            print("\n".join(broken) or f"{given.case.name}: every promise is kept")
            return 1 if broken else 0
        return _run(given, Path(os.path.realpath(scratch)))


def one(what: Input, root: Path) -> list[str]:
    """The promises that an input breaks."""
    tried = Tried(what, Path(os.path.realpath(root)))
    while (broken := tried.broken()) is None:
        time.sleep(0.005)
    return broken


def read_case(folder: Path) -> Input:
    """A kept case: its calls in calls.txt, one a line; every other file is the scene's."""
    files = {path.name: path.read_bytes() for path in sorted(folder.iterdir())}
    return Input(files, tuple(files.pop("calls.txt").decode().splitlines()))


def keep(what: Input, name: str) -> Path:
    """Write an input as a case."""
    folder = CASES / name
    folder.mkdir(parents=True, exist_ok=True)
    for file, data in what.files.items():
        (folder / file).write_bytes(data)
    (folder / "calls.txt").write_text("\n".join(what.calls) + "\n")
    return folder


def _run(given: argparse.Namespace, scratch: Path) -> int:
    print(f"seed {given.seed}, {given.seconds:g} s", flush=True)
    _load_all(scratch)
    until = time.monotonic() + given.seconds
    waiting = _inputs(given)
    running: dict[int, tuple[str, int, Input, Tried]] = {}
    counts: Counter[str] = Counter()
    ends: Counter[tuple[str, int]] = Counter()
    faults: dict[str, list[str]] = {}
    slowest = (0.0, "")
    while True:
        for place in range(given.workers):
            if place not in running and time.monotonic() < until:
                with suppress(StopIteration):
                    name, number, what = next(waiting)
                    running[place] = name, number, what, Tried(what, scratch / str(place))
        if not running:
            break
        for place, (name, number, what, tried) in list(running.items()):
            broken = tried.broken()
            if broken is None:
                continue
            del running[place]
            counts[name] += 1
            ends.update((name, status) for status in tried.statuses)
            slowest = max(slowest, (time.monotonic() - tried.begun, f"{name} {number}"))
            for told in broken:
                _note(faults, told, f"{name} {number}", what, given.seed)
        time.sleep(0.002)
    for name, count in counts.items():
        told = ", ".join(f"{ends[name, status]} calls ended {status}" for status in (0, 1, 2))
        print(f"{count:6}  {name:<20} {told}")
    print(f"{counts.total():6}  inputs; the longest took {slowest[0]:.1f} s ({slowest[1]})")
    for told, inputs in faults.items():
        print(f"BROKEN in {len(inputs)} of them, such as {', '.join(inputs[:4])}:\n    {told}")
    print("every promise was kept" if not faults else f"{len(faults)} faults")
    return 1 if faults else 0


def _note(faults: dict[str, list[str]], told: str, where: str, what: Input, seed: int) -> None:
    """Enter a fault; the first input that shows it is kept."""
    call, _, says = told.partition(": ")
    ours = re.search(r"(\w+\.py):\d+\)?$", says)
    fault = f"{call.split()[0]}: {says}"
    known = next((f for f in faults if ours and f.endswith(ours[0])), fault)
    faults.setdefault(known, []).append(where)
    if len(faults[known]) == 1 and sum(map(len, what.files.values())) < LARGEST:
        alone = what._replace(calls=(call,)) if call in what.calls else what
        name = f"{where.replace(' ', '-').lower()}-seed-{seed}"
        faults[f"{known}\n    kept as {keep(alone, name)}"] = faults.pop(known)


def _inputs(given: argparse.Namespace) -> Iterator[tuple[str, int, Input]]:
    """Inputs of every sort in turn."""
    sorts = [given.only] if given.only else list(SORTS)
    number = given.number or 0
    while True:
        for name in sorts:
            if not given.only and number % SELDOM.get(name, 1):
                continue
            yield name, number, SORTS[name](Random(f"{given.seed} {name} {number}"))
        if given.number is not None:
            return
        number += 1


def _load_all(scratch: Path) -> None:
    """Load once what the calls load, so that no child has to."""
    list_ = scratch / "modules"
    child = os.fork()
    if child == 0:
        from aimcalc import cli

        show = scratch / "warm"
        shutil.copytree(CASES.parents[2] / "scenes" / "studio", show / "scene")
        with open(os.devnull, "w") as nowhere:
            sys.stdout = sys.stderr = nowhere
            for call in (*CHEAP, *CALLS):
                cli.run(
                    [
                        w.replace("SCENE", f"{show}/scene").replace("OUT", str(show))
                        for w in call.split()
                    ]
                )
        list_.write_text("\n".join(sys.modules))
        os._exit(0)
    os.waitpid(child, 0)
    for name in list_.read_text().split():
        with suppress(Exception):
            importlib.import_module(name)


if __name__ == "__main__":
    sys.exit(main())
