"""What only the whole of a hang list tells: sides and places that no row says, channels that stand once over
several rows, numbers that two units have."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from itertools import chain, pairwise
from typing import Any

import msgspec

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.document import ASKED, ask
from aimcalc.scene.hanglist.columns.columnclaims import FITTING, LOOKED_THROUGH, Shares
from aimcalc.scene.hanglist.columns.columnkeys import Column, Headings
from aimcalc.scene.hanglist.columns.headings import APART, HEIGHT, REMARK, SIDE
from aimcalc.scene.hanglist.columns.sidecolumns import in_doubt
from aimcalc.scene.hanglist.meanings import Meanings
from aimcalc.scene.hanglist.pagelines.said import Said, counts_from_centre
from aimcalc.scene.hanglist.pagelines.titles import said_by
from aimcalc.scene.hanglist.places.evenspread import begins_at, is_even
from aimcalc.scene.hanglist.places.origins import Upstage
from aimcalc.scene.hanglist.places.placeforms import BARE_SIDE, SIDED
from aimcalc.scene.hanglist.places.placewords import (
    Along,
    length_words,
    plaster_line,
    read_place,
    spaced,
    span,
    spread,
    told,
    usual_spacing,
    whole_numbers,
)
from aimcalc.scene.hanglist.places.placing import WHENCE, Placing
from aimcalc.scene.hanglist.places.unitfit import PAST
from aimcalc.scene.hanglist.rows.listrow import Row, text_of
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.hanglist.tongues.tongues import in_english
from aimcalc.scene.mistakes import CLASH, Where, Wrong, show
from aimcalc.scene.model import Pipe, Taken
from aimcalc.scene.records import Place

SAY_SIDES = "Write SL or SR behind the places, or head the column: from the SL end, or at (+ = SL)."
SIGN_ALONE = "places have a sign and no side"  # what the units are aimed at then speaks for a side


class Afterwards:
    """Places of the rows of a table, looked at together; what is assumed is noted, what is open is asked."""

    def __init__(self, placing: Placing) -> None:
        self.name, self.around, self.log = placing.name, placing.around, placing.log
        self.noticed, self.headings, self.said = placing.noticed, placing.headings, placing.said
        self.unread, self.ordinates, self.over = placing.unread, placing.ordinates, placing.over
        self.even, self.said_on = placing.even, placing.said_on

    def from_plaster(self, rows: list[Row]) -> None:
        """Count places up and down the stage from the plaster line, where all lie on their pipes so, and
        all say US or DS, or one lies past an end as counted from the middle of its pipe."""
        warned = self.ordinates.warned(self.name)
        if warned is not None:
            self.noticed.last.append(warned)
        found = []
        for row in rows:
            place = self.around.places.get(str(row.raw.get("position")))
            pipe = place.pipe if place and place.axis == "y" else None
            counted = row.sided == WHENCE or not isinstance(row.raw.get("at"), str)
            if pipe is not None and pipe.zero == "middle" and not counted:
                found.append((row, float(row.raw["at"].removesuffix(" m")), pipe))
        column = self.headings.by_key.get("at")
        own = column is not None and column.meaning.exact
        said = found and all(row.sided > 0 for row, _, _ in found) and not own
        shifted = [(row, at + (plaster_line(pipe) or 0.0), pipe) for row, at, pipe in found]
        past = any(_past(at, pipe) for _, at, pipe in found)
        fits = not any(_past(at, pipe) for _, at, pipe in shifted) and not self.said.plaster
        if not fits or not (said or past):
            if found and not own and not self.said.plaster and not self._ask_whence(found):
                self.noticed.note(
                    "list-at", "places up and down the stage count from the middle of their pipes."
                )
            return
        for row, at, _ in shifted:
            row.raw["at"] = f"{round(at, 12)!r} m"
        why = (
            "they say US or DS" if said else "from the middle of a pipe one would lie past its end"
        )
        says = f"{self.name}: places up and down the stage are read from the plaster line: {why}."
        self.noticed.last.append(Taken("list-at", says, "Ask whoever wrote it.", severity="warn"))

    def _ask_whence(self, found: Sequence[tuple[Row, float, Pipe]]) -> bool:
        """Ask where places up and down the stage count from, of which none has a way or a sign, where neither
        the heading nor a line says it."""
        column = self.headings.by_key.get("at")
        if column is None or self.said.upstage != Upstage() or counts_from_centre(column.heading):
            return False
        if any(row.sided > 0 or at <= 0 for row, at, _ in found):
            return False
        row, at, _ = found[0]
        wrong = Wrong(
            f"where the places on {row.raw['position']} count from: its middle, an end or the plaster line",
            "Write US or DS behind the places, or say it above the table: from the DS end, or from the "
            "plaster line.",
        )
        ask(self.log, row.raw, row.where, "at", wrong, f"{at:g} m")
        return True

    def without_side(self, rows: list[Row]) -> None:
        """Note places without a side on pipes where others have one, or none has a sign: + is towards SL."""
        column = self.headings.by_key.get("at")
        all_of_them = column is None or not column.meaning.exact
        sided = {row.raw.get("position") for row in rows if row.sided > 0 or all_of_them}
        signed = [row for row in rows if not row.sided and str(row.raw.get("at")).startswith("-")]
        sided -= {row.raw.get("position") for row in signed}
        if all_of_them:
            self._signed(signed, rows)
            if self._ask_which_end(rows) or self._ask_for_sides(rows) or self._ask_across(rows):
                return
        for row in rows:
            at, position = row.raw.get("at"), row.raw.get("position")
            place = self.around.places.get(position) if isinstance(position, str) else None
            if (
                row.sided >= 0
                or position not in sided
                or not isinstance(at, str)
                or not place
                or place.axis != "x"
            ):
                continue
            metres = float(at.removesuffix(" m"))
            along = Along(self.around.unit, "x", place.centre)
            came = told(metres, along).removesuffix(" SL").removesuffix(" SR")
            column = self.headings.by_key.get("at")
            if column is not None and not column.meaning.unit:
                size = metres / {"ft": 0.3048, "in": 0.0254, "cm": 0.01, "mm": 0.001}.get(
                    self.around.unit, 1.0
                )
                came = f"{size:.6g}"
            self.noticed.read_as("at", came, f"{told(metres, along)}, as no side is written")

    def _ask_for_sides(self, rows: list[Row]) -> bool:
        """Ask which side places are on where two of one pipe are the same without one: it is hung so on both
        sides of the centre line."""
        first: dict[tuple[str, str], Row] = {}
        asked: set[str] = set()
        for row in rows:
            position, at = row.raw.get("position"), row.raw.get("at")
            if row.sided >= 0 or not isinstance(position, str) or not isinstance(at, str):
                continue
            other = first.setdefault((position, at), row)
            if other is not row and position not in asked:
                asked.add(position)
                read = told(float(at.removesuffix(" m")), Along(self.around.unit))
                wrong = Wrong(
                    f"SL or SR with each place on {position}: {other.where.entry} is {read} too, "
                    "and no side is written",
                    SAY_SIDES,
                )
                ask(self.log, row.raw, row.where, "at", wrong, read)
        return bool(asked)

    def _ask_which_end(self, rows: list[Row]) -> bool:
        """Ask for sides where a line says that places count from an upstage or downstage end, and no unit
        hangs on a position that has one."""
        end, open_ones = self.said.upstage.end, [row for row in rows if row.sided < 0]
        places = [self.around.places.get(str(row.raw.get("position"))) for row in rows]
        if not end or not open_ones or any(place and place.axis == "y" for place in places):
            return False
        row = open_ones[0]
        read = told(float(row.raw["at"].removesuffix(" m")), Along(self.around.unit))
        wrong = Wrong(
            f"SL or SR with each place: a line says that they count from the {end} end, and "
            f"{row.raw['position']} runs across the stage",
            SAY_SIDES,
        )
        ask(self.log, row.raw, row.where, "at", wrong, read)
        return True

    def _ask_across(self, rows: list[Row]) -> bool:
        """Ask for sides where no place has one, nor a sign, and units are aimed to the other side of the one
        that they all are read on."""
        may_be = [row for row in rows if row.sided < 0]
        if not may_be or any(
            row.sided > 0 or str(row.raw.get("at")).startswith("-") for row in rows
        ):
            return False
        across = [row for row in may_be if self._is_across(row)]
        for row in across[: len(across) >= ENOUGH_ACROSS]:
            at = row.raw["at"]
            read = told(float(at.removesuffix(" m")), Along(self.around.unit))
            wrong = Wrong(
                f"SL or SR with each place: no side is written, and {row.raw['target']} is on SR",
                SAY_SIDES,
            )
            ask(self.log, row.raw, row.where, "at", wrong, read)
            return True
        return self._ask_off_centre(may_be)

    def _ask_off_centre(self, rows: list[Row]) -> bool:
        """Ask for sides where not one place has any under a heading, or a line, that says how far from the
        centre."""
        column = self.headings.by_key.get("at")
        away = [row for row in rows if row.raw.get("at") not in ("0.0 m", "-0.0 m")]
        if column is None or len(away) < FEWEST_AWAY:
            return False
        headed = counts_from_centre(column.heading)
        if not (headed or self.said.away):
            return False
        read = told(float(away[0].raw["at"].removesuffix(" m")), Along(self.around.unit))
        says = show(column.heading) if headed else "a line of the list"
        expected = f"SL or SR with each place: {says} says how far, and no place says which way"
        wrong = Wrong(expected, SAY_SIDES)
        ask(self.log, away[0].raw, away[0].where, "at", wrong, read)
        return True

    def _is_across(self, row: Row) -> bool:
        place = self.around.places.get(str(row.raw.get("position")))
        aim = self.around.aims.get(str(row.raw.get("target")), 0.0)
        return (
            place is not None
            and place.centre
            and aim <= -ASIDE
            and isinstance(row.raw.get("at"), str)
        )

    def _signed(self, rows: list[Row], every: list[Row]) -> None:
        """Note which side is plus in a column of signed places that does not say it; ask where what the
        units are aimed at speaks for the other."""
        first: dict[str, tuple[Row, str]] = {}  # axis -> its first row, and how that is read
        for row in rows:
            place = self.around.places.get(str(row.raw.get("position")))
            if place and place.axis in ("x", "y"):
                metres = float(row.raw["at"].removesuffix(" m"))
                read = told(metres, Along(self.around.unit, place.axis, place.centre))
                first.setdefault(place.axis, (row, read))
        for axis, (row, read) in first.items():
            plus, minus = ("SL", "SR") if axis == "x" else ("US", "DS")
            if axis == "x" and self._speaks_against(every):
                wrong = Wrong(
                    "a side for each place: they have a sign alone, and with plus read as "
                    f"{plus} the units are aimed across the stage",
                    f"Head the column: at (+ = {plus}), or at (+ = {minus}).",
                )
                ask(self.log, row.raw, row.where, "at", wrong, read)
                continue
            says = f"{SIGN_ALONE}: plus is read as {plus}, so {row.where.entry} is {read}."
            do = f"Ask whoever wrote it; if plus is {minus}, head the column: at (+ = {minus})."
            self.noticed.note("list-at", says, do)

    def _speaks_against(self, rows: list[Row]) -> bool:
        """Whether units as read are aimed across the stage more than to their own side."""
        across = 0
        for row in rows:
            place = self.around.places.get(str(row.raw.get("position")))
            aim, at = self.around.aims.get(str(row.raw.get("target")), 0.0), row.raw.get("at")
            if place and place.axis == "x" and aim and isinstance(at, str) and place.centre:
                metres = float(at.removesuffix(" m"))
                across += (metres * aim < 0) - (metres * aim > 0)
        return across >= ENOUGH_ACROSS

    def without_place(self, rows: list[Row], placed: set[str]) -> None:
        """Give places to the units of pipes where none has one; `placed` are positions whose units have."""
        lacking: dict[str, list[Row]] = {}
        placed = placed | self.around.hung
        for row in rows:
            position = row.raw.get("position")
            if isinstance(position, str) and "at" not in row.raw:
                lacking.setdefault(position, []).append(row)
        feet = self.around.unit in ("ft", "in")
        if lacking and self._asked_for_places([row for each in lacking.values() for row in each]):
            return
        for position, without in lacking.items():
            place = self.around.places.get(position)
            pipe = place.pipe if place else None
            if place and place.sort == "boom" and position not in placed:
                self._down_from_top(position, place, without, feet)
            if position in placed or pipe is None:
                continue
            says_even = self.said_on(position).even or position in self.even or _notes_even(without)
            even = says_even and not (self.said_on(position).step or pipe.spacing or pipe.marks)
            begins = self._begins(position, place, without, even=even)
            stepped = pipe if even else self._stepped(pipe, without)
            numbers = self._numbers_of(without, pipe, even=even)
            if stepped is None or not numbers or begins is None:
                continue
            pipe = stepped
            found = spread(pipe, numbers, begins) if even else spaced(pipe, numbers, feet)
            if found is None:
                continue
            for row, at in zip(without, found.at, strict=True):
                row.raw["at"] = f"{at!r} m"
            step = length_words(pipe.spacing or usual_spacing(feet), feet)
            apart = "" if pipe.marks or even else f"{step} apart "
            many = "1 unit has" if len(without) == 1 else f"{len(without)} units have"
            units = f"{many} no place in {self.name}"
            if found.assumed:
                says = f"{units}: assumed {apart}{found.how}."
                do = "Write their places, or give the pipe its spacing, or the marks that it has."
                self.noticed.last.append(
                    Taken("places-assumed", says, do, severity="warn", position=position)
                )
            else:
                own = (
                    place is not None and place.pipe is not None and place.pipe.spacing is not None
                )
                by = "" if pipe.marks else " (spacing)" if own else ", as the list says"
                says = f"{units}: {apart}{found.how}{by}."
                self.noticed.last.append(
                    Taken("list-spacing", says, "Write the places that differ.", position=position)
                )

    def _begins(
        self, position: str, place: Place | None, rows: list[Row], *, even: bool
    ) -> str | None:
        """The end at which units that are spread evenly begin, as their rows or a line say; None where the
        pipe has no such end, or a spacing of its own that may begin elsewhere, which is asked."""
        axis = place.axis if place else ""
        try:
            own = self.even.get(position, "") or begins_at(chain.from_iterable(_notes_of(rows)))
            if not own:
                return "SR" if self.said_on(position).from_sr else ""
            if even and own in (("SL", "SR") if axis == "x" else ("US", "DS")):
                return own
            wrong = Wrong(
                f"units spread evenly from an end of {position}: its rows say that they begin at {own}",
                "Write their places in a column at.",
                rank=CLASH,
            )
        except Wrong as two:
            wrong = two
        for row in rows:
            ask(self.log, row.raw, row.where, "at", wrong, None)
        return None

    def _numbers_of(self, rows: list[Row], pipe: Pipe, *, even: bool) -> list[int] | None:
        """The numbers of the units of a pipe that has none with a place: as they are listed, where none has
        a number and a line or the pipe says how they are spaced."""
        if any("number" in row.raw for row in rows):
            return whole_numbers([text_of(row.raw.get("number", "")) for row in rows])
        of_it = self.said_on(rows[0].raw.get("position"))
        said = even or of_it.even or of_it.step or pipe.spacing or pipe.marks
        return list(range(1, len(rows) + 1)) if said else None

    def _down_from_top(self, position: str, place: Place, rows: list[Row], feet: bool) -> None:
        """Give heights to the units of a boom where none has one: the lowest number nearest its top (common
        practice, no source), one usual spacing apart; none where they do not all fit."""
        numbers = whole_numbers([text_of(row.raw.get("number", "")) for row in rows])
        step, (foot, top) = usual_spacing(feet), place.reach
        heights = [top - step * (n - min(numbers) + 1) for n in numbers or ()] if numbers else []
        if not heights or min(heights) <= foot:
            return
        for row, height in zip(rows, heights, strict=True):
            row.raw["at"] = f"{round(height, 12)!r} m"
        many = "1 unit has" if len(rows) == 1 else f"{len(rows)} units have"
        says = (
            f"{many} no height in {self.name}: assumed {length_words(step, feet)} apart down from "
            f"the top, number {min(numbers or [1])} uppermost."
        )
        do = "Write their heights above what the boom stands on."
        self.noticed.last.append(
            Taken("places-assumed", says, do, severity="warn", position=position)
        )

    def _stepped(self, pipe: Pipe, without: list[Row]) -> Pipe | None:
        """The pipe with the spacing that the lines round the table say; None where this is another than the
        pipe's own, or its units count from SR, which is asked."""
        over = self.over.get(str(without[0].raw.get("position")), "")
        said = said_by([(1, [over])]) if over else Said()
        if not said.step:
            said = self.said_on(without[0].raw.get("position"))
        if pipe.marks or not (said.step or said.from_sr):
            return pipe
        step = (
            read_place(said.step, Along(self.around.unit, "any", True)).metres
            if said.step
            else None
        )
        own = pipe.spacing
        other = step is not None and own is not None and abs(step - own) > SAME_STEP
        from_end = said.from_sr or (said is not self.said and bool(said.end or said.vague))
        if other or (from_end and pipe.spaced_from is None):
            wrong = Wrong(
                "a place for each unit: a line of the list says how they are spaced, and the pipe "
                + (
                    "has another spacing"
                    if other
                    else f"does not say that they count from {said.end or 'SR'}"
                ),
                "Write their places, or correct spacing and spaced_from of the pipe.",
                rank=CLASH,
            )
            for row in without:
                ask(self.log, row.raw, row.where, "at", wrong, None)
            return None
        return pipe if step is None else msgspec.structs.replace(pipe, spacing=step)

    def _asked_for_places(self, without: list[Row]) -> bool:
        """Whether units have no place because it is not clear what a column of distances counts from;
        that is asked, and no place is assumed."""
        may_be = [
            column
            for column in self.headings.columns
            if column.key == REMARK and not column.settled and _speaks_of_places(column.heading)
        ]
        may_be = may_be or list(self.unread) or self._sides_in_doubt()
        rows = [row for row in without if not self._is_stand(row)]
        notes = [str(row.raw.get("note", "")) for row in rows]
        if "at" in self.headings.by_key:  # and another column in the rows that have no place
            may_be = [c for c in may_be if any(f"{c.heading}: " in note for note in notes)]
        booms = all(self._sort(row) == "boom" for row in rows)
        may_be = may_be or [c for c in self.headings.columns if _holds_lengths(c, notes, booms)]
        if not may_be or not rows:
            return False
        heading = may_be[0].heading or may_be[0].letters
        wrong = Wrong(
            f"a place for each unit, and column {may_be[0].letters} ({show(heading)}) may hold it",
            f'Say in [hang_columns]: at = "{heading}" where it counts from the zero of the position, '
            f'remark = "{heading}" where not.',
            came="a heading that does not tell where it counts from",
            rank=CLASH,
        )
        self.log.add(Where(self.name, "", f"row {self.headings.first}"), "at", wrong)
        for row in rows:
            row.raw["at"] = ASKED
        return True

    def _sides_in_doubt(self) -> list[Column]:
        """Columns of which each may hold the places to one side, "V" and "H", where no line says which."""
        columns = self.headings.columns
        pair = [columns[k] for k in in_doubt([column.heading for column in columns])]
        return pair if any(column.key == REMARK for column in pair) else []

    def _is_stand(self, row: Row) -> bool:
        return self._sort(row) == "stand"

    def _sort(self, row: Row) -> str:
        place = self.around.places.get(str(row.raw.get("position")))
        return "" if place is None else place.sort


