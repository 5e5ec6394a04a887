"""What is changed on the live page: edits of a scene's values, in words and as a person would type them,
the scene that they make, and the list of them that can be undone and redone.

An edit is one setting of `aimcalc.scene.what_if`, and is read as such: the scene's own file stays as it is.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from os import PathLike
from typing import Any

from msgspec.structs import replace

from aimcalc.named import NamedTuple
from aimcalc.rig import wording
from aimcalc.rig.places import place, tube_ends
from aimcalc.scene import loading, tables, what_if
from aimcalc.scene.document import parse
from aimcalc.scene.hanglist.whole.unsided import SIGN_ALONE
from aimcalc.scene.mistakes import Wrong, show
from aimcalc.scene.model import Pipe, Position, Scene, Unit
from aimcalc.scene.readers import length
from aimcalc.scene.records import Place, place_of

NEAREST = wording.Step(0.01, 1.0)  # what a place is dragged to: a whole centimetre or inch
FINE = wording.Step(0.001, 0.25)  # of what is only moved along with it
LONGEST = 2000  # characters of a value
MOST_IN_LIST = 200
DEEPEST = 3  # lists in lists
TURNS = (
    12  # of the search for a place along a curved pipe; each takes off nine tenths of what is left
)

SIDES = {"x": ("SL", "SR"), "y": ("US", "DS")}
ON_LINE = {"x": "on the centre line", "y": "on the plaster line"}
AXES = {"x": "x", "from": "x", "to": "x", "y": "y"}
LENGTHS = ("trim", "z", "height", "foot", "face_height", "sight_out", "arm", "spacing")

# What the hand moves most, altered in the scene that was read: nothing else of a scene depends on it.
MOVES = {
    "targets": (tables.target_readers, ("x", "y")),
    "stands": (tables.stand_readers, ("x", "y")),
    "booms": (tables.boom_readers, ("y",)),
    "pipes": (tables.pipe_readers, ("y", "trim")),
}


class Edit(NamedTuple):
    """One value set: of what the scene's file calls `name`, a unit by its position and number."""

    name: str
    key: str
    value: Any  # as in a scene's file: "3' SL", 5.8, [1, 2]; None: the key is left out


Step = tuple[Edit, ...]  # what is done, undone and told as one


class Changes(NamedTuple):
    """The changes made to a scene, the latest last, and those undone, the latest undone last."""

    done: tuple[Step, ...] = ()
    undone: tuple[Step, ...] = ()

    @property
    def edits(self) -> Step:
        """Every value as it stands now, each name and key once."""
        latest = {(e.name, e.key): e for step in self.done for e in step}
        return tuple(latest.values())

    def made(self, step: Step, *, going_on: bool = False) -> Changes:
        """With one change more; what goes on, as a drag does, takes the place of the last where both set the
        same."""
        same = self.done and [e[:2] for e in self.done[-1]] == [e[:2] for e in step]
        before = self.done[:-1] if going_on and same else self.done
        return Changes((*before, step))

    def undo(self) -> Changes:
        """With the last change taken back; as it is where there is none."""
        return Changes(self.done[:-1], (*self.undone, *self.done[-1:]))

    def redo(self) -> Changes:
        """With what was undone last made again; as it is where there is none."""
        return Changes((*self.done, *self.undone[-1:]), self.undone[:-1])


def edit_of(raw: object) -> Edit:
    """An edit from what a page sent: a list of name, key and value. Raises ValueError where it is none."""
    if not isinstance(raw, list | tuple) or len(raw) != 3:
        raise ValueError(f"Expected [name, key, value], got {show(raw)}.")
    name, key, value = raw
    for part in (name, key):
        if not isinstance(part, str) or not part.isprintable() or not 0 < len(part) <= LONGEST:
            raise ValueError(
                f"Expected the name of something in the scene and a key, got {show(part)}."
            )
    if not _is_plain(value, DEEPEST):
        raise ValueError(f"Expected a value as in a scene for {key} of {name}, got {show(value)}.")
    return Edit(name, key, value)


def _is_plain(value: object, deep: int) -> bool:
    if isinstance(value, list):
        return (
            deep > 0 and len(value) <= MOST_IN_LIST and all(_is_plain(v, deep - 1) for v in value)
        )
    if isinstance(value, str):
        return len(value) <= LONGEST
    return value is None or isinstance(value, bool | int | float)


def changed(scene: str | PathLike[str], edits: Sequence[Edit]) -> Scene:
    """The scene of a file or folder with some edits, each name and key at most once.

    Raises SceneError, which names an edit where that is the mistake.
    """
    return loading.load_scene(scene, [setting(edit) for edit in edits])


def setting(edit: Edit) -> what_if.Setting:
    """An edit as the reader of scenes takes it."""
    name = " ".join(edit.name.split())
    return what_if.Setting(_typed(edit), name, edit.key, edit.value, f"{name}, {edit.key}")


