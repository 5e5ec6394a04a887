"""What changed between two rigs: what was written, and the units whose printed figures no longer serve."""

from __future__ import annotations

from collections.abc import Iterator

from aimcalc.landings.changes import WORK, WORKS, Changes, Load, Row, Side
from aimcalc.landings.figures import figures
from aimcalc.landings.written import both, changed_units, lifted, shifts_of, written


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
            mine = tuple(figures(old, new, name, length, shifts))
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
