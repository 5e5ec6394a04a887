"""A scene as its rig really hangs, once corrections are made: each is true minus plotted.

A pipe hangs at another height, tips, is turned or lies elsewhere, or its zero mark does; a kind has another
drop. What a tool reads wrong, a clamp that is kicked, and whatever is out of a boom, is to be put right at
the rig: it is kept among the corrections and changes nothing here.
"""

from __future__ import annotations

from math import cos, hypot, sin

from msgspec.structs import replace

from aimcalc.geometry.vectors import to_radians
from aimcalc.rig.places import body_of
from aimcalc.scene.model import Correction, Kind, Pipe, Point, Scene, Trim, runs_across


def corrected(scene: Scene, corrections: tuple[Correction, ...] = ()) -> Scene:
    """The scene as it really hangs: its own corrections made, and some more; it then has none to make."""
    corrections = (*scene.corrections, *corrections)
    by: dict[tuple[str, bool], dict[str, float]] = {}
    for each in corrections:
        made = by.setdefault((each.of, each.what == "drop"), {})
        made[each.what] = made.get(each.what, 0.0) + each.value
    pipes = [_hung(p, by[p.name, False]) if (p.name, False) in by else p for p in scene.pipes]
    kinds = {n: _dropped(kind, by.get((n, True), {})) for n, kind in scene.kinds.items()}
    every = (*scene.made, *corrections)
    return replace(scene, pipes=tuple(pipes), kinds=kinds, corrections=(), made=every)


def _dropped(kind: Kind, by: dict[str, float]) -> Kind:
    more = by.get("drop", 0.0)
    if not more:
        return kind
    under, over = max(0.0, kind.drop_under + more), max(0.0, kind.drop_over + more)
    return replace(kind, drop_under=under, drop_over=over)


def _hung(pipe: Pipe, by: dict[str, float]) -> Pipe:
    """A pipe as it really hangs: tipped and turned about its middle, lifted and moved, its marks shifted."""
    middle, run, length = body_of(pipe)
    half = length / 2
    flat = hypot(run[0], run[1])
    climb = run[2] + by.get("slope", 0.0) / (2 * half)
    size = hypot(flat, climb)
    turn = to_radians(by.get("skew", 0.0))
    c, s = cos(turn), sin(turn)
    plan = run[0] * c + run[1] * s, run[1] * c - run[0] * s
    level = -run[1] / flat, run[0] / flat
    if not runs_across(pipe.start, pipe.end):
        level = -level[0], -level[1]
    moved, lift = by.get("moved", 0.0), by.get("trim", 0.0)
    centre = middle[0] + moved * level[0], middle[1] + moved * level[1], middle[2] + lift
    if pipe.through is not None:
        return _curved(pipe, (c, s), middle, centre, by)
    way = plan[0] / size, plan[1] / size, climb / size
    low, high = (
        tuple(p + sign * half * w for p, w in zip(centre, way, strict=True)) for sign in (-1, 1)
    )
    sense = _sense(pipe)
    start, end = (low, high) if sense > 0 else (high, low)
    changed = replace(pipe, start=start, end=end, trims=_lifted(pipe, lift))
    off = _zero_along(pipe) - _zero_along(changed) + pipe.zero_off + by.get("marks", 0.0)
    return replace(changed, zero_off=off)


def _curved(
    pipe: Pipe, turn: tuple[float, float], middle: Point, centre: Point, by: dict[str, float]
) -> Pipe:
    """A curved pipe turned about its middle and moved; it stays level."""
    c, s = turn

    def moved(point: Point) -> Point:
        x, y = point[0] - middle[0], point[1] - middle[1]
        z = point[2] - middle[2] + centre[2]
        return centre[0] + x * c + y * s, centre[1] + y * c - x * s, z

    assert pipe.through is not None
    off = pipe.zero_off + by.get("marks", 0.0)
    ends = {"start": moved(pipe.start), "through": moved(pipe.through), "end": moved(pipe.end)}
    return replace(pipe, **ends, trims=_lifted(pipe, by.get("trim", 0.0)), zero_off=off)


def _lifted(pipe: Pipe, lift: float) -> tuple[Trim, ...]:
    return tuple(replace(trim, trim=trim.trim + lift) for trim in pipe.trims)


def _sense(pipe: Pipe) -> float:
    axis = 0 if runs_across(pipe.start, pipe.end) else 1
    return 1.0 if pipe.end[axis] >= pipe.start[axis] else -1.0


def _zero_along(pipe: Pipe) -> float:
    """How far from a pipe's middle its zero mark is along it, towards SL (US), nothing corrected."""
    share: dict[str, float] = {"start": 0.0, "middle": 0.5, "end": 1.0}
    at = share.get(pipe.zero)
    if at is None:
        at = pipe.start[0] / (pipe.start[0] - pipe.end[0])
    length = hypot(*(b - a for a, b in zip(pipe.start, pipe.end, strict=True)))
    return (at - 0.5) * length * _sense(pipe)
