"""Pipes, booms and stands: entries made into records, and what their units must know of them."""

from __future__ import annotations

from math import sqrt
from typing import Any

from aimcalc.named import NamedTuple
from aimcalc.scene.document import Entry, open_entry
from aimcalc.scene.files import named_file
from aimcalc.scene.mistakes import Where, Wrong
from aimcalc.scene.model import (
    Boom,
    Cable,
    Chord,
    Circuit,
    Kind,
    Pipe,
    Point,
    Seats,
    Solid,
    Spot,
    Stage,
    Stand,
    Stock,
    Stretch,
    Target,
    Trim,
    runs_across,
)
from aimcalc.scene.readers import SMALLEST_AREA, length, list_of, several
from aimcalc.scene.tables import chord_readers, circuit_readers

SHORTEST_PIPE = 0.001  # metres
LEVEL_ARC = 0.005  # metres that the three points of an arc may differ in height
FLATTEST_ARC = 0.01  # metres that the third point is off the line of the other two, at the least
MOST_CHORDS = 8
STAND_HEIGHT = (
    1.0  # metres, of a unit on a stand that does not say (our choice): what it points at level
)


class Place(NamedTuple):
    """How units are measured on a position. An axis of "any" is a position that was refused."""

    sort: str  # pipe, boom, stand
    axis: str = ""
    centre: bool = False
    chords: tuple[str, ...] = ()
    pipe: Pipe | None = None
    x: float = 0.0  # of a boom
    y: float = 0.0  # of a boom
    reach: tuple[float, float] = (
        0.0,
        0.0,
    )  # of a boom: its foot and its top, as heights on it count
    stood: Point | None = None  # of a stand: where it is, at STAND_HEIGHT where it says none

    @property
    def aside(self) -> float:
        """How far to SL a boom or a pipe up and down the stage is, metres; 0 of any other."""
        pipe = self.pipe if self.axis == "y" else None
        return (pipe.start[0] + pipe.end[0]) / 2 if pipe else self.x


def place_of(position: Pipe | Boom | Stand | None, sort: str) -> Place:
    """The place of a position, also of one that was refused (None)."""
    if position is None:
        return Place(sort, "any", True)
    if isinstance(position, Pipe):
        centre = position.zero in ("centre line", "middle")
        across = runs_across(position.start, position.end)
        chords = tuple(chord.name for chord in position.chords)
        return Place(sort, "x" if across else "y", centre, chords, position)
    if isinstance(position, Boom):
        return Place(
            sort, x=position.x, y=position.y, reach=(position.foot or 0.0, position.height)
        )
    height = STAND_HEIGHT if position.z is None else position.z
    return Place(sort, stood=(position.x, position.y, height))


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
    _check_arc(entry, ends, zero)
    lines = _along(entry, "lines", unit, axis, centre)
    marks = _along(entry, "marks", unit, axis, centre)
    _check_spaced_from(entry, axis)
    circuits = _circuits(entry, unit, axis, centre)
    clear = _keep_clear(entry, unit, axis, centre)
    chords = _chords(entry, unit, "y" if axis == "x" else "x")
    if not entry.sound:
        return None
    kept = (
        "name",
        "clamp_opens",
        "measured",
        "rating",
        "pipe_weight",
        "sight_out",
        "dead_hung",
        "through",
        "spacing",
        "spaced_from",
    )
    values = {key: entry.values[key] for key in kept if key in entry.values}
    values |= {
        "lines": lines,
        "marks": marks,
        "circuits": circuits,
        "keep_clear": clear,
        "chords": chords,
    }
    values["trims"] = tuple(Trim(act=act, trim=z) for act, z in entry.values.get("trims", ()))
    return Pipe(start=ends[0], end=ends[1], zero=zero, **values)


def build_boom(entry: Entry, unit: str) -> Boom | None:
    """A boom from a read entry; None when anything of it was refused."""
    entry.needs("name", "x", "y", "height")
    circuits = _circuits(entry, unit, "", False)
    clear = _keep_clear(entry, unit, "", False)
    foot, top = entry.values.get("foot"), entry.values.get("height")
    if foot is not None and top is not None and foot > top - SHORTEST_PIPE:
        entry.wrong("foot", "a foot below the top of the boom", "height is that of its top.")
    if not entry.sound:
        return None
    return Boom(**{**entry.values, "circuits": circuits, "keep_clear": clear})


def build_stand(entry: Entry, unit: str) -> Stand | None:
    """A stand from a read entry; None when anything of it was refused."""
    entry.needs("name", "x", "y")
    circuits = _circuits(entry, unit, "", False, needs_at=False)
    return Stand(**{**entry.values, "circuits": circuits}) if entry.sound else None


def _ends_from_points(entry: Entry) -> tuple[Point, Point] | None:
    entry.needs("start", "end")
    entry.refuse(("trim", "trims", "y", "from", "to"), "start and end give the whole pipe")
    values = entry.values
    return (values["start"], values["end"]) if "start" in values and "end" in values else None


