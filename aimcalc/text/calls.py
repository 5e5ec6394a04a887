"""What is read out to whoever is up the ladder: one sentence a unit, in the words that are said."""

from __future__ import annotations

from typing import TYPE_CHECKING

from aimcalc.text import words as w
from aimcalc.text.facts import FACE, MARK, POINT
from aimcalc.text.ladder_rows import TIPPED
from aimcalc.text.rows import STOP, Row

if TYPE_CHECKING:
    from aimcalc.text.ladder_rows import LadderRow


SIGHTED = {FACE: "sight my hand", MARK: "sight the mark", POINT: "sight the point"}
SAID = {"SL": "stage left", "SR": "stage right", "US": "upstage", "DS": "downstage"}
_ONES = (
    *("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"),
    *("eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen"),
    *("eighteen", "nineteen"),
)
_TENS = ("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")


def number_said(number: int) -> str:
    """A whole number from 0 to 99 in words: "thirty-three"."""
    if number < 20:
        return _ONES[number]
    tens, ones = divmod(number, 10)
    return _TENS[tens] + (f"-{_ONES[ones]}" if ones else "")


def length_said(words: str) -> str:
    """A printed length as it is said: "2'-4\\"" is "2-4", "4.60 m" is "4 point 60"."""
    if words.endswith(" m"):
        return words.removesuffix(" m").replace(".", " point ")
    return words.replace("'", "").replace('"', "")


def call_of(row: Row, ladder: LadderRow) -> str:
    """The sentence of one unit, from the figures that its ladder row prints.

    "unit 7, swing stage right, tape 2-4 stage left, down thirty". Where no tape serves, the dial is said; a
    unit that faces the reader is called "at you"; a stem that leans has its tilt before its sight.
    """
    if row.turn == STOP:
        return f"unit {row.number}: STOP, it hangs tail up, turn it over"
    parts = [f"unit {row.number}", "at you" if ladder.at_you else "", "over the pipe" * ladder.over]
    return ", ".join(filter(None, (*parts, *_in_order(ladder, row.stand[0]))))


def _in_order(row: LadderRow, name: str) -> tuple[str, ...]:
    """Swing, sight and tip, in the order in which the row has them set; `name` is its target's."""
    swing, fine, tip = _swing(row), _fine(row), _tip(row.tip)
    sight = SIGHTED.get(row.sighted, "")
    if row.sighted == POINT and name != "POINT":
        sight = f"{sight}, {name}"
    if not row.steps:
        return swing, fine, sight, tip
    if not row.leans:  # clamped straight to a boom
        return swing, fine, sight, tip
    dial = "dial square" if row.swing == w.SQUARE else f"dial {_angle(row.swing)}"
    return (tip, fine, f"check {dial}") if fine else (dial, tip, sight)


def _angle(words: str) -> str:
    """Words like "SR 23°" with side and figure said: "stage right twenty-three"."""
    side, _, figure = words.rpartition(" ")
    return f"{SAID.get(side, side.lower())} {number_said(int(figure.rstrip('°')))}".strip()


def _swing(row: LadderRow) -> str:
    if row.swing in ("", w.FREE, w.SQUARE, "LEVEL"):
        return {w.SQUARE: "straight square", w.FREE: "any swing", "LEVEL": "nose level"}.get(
            row.swing, ""
        )
    if row.swing_note == TIPPED:
        return f"tip {_angle(row.swing)} at the clamp"
    if row.sight[0] == "NO TAPE":
        return f"dial {_angle(row.swing)}"
    if row.sight[0]:
        return f"swing {SAID.get(row.swing.split(' ')[0], '')}".rstrip()
    return f"swing {_angle(row.swing)}"


def _fine(row: LadderRow) -> str:
    """The mark on the tape, or the true heading where there is none."""
    figure, side = row.sight
    if figure in ("", "NO TAPE"):
        return ""
    if "°" in figure or figure in ("STRAIGHT", *w.SIDES):
        off = side or row.sight_note
        for word, said in SAID.items():
            off = off.replace(word, said)
        if figure == "STRAIGHT":
            return f"straight {off}"
        head = _angle(figure) if "°" in figure else SAID[figure]
        return f"heading {head} {off}".rstrip()
    tape = "" if not row.sight_note else f"{SAID.get(row.sight_note.split(' ')[0], '')} ".lstrip()
    if figure == "AT ZERO":
        return f"{tape}tape at zero"
    return f"{tape}tape {length_said(figure)} {SAID.get(side, side)}".rstrip()


def _tip(tip: w.Tip) -> str:
    if not tip.angle:
        return tip.word.lower()
    degrees = int(tip.angle.rstrip("°"))
    if degrees == 90:
        return f"straight {tip.word.lower()}"
    return f"{tip.word.lower()} {number_said(degrees)}"
