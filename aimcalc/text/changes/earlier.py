"""An earlier print as it is read back: what its `aims.json` tells of its units."""

from __future__ import annotations

import os

import msgspec

from aimcalc.scene.document import SCENE_FILE
from aimcalc.scene.files import read_whole
from aimcalc.scene.mistakes import Wrong
from aimcalc.scene.model import Point
from aimcalc.solid.answers import Stop
from aimcalc.text.stamp import SET_FILE

PRINT = "aims.json"  # of a set that `prep` made
PRINT_MEGABYTES = 60


class Aimed(msgspec.Struct, frozen=True):
    """What is asked of a unit of an earlier print; its keys are those of `solve --json`."""

    unit: str
    position: str
    kind: str
    mount: str
    clamp: Point
    face: Point
    down_tolerance: float
    target: str | None = None
    lens: Point | None = None
    stand: Point | None = None
    heading: float | None = None
    down: float | None = None
    square: str | None = None
    pan: float | None = None
    swing: str | None = None
    sight: float | None = None
    sight_out: float | None = None
    meets: Stop | None = None
    pan_tolerance: float | None = None


class Earlier(msgspec.Struct, frozen=True):
    """What is asked of the `aims.json` of an earlier print."""

    scene: str
    unit_of_length: str
    units: list[Aimed]
    revision: str = ""
    set: str = ""
    printed: str | None = None
    part: str = ""


def is_print(path: str) -> bool:
    """Whether a path names an earlier print: a JSON file, or a folder of sheets."""
    if os.path.isdir(path):
        held = [os.path.lexists(os.path.join(path, name)) for name in (SCENE_FILE, PRINT, SET_FILE)]
        return not held[0] and any(held)
    return path.lower().endswith(".json")


def read_print(path: str) -> Earlier:
    """What an earlier print tells, from its `aims.json` or the folder that holds it.

    Raises ValueError, in words, for a file that cannot be read or is none of these.
    """
    file = os.path.join(path, PRINT) if os.path.isdir(path) else path
    if os.path.isdir(path) and not os.path.lexists(file):
        raise ValueError(
            f"{path}: expected {PRINT} among the sheets, got a set without its lists. "
            "Do: name the older scene instead; next time print the lists too (--only lists, or everything)."
        )
    try:
        told = msgspec.json.decode(read_whole(file, PRINT_MEGABYTES), type=Earlier)
    except Wrong as wrong:
        raise ValueError(
            f"{file}: expected {wrong.expected}, got {wrong.came or 'none'}."
        ) from None
    except (msgspec.DecodeError, UnicodeDecodeError) as error:
        reason = str(error).partition(" - at")[0]
        raise ValueError(
            f"{file}: expected the {PRINT} that aimcalc prep has made, got something else ({reason}). "
            "Do: name the folder of the older sheets, or its scene."
        ) from None
    if told.unit_of_length != "m":
        raise ValueError(f'{file}: expected lengths in "m", got "{told.unit_of_length}".')
    if told.part:
        raise ValueError(f"{file}: expected a whole set, got a part of one ({told.part}).")
    return told
