"""A place of a row while it is read, and what lines and headings make of its cell: marks as lengths, the end
over the units, the words beside it; and what is asked where they do not tell whence it counts."""

from __future__ import annotations

import re
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.columnkeys import Column, Meaning
from aimcalc.scene.hanglist.pagelines.said import Said, counts_from_centre
from aimcalc.scene.hanglist.pagelines.titles import NUMBERED
from aimcalc.scene.hanglist.places.along import Along
from aimcalc.scene.hanglist.places.compass import ASIDE
from aimcalc.scene.hanglist.places.ends import ENDS, end_of, sides_plain
from aimcalc.scene.hanglist.places.origins import BOTH_WAYS
from aimcalc.scene.hanglist.places.placeasides import about_of, aside_of
from aimcalc.scene.hanglist.places.placeforms import SIDED, is_place
from aimcalc.scene.hanglist.places.placewords import EVEN
from aimcalc.scene.hanglist.places.rowwhence import NOWHERE
from aimcalc.scene.hanglist.places.spacing import span
from aimcalc.scene.hanglist.places.stagelines import unplaced
from aimcalc.scene.hanglist.places.steps import is_plus
from aimcalc.scene.hanglist.places.things import Thing, thing_of
from aimcalc.scene.hanglist.places.unitfit import is_bare
from aimcalc.scene.hanglist.rows.listrow import float_of, text_of
from aimcalc.scene.hanglist.tongues.tongues import in_english
from aimcalc.scene.mistakes import Wrong, show
from aimcalc.scene.records import Place


class Reading:
    """A place of a row while it is read: its cell and side in the list's words at first, in ours at last."""

    def __init__(
        self,
        raw: dict[str, Any],
        key: str,
        side: Any,
        place: Place | None,
        meaning: Meaning,
        along: Along,
    ) -> None:
        self.raw, self.key, self.place = raw, key, place
        self.cell, self.side = raw.get("at"), side
        self.typed = self.cell, side  # which questions show
        self.meaning, self.along = meaning, along
        self.boom = place is not None and place.sort == "boom"
        self.shelf = ""  # the name of its shelf on the boom
        self.middle = False  # it counts from the middle of its pipe
        self.plaster = False  # or from the plaster line
        self.thing: Thing | None = None  # or from what a line places
        self.top = False  # or down from the top of its boom
        self.grid = False  # or from the grid
        self.whence = NOWHERE  # or from what the words beside it say


def as_typed(one: Reading) -> Any:
    """The cell of a place, with the one of its side where it has its own, as it was typed."""
    cell, side = one.typed
    if side is None:
        return cell
    return f"{text_of(cell) if cell is not None else ''} {text_of(side)}".strip()


def steps_on(cell: Any, column: Column | None, steps: tuple[str, ...]) -> bool:
    """Whether a cell is a length from the unit before, as a line says of its plus or of its heading."""
    text = text_of(cell)
    if not steps or not is_plus(text if text[:1] == "+" else f"+{text}"):
        return False
    heading = column.heading.casefold().strip(" :") if column else ""
    headed = any(heading == word or heading in word.split() for word in steps)
    return headed or (text[:1] == "+" and bool({"+", "plus"} & set(steps)))


def hangs_in_middle(place: Place, said: Said) -> bool:
    """Whether a unit without a place hangs in the middle of its pipe, as a line says, and that is where
    its places count from."""
    ends = span(place.pipe) if place.pipe and said.middle else None
    return ends is not None and place.centre and abs(sum(ends)) < EVEN


def aside_out(
    cell: Any, along: Along, remarks: list[tuple[str, Any]], *, exact: bool = False
) -> Any:
    """A place without the words beside it, "2.2 m SL (was 1.8)", which become a remark; without "approx" too,
    unless the column is `exact`, headed by the key of places itself."""
    aside = (None if exact else about_of(cell)) or aside_of(cell)
    if aside is None or not is_place(aside.place, along.unit):
        return cell
    if SIDED.search(aside.words) and not _WAS.match(aside.words):
        return cell
    said = SIDED.search(in_english(str(cell))) and not SIDED.search(in_english(aside.place))
    if said and not _WAS.match(aside.words):
        return cell
    remarks.append(("", aside.words))
    return aside.place


def of_section(meaning: Meaning, column: Column | None, over: str, along: Along) -> Meaning:
    """A meaning with the end that the row over the units says that they count from: "from SR end"."""
    over = sides_plain(over)
    centred = column is not None and counts_from_centre(column.heading)
    if meaning.end or meaning.plus or centred or along.span is None or "end" not in over:
        return meaning
    found = None if NUMBERED.search(over) else ENDS.search(over)
    counts = found is not None and "from" in found[0]
    return meaning._replace(end=end_of(found)) if found and counts else meaning


