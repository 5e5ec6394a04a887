"""A place that stands in several columns, put into one cell: feet and inches, metres and centimetres, or a
column a side."""

from __future__ import annotations

import re
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.document import ASKED, ask
from aimcalc.scene.hanglist.columns.columnkeys import AT_PARTS
from aimcalc.scene.hanglist.columns.sidecolumns import ON_MIDDLE
from aimcalc.scene.hanglist.places.placing import Placing
from aimcalc.scene.hanglist.rows.listrow import day_shown, float_of, rest_of_inches, text_of
from aimcalc.scene.hanglist.tongues.tongues import says_middle
from aimcalc.scene.mistakes import Where, Wrong

_MIDDLES = ON_MIDDLE - {"x", "c", "✓", "●"} | {
    "on centre",
    "on center",
    "centre line",
    "center line",
    "on cl",
}
_WHOLE_FEET = regex(r"([+-]?\d+)\s*('|ft|feet|foot)?\.?\s*((?:s[lr]|us|ds)?)", re.IGNORECASE)


def _is_middle(placing: Placing, raw: dict[str, Any], remarks: list[tuple[str, Any]]) -> bool:
    """Whether a unit of a pipe without a place, in a list with a column a side, has a remark that says that
    it is in the middle."""
    place = placing.around.places.get(str(raw.get("position")))
    sided = {"at_SL", "at_SR"} & placing.headings.by_key.keys()
    if not sided or place is None or place.axis != "x":
        return False
    said = (raw.get("note"), *(cell for _, cell in remarks))
    return any(isinstance(each, str) and each.strip(" .").casefold() in _MIDDLES for each in said)


def _on_middle(text: str) -> bool:
    """Whether a cell of a column of one side is the middle: "CL", "C", "centro"."""
    return says_middle(text) or text.strip(" .").casefold() in _MIDDLES | {"c", "c/l"}


def in_parts(
    placing: Placing, raw: dict[str, Any], remarks: list[tuple[str, Any]], where: Where
) -> None:
    """Put a place that stands in two columns into one cell: feet and inches, or a column a side; nought where
    both sides are empty and a remark says that it is the middle, "axe"."""
    cells = {key: raw.pop(key) for key in AT_PARTS if key in raw}
    if not cells and "at" not in raw and _is_middle(placing, raw, remarks):
        raw["at"] = 0
        placing.noticed.read_as("at", "nothing", "centre, as the remark says")
        return
    if not cells or raw.get("at") is ASKED:
        return
    if ASKED in cells.values():
        raw["at"] = ASKED
        return
    if "at" in raw:
        _inches_beside(placing, raw, cells, where)
        return
    parts = {key: day_shown(cell).strip() for key, cell in cells.items()}
    if "at_feet" in parts or "at_inches" in parts:
        feet, inches = parts.get("at_feet") or "0", parts.get("at_inches", "")
        raw["at"] = f"{feet}'{rest_of_inches(inches)}"
        return
    if "at_metres" in parts or "at_centimetres" in parts:
        _metric_parts(placing, raw, parts, where)
        return
    filled = {key: text for key, text in parts.items() if float_of(text) != 0} or dict(
        list(parts.items())[:1]
    )
    if all(map(_on_middle, filled.values())):  # in either column, of no side, or in both
        raw["at"] = 0
        return
    if len(filled) > 1:
        wrong = Wrong("a place on one side", "Leave one of the two columns empty.")
        came = " and ".join(f"{v} {k[3:]}" for k, v in filled.items())
        ask(placing.log, raw, where, "at", wrong, came)
        return
    ((key, text),) = filled.items()
    unit = placing.headings.by_key[key].meaning.unit or placing.said.unit
    size = f"{text} {unit}" if unit and float_of(text) is not None else text
    raw["at"] = f"{size} {key[3:]}" if float_of(text) != 0 else 0


def _metric_parts(
    placing: Placing, raw: dict[str, Any], parts: dict[str, str], where: Where
) -> None:
    """Put metres and centimetres into one cell; ask where they are not whole metres and what is left."""
    metres = float_of(parts.get("at_metres") or "0")
    rest = float_of(parts.get("at_centimetres") or "0")
    whole = metres is not None and metres >= 0 and metres.is_integer()
    if whole and metres is not None and rest is not None and 0 <= rest < 100:
        raw["at"] = f"{metres + rest / 100:.6g} m"
        return
    wrong = Wrong(
        "whole metres beside centimetres under 100",
        "Write the whole place in one column, with its unit.",
    )
    ask(placing.log, raw, where, "at", wrong, " and ".join(parts.values()))


def _inches_beside(
    placing: Placing, raw: dict[str, Any], cells: dict[str, Any], where: Where
) -> None:
    """Add a column of inches to a place in whole feet beside it, "Distance (ft)"; ask where the two
    may be something else."""
    if "at_inches" not in cells:
        return
    at, inches = text_of(raw.get("at", "")).strip(), text_of(cells["at_inches"]).strip()
    unit = placing.meaning_of("at").unit or placing.around.unit
    feet = _WHOLE_FEET.fullmatch(at)
    if feet and (feet[2] or unit == "ft") and "at_feet" not in cells:
        raw["at"] = f"{feet[1]}'{rest_of_inches(inches)} {feet[3]}".strip()
    elif rest_of_inches(inches):
        wrong = Wrong(
            "whole feet beside a column of inches",
            "Write the whole place in one column, with its units.",
        )
        ask(placing.log, raw, where, "at", wrong, f"{at} and {inches} in")