def _ends_across(entry: Entry) -> tuple[Point, Point] | None:
    if "trims" in entry.raw:
        if "trim" in entry.raw:
            do = "Leave out trim, or change the first of trims."
            entry.clash("trim", "no trim here: trims gives the hang's first", do)
        if "trims" in entry.values:
            entry.values["trim"] = entry.values["trims"][0][1]
    entry.needs(*(["trims"] if "trims" in entry.raw else ["trim"]), "y", "from", "to")
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
    beside = abs(start[0] - end[0]) < SHORTEST_PIPE and "through" not in entry.raw
    if zero == "centre line" and beside:
        entry.wrong(
            "zero",
            "a pipe that crosses the centre line",
            'This one runs beside it: use zero = "middle", "start" or "end".',
        )


def _check_arc(entry: Entry, ends: tuple[Point, Point], zero: str) -> None:
    """Note what keeps a curved pipe from being one arc at one height."""
    through = entry.values.get("through")
    if through is None:
        return
    if "start" not in entry.raw:
        entry.clash(
            "through", "start and end beside it", "Give the ends of the arc as start and end."
        )
        return
    entry.refuse(("chords", "sight_out"), "a curved pipe has neither chords nor a sight tape")
    (x0, y0, z0), (x1, y1, z1), (x, y, z) = *ends, through
    chord, off = sqrt((x1 - x0) ** 2 + (y1 - y0) ** 2), (x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)
    if max(z0, z1, z) - min(z0, z1, z) > LEVEL_ARC:
        entry.wrong("through", "three points at one height", "A curved pipe has to be level.")
    elif chord < SHORTEST_PIPE or abs(off) / chord < FLATTEST_ARC:
        do = "Leave out through where the pipe is straight; a whole ring is two arcs."
        entry.wrong("through", "a point well off the line from start to end", do)
    elif zero == "centre line" and x0 * x1 > 0:
        do = 'Use zero = "middle", "start" or "end".'
        entry.wrong("zero", "a curved pipe with its ends on either side of the centre line", do)


def _chords(entry: Entry, unit: str, axis: str) -> tuple[Chord, ...]:
    """The chords of a truss, their sides measured along `axis`."""
    entry.take("chords", list_of(_chord_table, "a list of {name, side, up}", 1, MOST_CHORDS))
    readers = chord_readers(unit, axis)
    found: list[Chord] = []
    for index, raw in enumerate(entry.values.get("chords", ()), 1):
        where = entry.where._replace(entry=f"{entry.where.entry}, chord {index}")
        inner = open_entry(raw, readers, where, entry.log)
        inner.needs("name")
        if any(chord.name == inner.values.get("name") for chord in found):
            inner.wrong("name", "a name of its own for each chord")
        if not inner.sound:
            entry.sound = False
            continue
        found.append(Chord(**inner.values))
    return tuple(found)


def _chord_table(raw: object) -> dict[str, Any]:
    if not isinstance(raw, dict):
        raise Wrong("a table {name, side, up}")
    return raw


def _along(entry: Entry, key: str, unit: str, axis: str, centre: bool) -> tuple[float, ...]:
    read = length(unit, axis, centre=centre)
    entry.take(key, list_of(read, "a list of lengths along the pipe"))
    found: tuple[float, ...] = entry.values.get(key, ())
    return found


def _check_spaced_from(entry: Entry, axis: str) -> None:
    ends = ("SL", "SR") if axis == "x" else ("US", "DS")
    if entry.values.get("spaced_from", ends[0]) not in ends:
        entry.wrong("spaced_from", f"an end of this pipe: {ends[0]} or {ends[1]}")


def _keep_clear(entry: Entry, unit: str, axis: str, centre: bool) -> tuple[Stretch, ...]:
    """Where nothing can be clamped, each stretch with its lesser end first."""
    read = length(unit, axis, centre=centre)
    stretch = several((read, read), "a stretch [from, to]")
    entry.take("keep_clear", list_of(stretch, "a list of stretches [[from, to], ...]"))
    return tuple(tuple(sorted(each)) for each in entry.values.get("keep_clear", ()))


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


THINNEST = 1e-4  # metres, thinner than any sheet
FLAT_WITHIN = (
    0.02  # metres: four corners typed to the inch or the centimetre lie as near to one plane
)
INCH = 0.0254  # m, exact: international inch, 1959 agreement
MESHES = (".stl", ".obj", ".ply", ".glb")
TYPEFACES = (".ttf", ".otf", ".ttc", ".otc")


def build_stage(entry: Entry) -> Stage | None:
    """The stage; `acting` is the outline where none was written."""
    if not entry.sound:
        return None
    values = dict(entry.values)
    values.setdefault("acting", values.get("outline", ()))
    return Stage(**values)


def build_target(entry: Entry) -> Target | None:
    """A target, which remembers whether its plane was written."""
    entry.needs("name", "x", "y")
    if entry.values.get("plane") == "point" and "z" not in entry.raw:
        entry.missing("z", "z, as the plane is the point itself")
    if not entry.sound:
        return None
    spots = tuple(Spot(x=x, y=y, z=z) for x, y, z in entry.values.get("also", ()))
    return Target(**{**entry.values, "also": spots}, plane_given="plane" in entry.raw)


