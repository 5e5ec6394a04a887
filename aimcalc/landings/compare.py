"""What changed between two rigs: what was written, and the units whose printed figures no longer serve.

A figure leaves its tolerance where the one printed then and the one printed now, both rounded as on the
sheets, are further apart than the unit may be out and still hit, by the lesser of its two tolerances. A mark
on the pipe, a word and a name have no tolerance: any change of what is printed counts. So both orders tell
the same, mirrored. Lengths are metres, angles degrees.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from math import cos, dist, hypot, inf
from typing import Any, TypeVar

import msgspec

from aimcalc.geometry.vectors import angles_between, points, to_degrees, to_radians
from aimcalc.rig.wording import DECK, HANG, rounded, steps
from aimcalc.scene.model import Pipe, Point, Scene, Unit

T = TypeVar("T")
Value = str | float | bool | Sequence[Any] | None

NOTHING = 1e-6  # m or degrees: what a sum of lengths may be off
MOUNTED = ("chord", "mount", "swing_out", "out_to", "arm", "arm_to")  # how a unit is clamped
PLACE = ("position", "number", "at", "source", *MOUNTED)
# What a unit is there for, whatever outlet, remark or report goes with the place.
JOB = (
    "kind",
    "target",
    "point",
    "system",
    "channel",
    "colour",
    "transmission",
    "precise",
    "turn",
    "edge",
)
PLUS = ("SL", "US", "UP")  # the senses of a positive turn
# Figures that the deck looks for, and those that the desk is patched by.
FOR_DECK = frozenset(("target", "lands", "lands on", "stand"))
FOR_PROGRAMMER = frozenset(("channel", "colour", "target", "kind"))
# The work that a change makes at a unit, by what changed: what `touch` of a row is made of.
WORK = {
    "kind": "hang",
    "at": "hang",
    "mounted": "hang",
    "colour": "colour",
    "circuit": "plug",
    "channel": "desk",
    "pan": "aim",
    "down": "aim",
    "heading": "aim",
    "square": "aim",
    "lands on": "aim",
    "lands": "aim",
    "target": "aim",
    "sight tape": "aim",
    "sight": "aim",
    "stand": "aim",
    "turn": "aim",
    "edge": "aim",
    "note": "read",
}


Aimed = Any  # a unit as it was solved, now or for an earlier print: what `solve --json` tells of it


class Side:
    """One of the two: its units as solved, by name; its scene, None where only a print is left of it.

    Of units that share a name the first is taken.
    """

    def __init__(self, answers: Iterable[Aimed], scene: Scene | None = None) -> None:
        self.scene = scene
        self.units: dict[str, Aimed] = {}
        for answer in answers:
            self.units.setdefault(answer.unit, answer)
        self.written: dict[str, Unit] = {}
        for unit in scene.units if scene else ():
            self.written.setdefault(f"{unit.position}/{unit.number}", unit)


class Change(msgspec.Struct, frozen=True):
    """One thing that is not as it was.

    `what` is moved, re-aimed, swapped, mounted, trim, new, gone, or the key that says otherwise; `of` is
    unit, pipe, boom, stand, position, target, kind, solid, seats, scene or stage; `other` is the unit
    swapped with.
    """

    what: str
    of: str
    name: str
    was: Value = None
    now: Value = None
    other: str | None = None


class Figure(msgspec.Struct, frozen=True):
    """One figure of a row that is printed otherwise now. `within` is None where it has no tolerance.

    `left` says that the old one serves no more; others are told where their row is printed again anyway.
    """

    figure: str
    was: Value
    now: Value
    within: float | None = None
    left: bool = True


class Row(msgspec.Struct, frozen=True):
    """A unit whose row must be printed again, and what is to be done at it.

    `touch` has the sorts of work, in the order of `WORKS`: whoever counts the units to touch between two rigs
    counts the rows that have any besides "read" and "desk".
    """

    unit: str
    position: str
    figures: tuple[Figure, ...]
    touch: tuple[str, ...]
    change: str = "changed"  # or new, gone

    @property
    def number(self) -> str:
        """The unit's number on its position."""
        return self.unit.removeprefix(f"{self.position}/")

    @property
    def who(self) -> tuple[str, ...]:
        """Who must be given it: the ladder, the deck, the programmer."""
        left = {figure.figure for figure in self.figures if figure.left}
        other = self.change != "changed"
        return tuple(
            holder
            for holder, there in (
                ("ladder", bool(set(self.touch) - {"desk"})),
                ("deck", other or bool(left & FOR_DECK)),
                ("programmer", other or bool(left & FOR_PROGRAMMER)),
            )
            if there
        )


