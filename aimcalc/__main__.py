"""The `aimcalc` command, and `python -m aimcalc`: from the first moment on, Ctrl-C ends it in words."""

import os
import signal
from contextlib import suppress
from typing import Any


def main() -> None:
    """Load the command line and run it."""
    if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
        signal.signal(signal.SIGINT, _stopped)
    from aimcalc import cli

    cli.main()


def _stopped(number: int, frame: Any) -> None:
    """What Ctrl-C does while the command line is still being loaded."""
    with suppress(OSError):
        os.write(2, b"Stopped. Nothing was begun.\n")
    os._exit(128 + number)


if __name__ == "__main__":
    main()