def _speaks_of_places(heading: str) -> bool:
    """Whether a heading has a word of those over places, in whatever language."""
    return bool(_IS_DISTANCE.search(heading) or _IS_DISTANCE.search(in_english(heading)))


def _holds_lengths(column: Column, notes: list[str], booms: bool) -> bool:
    """Whether a column kept as a remark holds a length in most of the rows without a place, whose remarks
    are `notes`; a height or a trim is none of a pipe, but may be one of units on `booms`."""
    said = re.sub(r"(?i)height|trim", "", column.heading) if booms else column.heading
    if (
        column.key not in (REMARK, HEIGHT)
        or column.settled
        or not column.heading
        or OF_ELSE.search(said)
    ):
        return False
    held = re.compile(rf"(?:^|; ){re.escape(column.heading)}: {_LENGTH}(?:$|;)", re.IGNORECASE)
    return sum(bool(held.search(note)) for note in notes) * 2 > len(notes)


def _notes_even(rows: list[Row]) -> bool:
    """Whether the remarks of all units without a place say that they are spread evenly."""
    return all(any(map(is_even, parts)) for parts in _notes_of(rows))


def _notes_of(rows: list[Row]) -> list[list[str]]:
    return [re.split(r";\s*|:\s*", str(row.raw.get("note", ""))) for row in rows]


