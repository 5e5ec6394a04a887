"""Numbers and paper for hanging and pointing stage lighting units.

    import aimcalc
    show = aimcalc.read("scenes/playhouse")

What `show` gives is told in `aimcalc.show` and `aimcalc.door`; they load when `read` is first asked for.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from aimcalc.door import read

__all__ = ["__version__", "read"]
__version__ = "0.1.0"


def __getattr__(name: str) -> Any:
    """`read`, loaded when it is asked for: importing the package must cost nothing."""
    if name == "read":
        from aimcalc.door import read

        return read
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
