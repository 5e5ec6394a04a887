"""What the page is told, by keys: what has not changed under a key is not told again.

Lengths are metres to the millimetre, for drawing; what a person reads is in words, made here. Keys: "show",
"u/" and a unit's name for where its light goes, "row/" for its ladder row, "t/" for a target, "p/" for a
position, "findings".
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any, TypeVar, get_args

import numpy as np

from aimcalc.desk import edits
from aimcalc.geometry.deck import height
from aimcalc.geometry.rays import NoRayEngineError
from aimcalc.geometry.vectors import Array, same_columns, to_degrees
from aimcalc.hang.records import PositionPlan
from aimcalc.paper import marks
from aimcalc.paper.stance import stance_words
from aimcalc.rig.places import WORDS, tubes_of
from aimcalc.scene.model import Boom, Mount, Pipe, Position
from aimcalc.scene.records import place_of
from aimcalc.sheets.at_position import stance_at
from aimcalc.sheets.plans.rims import level_rims
from aimcalc.solid.side_view import beams
from aimcalc.text import words as w
from aimcalc.text.facts import trim_words
from aimcalc.text.hang_rows import position_lines
from aimcalc.text.ladder_rows import ladder_rows

if TYPE_CHECKING:
    from aimcalc.desk.session import Session
    from aimcalc.scene.model import Scene
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig

T = TypeVar("T")
Told = Iterator[tuple[str, Any]]
BODY = 0.45  # m, of a unit whose length is not known
MOST_FINDINGS = 300
OF_UNITS = ("u", "lost", "row")  # keys that come later than what they are of, and stay until then
LATER = ("findings", "findings left")


def length_unit(show: Show) -> w.LengthUnit:
    """The unit that a show's words are in."""
    return "ft" if show.scene.settings.unit in ("ft", "in") else "m"


def moved_units(rig: SolidRig, before: SolidRig | None) -> list[int]:
    """The units of a rig whose light or place is not as it was in the one before."""
    if before is None or rig.names != before.names:
        return list(range(len(rig.units)))
    alike = np.ones(len(rig.units), np.bool_)
    for now, then in (
        (rig.aims.lens, before.aims.lens),
        (rig.axis, before.axis),
        (rig.arrays.clamp, before.arrays.clamp),
        (rig.arrays.point, before.arrays.point),
        (rig.arrays.field, before.arrays.field),
    ):
        alike &= same_columns(now, then)
    same = [a == b for a, b in zip(rig.units, before.units, strict=True)]
    return np.flatnonzero(~(alike & np.array(same, np.bool_))).tolist()


def light_of_units(show: Show, rows: list[int]) -> Told:
    """Where the light of some units goes, as lines on the plan and in the section; how they are set."""
    rig, length = show.rig, length_unit(show)
    lit = [k for k in rows if np.isfinite(rig.aims.throw[k])]
    side = beams(rig, np.array(lit, dtype=np.intp))
    row_of = {k: j for j, k in enumerate(lit)}
    for k in rows:
        unit, j = rig.units[k], row_of.get(k)
        heading = None if abs(rig.axis[2, k]) > 1 - 1e-15 else float(rig.aims.heading[k])
        told: dict[str, Any] = {
            "order": k,
            "position": unit.position,
            "number": unit.number,
            "channel": unit.channel or "",
            "target": unit.target or "",
            "clamp": _point(rig.arrays.clamp[:, k]),
            "body": _body(rig, k, heading),
            "rims": [],
        }
        if j is not None:
            told |= {
                "lens": _point(rig.aims.lens[:, k]),
                "face": _point(rig.arrays.point[:, k]),
                "end": _point(side.axis[:, j]),
                "edges": [_point(side.upper[:, j]), _point(side.lower[:, j])],
                "rims": [[r.dash == "solid", _line(r.rim)] for r in level_rims(rig, k)],
                **_set(rig, k, length),
            }
        yield f"u/{rig.names[k]}", told