def _past(at: float, pipe: Pipe) -> bool:
    low, high = span(pipe) or (at, at)
    return not low - PAST <= at <= high + PAST


_IS_DISTANCE = regex(
    r"\b(?:dist\w*|offset|from|measure\w*|x|how\Wfar|cam\w*|place|pos\w*|loc\w*|where|left|right|cl|c/l|cent\w+|s\.?[lr]|stage|house|m|cm|mm"
    r"|ft|feet|in|ins|inch\w*|metres?|meters?)\b",
    re.IGNORECASE,
)
FEWEST_AWAY = 4  # places off the centre line of which none says its side
ENOUGH_ACROSS = (
    2  # units aimed across the stage, more than to their side, that make a sign doubtful
)
ASIDE = 1.0  # metres to SR of the centre line at which a target speaks for a unit on SR
# What broken figures under a heading are of, that are no places.
OF_ELSE = regex(
    r"weight|mass|\bk?gs?\b|\blbs?\b|watt|\bk?w\b|\bamps?\b|price|cost|load|power|hours|vers|rev|time|date"
    r"|\bage\b|lens|angle|deg|beam|field|trim|height|length|patch|address|dmx|univ|dim|circ|chan|sock|port|cue"
    r"|gel|col|cable|throw|lumen|no\b|numb|id\b",
    re.IGNORECASE,
)
# A length with its unit, and which way it goes.
_LENGTH = (
    r"[+−–-]?\d+(?:[.,]\d+)?\s*(?:['\"′″’”]|(?:ft|feet|foot|ins?|inch(?:es)?|m|cm|mm|met(?:re|er)s?)\b)"
    r"[\d\s'\"′″’”./-]*(?:\s*[a-z]+\W?){0,4}"
)
SAME_STEP = 0.01  # metres between two spacings that are one


