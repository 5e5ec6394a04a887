"""Lanes: pieces of work done side by side in forked processes, which have all that was worked out before.

A lane says over a pipe what it begins and how that ended, and nothing else. What is wrong is for the caller
to find out, by doing again itself what a lane could not do: because it cannot be done, or because
somebody killed the lane.
"""

from __future__ import annotations

import os
import signal
import sys
import threading
import warnings
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager, suppress
from typing import NoReturn

from aimcalc.text.holding import ending, unbroken
from aimcalc.text.whole import let_go

BEGUN, FAILED, NO_PAGES = (
    -1,
    -2,
    -3,
)  # what a lane may tell of a piece instead of its number of pages


def cores() -> int:
    """How many processes may draw side by side: 1 where none can be forked, or not safely.

    A process that runs other threads must not be forked, and no process of macOS that has loaded its own
    libraries.
    """
    safe = threading.current_thread() is threading.main_thread() and threading.active_count() == 1
    if sys.platform == "darwin" or not hasattr(os, "fork") or not safe:
        return 1
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


@contextmanager
def lanes(
    count: int, tasks: Sequence[Sequence[int]], work: Callable[[int], int | None]
) -> Iterator[Iterator[tuple[int, int]]]:
    """What up to `count` forked processes tell while they `work` through the tasks: piece, and how far it is.

    It ends when all are done or one has failed; with the block the processes end, whatever they do.
    """
    queue, news = os.pipe(), os.pipe()
    os.write(queue[1], bytes(range(len(tasks))))
    os.close(queue[1])
    held = [news[1], queue[0]]
    children: list[int] = []
    try:
        for _ in range(count):
            rope = os.pipe()
            held += rope
            with suppress(OSError), unbroken(), warnings.catch_warnings():
                warnings.simplefilter("ignore")  # numpy's own threads: its library sees to them
                if not (child := os.fork()):
                    _lane(tasks, work, queue[0], news[1], rope)
                children.append(child)
        os.close(held.pop(0))
        with open(news[0], "rb") as lines:
            yield _told(lines)
    finally:
        with unbroken():
            for child in children:
                _end(child)
            for handle in held:
                os.close(handle)


def _told(lines: Iterable[bytes]) -> Iterator[tuple[int, int]]:
    """The lines that lanes write, until they end or one tells of a piece that has failed."""
    for line in lines:
        piece, told = map(int, line.split())
        if told == FAILED:
            return
        yield piece, told


def _end(child: int) -> None:
    """End a process of ours, unless it has ended, and let the system forget it."""
    with suppress(ChildProcessError):
        if os.waitpid(child, os.WNOHANG) == (0, 0):
            os.kill(child, signal.SIGKILL)
            os.waitpid(child, 0)


def _lane(
    tasks: Sequence[Sequence[int]],
    work: Callable[[int], int | None],
    queue: int,
    news: int,
    rope: tuple[int, int],
) -> NoReturn:
    """The life of a forked process: tasks from the queue are done and told of; it ends without a word."""
    try:
        for number in ending():
            signal.signal(number, signal.SIG_DFL)
        _hang_on(rope)
        let_go()
        while task := os.read(queue, 1):
            for k in tasks[task[0]]:
                os.write(news, b"%d %d\n" % (k, BEGUN))
                told = FAILED
                try:
                    pages = work(k)
                    told = NO_PAGES if pages is None else pages
                finally:
                    os.write(news, b"%d %d\n" % (k, told))
    finally:
        os._exit(0)


def _hang_on(rope: tuple[int, int]) -> None:
    """Let the system end this process with the one that holds the other end of its rope, a pipe."""
    import fcntl
    from select import select

    os.close(rope[1])
    if hasattr(fcntl, "F_SETOWN") and hasattr(os, "O_ASYNC"):
        fcntl.fcntl(rope[0], fcntl.F_SETOWN, os.getpid())
        signal.signal(signal.SIGIO, signal.SIG_DFL)
        fcntl.fcntl(rope[0], fcntl.F_SETFL, fcntl.fcntl(rope[0], fcntl.F_GETFL) | os.O_ASYNC)
    if select([rope[0]], [], [], 0.0)[0]:  # it has ended before
        os._exit(0)
