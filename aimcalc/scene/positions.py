"""Pipes, booms and stands: entries made into records, and what their units must know of them."""

from __future__ import annotations

from typing import Any, NamedTuple

from aimcalc.scene.entries import Entry, open_entry
from aimcalc.scene.mistakes import Where, Wrong
from aimcalc.scene.model import Boom, Circuit, Pipe, Point, Stand, runs_across
from aimcalc.scene.readers import length, list_of
from aimcalc.scene.tables import circuit_readers

SHORTEST_PIPE = 0.001  # metres


class Place(NamedTuple):
    """How units are measured on a position. An axis of "any" is a position that was refused."""

    sort: str  # pipe, boom, stand
    axis: str = ""
    centre: bool = False


def place_of(position: Pipe | Boom | Stand | None, sort: str) -> Place:
    """The place of a position, also of one that was refused (None)."""
    if position is None:
        return Place(sort, "any", True)
    if isinstance(position, Pipe):
        centre = position.zero in ("centre line", "middle")
        return Place(sort, "x" if runs_across(position.start, position.end) else "y", centre)
    return Place(sort)


def build_pipe(entry: Entry, unit: str) -> Pipe | None:
    """A pipe from a read entry; None when anything of it was refused."""
    entry.needs("name")
    by_points = "start" in entry.raw or "end" in entry.raw
    ends = _ends_from_points(entry) if by_points else _ends_across(entry)
    if ends is None:
        return None
    zero = entry.values.get("zero", "middle" if by_points else "centre line")
    _check_ends(entry, ends, zero)
    axis = "x" if runs_across(*ends) else "y"
    centre = zero in ("centre line", "middle")
    lines = _lines(entry, unit, axis, centre)
    circuits = _circuits(entry, unit, axis, centre)
    if not entry.sound:
        return None
    kept = ("name", "clamp_opens", "measured", "rating", "pipe_weight", "sight_out")
    values = {key: entry.values[key] for key in kept if key in entry.values}
    return Pipe(start=ends[0], end=ends[1], zero=zero, lines=lines, circuits=circuits, **values)


def build_boom(entry: Entry, unit: str) -> Boom | None:
    """A boom from a read entry; None when anything of it was refused."""
    entry.needs("name", "x", "y", "height")
    circuits = _circuits(entry, unit, "", False)
    return Boom(**{**entry.values, "circuits": circuits}) if entry.sound else None


def build_stand(entry: Entry, unit: str) -> Stand | None:
    """A stand from a read entry; None when anything of it was refused."""
    entry.needs("name", "x", "y")
    circuits = _circuits(entry, unit, "", False, needs_at=False)
    return Stand(**{**entry.values, "circuits": circuits}) if entry.sound else None


def _ends_from_points(entry: Entry) -> tuple[Point, Point] | None:
    entry.needs("start", "end")
    entry.refuse(("trim", "y", "from", "to"), "start and end give the whole pipe")
    values = entry.values
    return (values["start"], values["end"]) if "start" in values and "end" in values else None


def _ends_across(entry: Entry) -> tuple[Point, Point] | None:
    entry.needs("trim", "y", "from", "to")
    try:
        y, z, x0, x1 = (entry.values[key] for key in ("y", "trim", "from", "to"))
    except KeyError:
        return None
    return (x0, y, z), (x1, y, z)


def _check_ends(entry: Entry, ends: tuple[Point, Point], zero: str) -> None:
    start, end = ends
    last = "end" if "end" in entry.raw else "to"
    if sum((b - a) ** 2 for a, b in zip(start, end, strict=True)) < SHORTEST_PIPE**2:
        entry.wrong(last, "two ends that are not in one place")
    elif start[:2] == end[:2]:
        entry.wrong(last, "a pipe that is not upright", "An upright tube is a [[boom]].")
    if zero == "centre line" and abs(start[0] - end[0]) < SHORTEST_PIPE:
        entry.wrong(
            "zero",
            "a pipe that crosses the centre line",
            'This one runs beside it: use zero = "middle", "start" or "end".',
        )


def _lines(entry: Entry, unit: str, axis: str, centre: bool) -> tuple[float, ...]:
    read = length(unit, axis, centre=centre)
    entry.take("lines", list_of(read, "a list of lengths along the pipe"))
    lines: tuple[float, ...] = entry.values.get("lines", ())
    return lines


def _circuits(
    entry: Entry, unit: str, axis: str, centre: bool, *, needs_at: bool = True
) -> tuple[Circuit, ...]:
    entry.take("circuits", list_of(_table, "a list of {name, at, limit}"))
    readers = circuit_readers(unit, axis, centre)
    tables = enumerate(entry.values.get("circuits", ()), 1)
    found = (_circuit(entry, i, raw, readers, needs_at) for i, raw in tables)
    return tuple(circuit for circuit in found if circuit is not None)


def _circuit(
    entry: Entry, index: int, raw: dict[str, Any], readers: dict[str, Any], needs_at: bool
) -> Circuit | None:
    where = entry.where
    inner = open_entry(
        raw, readers, Where(where.file, where.table, f"{where.entry}, circuit {index}"), entry.log
    )
    inner.needs("name", *(["at"] if needs_at else []))
    if not inner.sound:
        entry.sound = False
        return None
    limit = inner.values.get("limit")
    return Circuit(
        name=inner.values["name"],
        at=inner.values.get("at", 0.0),
        limit_amps=limit.amps if limit else None,
        limit_watts=limit.watts if limit else None,
        plug=inner.values.get("plug"),
    )


def _table(raw: object) -> dict[str, Any]:
    if not isinstance(raw, dict):
        raise Wrong("a table {name, at, limit}")
    return raw