def unread_lengths(
    headings: Headings, rows: list[list[Any]], fits: Callable[[str, Any], bool | None]
) -> tuple[Column, ...]:
    """The columns of lengths that are no key of a unit, without a heading, or of broken figures under one
    that does not say of what, or of lengths with a word that may be a side: they may be its place."""
    share = Shares(rows[:LOOKED_THROUGH], fits)
    return tuple(
        column
        for column in headings.columns
        if column.key == REMARK
        and not column.settled
        and (
            max(share("decimal", column.place), share("length and more", column.place)) >= FITTING
            and not OF_ELSE.search(column.heading)
            if column.heading
            else share("length", column.place) >= FITTING
        )
    )


# --- Sides ---------------------------------------------------------------------------------------


class OwnSides(NamedTuple):
    """How many units of a list are aimed to their own side and how many across, a bare L and R of their
    places read as the stage's; `bare` is how many places have such a side."""

    own: int = 0
    across: int = 0
    bare: int = 0

    @property
    def speak(self) -> bool:
        """Whether more are aimed to their own side, by two and twice as many."""
        return self.own >= max(self.across + ENOUGH_ACROSS, 2 * self.across)


NO_SIDES = OwnSides()


def own_sides(headings: Headings, rows: list[list[Any]], meanings: Meanings) -> OwnSides:
    """What the units of a table are aimed at tells of a bare L and R in their places."""
    by_key, around = headings.by_key, meanings.around
    column = by_key.get(SIDE) or by_key.get("at")
    target = by_key.get("target")
    if column is None or target is None or column.meaning.bare:
        return NO_SIDES
    own = across = many = 0
    for row in rows:
        said = text_of(row[column.place]) if column.place < len(row) else ""
        aim = row[target.place] if target.place < len(row) else ""
        x = around.aims.get(meanings.targets.find(text_of(aim)).name or "", 0.0)
        side = None if SIDED.search(said) else BARE_SIDE.search(said)
        many += side is not None
        if side and abs(x) >= ASIDE:
            same = (x > 0) == bool(side[1])
            own, across = own + same, across + (not same)
    return OwnSides(own, across, many)