def _body(rig: SolidRig, k: int, heading: float | None) -> list[list[float]]:
    """The unit's symbol on the plan, its outline alone."""
    x, y = rig.aims.pivot[:2, k].tolist()
    if not np.isfinite(x):
        x, y = rig.arrays.clamp[:2, k].tolist()
    kind = rig.kinds[k]
    turn = None if heading is None or not np.isfinite(heading) else float(to_degrees(heading))
    return _line(marks.unit_symbol(kind.family, x, y, turn, kind.length or BODY).outline)


def _set(rig: SolidRig, k: int, unit: w.LengthUnit) -> dict[str, str]:
    """How a unit with an aim is set, in words: what of its row follows while the hand moves."""
    aims = rig.aims
    pan, sign = float(to_degrees(aims.pan[k])), int(aims.swing_sign[k])
    free = aims.pan[k] == 0 and np.isinf(aims.pan_tolerance[k])
    swing = None if sign == 0 else WORDS[int(rig.words.swing[k]) ^ (sign < 0)]
    tip = w.tip(float(to_degrees(aims.down[k])))
    return {
        "swing": w.turn(None if free else pan, swing),
        "tip": f"{tip.word} {tip.angle}".rstrip(),
        "throw": w.length(float(aims.throw[k]), unit, w.SIZE),
    }


def lost_told(show: Show) -> Told:
    """The share of each unit's light that is lost, in words."""
    try:
        shares = show.rig.lost.share.tolist()
    except NoRayEngineError:
        return
    for name, share in zip(show.rig.names, shares, strict=True):
        yield f"lost/{name}", "not known" if np.isnan(share) else f"{round(100 * share)} %"


def ladder_told(show: Show) -> Told:
    """Every unit's row of the ladder sheet."""
    rig = show.rig
    stances = {name: stance_at(rig, name) for name, rows in rig.rows.items() if rows}
    facing = {name: stance.facing for name, stance in stances.items()}
    for row in ladder_rows(show, length_unit(show), facing):
        unit = rig.units[row.k]
        yield (
            f"row/{rig.names[row.k]}",
            {
                "stance": stance_words(stances[unit.position]),
                "number": row.number,
                "channel": row.channel,
                "hang": [" ".join(row.hang).strip(), row.how],
                "over": row.over,
                "kind": [
                    row.kind,
                    row.circuit,
                    ", ".join(filter(None, (row.colour, row.pattern, row.edge))),
                ],
                "square": "AT YOU" if row.at_you else row.square,
                "way": row.way,
                "swing": [row.swing, row.swing_note],
                "sight": [*row.sight, row.sight_note],
                "tip": [
                    f"{row.tip.word} {row.tip.angle}".rstrip(),
                    f"plumb {row.tip.plumb}" if row.tip.plumb else "",
                ],
                "within": row.within,
                "tail": [part for part in row.tail if part],
                "told": row.told,
            },
        )


def findings_told(show: Show) -> Told:
    """What the crew should know, worst first."""
    found = show.findings
    yield (
        "findings",
        [
            [f.severity.upper(), f.says, f.do, f.unit or f.position or ""]
            for f in found[:MOST_FINDINGS]
        ],
    )
    yield "findings left", max(0, len(found) - MOST_FINDINGS)


def scene_told(session: Session) -> Told:
    """What there is: the show's title, its positions, targets and units as they were typed, the changes."""
    show = session.show
    scene, settings = show.scene, show.scene.settings
    yield (
        "show",
        {
            "title": settings.title,
            "revision": settings.revision,
            "file": scene.file,
            "unit": length_unit(show),
            "folder": f"{os.path.normpath(session.path).removesuffix('.toml')} tried",
            "kinds": list(_kinds(show)),
            "mounts": get_args(Mount),
            "systems": list(show_systems(show)),
        },
    )
    yield (
        "changes",
        {
            "done": [edits.step_words(scene, step) for step in session.changes.done],
            "undone": [edits.step_words(scene, step) for step in session.changes.undone],
        },
    )
    yield "trouble", session.trouble
    yield from things_told(session)