def _typed(edit: Edit) -> str:
    """An edit as it would be typed for `--set`; no two values are typed alike."""
    text = edit.value
    if text is None:
        text = ""
    elif not (isinstance(text, str) and text.isprintable() and _reads_as_itself(text)):
        text = json.dumps(text, ensure_ascii=False)
    return f"{' '.join(edit.name.split())}.{edit.key}={text}"


def _reads_as_itself(text: str) -> bool:
    return text == " ".join(text.split()) and what_if.plain_value(text) == text


def moved(scene: Scene, edits: Sequence[Edit]) -> Scene | None:
    """What `changed` makes of some edits, without reading a file, where they are the common drags.

    Args:
        scene: as `changed` or this made it, of edits of the same names and keys with any values.
        edits: the places of targets, stands and pipes, trims, and units along their positions may differ.

    None where anything else differs, where a value is a mistake, or where the scene holds corrections that
    are made: `changed` then makes the scene, or tells the mistake.
    """
    settings = [setting(edit) for edit in edits]
    if scene.made or len(settings) != len(scene.what_if):
        return None
    found: Scene | None = scene
    for before, now in zip(scene.what_if, settings, strict=True):
        if before == now.typed:
            continue
        if found is None or not before.startswith(f"{now.name}.{now.key}="):
            return None
        try:
            found = _moved(found, now)
        except Wrong:
            return None
    return found and replace(found, what_if=tuple(setting.typed for setting in settings))


def _moved(scene: Scene, setting: what_if.Setting) -> Scene | None:
    for table, (readers, keys) in MOVES.items():
        items = getattr(scene, table)
        k = next((k for k, item in enumerate(items) if item.name == setting.name), None)
        if k is None or setting.key not in keys:
            continue
        if table == "targets" and setting.key == "x" and _looks_at_targets(scene):
            return None
        value = readers(scene.settings.own_unit)[setting.key](setting.value)
        one = _pipe_at(items[k], setting.key, value) if table == "pipes" else None
        one = one or replace(items[k], **{setting.key: value})
        return replace(scene, **{table: (*items[:k], one, *items[k + 1 :])})
    k = unit_index(scene, setting.name)
    if k is None or setting.key != "at":
        return None
    unit = scene.units[k]
    along = _along(scene.positions[unit.position])
    at = length(scene.settings.own_unit, along.axis, centre=along.centre)(setting.value)
    return replace(scene, units=(*scene.units[:k], replace(unit, at=at), *scene.units[k + 1 :]))


def _looks_at_targets(scene: Scene) -> bool:
    """Whether the places of the hang list were read by what its units are aimed at."""
    return any(SIGN_ALONE in taken.says for taken in scene.taken)


def _pipe_at(pipe: Pipe, key: str, value: float) -> Pipe:
    axis = {"y": 1, "trim": 2}[key]
    ends = [(*end[:axis], value, *end[axis + 1 :]) for end in (pipe.start, pipe.end)]
    return replace(pipe, start=ends[0], end=ends[1])


def _along(position: Position) -> Place:
    """How units are measured on a position."""
    return place_of(position, type(position).__name__.lower())


def unit_index(scene: Scene, name: str) -> int | None:
    """Which unit of the scene is "position/number"; None where none is."""
    return next((k for k, u in enumerate(scene.units) if f"{u.position}/{u.number}" == name), None)


# --- in words ---


def words(scene: Scene, edit: Edit) -> str:
    """An edit as a person would say it: `area 3: 1'-0" US`, `pipe 1: trim 19'-6"`, `pipe 1/3: no colour`."""
    return f"{edit.name}: {_said(scene, edit)}"


def step_words(scene: Scene, step: Step) -> str:
    """A change of several values: `area 3: 3'-0" SL, 1'-0" US`, one name after the other."""
    said: dict[str, list[str]] = {}
    for edit in step:
        said.setdefault(edit.name, []).append(_said(scene, edit))
    return "; ".join(f"{name}: {', '.join(each)}" for name, each in said.items())


def _said(scene: Scene, edit: Edit) -> str:
    what = edit.key.replace("_", " ")
    if edit.value is None:
        return f"no {what}"
    if isinstance(edit.value, bool):
        return what if edit.value else f"not {what}"
    axis = AXES.get(edit.key)
    if edit.key in ("at", "connector") and (k := unit_index(scene, edit.name)) is not None:
        axis = _along(scene.positions[scene.units[k].position]).axis
    if axis is None and edit.key not in LENGTHS:
        return f"{what} {edit.value if isinstance(edit.value, str) else show(edit.value)}"
    unit = scene.settings
    try:
        metres = length(unit.own_unit, axis or "")(edit.value)
    except Wrong:
        return f"{what} {show(edit.value)}"
    if not axis:
        return f"{what} {wording.length(metres, unit.unit)}{' below' if metres < 0 else ''}"
    where = wording.along(metres, SIDES[axis], unit.unit)
    if abs(metres) < 0.0005 and edit.key in ON_LINE:
        where = ON_LINE[edit.key]
    return where if edit.key in ("x", "y") else f"{what} {where}"


# --- as a person would type it ---