def own_side_columns(
    rows: Sequence[list[Any]], left: int, right: int, column: int, meanings: Meanings
) -> OwnSides:
    """What the targets in a column tell of a left and a right that are a column each."""
    own = across = many = 0
    for row in rows:
        filled = [k < len(row) and text_of(row[k]).strip() != "" for k in (left, right)]
        aim = text_of(row[column]) if column < len(row) else ""
        x = meanings.around.aims.get(meanings.targets.find(aim).name or "", 0.0)
        many += any(filled)
        if sum(filled) == 1 and abs(x) >= ASIDE:
            same = (x > 0) == filled[0]
            own, across = own + same, across + (not same)
    return OwnSides(own, across, many)


def of_all_tables(each: Sequence[OwnSides]) -> bool:
    """Whether several tables of a list together say that L and R are the stage's, where one alone does not,
    and none says the other."""
    all_of_them = OwnSides(*(sum(counts) for counts in zip(*each, strict=True)))
    against = any(one._replace(own=one.across, across=one.own).speak for one in each)
    silent = any(one.bare and not one.speak for one in each)
    return len(each) > 1 and silent and all_of_them.speak and not against


def tell_own_sides(noticed: Noticed) -> None:
    """Warn that a bare L and R are read as the stage's by what the units are aimed at."""
    says = "a bare L or R is read as stage left or right: so the units are aimed to their own side."
    do = "Ask whoever wrote it; if they are seen from the house, head the column: house left/right."
    taken = Taken("list-at", f"{noticed.name}: {says}", do, severity="warn")
    if taken not in noticed.last:
        noticed.last.append(taken)


