"""Where to look for the centre of each unit's light: on the deck, on what stops it, or on a pole."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.aim import PLUMB
from aimcalc.geometry.vectors import angles_between, dot, to_degrees
from aimcalc.named import NamedTuple
from aimcalc.rig.places import inside
from aimcalc.rig.wording import whole
from aimcalc.scene.model import Pipe
from aimcalc.solid.rig import SolidRig
from aimcalc.text import words as w
from aimcalc.text.names import short

if TYPE_CHECKING:
    from aimcalc.scene.model import Point
    from aimcalc.solid.answers import Answer


POLE_BELOW = 25  # degrees DOWN under which the landing runs away (common practice, no source)


class Mark(NamedTuple):
    """Where to look for the centre of the light.

    LANDS with the two distances of a deck or platform mark, ON an upright surface with a height and the
    distance along it, or POLE with a height at STAND or POINT. `on` names the surface, if not the deck.
    """

    word: str
    first: str
    second: str
    on: str = ""

    @property
    def head(self) -> str:
        """The word with the surface: "LANDS", "LANDS on platform", "ON apple tree", "POLE"."""
        if not self.on:
            return self.word
        return f"{self.word} {self.on}" if self.word == "ON" else f"{self.word} on {self.on}"

    @property
    def lines(self) -> list[str]:
        """What stands under each other in a cell."""
        head = [self.head] if self.word != "LANDS" else ["LANDS", self.on and f"on {self.on}"]
        return [part for part in (*head, self.first, self.second) if part]

    @property
    def said(self) -> str:
        """In one line: "LANDS 2'-0\" SL, 9'-0\" US on platform", "ON door flat, 3'-1\" UP, 6'-0\" SL"."""
        if self.word == "LANDS":
            return f"LANDS {self.first}, {self.second}{self.on and f' on {self.on}'}"
        if self.word == "ON":
            return f"ON {self.on}, {self.first}, {self.second}"
        return " ".join(self.lines)


def mark_of(rig: SolidRig, k: int, answer: Answer, length: w.LengthUnit) -> Mark:
    """LANDS, ON or POLE: what can be seen of where the axis stops, from where a crew can look.

    The foot of an upright surface is a place on the deck. A floor mark is useless below `POLE_BELOW`, in
    the seats, and where nothing stops the light; a pole is, where something stops it before the face.
    """
    met, stop = rig.meets, answer.meets
    if stop and met.upright[k] and w.rounded(stop.height, length):
        up = "UP" if stop.height > 0 else "BELOW DECK"
        x, y, _ = stop.point
        faces_across = abs(met.normal[0, k]) > abs(met.normal[1, k])
        along = w.upstage(y, length) if faces_across else w.across(x, length)
        on = short(rig, stop.name)
        return Mark("ON", f"{w.length(stop.height, length, w.SIZE)} {up}", along, on)
    pole = _pole(rig, k, length) if rig.reaches[k] else ""
    low = (answer.down or 0.0) < POLE_BELOW
    if stop is None or (pole and (low or _in_seats(rig, stop.point))):
        where = "at STAND" if answer.stand else "at POINT"
        return Mark("POLE", pole, where) if pole else Mark("", "no landing", "")
    x, y, _ = stop.point
    on_solid = met.surface[k] < len(met.names) - 1
    on = short(rig, stop.name) if on_solid and met.top[k] else ""
    return Mark("LANDS", w.across(x, length), w.upstage(y, length), on)


def _pole(rig: SolidRig, k: int, length: w.LengthUnit) -> str:
    """The axis height at STAND: it goes through the face, so the face's own above the surface there."""
    height = float(rig.arrays.point[2, k] - rig.surface_z[k])
    return w.length(height, length) if w.rounded(height, length) > 0 else ""


def _in_seats(rig: SolidRig, point: Point) -> bool:
    x, y = np.array(point[:1]), np.array(point[1:2])
    return any(inside(block.outline, x, y)[0] for block in rig.scene.seats)


SHARE = 0.5  # of the follower's tolerance (common practice, no source)
MOST_LEADERS = 64  # the last before a unit on the ladder's way, which hang nearest to it
SAME_STEM = 1.0 - 1e-9  # cosine between stems that count as parallel


def match_leaders(rig: SolidRig) -> list[int | None]:
    """For each unit the index of the unit it may be matched to, None where it is set by its numbers.

    The leader comes earlier on the ladder's way along the same position, is of the same kind and mount,
    prints the same figures, and is itself set by its numbers; of several near enough the one that hangs
    nearest, for the eye that compares them. Units that point straight down or up, or that have no aim, take
    no part.
    """
    leaders: dict[tuple[str, str, str, tuple[int, ...]], list[int]] = {}
    found: list[int | None] = [None] * len(rig.units)
    taking_part = ((rig.aims.attitude != PLUMB) & ~np.isnan(rig.aims.yoke)).tolist()
    printed = _printed(rig)
    for k, unit in enumerate(rig.units):
        if taking_part[k]:
            ahead = leaders.setdefault((unit.position, unit.kind, unit.mount, printed[k]), [])
            found[k] = _nearest(rig, k, ahead[-MOST_LEADERS:])
            if found[k] is None:
                ahead.append(k)
    return found


def _printed(rig: SolidRig) -> list[tuple[int, ...]]:
    """What a unit's row prints of its pose, as whole degrees and codes: what a follower must share."""
    aims = rig.aims
    heading = whole(to_degrees(aims.heading)) % 360
    leaning = np.abs(rig.arrays.stem[2]) < SAME_STEM
    told = leaning | np.array([not isinstance(p, Pipe) for p in rig.positions], dtype=bool)
    rows = np.stack(
        (
            aims.square_sign,
            aims.swing_sign * whole(to_degrees(aims.pan)),
            whole(to_degrees(aims.down)),
            np.where(leaning, whole(to_degrees(aims.yoke)), 0),
            np.where(told, heading, 0),
        )
    )
    return [tuple(row) for row in np.nan_to_num(rows).astype(int).T.tolist()]


def _nearest(rig: SolidRig, follower: int, leaders: list[int]) -> int | None:
    """The nearest leader that the follower may copy, None where it would miss by too much of any."""
    if not leaders:
        return None
    apart = angles_between(rig.axis[:, leaders], rig.axis[:, [follower]])
    stems = dot(rig.arrays.stem[:, leaders], rig.arrays.stem[:, [follower]])
    fits = (stems >= SAME_STEM) & (apart <= SHARE * rig.tolerances.least[follower])
    away = rig.arrays.clamp[:, leaders] - rig.arrays.clamp[:, [follower]]
    best = int(np.argmin(np.where(fits, dot(away, away), np.inf)))
    return leaders[best] if fits[best] else None
