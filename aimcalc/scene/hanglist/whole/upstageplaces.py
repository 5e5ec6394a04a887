"""Where places up and down the stage count from: the plaster line, or the middle of their pipe."""

from __future__ import annotations

from collections.abc import Sequence

from aimcalc.scene.document import ask
from aimcalc.scene.hanglist.pagelines.said import counts_from_centre
from aimcalc.scene.hanglist.places.along import told
from aimcalc.scene.hanglist.places.barefigures import past_end
from aimcalc.scene.hanglist.places.origins import Upstage
from aimcalc.scene.hanglist.places.placing import WHENCE, Placing
from aimcalc.scene.hanglist.places.spacing import plaster_line, span
from aimcalc.scene.hanglist.places.stagelines import heads_depths
from aimcalc.scene.hanglist.places.unitfit import PAST
from aimcalc.scene.hanglist.rows.listrow import Row
from aimcalc.scene.mistakes import Wrong
from aimcalc.scene.model import Pipe, Taken


class UpstagePlaces:
    """Places up and down the stage, of the rows of a table, looked at together."""

    def __init__(self, placing: Placing) -> None:
        self.name, self.around, self.log = placing.name, placing.around, placing.log
        self.noticed, self.headings, self.said = placing.noticed, placing.headings, placing.said
        self.ordinates, self.bare = placing.ordinates, placing.bare
        self.middles = placing.middles
        self.by_remark, self.onward = placing.by_remark, placing.onward

    def count(self, rows: list[Row]) -> None:
        """Count places up and down the stage from the plaster line, where all lie on their pipes so, and
        all say US or DS, or the heading calls them depths, or one lies past an end as counted from the middle
        of its pipe."""
        warned = self.ordinates.warned(self.name)
        if warned is not None:
            self.noticed.last.append(warned)
        onward = {id(raw) for raw in self.onward}
        found = self._open([row for row in rows if row.sided != WHENCE])
        if any(row.sided > 0 for row, _, _ in found):  # "2 m toward the seats" beside "4 m upstage"
            found = self._open([r for r in rows if r.sided != WHENCE or id(r.raw) in onward])
        column = self.headings.by_key.get("at")
        own = column is not None and column.meaning.exact
        ways = [row.sided > 0 for row, at, _ in found if row.sided > 0 or at]  # 0 needs none
        said = bool(ways) and all(ways) and not own
        deep = self._deep()
        if deep:
            self._ask_across(rows)
        shifted = [(row, at + (plaster_line(pipe) or 0.0), pipe) for row, at, pipe in found]
        past = any(_past(at, pipe) for _, at, pipe in found)
        fits = not any(_past(at, pipe) for _, at, pipe in shifted) and not self.said.plaster
        remarked = self._remarked(rows)
        if not fits or not (said or past or deep or remarked):
            self._ask_past([row for row, _, _ in found])
            if found and not own and not self.said.plaster and not self._ask_whence(found):
                self.noticed.note(
                    "list-at", "places up and down the stage count from the middle of their pipes."
                )
            return
        alone = remarked or _past_ends(found) or _is_signed(found)
        if not (said or deep or alone) and self._ask_whence(found):
            return
        for row, at, _ in shifted:
            row.raw["at"] = f"{round(at, 12)!r} m"
        why = (
            "they say US or DS"
            if said
            else "the heading calls them depths"
            if deep
            else self._why(found, remarked=remarked)
        )
        says = f"{self.name}: places up and down the stage are read from the plaster line: {why}."
        self.noticed.last.append(Taken("list-at", says, "Ask whoever wrote it.", severity="warn"))

    def _open(self, rows: Sequence[Row]) -> list[tuple[Row, float, Pipe]]:
        """Those of some rows whose places count from the zero of a pipe up and down the stage, its middle."""
        found = []
        for row in rows:
            place = self.around.places.get(str(row.raw.get("position")))
            pipe = place.pipe if place and place.axis == "y" else None
            if pipe is not None and pipe.zero == "middle" and isinstance(row.raw.get("at"), str):
                found.append((row, float(row.raw["at"].removesuffix(" m")), pipe))
        return found

    def _why(self, found: Sequence[tuple[Row, float, Pipe]], *, remarked: bool) -> str:
        """Why places without words of their own are read from the plaster line."""
        if remarked:
            return "a remark on the first place of each position says so"
        if _past_ends(found):
            return "from the middle of a pipe, or from either end, one would lie past its end"
        return "from the middle of a pipe one would lie past its end"

    def _remarked(self, rows: Sequence[Row]) -> bool:
        """Whether on each pipe up and down the stage the first place has a remark that it counts from the
        plaster line, "y ab Portal", and no other place has one: it speaks of all of them."""
        first: dict[str, Row] = {}
        for row in rows:
            place = self.around.places.get(str(row.raw.get("position")))
            if place is not None and place.axis == "y" and isinstance(row.raw.get("at"), str):
                first.setdefault(str(row.raw["position"]), row)
        of_table = {id(row.raw) for row in rows}
        said = {id(raw) for raw in self.by_remark} & of_table
        return bool(said) and said == {id(row.raw) for row in first.values()}

    def _deep(self) -> bool:
        """Whether the heading calls places depths and nothing says where from: "Höhe / Tiefe (m)" over towers
        and galleries. Depths of a stage start at the plaster line (common
        practice, no source)."""
        column = self.headings.by_key.get("at")
        if column is None or column.meaning.exact or self.middles or self.said.upstage != Upstage():
            return False
        return heads_depths(column.heading) and not counts_from_centre(column.heading)

    def _ask_across(self, rows: Sequence[Row]) -> None:
        """Ask about bare figures across the stage under a heading that calls places depths."""
        for row in rows:
            place = self.around.places.get(str(row.raw.get("position")))
            across = place is not None and place.sort == "pipe" and place.axis != "y"
            if across and row.sided <= 0 and isinstance(at := row.raw.get("at"), str):
                wrong = Wrong(
                    "a depth on a position across the stage", "Write SL or SR behind the place."
                )
                ask(self.log, row.raw, row.where, "at", wrong, at)

    def _ask_past(self, rows: Sequence[Row]) -> None:
        """Ask about bare figures past the end of their pipe, which all of them together do not count from the
        plaster line."""
        for raw, metres, along in self.bare.past:
            for row in rows:
                if row.raw is raw:
                    wrong = past_end(metres, along)
                    ask(self.log, raw, row.where, "at", wrong, told(metres, along))

    def _ask_whence(self, found: Sequence[tuple[Row, float, Pipe]]) -> bool:
        """Ask where places up and down the stage count from, of which none has a way, where neither the
        heading nor a line or a remark says it; those with a sign where they fit from the middle and from the
        plaster line."""
        column = self.headings.by_key.get("at")
        if column is None or self.said.upstage != Upstage() or counts_from_centre(column.heading):
            return False
        if self.middles or any(row.sided > 0 for row, _, _ in found):
            return False
        if _is_signed(found) and not _may_be_from_plaster(found):
            return False
        row, at, _ = next((each for each in found if each[1]), found[0])
        wrong = Wrong(
            f"where the places on {row.raw['position']} count from: its middle, an end or the plaster line",
            "Write US or DS behind the places, or say it above the table: from the DS end, or from the "
            "plaster line.",
        )
        ask(self.log, row.raw, row.where, "at", wrong, f"{at:g} m")
        return True


ALIKE = 0.02  # metres between two places that are one


def _is_signed(found: Sequence[tuple[Row, float, Pipe]]) -> bool:
    """Whether one of some places has a minus, so that they count from no end."""
    return any(at < 0 for _, at, _ in found)


def _may_be_from_plaster(found: Sequence[tuple[Row, float, Pipe]]) -> bool:
    """Whether places that lie on their pipes as counted from the middle do so from the plaster line too, and
    elsewhere."""
    lines = [(at, plaster_line(pipe) or 0.0, pipe) for _, at, pipe in found]
    apart = any(abs(line) >= ALIKE for _, line, _ in lines)
    return apart and not any(_past(at + line, pipe) for at, line, pipe in lines)


def _past_ends(found: Sequence[tuple[Row, float, Pipe]]) -> bool:
    """Whether one of some places without a sign lies past the other end as counted from either end of its
    pipe."""
    ends = [(at, span(pipe) or (at, at)) for _, at, pipe in found]
    return any(at > high - low + PAST for at, (low, high) in ends)


def _past(at: float, pipe: Pipe) -> bool:
    low, high = span(pipe) or (at, at)
    return not low - PAST <= at <= high + PAST