# --- Channels -------------------------------------------------------------------------------------


def share_channels(
    rows: list[Row], headings: Headings, titles: set[str], no_channel: set[str], noticed: Noticed
) -> None:
    """Read a channel as that of the rows below it in a list that goes by channel; note units that have
    none where it might."""
    first = min((c.place for c in headings.columns if c.key not in (REMARK, APART)), default=0)
    column = headings.by_key.get("channel")
    without = [row for row in rows if "channel" not in row.raw]
    if column is None or column.place != first or not without or len(without) == len(rows):
        return
    if _goes_by_channel(rows, without, headings, titles, no_channel):
        last: Any = None
        for row in rows:
            row.raw["channel"] = last = row.raw.get("channel", last)
        says = "the channel is blank: read as that of the row above, in a list by channel."
    else:
        says = "the channel is blank: they have none."
    told = ", ".join(row.where.entry.removeprefix("row ") for row in without[:12])
    more = f" and {len(without) - 12} more" if len(without) > 12 else ""
    noticed.note("list-channel", f"in rows {told}{more} {says}")


def _goes_by_channel(
    rows: list[Row], without: list[Row], headings: Headings, titles: set[str], no_channel: set[str]
) -> bool:
    """Whether a channel stands once over its rows: a title says that the list goes by channel, or its
    positions come and go; channels rise, and no blank row lacks its circuit or says that it has none."""
    typed = [text_of(row.raw["channel"]) for row in rows if "channel" in row.raw]
    if "channel" not in rows[0].raw or not all(text.isdigit() for text in typed):
        return False
    rising = all(int(a) < int(b) for a, b in pairwise(typed))
    runs = [row.raw.get("position") for row in rows]
    runs = [name for k, name in enumerate(runs) if not k or name != runs[k - 1]]
    said = any(_BY_CHANNEL.search(title) for title in titles)
    has_circuits = "circuit" in headings.by_key
    fed = all("circuit" in row.raw for row in without) if has_circuits else said
    none = {row.where.entry for row in without} & no_channel
    return rising and fed and not none and (said or len(runs) > len(set(map(str, runs))))


_BY_CHANNEL = regex(r"hook[\s-]*up|\bby channel|channel (?:list|order|schedule)", re.IGNORECASE)
