"""What every test may count on."""

from __future__ import annotations

import os
import signal
import sys

import pytest

from aimcalc.rig import typeface
from tests import studies

# A shell starts what runs in the background with these signals ignored, and whoever they start inherits it;
# tests of what a signal does need them as a terminal gives them.
for _name in ("SIGINT", "SIGTERM", "SIGHUP"):
    _signal = getattr(signal, _name, None)
    if _signal is not None and signal.getsignal(_signal) is signal.SIG_IGN:
        _usual = signal.default_int_handler if _name == "SIGINT" else signal.SIG_DFL
        signal.signal(_signal, _usual)

# What Python compiled of the package and what pytest made of the tests is kept for the next run, and for the
# processes that tests start, even where the shell keeps none: without it each takes twice as long to start.
sys.dont_write_bytecode = False
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)


def pytest_configure(config: pytest.Config) -> None:
    """Let random studies be long where they alone are asked for."""
    studies.at_length = config.option.markexpr == "long"


@pytest.fixture(autouse=True)
def no_typefaces_of_this_machine(monkeypatch: pytest.MonkeyPatch) -> None:
    """Typefaces are those that a test puts somewhere: what is installed here changes no result."""
    monkeypatch.setattr(typeface, "found_here", lambda: ())
