"""The keys of every table of a scene, each with the reader of its value; `scene.keys` explains them."""

from __future__ import annotations

from aimcalc.scene import quantities as q
from aimcalc.scene.mistakes import Wrong
from aimcalc.scene.readers import (
    Reader,
    between,
    choice,
    colour,
    count,
    fitting,
    label,
    length,
    list_of,
    name,
    note,
    one_or_more,
    over,
    polygon,
    remark,
    several,
    share,
    text,
    truth,
)

Readers = dict[str, Reader]

SIDES = ("SL", "SR", "US", "DS")
MOUNTS = ("under", "over", "out", "arm", "direct", "stand")
FAMILIES = ("ers", "fresnel", "pc", "par", "flood", "cyc")
MOST_SPOTS = 8
FARTHEST_CHORD = 2.0  # metres from the truss's own line
DIMMINGS = ("circuit", "data")
CORRECTED = ("trim", "slope", "skew", "moved", "marks", "drop", "dial", "level", "kick")
ZEROS = ("centre line", "middle", "start", "end")
LENGTH_UNITS = ("m", "cm", "mm", "ft", "in")


def scene_readers(unit: str) -> Readers:
    """Readers of `[scene]`."""
    size = length(unit)
    return {
        "title": name,
        "unit": choice(*LENGTH_UNITS),
        "face_height": between(0, 10, size, "a height in metres"),
        "sight_out": over(0, size, "a length"),
        "tolerance": share(q.number),
        "volts": over(0, q.volts, "volts"),
        "continuous_share": share(q.number),
        "revision": text,
        "note": note,
        "gap_below": share(q.number),
        "hang": name,
        "typeface": name,
        "hang_sheet": name,
        "corrections": name,
    }


def stage_readers(unit: str) -> Readers:
    """Readers of `[stage]`."""
    return {
        "outline": polygon(unit),
        "acting": polygon(unit),
        "rake": q.rake,
        "rake_from": length(unit, "y"),
    }


def errors_readers(unit: str) -> Readers:
    """Readers of `[errors]`: one standard deviation each."""
    size = between(0, 5, length(unit), "a length in metres")
    angle = between(0, 45, q.degrees, "degrees")
    lengths = ("trim", "slope", "pipe", "marks", "mark", "drop", "landing", "sight")
    angles = ("skew", "dial", "level", "set_pan", "set_down", "read_pan", "read_down", "kick")
    return dict.fromkeys(lengths, size) | dict.fromkeys(angles, angle)


def correction_readers(unit: str) -> Readers:
    """Readers of `[[correction]]` in a corrections file; values wait until it is known what they are of."""
    return {
        "what": choice(*CORRECTED),
        "of": name,
        "value": _later,
        "low": _later,
        "high": _later,
    }


def pipe_readers(unit: str) -> Readers:
    """Readers of `[[pipe]]`; `lines`, `marks` and `circuits` wait until its direction is known."""
    point = point_reader(unit)
    return {
        "name": name,
        "trim": over(0, length(unit), "a height"),
        "trims": trims_reader(unit),
        "y": length(unit, "y"),
        "from": length(unit, "x"),
        "to": length(unit, "x"),
        "start": point,
        "end": point,
        "through": point,
        "chords": _later,
        "zero": choice(*ZEROS),
        "clamp_opens": choice(*SIDES),
        "sight_out": over(0, length(unit), "a length"),
        "measured": truth,
        "rating": over(0, q.weight, "a weight"),
        "pipe_weight": over(0, q.weight_per_length, "a weight"),
        "lines": _later,
        "circuits": _later,
        "keep_clear": _later,
        "dead_hung": truth,
        "spacing": over(0, length(unit), "a length"),
        "spaced_from": choice(*SIDES),
        "marks": _later,
    }


def chord_readers(unit: str, axis: str) -> Readers:
    """Readers of one chord of a truss; `axis` is the way that its side is measured."""
    off = between(-FARTHEST_CHORD, FARTHEST_CHORD, length(unit), "a length in metres")
    side = between(-FARTHEST_CHORD, FARTHEST_CHORD, length(unit, axis), "a length in metres")
    return {"name": name, "side": side, "up": off}


def boom_readers(unit: str) -> Readers:
    """Readers of `[[boom]]`."""
    return {
        **_placed(unit),
        "height": over(0, length(unit), "a height"),
        "foot": length(unit),
        "square": choice(*SIDES),
        "circuits": _later,
        "keep_clear": _later,
    }


def stand_readers(unit: str) -> Readers:
    """Readers of `[[stand]]`."""
    return {**_placed(unit), "z": length(unit), "circuits": _later}


def circuit_readers(unit: str, axis: str, centre: bool) -> Readers:
    """Readers of one circuit of a position, `at` measured as the position's units are."""
    return {
        "name": name,
        "at": length(unit, axis, centre=centre),
        "limit": q.limit,
        "plug": label,
    }


def target_readers(unit: str) -> Readers:
    """Readers of `[[target]]`."""
    return {
        **_placed(unit),
        "z": length(unit),
        "face_height": between(0, 10, length(unit), "a height in metres"),
        "plane": choice("face", "deck", "point"),
        "faces": q.heading,
        "also": list_of(spot_reader(unit), "a list of spots [[x, y], ...]", 1, MOST_SPOTS),
        "without": one_or_more(name, "the name of a system, or a list of them"),
    }


