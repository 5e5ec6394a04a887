"""Rows of a hang list that stand for several units: "1-4" at "-6, -2, 2, 6", two at "14' each side", or four
of a kind without numbers and places."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from itertools import pairwise
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.columns.columnkeys import AT_PARTS, COUNT, HEIGHT, SIDE
from aimcalc.scene.hanglist.places.ends import sides_plain
from aimcalc.scene.hanglist.places.evenspread import is_even
from aimcalc.scene.hanglist.places.placeforms import BARE_SIDE, says_side
from aimcalc.scene.hanglist.places.spacingcells import spacing_of
from aimcalc.scene.hanglist.rows.listrow import text_of
from aimcalc.scene.hanglist.rows.mirrored import Mirrored, is_one_place, mirrored
from aimcalc.scene.hanglist.rows.numberruns import (
    AND,
    MOST,
    TO,
    count_of,
    counted_kind,
    how_many,
    run_of,
)
from aimcalc.scene.hanglist.rows.otherrows import OtherRows
from aimcalc.scene.mistakes import Wrong

LONGEST_PLUG = 60  # characters of several channels or circuits
_PLACE_MARK = r"\s*(?:;|,\s|&|\s/\s|\band\b)\s*"  # "1,5" is one place
_AIM_MARK = r"\s*[,;/&+]\s*"
_PLUS_MARK = r"\s+\+\s+"  # "OP 3.0 + PS 3.0", each with its side; "CL + 2.5" is one place
_PLUG_MARK = rf"\s*(?:[,;&+]|{AND})\s*"
_LETTERED = regex(
    rf"([^\W\d_]{{1,9}}\.?[ /-]?)(\d{{1,3}})\s*{TO}\s*(?:\1)?(\d{{1,3}})", re.IGNORECASE
)
_CHAIN = regex(r"\d{1,4}(?:(?:\s*[-–/·.|\n]\s*|\s+)\d{1,4})+")  # "1-2-3", "9 10"
_JOINT = regex(r"#?(\d{1,3})\s*[-–]\s*#?(\d{1,3})")
_TWO = regex(r"(\d{1,3})\s*/\s*(\d{1,3})")
_LOWER = regex(
    r"\b(?:low(?:er|est)?|smaller)\s+(?:one|no\.?|numbers?|units?)\s*"
    r"(?:is\s+|are\s+|=\s*|:\s*)?(?:on\s+|at\s+)?(?:the\s+)?(s\.?[lr])\b"
)
_SIGNS = tuple("+−–-")
_LAST_SIDE = regex(
    r"\d[^\d]*?(?<![^\W\d_])((?:s\W?[lr]|[ud]\W?s|left|right|[lr])\.?)\s*$", re.IGNORECASE
)


def places_of(text: str) -> list[str]:
    """The places that a cell names, "-6, -2, 2, 6": two or more; else none."""
    joined = re.split(_PLUS_MARK, text.strip()) if "+" in text and len(text) <= LONGEST_PLUG else []
    if len(joined) > 1 and all(re.search(r"\d", part) and _has_side(part) for part in joined):
        return joined
    parts = [part for part in re.split(_PLACE_MARK, text.strip()) if part]
    if len(parts) < 2:
        return []
    side = _LAST_SIDE.search(parts[-1])
    if side and not any(map(_has_side, parts[:-1])):  # "10' and 12' SR"
        parts = [*(f"{part} {side[1]}" for part in parts[:-1]), parts[-1]]
    return parts


def _has_side(place: str) -> bool:
    return says_side(place) or BARE_SIDE.search(place) is not None or place.strip()[:1] in _SIGNS


def lower_said(lines: Iterable[str]) -> str:
    """The side of the lower number of a pair, where a line says it: "pairs each side, lower number SL"."""
    found = {
        one[1].replace(".", "").upper()
        for line in lines
        if "sl" in (plain := sides_plain(line)) or "sr" in plain
        for one in _LOWER.finditer(plain)
    }
    return found.pop() if len(found) == 1 else ""


class Whole(NamedTuple):
    """What of a table a row of several units is read by."""

    position: str = ""  # on which they hang
    axis: str = ""  # that its places count along
    lower: str = ""  # the side of the lower number, or of the first unit, as a line says
    is_name: Callable[[str, str], bool] = lambda _key, _text: False  # of one kind, or one target
    others: OtherRows = OtherRows()  # of the table


def each_of(raw: dict[str, Any], whole: Whole) -> list[dict[str, Any]]:
    """A row for each of the units that a row stands for: its numbers, its count and its places are as many,
    or its places are none; no row where it stands for one unit, or what each has is open.

    "1-3" on a position of number 1 may be the third unit on it, and is left to whoever reads numbers.

    Raises:
        Wrong: when it has a place on either side, each has its own, and nothing says which is the first.
    """
    text = text_of(raw.get("number", "")).strip()
    numbers = [] if text.isdecimal() else run_of(text)
    stroke = None if numbers else _TWO.fullmatch(text)
    if (text and not (numbers or stroke)) or raw.keys() & {HEIGHT, *AT_PARTS}:
        return []
    counts, kind = _counts(raw, whole)
    pair = None if whole.axis in ("y", "z") else _mirrored(raw)
    if stroke:
        if not _are_two(raw, stroke, whole, sided=pair is not None):
            return []
        numbers = [stroke[1], stroke[2]]
    places = list(pair.places) if pair else places_of(text_of(raw.get("at", "")))
    if not (numbers or counts or (not pair.about if pair else _all_sided(places))):
        return []
    even = is_even(raw.get("at")) or spacing_of(raw.get("at"))
    many = {*counts, *({len(numbers)} if numbers else ()), *({len(places)} if places else ())}
    if len(many) != 1 or not 1 < max(many) <= MOST or ("at" in raw and not (places or even)):
        return []
    if numbers and not places and not counts and _may_be_one(raw, numbers, text, whole):
        return []
    rows = [
        {key: cell for key, cell in raw.items() if key != COUNT} | kind for _ in range(max(many))
    ]
    own = _own(raw, len(rows), whole)
    if own is None:
        return []
    if pair:
        places = _in_order(pair, whole.lower, alike=not (numbers or own))
    for key, cells in (("number", numbers), ("at", places), *own.items()):
        for row, cell in zip(rows, cells, strict=False):
            row[key] = cell
            if key == "at" and pair:
                row.pop(SIDE, None)
    return rows


def _may_be_one(raw: dict[str, Any], numbers: list[str], text: str, whole: Whole) -> bool:
    """Whether a run of numbers without places may be one unit, "1-3" on a position of number 1: none with
    other marks is one, nor where each has a channel, or the numbers of other rows are plain."""
    joint = _JOINT.fullmatch(text)
    if joint is None or re.findall(r"\d+", whole.position) != [joint[1]]:
        return False
    each = run_of(text_of(raw.get("channel", "")))
    return len(each) != len(numbers) and not whole.others.number_plainly()


def _are_two(raw: dict[str, Any], stroke: re.Match[str], whole: Whole, *, sided: bool) -> bool:
    """Whether "3/4" is two units: where they have two sides, and it is no unit 4 of the third position; or
    where there are two channels, one behind the other, and no other row has such a number."""
    if sided and re.findall(r"\d+", whole.position)[:1] != [stroke[1]]:
        return True
    channel = text_of(raw.get("channel", ""))[:LONGEST_PLUG]
    channels = re.findall(r"\d+", channel)
    follow = [int(stroke[2]) - int(stroke[1]), *(int(b) - int(a) for a, b in pairwise(channels))]
    plainly = whole.others.number_plainly() and not whole.others.are_coded("channel", channel)
    return "at" not in raw and follow == [1, 1] and plainly


def _counts(raw: dict[str, Any], whole: Whole) -> tuple[set[int], dict[str, str]]:
    """How many units the count of a row, and its cell of kinds, say it stands for; the kind without that."""
    found: set[int] = set()
    if COUNT in raw:
        found.add(count_of(raw[COUNT]))
    text = text_of(raw.get("kind", "")).strip()
    of_kind = counted_kind(text)
    if of_kind is None or whole.is_name("kind", text):
        return found, {}
    found.add(how_many(of_kind))
    return found, {"kind": of_kind["kind"] or of_kind["first"]}


def _mirrored(raw: dict[str, Any]) -> Mirrored | None:
    """The places of a row on either side of the centre, where it gives such."""
    return mirrored(text_of(raw.get("at", "")), text_of(raw.get(SIDE, "")))


def _all_sided(places: list[str]) -> bool:
    """Whether each of several places says its side, and all lie along one way: those of several units."""
    plain = list(map(sides_plain, places))
    upstage = {bool(re.search(r"\b[ud]s\b", place)) for place in plain}
    plain_ones = all(map(is_one_place, places))
    sided = all(_has_side(place) or place.strip()[:1] in "cC" for place in places)
    return len(places) > 1 and len(upstage) == 1 and plain_ones and sided


def _own(raw: dict[str, Any], many: int, whole: Whole) -> dict[str, list[str]] | None:
    """What each of the units of a row has of its own, its target, channel or circuit; None where there are
    several, and not as many as units."""
    found: dict[str, list[str]] = {}
    aim = text_of(raw.get("target", ""))
    aims = [] if whole.is_name("target", aim) else _aims(aim, many, whole)
    found |= {"target": aims} if aims else {}
    for key in ("channel", "circuit"):
        text = text_of(raw.get(key, "")).strip()
        if len(text) > LONGEST_PLUG:
            continue
        if re.search(r"\d\s*[-–/]\s*\d", text) and whole.others.are_coded(key, text):
            continue
        parts = run_of(text) or _lettered(text) or _parted(text)
        if len(parts) == 1:
            parts = _chained(text, many)
        if len(parts) not in (0, many):
            return None
        found |= {key: parts} if parts else {}
    return found


def _aims(text: str, many: int, whole: Whole) -> list[str]:
    """The targets of as many units, each named, "Sofa, Door", or by numbers, "Areas 4-6", "A4, 5 and 6"."""
    aims = [part.strip() for part in re.split(_AIM_MARK, text)]
    if len(aims) == many and all(any(map(str.isalpha, each)) for each in aims):
        return aims
    numbered = _NUMBERED.fullmatch(text.strip()) if len(text) <= LONGEST_PLUG else None
    if numbered is None:
        return []
    word, rest = numbered.groups("")
    numbers = run_of(rest) or (re.findall(r"\d+", rest) if _EACH.fullmatch(rest) else [])
    if len(numbers) != many:
        return []
    for single in (word, word[:-1], word[:-2]):  # Areas, Bereichen
        aims = [f"{single} {number}".strip() for number in numbers]
        if all(whole.is_name("target", each) for each in aims):
            return aims
    return []


_NUMBERED = regex(r"([^\W\d_]{1,12})?\.?\s*(\d.*\d)")
_EACH = regex(rf"\d{{1,2}}(?:(?:\s*[,;/&+]\s*|\s+|\s*{AND}\s*)\d{{1,2}})+", re.IGNORECASE)


def _parted(text: str) -> list[str]:
    """The channels or circuits that a mark or a word parts, "A1, A2", "9 och 10"."""
    return [part for part in re.split(_PLUG_MARK, text, flags=re.IGNORECASE) if part]


def _chained(text: str, many: int) -> list[str]:
    """The channels or circuits of a series that may be one name, "9/10", "1-2-3", "9 10", where they are as
    many as the units; "12-11" and "2.10" of two may be a rack and its way."""
    parts = [part for part in re.split(r"\s*/\s*", text) if part]
    if len(parts) == many:
        return parts
    parts = re.findall(r"\d+", text) if _CHAIN.fullmatch(text) else []
    spaced = len(text.split()) == len(parts)
    return parts if len(parts) == many and (many > 2 or spaced) else []


def _lettered(text: str) -> list[str]:
    """The circuits of a run that have a letter or a word: "A1-A4", "A1-4", "Dim 1 bis 4"."""
    run = _LETTERED.fullmatch(text)
    if run is None or not 0 < int(run[3]) - int(run[2]) < MOST:
        return []
    return [f"{run[1]}{number}" for number in range(int(run[2]), int(run[3]) + 1)]


def _in_order(pair: Mirrored, lower: str, *, alike: bool) -> list[str]:
    """The places of a pair, that of the first unit first; `alike` where neither has anything of its own, so
    that it is all one. Raises Wrong where nothing says which it is, or a line another than the cell."""
    places = list(pair.places)
    if pair.ordered:
        first = re.search(r"([lr])(?:eft|ight)?\W*$", sides_plain(places[0]).strip())
        if lower and first and not alike and first[1].upper() != lower[1]:
            raise Wrong(
                f"one side of the first of two units: a line says {lower}, and the cell the other",
                "Correct one of the two, or give each unit a row of its own.",
            )
        return places
    if not (lower or alike):
        raise Wrong(
            "which of two units hangs on which side: neither the row nor a line says it",
            "Write the side of each, or a line above the table: of two in a row the first is on SL.",
        )
    return places[::-1] if lower == "SR" else places
