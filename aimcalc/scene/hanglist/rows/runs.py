"""Rows of a hang list that stand for several units: "1-4" at "-6, -2, 2, 6", or without places."""

from __future__ import annotations

import re
from collections.abc import Iterable
from itertools import pairwise
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.columnkeys import AT_PARTS, HEIGHT
from aimcalc.scene.hanglist.places.ends import sides_plain
from aimcalc.scene.hanglist.places.evenspread import is_even
from aimcalc.scene.hanglist.places.placeforms import BARE_SIDE, SIDED
from aimcalc.scene.hanglist.rows.listrow import text_of

MOST = 24  # units of one row
_MARK = r"\s*(?:[,;&+]|\s/\s|\band\b)\s*"
_PLACE_MARK = r"\s*(?:;|,\s|&|\s/\s|\band\b)\s*"  # "1,5" is one place
_AIM_MARK = r"\s*[,;/&]\s*"
_COUNTED = regex(r"(\d{1,2})\s*(?:x|×|off)\s+(\S.*)", re.IGNORECASE)
_EACH_SIDE = regex(
    r"(.*\d.*?)\s*\(?(?:(?:on\s+)?(?:each|either) (?:side|way)|(?:on\s+)?both (?:sides|ways)|e/s)"
    r"(?:\s+of\s+(?:cl|c/l|cent(?:re|er)(?:\s+line)?))?\)?",
    re.IGNORECASE,
)
_LOWER = regex(
    r"\b(?:low(?:er|est)?|smaller)\s+(?:one|no\.?|numbers?|units?)\s*"
    r"(?:is\s+|are\s+|=\s*|:\s*)?(?:on\s+|at\s+)?(?:the\s+)?(s\.?[lr])\b"
)
_SIGNS = tuple("+−–-")
_RUN = regex(r"(\d{1,4})\s*(?:-|–|\.\.|to|thru|through)\s*(\d{1,4})", re.IGNORECASE)
_LAST_SIDE = regex(
    r"\d[^\d]*?(?<![^\W\d_])((?:s\W?[lr]|[ud]\W?s|left|right|[lr])\.?)\s*$", re.IGNORECASE
)


def run_of(text: str) -> list[str]:
    """The numbers that a cell names, "1-3", "1, 2 & 3": two or more that go up; else none."""
    found: list[int] = []
    for part in re.split(_MARK, text.strip()):
        run = _RUN.fullmatch(part)
        if run and 0 < int(run[2]) - int(run[1]) < MOST:
            found += range(int(run[1]), int(run[2]) + 1)
        elif part.isdecimal():
            found.append(int(part))
        else:
            return []
    up = all(a < b for a, b in pairwise(found))
    return [str(number) for number in found] if up and 1 < len(found) <= MOST else []


def places_of(text: str) -> list[str]:
    """The places that a cell names, "-6, -2, 2, 6": two or more; else none."""
    parts = [part for part in re.split(_PLACE_MARK, text.strip()) if part]
    if len(parts) < 2:
        return []
    side = _LAST_SIDE.search(parts[-1])
    if side and not any(map(_has_side, parts[:-1])):  # "10' and 12' SR"
        parts = [*(f"{part} {side[1]}" for part in parts[:-1]), parts[-1]]
    return parts


def _has_side(place: str) -> bool:
    return bool(SIDED.search(place) or BARE_SIDE.search(place)) or place.strip()[:1] in _SIGNS


def lower_said(lines: Iterable[str]) -> str:
    """The side of the lower number of a pair, where a line says it: "pairs each side, lower number SL"."""
    found = {
        one[1].replace(".", "").upper()
        for line in lines
        if "sl" in (plain := sides_plain(line)) or "sr" in plain
        for one in _LOWER.finditer(plain)
    }
    return found.pop() if len(found) == 1 else ""


def _pair(text: str, lower: str) -> list[str]:
    """The two places of "13 each side", that of the lower number first; none where no line says its side."""
    found = _EACH_SIDE.fullmatch(text.strip())
    if found is None or not lower:
        return []
    return [f"{found[1]} {lower}", f"{found[1]} {'SR' if lower == 'SL' else 'SL'}"]


def each_of(raw: dict[str, Any], position: str, lower: str = "") -> list[dict[str, Any]]:
    """A row for each of the units that a row stands for: its places and channels are as many as its units, or
    its places are none and its channel is one; no row where it stands for one unit, or what each has is open.

    "1-3" on a position of number 1 may be the third unit on it, and is left to whoever reads numbers. `lower`
    is the side of the lower number of a pair.
    """
    text = text_of(raw.get("number", "")).strip()
    numbers = [] if text.isdecimal() else run_of(text)
    if not numbers:
        return []
    places = _pair(text_of(raw.get("at", "")), lower) or places_of(text_of(raw.get("at", "")))
    even = is_even(raw.get("at"))
    one_each = even and len(run_of(text_of(raw.get("channel", "")))) == len(numbers)
    alone = len(places) != len(numbers) and not one_each
    if alone and re.findall(r"\d+", position) == [re.findall(r"\d+", text)[0]]:
        return []
    if raw.keys() & {HEIGHT, *AT_PARTS}:
        return []
    rows = [{**raw, "number": number} for number in numbers]
    counted = _COUNTED.fullmatch(text_of(raw.get("kind", "")).strip())
    if counted and int(counted[1]) == len(rows):
        for row in rows:
            row["kind"] = counted[2]
    if "at" in raw and not even:
        if len(places) != len(rows):
            return []
        for row, place in zip(rows, places, strict=True):
            row["at"] = place
    aims = [part.strip() for part in re.split(_AIM_MARK, text_of(raw.get("target", "")))]
    if len(aims) == len(rows) and all(any(map(str.isalpha, aim)) for aim in aims):
        for row, aim in zip(rows, aims, strict=True):
            row["target"] = aim
    for key in ("channel", "circuit"):
        parts = run_of(text_of(raw.get(key, "")))
        if len(parts) == len(rows):
            for row, part in zip(rows, parts, strict=True):
                row[key] = part
        elif parts:
            return []
    return rows
