"""What a page may ask of the desk, and the change of the scene that it asks for."""

from __future__ import annotations

from typing import Any, Literal

import msgspec

from aimcalc.desk import edits
from aimcalc.desk.edits import Step
from aimcalc.desk.session import Session
from aimcalc.scene.model import Boom, Pipe, Stand, Target

Sort = Literal["target", "unit", "pipe", "trim"]
Metres = float


class Grab(msgspec.Struct, frozen=True, tag="grab", tag_field="do"):
    """A hand takes hold of something."""

    sort: Sort
    name: str


class Move(msgspec.Struct, frozen=True, tag="move", tag_field="do"):
    """A hand has moved it to a point of the drawing, metres; a part that the drawing lacks is None."""

    n: int  # which move of the page this is
    sort: Sort
    name: str
    x: Metres | None = None
    y: Metres | None = None
    z: Metres | None = None


class Drop(msgspec.Struct, frozen=True, tag="drop", tag_field="do"):
    """A hand lets go."""


class Put(msgspec.Struct, frozen=True, tag="put", tag_field="do"):
    """Values typed or chosen: name, key and value of each."""

    edits: list[Any]


class Undo(msgspec.Struct, frozen=True, tag="undo", tag_field="do"):
    """Take the last change back."""


class Redo(msgspec.Struct, frozen=True, tag="redo", tag_field="do"):
    """Make it again."""


class Look(msgspec.Struct, frozen=True, tag="look", tag_field="do"):
    """The light that a page shows: of a system, on a plane, with what share of its mean a hole lies under.

    None: it shows none.
    """

    system: str | None = None
    plane: Literal["level", "house"] = "level"
    share: float | None = None  # None: that of the scene


class Apply(msgspec.Struct, frozen=True, tag="apply", tag_field="do"):
    """Point a unit at a hole of the light that the page shows, as it was offered."""

    unit: str
    point: tuple[Metres, Metres, Metres]


class Save(msgspec.Struct, frozen=True, tag="save", tag_field="do"):
    """Write the scene with its changes: into a new folder, or into its own files where none is named."""

    folder: str | None = None


Asked = Grab | Move | Drop | Put | Undo | Redo | Look | Apply | Save
read = msgspec.json.Decoder(Asked).decode


def step_of(session: Session, asked: Grab | Move | Put | Apply) -> Step:
    """The change that somebody asks for; none where there is nothing to move.

    Raises ValueError for what is no edit.
    """
    if isinstance(asked, Put):
        return tuple(edits.edit_of(each) for each in asked.edits)
    if isinstance(asked, Apply):
        return _aimed(session, asked)
    move = asked if isinstance(asked, Move) else None
    return _moved(session, asked.sort, asked.name, move)


def _moved(session: Session, sort: Sort, name: str, to: Move | None) -> Step:
    """Something at a point; where it is now without one."""
    scene = session.show.scene
    if sort == "unit":
        k = session.show.rig.by_name.get(name)
        if k is None:
            return ()
        was = session.show.rig.arrays.clamp[:, k].tolist()
        return edits.unit_to(scene, name, was, (to.x, to.y, to.z) if to else was)
    if sort == "target":
        things: list[Target | Stand | Boom] = [*scene.targets, *scene.stands, *scene.booms]
        thing = next((t for t in things if t.name == name), None)
        if thing is None:
            return ()
        x, y = (thing.x, thing.y) if to is None else (to.x, to.y)
        return edits.target_to(
            scene, name, thing.x if x is None else x, thing.y if y is None else y
        )
    pipe = next((p for p in scene.pipes if p.name == name), None)
    if pipe is None:
        return ()
    y, z = _middle(pipe)[1:] if to is None else (to.y, to.z)
    typed = session.scene.positions[name]
    if isinstance(typed, Pipe):  # what corrections move it by is not typed
        off = [a - b for a, b in zip(_middle(pipe), _middle(typed), strict=True)]
        y = None if y is None else y - off[1]
        z = None if z is None else z - off[2]
    ends = name in session.by_points
    return edits.pipe_to(session.scene, name, ends, **({"y": y} if sort == "pipe" else {"trim": z}))


def _middle(pipe: Pipe) -> list[float]:
    return [(a + b) / 2 for a, b in zip(pipe.start, pipe.end, strict=True)]


def _aimed(session: Session, asked: Apply) -> Step:
    unit = session.show.scene.settings.own_unit
    point = [
        edits.as_typed(part, unit, axis, edits.FINE)
        for part, axis in zip(asked.point, ("x", "y", ""), strict=True)
    ]
    return edits.Edit(asked.unit, "target", None), edits.Edit(asked.unit, "point", point)
