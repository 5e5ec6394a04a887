"""Holding off what would cut a row of moves in two: signals, and other runs in the same folder."""

from __future__ import annotations

import os
import signal
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from threading import current_thread, main_thread
from time import sleep, time
from types import FrameType

ENDING = ("SIGINT", "SIGTERM", "SIGHUP")  # signals that end a program; a system may lack some
WAIT = 0.01  # s, between two looks at a lock
STALE = 3600.0  # s, after which a folder counts as left behind where there are no locks
NO_LOCKS = -1

Handler = Callable[[int, FrameType | None], object]


def ending() -> list[int]:
    """The signals of this system that end a program, without those that whoever started us wants ignored."""
    numbers = [getattr(signal, name) for name in ENDING if hasattr(signal, name)]
    return [n for n in numbers if signal.getsignal(n) not in (None, signal.SIG_IGN)]


@contextmanager
def unbroken() -> Iterator[list[int]]:
    """A block that no signal cuts short: one that would end the program waits until the block is done.

    The list tells what came so far. An OSError of the block goes before them: it has to be told.
    """
    came: list[int] = []
    usual: dict[int, Handler | int | None] = {}
    try:
        if current_thread() is main_thread():  # no other gets signals
            for number in ending():
                usual[number] = signal.getsignal(number)
                signal.signal(number, lambda number, frame: came.append(number))
        yield came
    except OSError:
        came.clear()
        raise
    finally:
        for number, handler in usual.items():
            signal.signal(number, handler)
        if came:
            signal.raise_signal(came[0])


def stop_if(came: Sequence[int]) -> None:
    """Raise KeyboardInterrupt when a signal has come in an `unbroken` block."""
    if came:
        raise KeyboardInterrupt


@contextmanager
def alone_in(folder: str, came: Sequence[int]) -> Iterator[None]:
    """Wait until no other run moves files in `folder`, and keep them waiting; a signal ends the wait."""
    handle = None
    try:
        with suppress(
            ImportError, OSError
        ):  # no locks here: be content with the order of the moves
            handle = os.open(folder, os.O_RDONLY)
            while not _locked(handle):
                sleep(WAIT)
                stop_if(came)
        yield
    finally:
        unlock(handle)


def lock(folder: str) -> int | None:
    """The lock on a folder, None where another process holds it or the folder is gone.

    The system drops the lock when its holder dies, however it dies. Where there are no locks (Windows, some
    disks of a network), a folder that nobody touched for `STALE` counts as free.
    """
    handle = None
    try:
        handle = os.open(folder, os.O_RDONLY)
        if _locked(handle):
            return handle
    except (ImportError, OSError):
        with suppress(OSError):
            if time() - os.stat(folder).st_mtime > STALE:
                return NO_LOCKS
    unlock(handle)
    return None


def unlock(held: int | None) -> None:
    """Give a lock back."""
    if held is not None and held != NO_LOCKS:
        os.close(held)


def _locked(handle: int) -> bool:
    """Whether a lock on an open folder could be had at once. Raises OSError where the disk has none."""
    import fcntl

    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    return True
