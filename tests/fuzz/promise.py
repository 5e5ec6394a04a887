"""What must hold of every input, looked at in a process of its own with bounded time and memory."""

from __future__ import annotations

import csv
import faulthandler
import io
import json
import os
import re
import resource
import shutil
import signal
import sys
import time
import traceback
import warnings
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import TextIO

from tests.fuzz.inputs import Input
from tests.fuzz.mangle import SECRET

SECONDS = 20  # of processor time a call
LONGEST = 300  # s by the clock for all calls of an input, on however busy a machine
MEMORY = 3 << 30  # bytes of addresses
HIDDEN = "aimcalc-part-"
OPENED = (
    "open",
    "os.rename",
    "os.remove",
    "os.mkdir",
    "os.rmdir",
    "os.link",
    "os.symlink",
    "os.truncate",
)
CONTROL = re.compile("([ -~]{0,40})[\x00-\x08\x0b\x0c\x0e-\x1f]")
STREAM_ENDS = {".pdf": b"%%EOF", ".png": b"IEND\xaeB`\x82"}


class Tried:
    """An input that is being tried in a child process; `broken` gives what it found once it has ended."""

    def __init__(self, what: Input, root: Path) -> None:
        self.root = root
        self.statuses: list[int] = []  # of its calls, once it has ended
        shutil.rmtree(root, ignore_errors=True)
        for name, data in what.files.items():
            path = root / "show" / "scene" / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data)
        (root / "show" / "out" / "made").mkdir(parents=True)
        for ending in ("", ".csv", ".xlsx", ".ies", ".stl", ".obj", ".bin", ".toml"):
            (root / "show" / f"{SECRET}{ending}").write_text("x,y,z\n")
            (root / "show" / "scene" / f"link-{SECRET}{ending}").symlink_to(f"../{SECRET}{ending}")
        self.begun = time.monotonic()
        self.child = os.fork()
        if self.child == 0:
            try:
                _in_child(what, root)
            except BaseException:
                (root / "found.json").write_text(
                    json.dumps([[f"the fuzz run: {traceback.format_exc()}"], []])
                )
            finally:
                os._exit(0)

    def broken(self) -> list[str] | None:
        """The promises that broke; None while it still runs."""
        if time.monotonic() - self.begun > LONGEST:
            os.kill(self.child, signal.SIGKILL)
        child, status = os.waitpid(
            self.child, 0 if time.monotonic() - self.begun > LONGEST else os.WNOHANG
        )
        if child == 0:
            return None
        found = self.root / "found.json"
        if status == 0 and found.exists():
            broken, self.statuses = json.loads(found.read_text())
            return list(broken)
        ended = os.waitstatus_to_exitcode(status)
        where = (self.root / "where").read_text() if (self.root / "where").exists() else ""
        frame = next(iter(re.findall(r'File ".*?(aimcalc/\S+)", line (\d+)', where)), ("?", "?"))
        name = signal.Signals(-ended).name if ended < 0 else f"status {ended}"
        call = (self.root / "call").read_text()
        return [f"{call}: the process ended by {name} at {frame[0]}:{frame[1]}"]


def _in_child(what: Input, root: Path) -> None:
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    resource.setrlimit(resource.RLIMIT_FSIZE, (200_000_000, 200_000_000))
    where = open(root / "where", "w")  # noqa: SIM115
    faulthandler.register(signal.SIGXCPU, where, all_threads=False, chain=True)
    warnings.simplefilter("ignore")
    show = root / "show"
    broken: list[str] = []
    statuses: list[int] = []
    os.chdir(show)
    before = dict(_contents(show / "scene"))
    watch = _Watch(show)
    sys.addaudithook(watch)
    for call in what.calls:
        streams = [open(root / name, "w+", encoding="utf-8") for name in ("told", "warned")]  # noqa: SIM115
        (root / "call").write_text(call)
        most = int(time.process_time()) + SECONDS
        resource.setrlimit(resource.RLIMIT_CPU, (most, resource.RLIM_INFINITY))
        watch.on = True
        status, out, err = _call([_placed(word, show) for word in call.split()], streams)
        watch.on = False
        statuses.append(status)
        broken += [f"{call}: {told}" for told in _told_badly(call, status, out, err)]
        broken += [f"{call}: {told}" for told in _left_badly(call, show)]
        broken += [f"{call}: {told}" for told in watch.touched]
        watch.touched.clear()
        shutil.rmtree(show / "out")
        (show / "out" / "made").mkdir(parents=True)
    if dict(_contents(show / "scene")) != before:
        broken.append("the scene's own folder was changed")
    (root / "found.json").write_text(json.dumps([broken, statuses]))


def _placed(word: str, show: Path) -> str:
    return re.sub(r"^SCENE", str(show / "scene"), re.sub(r"^OUT", str(show / "out" / "made"), word))


