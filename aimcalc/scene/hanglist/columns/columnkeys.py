"""What each column of a table holds, once that is settled."""

from __future__ import annotations

from aimcalc.named import NamedTuple
from aimcalc.scene.hanglist.columns.headings import (
    AGAIN,
    APART,
    COUPLED,
    ELSE,
    GAP,
    KEYS,
    REMARK,
    UPSTAGE,
    Meaning,
    column_letters,
)


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
