"""Whole processes from a cold start, timed as on the machine of somebody who has installed the program.

An installer compiles every module once; a checkout may have no bytecode, or a machine may be told to write
none. So both sides of a ratio keep theirs in one folder of this run: the round that warms up fills it.
"""

from __future__ import annotations

import atexit
import os
import resource
import subprocess
import sys
from collections.abc import Callable
from functools import partial
from tempfile import TemporaryDirectory, gettempdir

ENTRY = [sys.executable, "-c", "from aimcalc.cli import main; main()"]
_BYTECODE = TemporaryDirectory(prefix="bytecode-")
atexit.register(_BYTECODE.cleanup)


def installed() -> dict[str, str]:
    """The environment of a process that finds its modules compiled, in one folder of this run."""
    rest = {key: told for key, told in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    return rest | {"PYTHONPYCACHEPREFIX": _BYTECODE.name}


def process(*command: str) -> Callable[[], object]:
    """A whole process from its start to its end, as something to be timed; it has to end well."""
    return partial(
        subprocess.run,
        command,
        cwd=gettempdir(),
        env=installed(),
        check=True,
        capture_output=True,
    )


import_numpy = process(sys.executable, "-c", "import numpy")


def children_used() -> float:
    """Seconds of processor time of the processes that this one started and that have ended."""
    usage = resource.getrusage(resource.RUSAGE_CHILDREN)
    return usage.ru_utime + usage.ru_stime


def used() -> float:
    """The same with what this process itself has taken so far."""
    usage = resource.getrusage(resource.RUSAGE_SELF)
    return usage.ru_utime + usage.ru_stime + children_used()
