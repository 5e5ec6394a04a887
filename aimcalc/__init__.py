"""Numbers and paper for hanging and pointing stage lighting units.

    import aimcalc
    show = aimcalc.read("scenes/playhouse")

What `show` gives is told in `aimcalc.show` and `aimcalc.door`; they load when `read` is first asked for.
"""

TYPE_CHECKING = False  # a type checker takes it for True; `typing` itself would cost time
__version__ = "0.1.0"

if TYPE_CHECKING:
    from aimcalc.door import read as read
else:

    def __getattr__(name: str):
        """`read`, loaded when it is asked for: importing the package must cost nothing."""
        if name == "read":
            from aimcalc.door import read

            return read
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
