"""Systems: the units that do one job together over the acting area."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

import numpy as np

from aimcalc.findings.pose import from_the_front
from aimcalc.findings.report import NOTE, WARN, about, by_position, numbers, subject
from aimcalc.geometry.aim import Flags
from aimcalc.geometry.vectors import Array, to_degrees
from aimcalc.rig.places import WORDS, downstage_of, front, inside, nearest_word
from aimcalc.rig.wording import angle, length, listed, tip
from aimcalc.scene.model import Boom, Pipe, Position, Target
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import SolidRig

MIRROR_WITHIN = 15.0  # degrees, on plan and down (common practice, no source)


def area_not_covered(rig: SolidRig) -> Iterator[Finding]:
    """Warns of areas that a covering system leaves out.

    Areas are the faces in the acting polygon that covering systems light; a system covers when it lights
    at least half of the areas. A target whose `without` names a system is not missed by it.
    """
    lit = _lit(rig)
    every = set().union(*lit.values()) if lit else set()
    lit = {name: areas for name, areas in lit.items() if _covers(areas, every)}
    areas = set().union(*lit.values()) if lit else set()
    for system, mine in lit.items():
        spared = {t.name for t in rig.scene.targets if system in t.without}
        wanted = areas - (spared - mine)
        missed = wanted - mine
        lacking = [t.name for t in rig.scene.targets if t.name in missed]
        if lacking and _covers(mine, wanted):
            of_all = f"{len(mine)} of {len(wanted)} areas"
            says = f"System {system} lights {of_all}: no unit at {listed(lacking)}."
            do = (
                f"Add a unit of {system} there; where none is wanted, give the target "
                f'without = "{system}".'
            )
            yield Finding(WARN, "area-not-covered", says, do)


def _covers(mine: set[str], every: set[str]) -> bool:
    """Whether a system that lights the areas `mine` is meant to light them all."""
    return 2 * len(mine) >= len(every)


def _lit(rig: SolidRig) -> dict[str, set[str]]:
    """The areas that each system lights, by name."""
    areas = {target.name for target in _acting(rig)}
    lit: dict[str, set[str]] = defaultdict(set)
    for unit in rig.units:
        if unit.system and unit.target in areas:
            lit[unit.system].add(unit.target)
    return lit


def _acting(rig: SolidRig) -> list[Target]:
    """Faces within the acting polygon; all of them where there is none."""
    faces = [target for target in rig.scene.targets if target.plane == "face"]
    polygon = rig.scene.stage.acting or rig.scene.stage.outline
    if not polygon or not faces:
        return faces
    x, y = np.array([t.x for t in faces]), np.array([t.y for t in faces])
    return [faces[j] for j in np.flatnonzero(inside(polygon, x, y)).tolist()]


def uneven_pairs(rig: SolidRig) -> Iterator[Finding]:
    """Notes front pairs that are no mirror pictures of each other within 15 degrees.

    A pair is two units of systems that light one face from the front, with no third. Mirror-like means
    turned as far from straight on either way, and as far down.
    """
    pairs = _pairs(rig)
    off = {
        target.name: told
        for target in rig.scene.targets
        if target.name in pairs and (told := _uneven(rig, pairs[target.name]))
    }
    if off:
        worst = max(off, key=lambda target: off[target][0])
        says = (
            f"The front pair at {listed(off)} is lopsided by over 15°: at {worst} {off[worst][1]}."
        )
        do = "Move one of each pair, or balance the two by eye: one side of the face will read darker."
        yield Finding(NOTE, "pair-uneven", says, do)


def _pairs(rig: SolidRig) -> dict[str, list[int]]:
    front: dict[str, list[int]] = defaultdict(list)
    for k in np.flatnonzero(from_the_front(rig)).tolist():
        unit = rig.units[k]
        if unit.system and unit.target:
            front[unit.target].append(k)
    return {target: rows for target, rows in front.items() if len(rows) == 2}


def _uneven(rig: SolidRig, pair: list[int]) -> tuple[float, str] | None:
    """How far from a mirror picture a pair is, and the words for it; None where it is near enough."""
    heading = to_degrees(rig.off_front[pair])
    down = to_degrees(rig.aims.down[pair])
    apart = max(abs(float(heading.sum())), abs(float(down[0] - down[1])))
    if apart <= MIRROR_WITHIN + 1e-9:
        return None
    told = [_comes(rig, k) for k in pair]
    return apart, " and ".join(told)


def _comes(rig: SolidRig, k: int) -> str:
    heading, down = float(to_degrees(rig.off_front[k])), float(to_degrees(rig.aims.down[k]))
    x, y = (1.0 if heading > 0 else -1.0) * rig.fronts[:, k]
    side = WORDS[nearest_word((y, -x, 0.0))]
    return f"{rig.names[k]} comes {angle(heading)} off straight on from {side}, {tip(down)}"


def over_people(rig: SolidRig) -> Iterator[Finding]:
    """Warns of units that hang over seats, or over the house where no seats are given.

    They hang on pipes, and on tubes that start above the deck.
    """
    on_pipe = np.array([isinstance(p, Pipe) or _hangs(p) for p in rig.positions], dtype=bool)
    x, y, _ = rig.arrays.clamp
    over = _seats(rig, x, y) if rig.scene.seats else _house(rig, x, y)
    for rows in by_position(rig, on_pipe & over):
        below = _blocks_under(rig, rows) or "the house"
        says = f"{subject(rig, rows, 'hangs', 'hang')} over {below}."
        do = "Fit safety cables and secure frames first; keep the seats below clear while working."
        yield about(rig, rows, WARN, "over-people", says=says, do=do)


def _hangs(position: Position) -> bool:
    return isinstance(position, Boom) and position.foot is not None


def _seats(rig: SolidRig, x: Array, y: Array) -> Flags:
    over = np.zeros(x.size, dtype=bool)
    for block in rig.scene.seats:
        over |= inside(block.outline, x, y)
    return over


def _house(rig: SolidRig, x: Array, y: Array) -> Flags:
    outline = rig.scene.stage.outline
    return downstage_of(outline, x, y) if outline else np.zeros(x.size, dtype=bool)


def _blocks_under(rig: SolidRig, rows: list[int]) -> str:
    x, y = rig.arrays.clamp[0, rows], rig.arrays.clamp[1, rows]
    names = [block.name for block in rig.scene.seats if inside(block.outline, x, y).any()]
    return f"seats ({listed(names)})" if names else ""


def lands_in_house(rig: SolidRig) -> Iterator[Finding]:
    """Warns of light that is meant for the stage and comes down in the house, axis for axis.

    What a wall, a drop or a platform stops on its way comes down nowhere else.
    """
    outline = rig.scene.stage.outline
    x, y = rig.aims.lands[0], rig.aims.lands[1]
    lost = np.isnan(x) | rig.meets.on_solid
    x, y = np.where(lost, 0.0, x), np.where(lost, 0.0, y)
    meant = ~downstage_of(outline, rig.arrays.point[0], rig.arrays.point[1]) & ~lost
    over = downstage_of(outline, x, y)
    edge = front(outline, x) if outline else np.zeros(x.size)
    past = edge - y
    for rows in by_position(rig, over & meant):
        worst = max(rows, key=lambda k: float(past[k]))
        far = length(float(past[worst]), rig.scene.settings.unit)
        most = "" if len(rows) == 1 else f" (unit {numbers(rig, [worst])[0]}, the furthest)"
        where = "the stage's edge" if outline else "the plaster line"
        says = f"{subject(rig, rows, 'lands', 'land')} in the house, {far} DS of {where}{most}."
        do = "Cut the DS edge of the beam, or hang steeper; look from the front row."
        yield about(rig, rows, WARN, "lands-in-house", says=says, do=do)
    yield from _in_other_seats(rig, x, y, meant & ~over)


def _in_other_seats(rig: SolidRig, x: Array, y: Array, asked: Flags) -> Iterator[Finding]:
    """The same of seats that are not downstage of the stage: beside it, behind it, all round it."""
    outline = rig.scene.stage.outline
    off_stage = asked & ~inside(outline, x, y) if outline else asked
    for block in rig.scene.seats if off_stage.any() else ():
        for rows in by_position(rig, off_stage & inside(block.outline, x, y)):
            says = f"{subject(rig, rows, 'lands', 'land')} in seats ({block.name})."
            do = "Cut that edge of the beam, or hang steeper; look from those seats."
            yield about(rig, rows, WARN, "lands-in-house", says=says, do=do)
