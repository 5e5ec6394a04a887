"""What a column of a hang list may hold and what its heading may mean; and the columns of a table, once that
is settled.

Beside the keys of a unit there are columns that help one: `side` (SL or SR of a place), `height` (the place
on a boom), `lens` (the degrees of a kind), and `note`, to which whatever has no key goes.
"""

from __future__ import annotations

from aimcalc.named import NamedTuple
from aimcalc.scene.tables import unit_readers

KEYS = tuple(unit_readers("m"))
SIDE, HEIGHT, LENS, REMARK = "side", "height", "lens", "remark"
APART = "apart"  # no column of the table: a key of colours beside it
# Two in one column: "12/101".
COUPLED = ("channel+circuit", "circuit+channel", "channel+colour", "colour+channel")
MARK = "mark"  # in the place of a length unit: figures count the marks of a pipe
AGAIN = "at_again"  # the place a second time, from elsewhere or in another unit
ELSE = "at_else"  # the place of the rows in which the column of places is empty
GAP = "gap"  # how far a unit hangs from the one before it
UPSTAGE = "upstage"  # how far upstage of the plaster line, beside places across the stage
COUNT = "count"  # how many units a row stands for
# A place that stands in two columns: one a side, or feet beside inches, metres beside centimetres.
AT_PARTS = ("at_SL", "at_SR", "at_feet", "at_inches", "at_metres", "at_centimetres")


class Meaning(NamedTuple):
    """What one heading may mean."""

    keys: tuple[str, ...] = ()  # likeliest first; none where it is no key
    exact: bool = False  # spelled as the key is
    rank: int = 0  # 0 before 1 where two columns claim a key
    unit: str = ""  # the length unit that the heading names: "(cm)"
    near: bool = False  # read in spite of a slip of the finger
    end: str = ""  # SL, SR, US or DS: places count from that end of the position
    plus: str = ""  # the side that the heading gives to figures without a minus
    bare: str = ""  # stage or house: whose left and right a bare L or R is
    sides: bool = False  # it names both sides, so that its cells say which
    fitting: bool = False  # it is a key only where the cells below are fit for one
    plaster: bool = False  # places count from the plaster line
    numbered: bool = False  # the number of the unit stands before its kind in each cell
    heights: bool = False  # those of booms are heights, whatever else it says of pipes


class Column(NamedTuple):
    """One column: its place, its heading, what it holds and how that was found."""

    place: int  # counted from 0
    heading: str
    key: str  # a unit's key, `side`, `height`, `lens`, or `remark`
    meaning: Meaning = Meaning()
    settled: bool = False  # by [hang_columns]
    holds: str = ""  # what its cells hold, where they and no heading tell its key

    @property
    def letters(self) -> str:
        """The spreadsheet's letters of it."""
        return column_letters(self.place)


class Headings(NamedTuple):
    """Where the headings stand (rows from 1), and the columns."""

    first: int
    last: int
    columns: tuple[Column, ...]
    by_key: dict[str, Column] = {}  # noqa: RUF012 - of each key but `remark`, never changed

    def heading(self, key: str) -> str:
        """The heading of the column of a key; "" where there is none."""
        return self.by_key[key].heading if key in self.by_key else ""


def column_table(headings: Headings) -> list[tuple[str, str, str]]:
    """Letters, heading and what each column holds, for a table of them."""
    rows = []
    for column in headings.columns:
        key = column.key
        if key in KEYS or key == "note":
            holds = key
        elif key == REMARK:
            holds = "note (kept as a remark)"
        else:
            holds = {
                "count": "how many units",
                "side": "at: its side",
                "height": "at, on a boom",
                "lens": "kind: its degrees",
                "at_SL": "at, on the SL side",
                "at_SR": "at, on the SR side",
                "at_feet": "at: its feet",
                "at_inches": "at: its inches",
                GAP: "at, from the unit before",
                UPSTAGE: "at, of pipes up and down the stage",
                AGAIN: "at a second time, which must agree",
                ELSE: "at, where its column is empty",
                "at_metres": "at: its metres",
                "at_centimetres": "at: its centimetres",
                APART: "nothing: apart from the table",
                **{key: key.replace("+", " and ") for key in COUPLED},
            }[key]
        rows.append((column.letters, column.heading, holds))
    return rows


def column_letters(index: int) -> str:
    """The spreadsheet's letters of a column counted from 0: A, B ... Z, AA."""
    letters = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        letters = chr(65 + rest) + letters
    return letters