class Changes(msgspec.Struct, frozen=True):
    """All that changed from one rig to another. Empty where nothing did."""

    changes: tuple[Change, ...]
    rows: tuple[Row, ...]
    units: int  # that are in both


WORKS = ("strike", "hang", "aim", "colour", "plug", "read", "desk")


def compare(old: Side, new: Side, length: str = "m") -> Changes:
    """What changed from `old` to `new`; marks are those printed in `length`, m or ft.

    What only a scene tells (trims, colours, channels, circuits) is compared where both sides have theirs.
    """
    if old.scene is None or new.scene is None:
        old, new = Side(old.units.values()), Side(new.units.values())
    shifts = _shifts(old, new)
    told = [*_written(old, new), *_lifted(old, new, shifts), *_units(old, new, shifts)]
    rows = []
    for name, unit in _both(old.units, new.units):
        if name not in new.units:
            rows.append(Row(name, unit.position, (), ("strike",), "gone"))
        elif name not in old.units:
            rows.append(Row(name, unit.position, (), ("hang", "aim"), "new"))
        else:
            figures = tuple(_figures(old, new, name, length, shifts))
            works = {WORK[figure.figure] for figure in figures if figure.left}
            if works:
                touch = tuple(work for work in WORKS if work in works)
                rows.append(Row(name, unit.position, figures, touch))
    both = sum(name in old.units for name in new.units)
    return Changes(tuple(told), tuple(rows), both)


def _both(old: Mapping[str, T], new: Mapping[str, T]) -> Iterator[tuple[str, T]]:
    """Everything that is in either, under its name: as the new one orders it, what is gone last."""
    yield from new.items()
    yield from ((name, each) for name, each in old.items() if name not in new)


TABLES = ("pipes", "booms", "stands", "targets", "solids", "seats")
ONE_OF = {
    "pipes": "pipe",
    "booms": "boom",
    "stands": "stand",
    "targets": "target",
    "solids": "solid",
}


def _written(old: Side, new: Side) -> Iterator[Change]:
    """What the scenes say differently of all but their units."""
    if old.scene is None or new.scene is None:
        return
    own = ("scene", new.scene.settings.title)
    yield from _keys(
        *own, old.scene.settings, new.scene.settings, ("title", "hang", "typed_in", "unit")
    )
    yield from _keys("stage", "stage", old.scene.stage, new.scene.stage, ())
    for table in TABLES:
        of = ONE_OF.get(table, table)
        was = {each.name: each for each in getattr(old.scene, table)}
        now = {each.name: each for each in getattr(new.scene, table)}
        yield from _entries(of, was, now)
    yield from _entries("kind", old.scene.kinds, new.scene.kinds, told_by_units=True)


def _entries(
    of: str, was: Mapping[str, Any], now: Mapping[str, Any], told_by_units: bool = False
) -> Iterator[Change]:
    for name, _ in _both(was, now):
        if name in was and name in now:
            yield from _entry(of, name, was[name], now[name])
        elif not told_by_units:
            yield Change("new" if name in now else "gone", of, name)


def _entry(of: str, name: str, was: Any, now: Any) -> Iterator[Change]:
    """What is different about one thing; a pipe's ends are its trim and its place."""
    if of == "pipe":
        yield from _pipe(name, was, now)
        yield from _keys(of, name, was, now, ("start", "end"))
    elif of in ("boom", "stand", "target"):
        here, there = (was.x, was.y), (now.x, now.y)
        if dist(here, there) > NOTHING:
            yield Change("moved", of, name, here, there)
        yield from _keys(of, name, was, now, ("x", "y"))
    else:
        yield from _keys(of, name, was, now, ())