def kind_readers(unit: str) -> Readers:
    """Readers of `[[kind]]`."""
    size = length(unit)
    positive = over(0, size, "a length")
    some = between(0, 20, size, "a length in metres")
    full = "a full angle over 0 and under 180 degrees"
    angle = fitting(q.degrees, lambda value: 0.0 < value < 180.0, full)
    yoke = between(-180, 180, q.degrees, "degrees")
    return {
        "name": name,
        "family": choice(*FAMILIES),
        "field": angle,
        "beam": angle,
        "photometry": name,
        "peak_cd": over(0, q.number, "candela"),
        "lumens": over(0, q.number, "lumens"),
        "oval": several((angle, angle), "the narrow and the wide field [narrow, wide]"),
        "drop_under": some,
        "drop_over": some,
        "nose": some,
        "rise": between(-20, 20, size, "a length in metres"),
        "length": positive,
        "width": positive,
        "weight": over(0, q.weight, "a weight"),
        "clamp_weight": over(0, q.weight, "a weight"),
        "frame_weight": over(0, q.weight, "a weight"),
        "safety_weight": over(0, q.weight, "a weight"),
        "watts": over(0, q.watts, "watts"),
        "yoke_range": several((yoke, yoke), "degrees [least, most]"),
        "tail": over(0, size, "a length"),
        "tail_exit": several((size, size), "two lengths [back, below]"),
        "has_frame": truth,
        "frame_size": label,
        "has_gobo": truth,
        "plug": label,
        "dimmed_by": choice(*DIMMINGS),
        "top_hat": some,
        "label_distance": some,
    }


def unit_readers(unit: str) -> Readers:
    """Readers of `[[unit]]` and of a hang list; `at` and `connector` wait for the position."""
    return {
        "position": name,
        "number": name,
        "at": _later,
        "chord": label,
        "kind": name,
        "target": name,
        "point": point_reader(unit),
        "mount": choice(*MOUNTS),
        "swing_out": q.swing_out,
        "arm": over(0, length(unit), "a length"),
        "arm_to": q.heading,
        "arm_weight": over(0, q.weight, "a weight"),
        "system": label,
        "channel": label,
        "circuit": label,
        "dimmed_by": choice(*DIMMINGS),
        "colour": colour,
        "transmission": share(q.number),
        "precise": truth,
        "turn": q.turn,
        "hung": choice("tail down", "tail up"),
        "works": truth,
        "connector": _later,
        "edge": choice("soft", "sharp"),
        "note": remark,
    }


def hang_columns_readers(unit: str) -> Readers:
    """Readers of `[hang_columns]`: for each key of a unit, the column of the hang list that holds it."""
    column = one_or_more(name, "the heading of a column, or its letter")
    helps = ("side", "height", "lens", "count", "remark")
    return dict.fromkeys((*unit_readers(unit), *helps), column)


def solid_readers(unit: str) -> Readers:
    """Readers of `[[solid]]`."""
    point = point_reader(unit)
    x, y, z = length(unit, "x"), length(unit, "y"), length(unit)
    return {
        "name": name,
        "box": several((x, y, z, x, y, z), "two corners [x0, y0, z0, x1, y1, z1]"),
        "panel": list_of(point, "four corners [x, y, z]", 4, 4),
        "mesh": name,
        "scale": over(0, q.number, "a number"),
        "move": point,
        "stand_on": truth,
    }


def seats_readers(unit: str) -> Readers:
    """Readers of `[[seats]]`."""
    return {"name": name, "outline": polygon(unit), "eye": length(unit)}


def stock_readers(unit: str) -> Readers:
    """Readers of `[[stock]]`."""
    return {"kind": name, "count": count}


def cable_readers(unit: str) -> Readers:
    """Readers of `[[cable]]`."""
    return {"length": over(0, length(unit), "a length"), "count": count, "plug": label}


def point_reader(unit: str) -> Reader:
    """A reader of `[x, y, z]`."""
    return several((length(unit, "x"), length(unit, "y"), length(unit)), "a point [x, y, z]")


def spot_reader(unit: str) -> Reader:
    """A reader of `[x, y]` or `[x, y, z]`: a triple, its z None where it is not written."""
    flat = several((length(unit, "x"), length(unit, "y")), "a spot [x, y], or [x, y, z]")
    high = point_reader(unit)

    def read(raw: object) -> tuple[float, float, float | None]:
        return high(raw) if isinstance(raw, list) and len(raw) == 3 else (*flat(raw), None)

    return read


def trims_reader(unit: str) -> Reader:
    """A reader of `{ act = height, ... }`: pairs in the order written."""
    height = over(0, length(unit), "a height")

    def read(raw: object) -> tuple[tuple[str, float], ...]:
        if not isinstance(raw, dict) or not raw:
            raise Wrong('trims by act: { "act 1" = "5.5 m", "act 2" = "6 m" }')
        return tuple((name(act), height(trim)) for act, trim in raw.items())

    return read


def _placed(unit: str) -> Readers:
    """Readers of a name and a place on the plan."""
    return {"name": name, "x": length(unit, "x"), "y": length(unit, "y")}


def _later(raw: object) -> object:
    return raw