def as_typed(metres: float, unit: str, axis: str = "", step: wording.Step = NEAREST) -> str:
    """A length rounded and written as a person would: "3'-6\\" SL", "1.6 m DS", "0 m".

    Args:
        metres: + towards SL along axis "x", US along "y"; along none, with a minus sign where it is less
            than nothing.
        unit: m, cm, mm, ft or in, that of the scene.
        axis: "x", "y" or "".
        step: what it is rounded to.
    """
    size = abs(wording.rounded(metres, unit, step))
    if not size:
        return "0'" if unit == "ft" else f"0 {unit}"
    if unit in ("ft", "in"):
        text = wording.length(size, unit).removesuffix('-0"')
    else:
        many = size * {"m": 1, "cm": 100, "mm": 1000}[unit]
        text = f"{many:.3f}".rstrip("0").rstrip(".") + f" {unit}"
    if axis:
        return f"{text} {SIDES[axis][metres < 0]}"
    return f"-{text}" if metres < 0 else text


def target_to(scene: Scene, name: str, x: float, y: float) -> Step:
    """A target, boom or stand put to a point of the plan, metres."""
    unit = scene.settings.own_unit
    return Edit(name, "x", as_typed(x, unit, "x")), Edit(name, "y", as_typed(y, unit, "y"))


def unit_to(scene: Scene, name: str, was: Sequence[float], to: Sequence[float | None]) -> Step:
    """A unit slid along its position, as near to a point as it goes.

    Args:
        was: where its clamp is now, metres (3,).
        to: the point, metres (3,); a part that nobody knows, as the height on a plan, is None.

    Nothing where no unit has that name, or it stands on the deck.
    """
    k = unit_index(scene, name)
    if k is None or scene.units[k].at is None:
        return ()
    unit = scene.units[k]
    position = scene.positions[unit.position]
    ends = tube_ends(position)
    assert ends is not None  # only a stand has none, and its units no place along it
    at = min(max(_slid(position, unit, was, to), ends[0]), ends[1])
    text = as_typed(at, scene.settings.own_unit, _along(position).axis)
    return (Edit(name, "at", text),)


def _slid(
    position: Position, unit: Unit, was: Sequence[float], to: Sequence[float | None]
) -> float:
    at = unit.at or 0.0
    clamp = list(was)
    for _ in range(TURNS):
        way = place(position, at, unit.chord).along
        known = [(w, t - c) for w, c, t in zip(way, clamp, to, strict=True) if t is not None]
        size = sum(w * w for w, _ in known)
        if size < 1e-6:  # it cannot be moved on this view
            break
        by = sum(w * d for w, d in known) / size
        at += by
        if not (isinstance(position, Pipe) and position.through):
            break
        here = place(position, at, unit.chord)
        clamp = [z + at * a for z, a in zip(here.zero, here.along, strict=True)]
    return at


def by_points(scene: str) -> frozenset[str]:
    """The pipes of a scene's file that are written by their ends, which have no y and no trim of their own.

    Raises Wrong where the file cannot be read.
    """
    raw = parse(loading.scene_file(scene))
    pipes = raw.get("pipe")
    return frozenset(
        str(pipe.get("name"))
        for pipe in (pipes if isinstance(pipes, list) else ())
        if isinstance(pipe, dict) and ("start" in pipe or "end" in pipe)
    )


def pipe_to(
    scene: Scene, name: str, ends: bool, *, y: float | None = None, trim: float | None = None
) -> Step:
    """A whole pipe put to another place up and down stage, to another trim, or both; metres.

    Args:
        ends: whether it is written by its ends (`by_points`); its middle is then what is put there.

    A pipe that hangs elsewhere in each act is put to another height in its first.
    """
    unit = scene.settings.own_unit
    pipe = scene.positions.get(name)
    if not isinstance(pipe, Pipe):
        return ()
    if ends:
        return _ends_to(pipe, unit, y, trim)
    step: Step = () if y is None else (Edit(name, "y", as_typed(y, unit, "y")),)
    if trim is None:
        return step
    height = as_typed(trim, unit)
    if not pipe.trims:
        return (*step, Edit(name, "trim", height))
    acts = {each.act: as_typed(each.trim, unit, step=FINE) for each in pipe.trims}
    return (*step, Edit(name, "trims", {**acts, pipe.trims[0].act: height}))


def _ends_to(pipe: Pipe, unit: str, y: float | None, trim: float | None) -> Step:
    middle = [(a + b) / 2 for a, b in zip(pipe.start, pipe.end, strict=True)]
    by = [
        0.0,
        *(0.0 if to is None else to - was for to, was in zip((y, trim), middle[1:], strict=True)),
    ]
    by = [wording.rounded(far, unit, NEAREST) for far in by]
    points = {"start": pipe.start, "through": pipe.through, "end": pipe.end}
    return tuple(
        Edit(
            pipe.name,
            key,
            [
                as_typed(part + far, unit, axis, FINE)
                for part, far, axis in zip(point, by, ("x", "y", ""), strict=True)
            ],
        )
        for key, point in points.items()
        if point is not None
    )