def _pipe(name: str, was: Pipe, now: Pipe) -> Iterator[Change]:
    if not _same(_trim(was), _trim(now)):
        yield Change("trim", "pipe", name, _trim(was), _trim(now))
    here, there = ((pipe.start[:2], pipe.end[:2]) for pipe in (was, now))
    if not _same(here, there):
        yield Change("moved", "pipe", name, here, there)


def _trim(pipe: Pipe) -> float | tuple[float, float]:
    """Its height, or those of both ends."""
    start, end = pipe.start[2], pipe.end[2]
    return start if _same(start, end) else (start, end)


def _keys(of: str, name: str, was: Any, now: Any, besides: Sequence[str]) -> Iterator[Change]:
    """Every field of two records that differs, as a program would list it."""
    for key in was.__struct_fields__:
        a, b = getattr(was, key), getattr(now, key)
        if key not in besides and not _same(a, b):
            yield Change(key, of, name, _plain(a), _plain(b))


def _same(a: Any, b: Any) -> bool:
    if isinstance(a, float) and isinstance(b, float):
        return abs(a - b) <= NOTHING
    if isinstance(a, tuple) and isinstance(b, tuple):
        return len(a) == len(b) and all(map(_same, a, b))
    return bool(a == b)


def _plain(value: Any) -> Value:
    plain: Value = msgspec.to_builtins(value)
    return plain


def _units(old: Side, new: Side, shifts: Mapping[str, Point]) -> Iterator[Change]:
    """What is different about the units: gone, new, swapped in pairs, and each one's own changes."""
    pairs = _swapped(old, new)
    for name, _ in _both(old.units, new.units):
        if name not in new.units or name not in old.units:
            yield Change("new" if name in new.units else "gone", "unit", name)
        elif name in pairs:
            if name < pairs[name]:
                yield Change("swapped", "unit", name, other=pairs[name])
            was, now = old.written.get(name), new.written.get(name)
            if was is not None and now is not None:
                yield from _keys("unit", name, was, now, (*PLACE, *JOB))
        else:
            yield from _unit(old, new, name, shifts)


def _unit(old: Side, new: Side, name: str, shifts: Mapping[str, Point]) -> Iterator[Change]:
    a, b = old.units[name], new.units[name]
    was, now = old.written.get(name), new.written.get(name)
    if was is None or now is None:
        off = [b.clamp[k] - a.clamp[k] - shifts[b.position][k] for k in range(3)]
        if hypot(*off) > NOTHING:
            yield Change("moved", "unit", name, a.clamp, b.clamp)
        if (a.target or a.face) != (b.target or b.face):
            yield Change("re-aimed", "unit", name, a.target or a.face, b.target or b.face)
        for key in ("kind", "mount"):
            if getattr(a, key) != getattr(b, key):
                yield Change(_called(key), "unit", name, getattr(a, key), getattr(b, key))
        return
    if not _same(was.at, now.at) and was.at is not None and now.at is not None:
        yield Change("moved", "unit", name, was.at, now.at)
    if _mount(was) != _mount(now):
        yield Change("mounted", "unit", name, _mount(was), _mount(now))
    if not _same(was.target or was.point, now.target or now.point):
        yield Change("re-aimed", "unit", name, was.target or was.point, now.target or now.point)
    yield from _keys("unit", name, was, now, (*PLACE, "target", "point"))


def _called(key: str) -> str:
    return "mounted" if key == "mount" else key


def _mount(unit: Unit) -> str:
    """How a unit is mounted, in a few words: "under", "out 30° US", "arm 0.5 m to 90°", "over, top SL"."""
    how: str = unit.mount
    if unit.mount == "out":
        how = f"out {unit.swing_out:g}° {unit.out_to or ''}".rstrip()
    elif unit.mount == "arm":
        how = f"arm {unit.arm:g} m to {unit.arm_to or 0:g}°"
    return ", ".join(filter(None, (how, unit.chord)))


