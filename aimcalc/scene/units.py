"""Units: rows of `[[unit]]` or of a hang list made into records."""

from __future__ import annotations

from typing import Any

from aimcalc.named import NamedTuple
from aimcalc.scene.document import Entry, open_entry
from aimcalc.scene.mistakes import Log, Where
from aimcalc.scene.model import Unit
from aimcalc.scene.readers import Reader, length
from aimcalc.scene.records import Place
from aimcalc.scene.tables import SIDES, unit_readers

KIND_OF = "kind, of the scene or generic"

_MOUNTS = {
    "pipe": ("under", "over", "out"),
    "boom": ("arm", "direct"),
    "stand": ("stand",),
}


class Names(NamedTuple):
    """What a unit may name."""

    places: dict[str, Place]
    targets: tuple[str, ...]
    kinds: tuple[str, ...]  # of the scene and of the catalogue


class UnitReader:
    """Makes units of entries, remembering text that it has read before."""

    def __init__(self, names: Names, unit: str, log: Log) -> None:
        self.names = names
        self.unit = unit
        self.log = log
        self.readers = {key: _remembering(read) for key, read in unit_readers(unit).items()}
        self.along: dict[tuple[str, bool], Reader] = {}
        self.targets = dict.fromkeys(names.targets)  # looked up as in a set, told in their order
        self.kinds = dict.fromkeys(names.kinds)

    def read(self, raw: dict[str, Any], where: Where, source: str) -> Unit | None:
        """A unit; None when anything of it was refused."""
        entry = open_entry(raw, self.readers, where, self.log)
        values = entry.values
        self._check_needs(entry)
        place = self._place(entry)
        self._read_along(entry, place)
        _check_chord(entry, place)
        entry.check_name("target", "target", self.targets)
        entry.check_name("kind", KIND_OF, self.kinds)
        if place.sort in _MOUNTS:
            _set_mount(entry, place)
        if not entry.sound:
            return None
        return Unit(**values, source=source)

    def _check_needs(self, entry: Entry) -> None:
        raw = entry.raw
        if not ("position" in raw and "number" in raw and "kind" in raw):
            entry.needs("position", "number", "kind")
        if ("target" in raw) is ("point" in raw):
            if "target" in raw:
                entry.clash("point", "either a target or a point", "Leave out one of them.")
            else:
                entry.missing("target", "a target's name, or a point [x, y, z]")

    def _place(self, entry: Entry) -> Place:
        place = self.names.places.get(entry.values.get("position", ""))
        if place is None:
            entry.check_name("position", "pipe, boom or stand", self.names.places)
            return Place("", "any", True)
        return place

    def _read_along(self, entry: Entry, place: Place) -> None:
        """Read what is measured along the position, now that its direction is known."""
        raw = entry.raw
        if place.sort == "stand":
            entry.refuse(("at",), "a stand is a point")
        elif place.sort and "at" not in raw and place.axis != "any":
            entry.needs("at")
        for key in ("at", "connector"):
            if key in raw:
                centre = place.centre and key == "at"
                read = self.along.get((place.axis, centre))
                if read is None:
                    read = _remembering(length(self.unit, place.axis, centre=centre))
                    self.along[place.axis, centre] = read
                entry.take(key, read)


def _check_chord(entry: Entry, place: Place) -> None:
    """A unit on a truss names its chord, one elsewhere has none."""
    chord = entry.values.get("chord")
    if chord is None:
        if place.chords:
            wanted = f"the chord it is clamped to: {', '.join(place.chords)}"
            entry.missing("chord", wanted, "Add chord.")
    elif place.chords:
        entry.check_name("chord", "chord of its truss", place.chords)
    elif place.axis != "any":
        entry.refuse(("chord",), "its position has no chords")


def _set_mount(entry: Entry, place: Place) -> None:
    values = entry.values
    swing, side = values.pop("swing_out", (0.0, None))
    mount = values.get("mount") or _default_mount(place, "arm" in values, swing > 0)
    values["mount"] = mount
    if mount not in _MOUNTS[place.sort]:
        on = f"a {place.sort} takes {', '.join(_MOUNTS[place.sort])}"
        entry.wrong("mount", f"a mount that this position can hold: {on}")
        return
    if mount == "out":
        _set_swing(entry, place, swing, side)
    elif swing:
        entry.clash("swing_out", f'no swing_out with mount "{mount}"', 'Use mount = "out".')
    if place.sort == "boom":
        _check_arm(entry, mount)
    else:
        keys = ("arm", "arm_weight") if mount == "out" else ("arm", "arm_to", "arm_weight")
        entry.refuse(keys, "only a unit on a boom has an arm")


def _default_mount(place: Place, has_arm: bool, swung: bool) -> str:
    if place.sort == "boom":
        return "arm" if has_arm else "direct"
    if place.sort == "stand":
        return "stand"
    return "out" if swung else "under"


def _set_swing(entry: Entry, place: Place, swing: float, side: str | None) -> None:
    values = entry.values
    if "swing_out" not in entry.raw:
        entry.missing("swing_out", "degrees round the pipe from straight down")
        return
    values["swing_out"] = swing
    key = "swing_out"
    if side is None and "arm_to" in values:
        key = "arm_to"
        side = {0.0: "US", 90.0: "SL", 180.0: "DS", 270.0: "SR"}.get(values["arm_to"], "none")
    values.pop("arm_to", None)
    sides = {"x": ("US", "DS"), "y": ("SL", "SR")}.get(place.axis, SIDES)
    if side is not None and side not in sides:
        entry.wrong(key, f"a side that this pipe can swing to: {' or '.join(sides)}")
    values["out_to"] = side or sides[0]  # US, or SL on a pipe up and down the stage


def _check_arm(entry: Entry, mount: str) -> None:
    if mount == "arm":
        entry.needs("arm")
    elif "arm" in entry.raw:
        entry.clash("arm", "no arm with a unit clamped straight to the boom", "Leave out arm.")
    if mount != "arm":
        entry.refuse(("arm_weight",), "only a unit under a side arm has one")
    if "arm_to" not in entry.raw:
        entry.missing(
            "arm_to", "the direction from the boom to the unit: SL, SR, US, DS or degrees"
        )


def _remembering(read: Reader) -> Reader:
    """`read`, keeping what each text gave: the rows of a long list repeat themselves."""
    known: dict[str, Any] = {}

    def reader(raw: Any) -> Any:
        if type(raw) is not str:
            return read(raw)
        if raw not in known:
            known[raw] = read(raw)
        return known[raw]

    return reader