def build_kind(entry: Entry, folder: str) -> Kind | None:
    """A kind; an oval without `field` takes the round field of the same solid angle, nearly."""
    entry.needs("name", "family")
    values = entry.values
    if not {"field", "photometry", "oval"} & entry.raw.keys():
        entry.missing("field", "field (full angle in degrees), oval or photometry")
    oval = values.get("oval")
    if oval and oval[0] > oval[1]:
        entry.wrong("oval", "the narrow field first, then the wide one")
    elif oval:
        values.setdefault("field", sqrt(oval[0] * oval[1]))
    if values.get("beam", 0.0) > values.get("field", 180.0):
        entry.wrong("beam", "a beam no wider than the field", "Swap beam and field?")
    travel = values.get("yoke_range")
    if travel and not travel[0] < travel[1]:
        entry.wrong("yoke_range", "the least angle first, then the most")
    check_file(entry, "photometry", folder)
    return Kind(**values) if entry.sound else None


def build_solid(entry: Entry, folder: str) -> Solid | None:
    """A solid of exactly one shape; a box keeps its low corner first."""
    entry.needs("name")
    shapes = [key for key in ("box", "panel", "mesh") if key in entry.raw]
    if not shapes:
        entry.missing("box", "one of box, panel or mesh", "Add the solid's shape.")
    for extra in shapes[1:]:
        entry.clash(extra, f"one shape, and {shapes[0]} is written too", f"Leave out {extra}.")
    if shapes and shapes[0] != "mesh":
        entry.refuse(("scale", "move"), "they place a mesh")
    check_file(entry, "mesh", folder, MESHES)
    values = dict(entry.values)
    if "box" in values:
        values["box"] = _box(entry, values["box"])
    if "panel" in values:
        _check_panel(entry, values["panel"])
    return Solid(**values) if entry.sound else None


def build_seats(entry: Entry) -> Seats | None:
    """A block of seats."""
    entry.needs("name", "outline", "eye")
    return Seats(**entry.values) if entry.sound else None


def build_stock(entry: Entry) -> Stock | None:
    """How many of a kind there are."""
    entry.needs("kind", "count")
    return Stock(**entry.values) if entry.sound else None


def build_cable(entry: Entry) -> Cable | None:
    """How many cables of a length there are."""
    entry.needs("length", "count")
    return Cable(**entry.values) if entry.sound else None


def _box(entry: Entry, box: tuple[float, ...]) -> tuple[float, ...]:
    low = tuple(min(box[i], box[i + 3]) for i in range(3))
    high = tuple(max(box[i], box[i + 3]) for i in range(3))
    if min(b - a for a, b in zip(low, high, strict=True)) < THINNEST:
        entry.wrong("box", "two corners that differ in x, y and z", "A thin sheet is a panel.")
    return (*low, *high)


def _check_panel(entry: Entry, corners: tuple[Point, ...]) -> None:
    diagonals = _cross(_minus(corners[2], corners[0]), _minus(corners[3], corners[1]))
    if _size(diagonals) / 2 < SMALLEST_AREA:
        entry.wrong("panel", "four corners that enclose an area", "Go round the edge in order.")
        return
    least, fourth = _off_plane(corners)
    if least > FLAT_WITHIN:
        far = f"{fourth:.2f} m ({fourth / INCH:.0f} in)"
        entry.wrong(
            "panel",
            f"four corners on one plane; the fourth is {far} off that of the first three",
            "Correct the corner, or make two panels of it: three corners and one of them again.",
        )


def _off_plane(corners: tuple[Point, ...]) -> tuple[float, float]:
    """How far a corner is off the plane of the other three: the one that is least off, and the fourth.

    A corner in line with two others may leave the fourth far off a plane that is hardly known: the least
    judges.
    """
    a, b, c, d = corners
    normal, up = _cross(_minus(b, a), _minus(c, a)), _minus(d, a)
    volume = abs(sum(n * u for n, u in zip(normal, up, strict=True)))
    if not volume:
        return 0.0, 0.0
    others = ((a, b, d), (a, c, d), (b, c, d))
    faces = [_size(normal)] + [_size(_cross(_minus(q, p), _minus(r, p))) for p, q, r in others]
    return volume / max(faces), volume / faces[0]


def _cross(a: Point, b: Point) -> Point:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def _size(a: Point) -> float:
    return sqrt(sum(part * part for part in a))


def _minus(a: Point, b: Point) -> Point:
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def check_file(entry: Entry, key: str, folder: str, endings: tuple[str, ...] = ()) -> None:
    """Refuse a key that names no file in the scene's folder, or one that ends otherwise."""
    name: Any = entry.values.get(key)
    if name is None:
        return
    try:
        named_file(folder, name, endings)
    except Wrong as wrong:
        entry.note(key, wrong, name)
    else:
        entry.values[key] = name.replace("\\", "/")  # however the scene's computer parts folders