def things_told(session: Session, before: Scene | None = None) -> Told:
    """Where targets, positions and units are, and what was typed; since `before`, what changed."""
    show = session.show
    scene, unit = show.scene, show.scene.settings.own_unit

    def typed(metres: float, axis: str = "") -> str:
        return edits.as_typed(metres, unit, axis, edits.FINE)

    for target in _fresh(scene.targets, before.targets if before else None):
        height = target.face_height or scene.settings.face_height
        z = target.z if target.z is not None else _deck(show, target.x, target.y)
        yield (
            f"t/{target.name}",
            {
                "at": _point(np.array([target.x, target.y, z + height])),
                "typed": {"x": typed(target.x, "x"), "y": typed(target.y, "y")},
            },
        )
    old = tuple(before.positions.values()) if before else None
    for position in _fresh(tuple(scene.positions.values()), old):
        by_points = position.name in session.by_points
        yield (
            f"p/{position.name}",
            _position(
                position,
                session.scene.positions[position.name],
                typed,
                by_points,
                length_unit(show),
            ),
        )
    for one in _fresh(scene.units, before.units if before else None):
        held = scene.positions[one.position]
        axis = place_of(held, type(held).__name__.lower()).axis
        yield (
            f"typed/{one.position}/{one.number}",
            {
                "at": "" if one.at is None else typed(one.at, axis),
                "kind": one.kind,
                "mount": one.mount,
                "colour": one.colour or "",
                "target": one.target or "",
            },
        )


def _fresh(now: tuple[T, ...], before: tuple[T, ...] | None) -> Iterator[T]:
    """Those of some things that are not the very ones before."""
    if before is None or len(before) != len(now):
        yield from now
        return
    yield from (one for one, old in zip(now, before, strict=True) if one is not old)


def _deck(show: Show, x: float, y: float) -> float:
    """Height of the deck or the platform at a point of the plan, m."""
    return float(height(show.rig.deck, np.array([x]), np.array([y]))[0])


def _position(
    position: Position, written: Position, typed: Any, by_points: bool, unit: w.LengthUnit
) -> dict[str, Any]:
    if isinstance(position, Pipe) and isinstance(written, Pipe):
        lines = [[_point(p) for p in line.T] for _, line in tubes_of(position)]
        told = (
            {}
            if by_points
            else {"y": typed(written.start[1], "y"), "trim": typed(written.start[2])}
        )
        if len(position.trims) > 1:
            told.pop("trim", None)
        return {"sort": "pipe", "lines": lines, "typed": told, "words": trim_words(position, unit)}
    assert not isinstance(position, Pipe)
    x, y = position.x, position.y
    foot = np.array([x, y, 0.0])
    top = np.array([x, y, position.height]) if isinstance(position, Boom) else foot
    sort = "boom" if isinstance(position, Boom) else "stand"
    told = {"x": typed(x, "x"), "y": typed(y, "y")}
    return {"sort": sort, "lines": [[_point(foot), _point(top)]], "typed": told, "words": ""}


def loads_told(show: Show) -> Told:
    """What each position carries, in the words of its hang sheet."""
    for plan in show.hang.positions:
        yield f"load/{plan.position}", _load(show, plan)


def _load(show: Show, plan: PositionPlan) -> list[str]:
    return [
        line
        for line in position_lines(show.rig, plan, length_unit(show))
        if line.startswith(("WEIGHT", "LINES"))
    ]


def _kinds(show: Show) -> Iterator[str]:
    from aimcalc.scene.loading import generic_tables

    yield from dict.fromkeys([*show.scene.kinds, *generic_tables()])


def show_systems(show: Show) -> list[str]:
    """The systems of a show by name, "all" last."""
    from aimcalc.coverage.systems import systems_of

    return list(systems_of(show.rig))


def _point(point: Array) -> list[float] | None:
    """A point (3,), metres to the millimetre; None where it does not exist."""
    return [round(part, 3) for part in point.tolist()] if np.isfinite(point).all() else None


def _line(points: Array) -> list[list[float]]:
    """Points (n, 2), metres to the millimetre."""
    told: list[list[float]] = np.round(points, 3).tolist()
    return told