def _call(arguments: list[str], streams: list[TextIO]) -> tuple[int, str, str]:
    from aimcalc import cli

    sys.stdout, sys.stderr = streams
    try:
        status = cli.run(arguments)
    except BaseException:  # run promises to let nothing through
        status = -1
        traceback.print_exc()
    finally:
        sys.stdout, sys.stderr = sys.__stdout__, sys.__stderr__
    for stream in streams:
        stream.seek(0)
    told, warned = (stream.read() for stream in streams)
    for stream in streams:
        stream.close()
    return status, told, warned


class _Watch:
    """An audit hook that notes what is opened, moved or made where nothing of the call's business is."""

    def __init__(self, show: Path) -> None:
        self.show, self.touched, self.on = str(show), [], False

    def __call__(self, event: str, arguments: tuple[object, ...]) -> None:
        if not self.on or event not in OPENED or not isinstance(arguments[0], str | bytes):
            return
        name = os.fsdecode(arguments[0])
        if event != "open" and isinstance(arguments[-1], int) and arguments[-1] >= 0:
            name = os.path.join(f"/proc/self/fd/{arguments[-1]}", name)
        path = os.path.realpath(name)
        flags = arguments[2] if event == "open" else os.O_WRONLY
        writes = isinstance(flags, int) and flags & (os.O_WRONLY | os.O_RDWR | os.O_CREAT)
        usual = path.startswith((f"{self.show}/out/", "/dev/null")) or "__pycache__" in path
        secret = SECRET in os.path.basename(path) and path.startswith(f"{self.show}/")
        if secret or path in ("/etc/passwd", "/dev/zero"):
            self.touched.append(f"{event} of a file outside the scene's folder: {path}")
        elif writes and not usual:
            told = path.removeprefix(self.show)
            self.touched.append(f"{event} writes outside the folder asked for: {told}")


def _contents(folder: Path) -> Iterator[tuple[str, bytes]]:
    for path in sorted(folder.rglob("*")):
        if path.is_file():
            yield str(path.relative_to(folder)), path.read_bytes()


def _told_badly(call: str, status: int, out: str, err: str) -> Iterator[str]:
    if status not in (0, 1, 2):
        yield f"exit status {status}"
    if "aimcalc itself has failed" in err:
        yield err.strip().splitlines()[-1][:400]
    if "Traceback (most" in out + err:
        yield f"a traceback: {err.strip().splitlines()[-1][:300]}"
    if status == 2 and not err.strip():
        yield "status 2 without a word"
    if status == 2 and out.strip():
        yield "status 2 with output"
    if control := CONTROL.search(out + err):
        yield f"a control character is sent to the terminal after {control[1]!r}"
    if status != 2 and "--json" in call:
        yield from _json_badly(out)
    if status != 2 and "--csv" in call:
        yield from _csv_badly(out)


def _json_badly(text: str) -> Iterator[str]:
    def no_number(word: str) -> None:
        raise ValueError(word)

    try:
        json.loads(text, parse_constant=no_number)
    except ValueError as error:
        yield f"JSON that cannot be read: {error}"


def _csv_badly(text: str) -> Iterator[str]:
    for row in csv.reader(io.StringIO(text, newline="")):
        for cell in row:
            if cell.startswith(("=", "+", "-", "@", "\t", "\r")) and not _is_number(cell):
                yield f"a live formula in CSV: {cell[:60]!r}"


def _is_number(cell: str) -> bool:
    return re.fullmatch(r"[-+]?\d+(\.\d+)?([eE][-+]?\d+)?", cell) is not None


def _left_badly(call: str, show: Path) -> Iterator[str]:
    """What is wrong with the files that a call has left."""
    for path in show.rglob("*"):
        if HIDDEN in path.name:
            yield f"a hidden folder or file is left: {path.name}"
    made = sorted(path for path in (show / "out").rglob("*") if path.is_file())
    if call.startswith("prep") and (show / "out" / "made" / "set").exists():
        from aimcalc.sheets.pieces import chosen

        words = call.split()
        pieces = chosen(words[words.index("--only") + 1])
        want = {"set.json", *(name for piece in pieces for name in piece.files)}
        have = {str(path.relative_to(show / "out" / "made" / "set")) for path in made}
        if have != want:
            yield f"the set is not whole: {sorted(have ^ want)}"
    for path in made:
        yield from _file_badly(path)


def _file_badly(path: Path) -> Iterator[str]:
    data = path.read_bytes()
    if not data or STREAM_ENDS.get(path.suffix, b"") not in data[-20:]:
        yield f"{path.name} is cut off"
    if path.suffix == ".json":
        yield from _json_badly(data.decode())
    if path.suffix == ".csv":
        yield from _csv_badly(data.decode("utf-8-sig"))
    if path.suffix == ".xlsx":
        with zipfile.ZipFile(io.BytesIO(data)) as book:
            if book.testzip():
                yield f"{path.name} is damaged"
            for name in book.namelist():
                if re.search(rb"<f[ >]|<ddeLink|externalLink", book.read(name)):
                    yield f"a live formula in {path.name}, {name}"