def _swapped(old: Side, new: Side) -> dict[str, str]:
    """Units that have changed with one other: each does now what the other did, or hangs where it did."""
    was, now = _jobs(old), _jobs(new)
    found: dict[str, str] = {}
    for part in range(2):  # what they do, then where they hang
        other = 1 - part
        gone: dict[tuple[Any, Any], list[str]] = {}
        for name in now:
            if name in was and was[name][other] == now[name][other]:
                gone.setdefault((was[name][part], now[name][part]), []).append(name)
        for (mine, theirs), names in gone.items():
            partners = gone.get((theirs, mine), [])
            if mine != theirs and len(names) == len(partners) == 1 and names[0] not in found:
                found[names[0]] = partners[0]
    return found


def _jobs(side: Side) -> dict[str, tuple[Any, Any]]:
    """What each unit does, and where it hangs."""
    written = side.written
    if written:
        return {
            name: (
                tuple(getattr(unit, key) for key in JOB),
                (unit.position, unit.at, *(getattr(unit, key) for key in MOUNTED)),
            )
            for name, unit in written.items()
        }
    return {
        name: ((unit.kind, unit.target or unit.face), (unit.clamp, unit.mount))
        for name, unit in side.units.items()
    }


def _shifts(old: Side, new: Side) -> dict[str, Point]:
    """How far each position itself has moved, by the clamps of its units: what most of them share."""
    offs: dict[str, list[Point]] = {}
    for name, unit in new.units.items():
        if name in old.units:
            was = old.units[name].clamp
            offs.setdefault(unit.position, []).append(
                tuple(round(b - a, 7) for a, b in zip(was, unit.clamp, strict=True))
            )
    return {
        position: _most(every) if len(every) > 1 else (0.0, 0.0, 0.0)
        for position, every in offs.items()
    }


def _most(every: Sequence[Point]) -> Point:
    """What most of some shifts are; of those that are as many the shortest."""
    found = Counter(every)
    return max(found, key=lambda shift: (found[shift], -hypot(*shift)))


def _lifted(old: Side, new: Side, shifts: Mapping[str, Point]) -> Iterator[Change]:
    """How far along x, y and z positions have moved with all their units, where no scene tells of it."""
    if old.scene is None:
        for position, shift in shifts.items():
            if hypot(*shift) > NOTHING:
                yield Change("moved", "position", position, None, shift)


def _figures(
    old: Side, new: Side, name: str, length: str, shifts: Mapping[str, Point]
) -> Iterator[Figure]:
    """What of a unit's row is printed otherwise."""
    a, b = old.units[name], new.units[name]
    yield from _words(old, new, name)
    mark = _marks(old, new, name, length, shifts)
    if mark is not None:
        yield mark
    yield from _angles(a, b)
    if a.sight is not None and b.sight is not None:
        was, now = (rounded(each.sight, length) for each in (a, b))
        if abs(was - now) > NOTHING:
            yield Figure("sight", was, now, left=False)  # it goes with the pan
        was, now = (rounded(each.sight_out, length, HANG) for each in (a, b))
        if abs(was - now) > NOTHING:
            yield Figure("sight tape", was, now)
    if a.stand and b.stand and _spot(a.stand, length) != _spot(b.stand, length):
        yield Figure("stand", a.stand, b.stand, left=False)  # pan and down go with it
    yield from _landing(a, b, length)


def _spot(point: Point, length: str) -> tuple[float, float]:
    """A mark on the deck, as it is printed."""
    return rounded(point[0], length), rounded(point[1], length)


def _words(old: Side, new: Side, name: str) -> Iterator[Figure]:
    """Names and words of a row that are others now."""
    a, b = old.units[name], new.units[name]
    if a.kind != b.kind:
        yield Figure("kind", a.kind, b.kind)
    was, now = old.written.get(name), new.written.get(name)
    mounts = (a.mount, b.mount) if was is None or now is None else (_mount(was), _mount(now))
    if mounts[0] != mounts[1]:
        yield Figure("mounted", *mounts)
    if a.target != b.target:
        yield Figure("target", a.target, b.target)
    if was is not None and now is not None:
        for key in ("channel", "circuit", "colour", "turn", "edge", "note"):
            if getattr(was, key) != getattr(now, key):
                yield Figure(key, getattr(was, key), getattr(now, key))


