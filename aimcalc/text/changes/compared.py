"""Records of a comparison: two scenes, or a scene and an earlier print, and the light of both."""

from __future__ import annotations

import msgspec

from aimcalc.landings.changeover import Changeover
from aimcalc.landings.changes import Changes, Side
from aimcalc.named import NamedTuple
from aimcalc.scene.model import Position
from aimcalc.text import words as w
from aimcalc.text.stamp import said_iso


class Told(msgspec.Struct, frozen=True):
    """One of the two that are compared. `set` and `printed` are of a print, empty of a scene.

    `what_if` is what was set of a scene for this call alone.
    """

    title: str
    revision: str
    set: str = ""
    printed: str | None = None
    what_if: tuple[str, ...] = ()

    @property
    def words(self) -> str:
        """ "revision C", "revision C of set K7MP4, 14 Nov, 16:02"."""
        name = f"revision {self.revision}" if self.revision else "no revision"
        if not self.set:
            return name
        return ", ".join(filter(None, (f"{name} of set {self.set}", said_iso(self.printed))))


class LightChange(msgspec.Struct, frozen=True):
    """The light of one system before and after, dark under `below` lux in both. None where it is not known.

    Means and least in lux, areas of holes in square metres.
    """

    system: str
    below: float | None
    mean_was: float | None
    mean_now: float | None
    least_was: float | None
    least_now: float | None
    holes_was: int | None
    holes_now: int | None
    dark_was: float | None
    dark_now: float | None


class Compared(NamedTuple):
    """All that is told. `light` is None where `no_light` says why."""

    old: Told
    new: Told
    sides: tuple[Side, Side]
    changes: Changes
    changeover: Changeover
    light: list[LightChange] | None
    no_light: str
    length: w.LengthUnit

    @property
    def positions(self) -> dict[str, Position]:
        """Every position that either scene tells of."""
        found: dict[str, Position] = {}
        for side in self.sides:
            found |= side.scene.positions if side.scene else {}
        return found