def from_marks(cell: Any, column: Column | None, step: float) -> Any:
    """A place that counts marks from the middle to each side as a length, where a line says how far they
    are apart."""
    text = text_of(cell)
    counts = column is not None and _COUNTS_MARKS.search(column.heading)
    rungs = column is not None and re.fullmatch(_RUNGS, column.heading)
    if rungs and not step and is_bare(text) and re.search(r"[1-9]", text):
        raise Wrong(
            "a length: it is a number of rungs, and no line says how far they are apart",
            "Write above the table: rungs from the centre, every 18 in (or as it is).",
        )
    if not step or not counts or not is_bare(text):
        return cell
    return re.sub(r"\d+(?:[.,]\d+)?", lambda n: f"{(float_of(n[0]) or 0) * step:.6g} m", text)


def refuse_vague(
    one: Reading, column: Column | None, said: Said, own: dict[str, Said], *, signed: bool
) -> None:
    """Ask from which end a place without a side counts, where the list's line does not tell; `signed` is
    whether its column has a minus."""
    upstage = one.along.axis == "y" and not one.plaster
    vague = said.vague or (said.upstage.vague if upstage else "")
    open_way = said.upstage.vague.startswith(("toward", BOTH_WAYS))
    if one.plaster and (open_way or (one.meaning.sides and not signed)):
        vague = said.upstage.vague if open_way else BOTH_WAYS
        vague = "" if one_side(one.along) else vague
    if not (vague or one.plaster or one.middle or _is_told(one, column, said, own)):
        vague = f"from where only those of {next(iter(own))} count"
    if not vague:
        return
    way, other = ("SL", "SR") if one.along.axis == "x" else ("US", "DS")
    raise Wrong(
        f"a place that tells where it counts from: the list says {show(vague)}",
        f"Write {way} or {other} and the place from the position's zero, or head the "
        f"column: from the {way} end, or from the {other} end.",
    )


def refuse_unplaced(one: Reading, column: Column | None, said: Said) -> None:
    """Ask about a place on a pipe up and down the stage that a line, or the heading, counts from what nobody
    places: "from the font step"."""
    headed = unplaced(column.heading) if column else ""
    thing = headed or said.upstage.unplaced
    counts = one.plaster and (one.meaning.plaster or not (headed or said.things))
    known = counts or one.thing is not None or one.middle or bool(one.meaning.end)
    if one.along.axis == "y" and thing and not known:
        raise Wrong(
            f"where the line or thing lies that the places count from: the list says {show(thing)}",
            "Say it above the table if it is the plaster line, so: stage edge = 0; or write US or DS and the "
            "place from the position's zero.",
        )


def thing_counted(
    one: Reading, column: Column | None, said: Said, titled: tuple[Thing, ...]
) -> Thing | None:
    """The thing that a place on a pipe up and down the stage counts from, as its cell, the heading or a line
    says, where a line places it, or else the title of the scene; None where none does."""
    things = said.things or titled
    if one.along.axis != "y" or not things or one.middle or one.meaning.end:
        return None
    heading = sides_plain(column.heading) if column else ""
    return (
        one.thing or thing_of(heading, things) or thing_of(said.upstage.unplaced.casefold(), things)
    )


def one_side(along: Along) -> str:
    """US or DS, where a pipe lies on that side of the plaster line alone: whatever counts from there counts
    so; "" where it lies on both."""
    if along.span is None or along.plaster is None:
        return ""
    low, high = (end - along.plaster for end in along.span)
    if high <= ASIDE / 2 and low < -ASIDE:
        return "DS"
    return "US" if low >= -ASIDE / 2 and high > ASIDE else ""


def _is_told(one: Reading, column: Column | None, said: Said, own: dict[str, Said]) -> bool:
    """Whether the lines, or the heading, say from where the places on a position count, or say it of no
    other position alone."""
    across = one.along.axis == "x"
    others = [each for each in own.values() if _counts_else(each, across=across)]
    headed = column is not None and counts_from_centre(column.heading)
    told = said.centred or said.away or headed or str(one.raw.get("position")) in own
    return told or not others or bool(one.meaning.end or one.meaning.plus)


def _counts_else(said: Said, *, across: bool) -> bool:
    """Whether what is said of a position alone makes its figures other places than nothing said would."""
    if across:
        return bool(said.end) or said.plus == "SR"
    return bool(said.upstage.end) or said.upstage.plus == "DS"


_RUNGS = r"(?i)\W*(?:rungs?|slots?|notch(?:es)?)(?:\W*(?:no|nr|number|#))?\W*"
_COUNTS_MARKS = regex(r"\b(?:marks?|holes?|rungs?|slots?|notch(?:es)?|rings?)\b", re.IGNORECASE)
_WAS = regex(r"was\b", re.IGNORECASE)