def _marks(
    old: Side, new: Side, name: str, length: str, shifts: Mapping[str, Point]
) -> Figure | None:
    """Its mark along the position, where another is printed now."""
    was, now = old.written.get(name), new.written.get(name)
    if was is not None and now is not None:
        if was.at is None or now.at is None:
            return None
        then, here = (rounded(at, length, HANG) for at in (was.at, now.at))
        return None if then == here else Figure("at", then, here)
    a, b = old.units[name], new.units[name]
    off = [b.clamp[k] - a.clamp[k] - shifts[b.position][k] for k in range(3)]
    return None if hypot(*off) < HANG.size(length) else Figure("at", a.clamp, b.clamp)


def _angles(a: Aimed, b: Aimed) -> Iterator[Figure]:
    """Pan, down and, where no tape serves, the true heading: as printed, and how far out is allowed."""
    if a.square != b.square:
        yield Figure("square", a.square, b.square)
    was, now = (_whole(each.pan, each.swing in PLUS) for each in (a, b))
    within = _least(a.pan_tolerance, b.pan_tolerance)
    if a.square == b.square and was != now:
        yield Figure("pan", was, now, _told(within), _apart(was, now) > within)
    was, now = (_whole(each.down, True) for each in (a, b))
    within = min(a.down_tolerance, b.down_tolerance)
    if was != now:
        yield Figure("down", was, now, within, _apart(was, now) > within)
    was, now = (_whole(each.heading, True) for each in (a, b))
    within = min(_heading_tolerance(a), _heading_tolerance(b))
    tapeless = a.sight is None or b.sight is None
    if tapeless and was != now:
        yield Figure("heading", was, now, _told(within), _round(was, now) > within)


def _whole(angle: float | None, plus: bool) -> float | None:
    """An angle as it is printed: whole degrees, halves away from zero; None of none."""
    if angle is None:
        return None
    size = steps(angle, 1.0)
    return float(size if plus == (angle >= 0) else -size) + 0.0


def _told(within: float) -> float | None:
    return None if within == inf else within


def _least(a: float | None, b: float | None) -> float:
    return min(inf if a is None else a, inf if b is None else b)


def _apart(a: float | None, b: float | None) -> float:
    """How far apart two figures are; one that is there no more is as far as can be."""
    if a is None or b is None:
        return 0.0 if a is b else inf
    return abs(a - b)


def _round(a: float | None, b: float | None) -> float:
    apart = _apart(a, b)
    return apart if apart == inf else abs((apart + 180.0) % 360.0 - 180.0)


def _heading_tolerance(unit: Aimed) -> float:
    """A miss of p in heading turns the axis by p cos(down)."""
    flat = cos(to_radians(unit.down or 0.0))
    return inf if unit.heading is None or flat < NOTHING else unit.down_tolerance / flat


def _landing(a: Aimed, b: Aimed, length: str) -> Iterator[Figure]:
    """What the light comes down on, and where, as the angle between the two spots seen from the lens."""
    stops = [each.meets for each in (a, b)]
    if None in stops or a.lens is None or b.lens is None:
        return
    if stops[0].name != stops[1].name:
        yield Figure("lands on", stops[0].name, stops[1].name)
        return
    within = min(a.down_tolerance, b.down_tolerance)
    was, now = (stop.point for stop in stops)
    if dist(was, now) > NOTHING and (
        _spot(was, length) != _spot(now, length) or abs(was[2] - now[2]) > DECK.size(length) / 2
    ):
        apart = max(_between(lens, was, now) for lens in (a.lens, b.lens))
        yield Figure("lands", was, now, within, apart > within)


def _between(eye: Point, one: Point, other: Point) -> float:
    """The angle between two points seen from a third, in degrees."""
    here, *ways = (points([each]) for each in (eye, one, other))
    first, second = (way - here for way in ways)
    return float(to_degrees(angles_between(first, second))[0])
