"""What two scenes, or a scene and a print, say differently: of the stage, of positions, of units."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from math import dist, hypot
from typing import Any, TypeVar

import msgspec

from aimcalc.landings.changes import Change, Side, Value
from aimcalc.scene.model import Pipe, Point, Unit

T = TypeVar("T")
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
TABLES = ("pipes", "booms", "stands", "targets", "solids", "seats")
ONE_OF = {
    "pipes": "pipe",
    "booms": "boom",
    "stands": "stand",
    "targets": "target",
    "solids": "solid",
}


def both(old: Mapping[str, T], new: Mapping[str, T]) -> Iterator[tuple[str, T]]:
    """Everything that is in either, under its name: as the new one orders it, what is gone last."""
    yield from new.items()
    yield from ((name, each) for name, each in old.items() if name not in new)


def written(old: Side, new: Side) -> Iterator[Change]:
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
    for name, _ in both(was, now):
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


def changed_units(old: Side, new: Side, shifts: Mapping[str, Point]) -> Iterator[Change]:
    """What is different about the units: gone, new, swapped in pairs, and each one's own changes."""
    pairs = _swapped(old, new)
    for name, _ in both(old.units, new.units):
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
    if mount_words(was) != mount_words(now):
        yield Change("mounted", "unit", name, mount_words(was), mount_words(now))
    if not _same(was.target or was.point, now.target or now.point):
        yield Change("re-aimed", "unit", name, was.target or was.point, now.target or now.point)
    yield from _keys("unit", name, was, now, (*PLACE, "target", "point"))


def _called(key: str) -> str:
    return "mounted" if key == "mount" else key


def mount_words(unit: Unit) -> str:
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


def shifts_of(old: Side, new: Side) -> dict[str, Point]:
    """How far each position itself has moved, by the clamps of its units: what most of them share."""
    offs: dict[str, list[Point]] = {}
    for name, unit in new.units.items():
        if name in old.units:
            was = old.units[name].clamp
            offs.setdefault(unit.position, []).append(
                tuple(round(b - a, 7) for a, b in zip(was, unit.clamp, strict=True))
            )
    return {
        position: most_shared(every) if len(every) > 1 else (0.0, 0.0, 0.0)
        for position, every in offs.items()
    }


def most_shared(every: Sequence[Point]) -> Point:
    """What most of some shifts are; of those that are as many the shortest."""
    found = Counter(every)
    return max(found, key=lambda shift: (found[shift], -hypot(*shift)))


def lifted(old: Side, new: Side, shifts: Mapping[str, Point]) -> Iterator[Change]:
    """How far along x, y and z positions have moved with all their units, where no scene tells of it."""
    if old.scene is None:
        for position, shift in shifts.items():
            if hypot(*shift) > NOTHING:
                yield Change("moved", "position", position, None, shift)
