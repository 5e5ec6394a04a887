"""Places without a side, looked at together: what is assumed is noted, what is open is asked."""

from __future__ import annotations

from collections.abc import Sequence

from aimcalc.scene.document import ask
from aimcalc.scene.hanglist.columns.columnkeys import AT_PARTS
from aimcalc.scene.hanglist.columns.headingsides import leaves_sign
from aimcalc.scene.hanglist.pagelines.said import counts_from_centre
from aimcalc.scene.hanglist.pagelines.signpairs import speaks_of_sign
from aimcalc.scene.hanglist.places.along import Along, told
from aimcalc.scene.hanglist.places.placing import Placing
from aimcalc.scene.hanglist.rows.listrow import Row
from aimcalc.scene.hanglist.tongues.tongues import in_english, unaccented
from aimcalc.scene.hanglist.whole.aimedsides import ASIDE, ENOUGH_ACROSS
from aimcalc.scene.mistakes import Wrong, show

SAY_SIDES = "Write SL or SR behind the places, or head the column: from the SL end, or at (+ = SL)."
SIGN_ALONE = "places have a sign and no side"  # what the units are aimed at then speaks for a side

FEWEST_AWAY = 4  # places off the centre line of which none says its side


class Unsided:
    """The rows of a table whose places have no side."""

    def __init__(self, placing: Placing, lines: Sequence[str] = ()) -> None:
        """`lines` are those round the table."""
        self.around, self.log = placing.around, placing.log
        self.noticed, self.headings, self.said = placing.noticed, placing.headings, placing.said
        self.own, self.lines = placing.own, lines

    def note(self, rows: list[Row]) -> None:
        """Note places without a side on pipes where others have one, or none has a sign: + is towards SL."""
        column = self.headings.by_key.get("at")
        all_of_them = column is None or not column.meaning.exact
        sided = {row.raw.get("position") for row in rows if row.sided > 0 or all_of_them}
        signed = [row for row in rows if not row.sided and str(row.raw.get("at")).startswith("-")]
        sided -= {row.raw.get("position") for row in signed}
        if all_of_them:
            self._signed(signed, rows)
            if not signed and self._ask_plus(rows):
                return
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
            if axis == "x" and self._sign_open():
                self._ask_sign(row, read)
                continue
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

    def _sign_open(self) -> str:
        """What the heading, or a line, says of a sign that is not understood; "" where nothing says so."""
        columns = [
            self.headings.by_key[k] for k in ("at", *AT_PARTS[2:]) if k in self.headings.by_key
        ]
        if not columns or any(column.meaning.plus or column.meaning.end for column in columns):
            return ""
        column = columns[0]
        if leaves_sign(unaccented(column.heading)):
            return column.heading
        elsewhere = {each.plus for each in self.own.values()} - {""}
        if self.said.plus or elsewhere == {"SL"}:
            return ""  # "Pipes: + = SL": of the others it is what it is without a word
        spoken = (
            speaks_of_sign(line) or speaks_of_sign(in_english(line, line=True))
            for line in self.lines
        )
        return next(filter(None, spoken), "")

    def _ask_sign(self, row: Row, read: str) -> None:
        wrong = Wrong(
            "a side for each place: they have a sign alone, and "
            f"{show(self._sign_open())} says of it what is not understood",
            "Head the column: at (+ = SL), or at (+ = SR).",
        )
        ask(self.log, row.raw, row.where, "at", wrong, read)

    def _ask_plus(self, rows: list[Row]) -> bool:
        """Ask which side places without a minus are on, where the heading says of plus what is not
        understood."""
        for row in rows if self._sign_open() else ():
            place = self.around.places.get(str(row.raw.get("position")))
            at = row.raw.get("at")
            if row.sided > 0 or place is None or place.axis != "x" or not isinstance(at, str):
                continue
            metres = float(at.removesuffix(" m"))
            if metres:
                self._ask_sign(row, told(metres, Along(self.around.unit)))
                return True
        return False

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
