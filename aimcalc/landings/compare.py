"""What changed between two rigs: what was written, and the units whose printed figures no longer serve.

A figure leaves its tolerance where the one printed then and the one printed now, both rounded as on the
sheets, are further apart than the unit may be out and still hit, by the lesser of its two tolerances. A mark
on the pipe, a word and a name have no tolerance: any change of what is printed counts. So both orders tell
the same, mirrored. Lengths are metres, angles degrees.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import cos, dist, hypot, inf

from aimcalc.geometry.vectors import angles_between, points, to_degrees, to_radians
from aimcalc.landings.changes import (
    WORK,
    WORKS,
    Aimed,
    Changes,
    Figure,
    HungUnit,
    Load,
    Row,
    Side,
)
from aimcalc.landings.written import (
    NOTHING,
    both,
    changed_units,
    lifted,
    mount_words,
    shifts_of,
    written,
)
from aimcalc.rig.wording import DECK, HANG, rounded, steps
from aimcalc.scene.model import Point

PLUS = ("SL", "US", "UP")  # the senses of a positive turn


def compare(old: Side, new: Side, length: str = "m") -> Changes:
    """What changed from `old` to `new`; marks are those printed in `length`, m or ft.

    What only a scene tells (trims, colours, channels, circuits) is compared where both sides have theirs.
    """
    if old.scene is None or new.scene is None:
        old, new = Side(old.units.values()), Side(new.units.values())
    shifts = shifts_of(old, new)
    told = [*written(old, new), *lifted(old, new, shifts), *changed_units(old, new, shifts)]
    rows = []
    for name, unit in both(old.units, new.units):
        if name not in new.units:
            rows.append(Row(name, unit.position, (), ("strike",), "gone"))
        elif name not in old.units:
            rows.append(Row(name, unit.position, (), ("hang", "aim"), "new"))
        else:
            mine = tuple(_figures(old, new, name, length, shifts))
            works = {WORK[figure.figure] for figure in mine if figure.left}
            if works:
                touch = tuple(work for work in WORKS if work in works)
                rows.append(Row(name, unit.position, mine, touch))
    common = sum(name in old.units for name in new.units)
    return Changes(tuple(told), tuple(rows), common, tuple(_loads(old, new)))


def _loads(old: Side, new: Side) -> Iterator[Load]:
    """What the hang sheets of a position print otherwise now of its weight and its lift lines."""
    if old.hung is None or new.hung is None:
        return
    for position, _ in both(old.hung.positions, new.hung.positions):
        was, now = (side.hung.positions.get(position, {}) for side in (old, new) if side.hung)
        for what, _ in both(was, now):
            if was.get(what) != now.get(what):
                yield Load(position, what, was.get(what), now.get(what))


def _figures(
    old: Side, new: Side, name: str, length: str, shifts: Mapping[str, Point]
) -> Iterator[Figure]:
    """What of a unit's row is printed otherwise."""
    a, b = old.units[name], new.units[name]
    yield from _words(old, new, name)
    mark = _marks(old, new, name, length, shifts)
    if mark is not None:
        yield mark
    hung = [None if side.hung is None else side.hung.units.get(name) for side in (old, new)]
    yield from at_the_pipe(hung[0], hung[1], b)
    yield from angles(a, b)
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
    mounts = (
        (a.mount, b.mount) if was is None or now is None else (mount_words(was), mount_words(now))
    )
    if mounts[0] != mounts[1]:
        yield Figure("mounted", *mounts)
    if a.target != b.target:
        yield Figure("target", a.target, b.target)
    if was is not None and now is not None:
        for key in ("channel", "circuit", "colour", "turn", "edge", "note"):
            if getattr(was, key) != getattr(now, key):
                yield Figure(key, getattr(was, key), getattr(now, key))


def at_the_pipe(a: HungUnit | None, b: HungUnit | None, unit: Aimed) -> Iterator[Figure]:
    """Outlet, cable, tail and wedge, where the hang sheets print others; `unit` is as it is solved now.

    A tail that is tied where it was serves on, whatever room the loop has left; so does a wedge that sets the
    unit within its tolerance. Of what a hang sheet of either does not tell, nothing comes.
    """
    if a is None or b is None:
        return
    for key in ("outlet", "cable"):
        was, now = getattr(a, key), getattr(b, key)
        if was != now:
            yield Figure(key, was, now)
    if a.wedge != b.wedge:
        yield Figure("wedge", a.wedge, b.wedge, unit.pan_tolerance, left=not _serves(a, unit))
    if a.tail != b.tail:
        yield Figure("tail", a.tail, b.tail, left=a.tied != b.tied)


def _serves(wedge: HungUnit, unit: Aimed) -> bool:
    """Whether a wedge sets a unit within the pan that it may be out; one that has none needs none."""
    if wedge.pan is None or unit.pan is None:
        return wedge.pan is unit.pan
    within = inf if unit.pan_tolerance is None else unit.pan_tolerance
    return wedge.ways == (unit.swing, unit.square) and abs(wedge.pan - unit.pan) <= within


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


def angles(a: Aimed, b: Aimed) -> Iterator[Figure]:
    """Pan, down and, where no tape serves, the true heading, as printed, each with how far out is allowed.

    Of any two units, degrees; `left` says that the one set for `a` no longer serves for `b`.
    """
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
