"""What somebody read off a unit, in words as a sheet tells it: a pan with its side, a down, a yoke."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TypeVar

from aimcalc.named import NamedTuple
from aimcalc.scene import quantities as q
from aimcalc.scene.hanglist.places.along import Along
from aimcalc.scene.hanglist.places.placewords import read_place
from aimcalc.scene.mistakes import Wrong
from aimcalc.scene.model import Pipe, Scene, runs_across

T = TypeVar("T")
_SIDE = re.compile(r"(?i)\b(SL|SR|US|DS|UP|DOWN|LEFT|RIGHT)\b")
_WAY = re.compile(r"(?i)\b(away|towards)\b")


class Said(NamedTuple):
    """What was read off a unit; None: as printed. Degrees; `sight` metres along its tape, + to SL (US).

    `pan` has the side swung to, empty for square; `down` is negative for UP; `yoke` as in `Answer`.
    """

    pan: tuple[float, str] | None = None
    sight: float | None = None
    down: float | None = None
    yoke: float | None = None


def said(
    scene: Scene,
    position: str,
    pan: str | None = None,
    down: str | None = None,
    yoke: str | None = None,
    sight: str | None = None,
) -> Said:
    """What was read off a unit of a position, in words. Raises Wrong with what came as its `came`."""
    return Said(
        pan=None if pan is None else _read(pan_of, pan, "pan"),
        sight=None if sight is None else _read(_sight(scene, position), sight, "sight"),
        down=None if down is None else _read(down_of, down, "down"),
        yoke=None if yoke is None else _read(_yoke, yoke, "yoke"),
    )


def _sight(scene: Scene, name: str) -> Callable[[str], float]:
    """A reader of marks on the sight tape of a position."""
    position = scene.positions[name]
    if not isinstance(position, Pipe):
        raise Wrong("a unit that has a sight tape", "Read its dial instead.")
    axis = "x" if runs_across(position.start, position.end) else "y"
    along = Along(scene.settings.own_unit, axis, True)
    return lambda text: read_place(text, along).metres


def _read(reader: Callable[[str], T], text: str, which: str) -> T:
    try:
        return reader(text.strip())
    except Wrong as wrong:
        raise Wrong(wrong.expected, wrong.do, came=f"--{which} {text!r}") from None


def pan_of(raw: object) -> tuple[float, str]:
    """Degrees from square and the side swung to, from "22 SL", "SL 22" or "square"; empty: none told.

    Raises Wrong.
    """
    expected = 'degrees from square, 0 to 90, with the side swung to: "22 SL", or "square"'
    text, side = raw, ""
    if isinstance(raw, str):
        found = _SIDE.search(raw)
        side = found[0].upper() if found else ""
        if side in ("LEFT", "RIGHT"):
            raise Wrong(expected, "Say SL or SR: left is whose?")
        if raw.strip().casefold() == "square":
            return 0.0, ""
        text = _SIDE.sub(" ", raw)
    value = _degrees(text, expected)
    if not 0.0 <= value <= 90.0:
        raise Wrong(expected, "Say the side as a word, without a sign." if value < 0 else "")
    return value, side


def down_of(raw: object) -> float:
    """Degrees below level, from 47, "DOWN 47", "UP 5" or "plumb 43". Raises Wrong."""
    expected = 'degrees from level, 0 to 90: 47, "DOWN 47", "UP 5" or "plumb 43"'
    text, plumb, up = raw, False, False
    if isinstance(raw, str):
        plumb, up = "plumb" in raw.casefold(), bool(re.search(r"(?i)\bup\b", raw))
        text = re.sub(r"(?i)\b(plumb|down|up|from|off|level)\b", " ", raw)
    value = _degrees(text, expected)
    if not 0.0 <= value <= 90.0:
        raise Wrong(expected, "Say UP, without a sign." if value < 0 else "")
    value = 90.0 - value if plumb else value
    return -value if up else value


def _yoke(text: str) -> float:
    """The yoke angle as a sheet tells it: "40 away" from the clamp, "40 towards" it."""
    expected = 'degrees of the yoke and which way from the clamp: "40 away" or "40 towards"'
    found = _WAY.search(text)
    value = _degrees(_WAY.sub(" ", text), expected)
    if abs(value) > 180.0 or (found and value < 0) or (not found and value != 0):
        raise Wrong(expected)
    return -value if found and found[0].casefold() == "towards" else value


def _degrees(text: object, expected: str) -> float:
    try:
        return q.degrees(text.strip() if isinstance(text, str) else text)
    except Wrong:
        raise Wrong(expected) from None
