"""What was taken for granted in reading a hang list, gathered while it is read and told one note each."""

from __future__ import annotations

from collections.abc import Sequence

from aimcalc.scene.hanglist.columns.columnkeys import APART, REMARK, Headings
from aimcalc.scene.hanglist.table.turned import Turned
from aimcalc.scene.model import Taken

MOST_PAIRS = 12  # of words and what they were read as, in one note
MOST_ROWS = 12

_LOOK = "Look whether that is meant; if not, correct the list."
_READ_AS = {
    "position": "Positions",
    "target": "Targets",
    "kind": "Kinds",
    "at": "Places",
    "number": "Numbers",
    "mount": "Mounts",
    "channel": "Channels",
    "circuit": "Circuits",
    "colour": "Colours",
    "note": "Remarks",
    "heading": "Headings",
}
_HOLDS = {
    "count": "how many units",
    "side": "the side of at",
    "height": "at on a boom",
    "lens": "the degrees of kind",
    "upstage": "at, from the plaster line, of pipes up and down the stage",
    "at_SL": "at on the SL side",
    "at_SR": "at on the SR side",
    "at_feet": "the feet of at",
    "at_inches": "the inches of at",
    "gap": "how far at is from the unit before",
    "at_again": "at a second time, which agrees",
    "at_else": "at where its column is empty",
    "at_metres": "the metres of at",
    "at_centimetres": "the centimetres of at",
    "channel+circuit": "channel and circuit",
    "circuit+channel": "circuit and channel",
    "channel+colour": "channel and colour",
    "colour+channel": "colour and channel",
}


class Noticed:
    """Everything that somebody should know of how a list was read."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.first: list[Taken] = []  # of the file, its sheet and its headings
        self.pairs: dict[str, dict[str, str]] = {}  # key -> what came -> what it was read as
        self.dates: dict[str, str] = {}
        self.rows: dict[str, list[int | str]] = {}
        self.turned: Turned | None = None  # where the rows of the table stood that is being read
        self.words: dict[str, dict[str, None]] = {}
        self.last: list[Taken] = []  # of places that were worked out

    def note(self, rule: str, says: str, do: str = _LOOK) -> None:
        """Note something about the list as a whole."""
        taken = Taken(rule=rule, says=f"{self.name}: {says}", do=do)
        if taken not in self.first:
            self.first.append(taken)

    def also(self, other: Noticed, table: str) -> None:
        """Note what was noticed of another table of the same units, but for places."""
        for each in other.taken():
            says = each.says.replace(f"{self.name}: ", f"{self.name}, {table}: ", 1)
            if each.rule != "list-at":
                self.last.append(Taken(each.rule, says, each.do, severity=each.severity))

    def read_as(self, key: str, came: object, said: str) -> None:
        """Note that a cell was read as something else than it spells."""
        self.pairs.setdefault(key, {}).setdefault(str(came).strip(), said)

    def row(self, what: str, row: int, word: str = "") -> None:
        """Note a row of one sort."""
        called = self.turned.called(row) if self.turned else row
        self.rows.setdefault(what, []).append(called)
        if word:
            self.words.setdefault(what, {})[word] = None

    def headings(self, headings: Headings, above: Sequence[int]) -> None:
        """Note where the headings stand and what they were read as."""
        passed = (
            f"{_rows(above)} above {'is' if len(above) == 1 else 'are'} passed over"
            if above
            else ""
        )
        if headings.first != headings.last:
            rows = range(headings.first, headings.last + 1)
            both = f"{' and '.join(map(str, rows))} are read as one row of headings"
            both = f"rows {both}"
            self.note("list-headings", f"{both}; {passed}." if passed else f"{both}.")
        elif passed:
            self.note("list-headings", f"the headings are in row {headings.first}; {passed}.")
        self.columns(headings)

    def columns(self, headings: Headings) -> None:
        """Note the headings that are no keys: what they were read as, and those kept as remarks."""
        read = {
            c.heading: _HOLDS.get(c.key, c.key)
            for c in headings.columns
            if not c.settled and not c.holds and _differs(c.heading, c.key)
        }
        if read:
            told = ", ".join(f'"{heading}" as {key}' for heading, key in read.items())
            do = "Look at aimcalc check --columns; [hang_columns] in the scene says otherwise."
            self.note("list-headings", f"headings are read by their meaning: {told}.", do)
        for c in headings.columns:
            if c.holds:
                named = f' ("{c.heading}")' if c.heading else ""
                key = "place" if c.key == "at" else c.key
                says = f"column {c.letters}{named} is read as the {key}: it holds {c.holds}."
                do = "Look at aimcalc check --columns; [hang_columns] in the scene says otherwise."
                self.note("list-columns", says, do)
        if apart := _headed(headings, APART):
            self.note("list-columns", f"apart from the table, and passed over: {apart}.")
        if kept := _headed(headings, REMARK):
            says = f"no key of a unit, so kept as a remark of the unit: {kept}."
            do = "Nothing, unless [hang_columns] in the scene should name one of them."
            self.note("list-remarks", says, do)

    def taken(self) -> tuple[Taken, ...]:
        """All of it, in the order in which somebody would ask."""
        self._rows_told()
        for key, pairs in self.pairs.items():
            self.note(
                f"list-{key}", f"{_READ_AS.get(key, key)} read by their meaning: {_pairs(pairs)}."
            )
        if self.dates:
            says = f"a spreadsheet had made dates of unit numbers: {_pairs(self.dates)}."
            self.note("list-number", says, "Format the column number as text, and type them again.")
        return (*self.first, *self.last)

    def _rows_told(self) -> None:
        """Note the rows of each sort."""
        self._no_units_told()
        self._left_out_told()
        self._over_told()
        self._filled_told()

    def _no_units_told(self) -> None:
        """Note the rows that are of the page, and no units."""
        rows, words = self.rows, self.words
        if again := rows.get("again"):
            self.note(
                "list-rows", f"{_rows(again)} {_has(again, 'holds', 'hold')} the headings again."
            )
        if lines := rows.get("said"):
            told = _listed([f'"{word[:80]}"' for word in words["said"]])
            self.note(
                "list-at",
                f"{_rows(lines)} {_has(lines, 'says', 'say')} how places are read: {told}.",
            )
        if none := rows.get("no unit"):
            told = _listed([f'"{word}"' for word in words["no unit"]])
            verbs = "holds no unit and is" if len(none) == 1 else "hold no unit and are"
            says = f"{_rows(none)} {verbs} passed over: {told}."
            self.note("list-rows", says, "A unit needs its kind and its target in its row.")

    def _left_out_told(self) -> None:
        """Warn of the units that are left out; note what belongs to the unit above."""
        rows, words = self.rows, self.words
        if cut := rows.get("cut"):
            told = _listed([f'"{word}"' for word in words["cut"]])
            units = _has(cut, "the unit of", "the units of")
            says = f"{self.name}: {units} {_rows(cut)} {_has(cut, 'is', 'are')} left out, called cut: {told}."
            do = "Look whether that is so; if one hangs, take the word or the line out of its row."
            self.last.append(Taken("list-cut", says, do, severity="warn"))
        if spare := rows.get("spare"):
            told = _listed([f'"{word}"' for word in words["spare"]])
            units = _has(spare, "the light of", "the lights of")
            are = _has(spare, "is", "are")
            says = f"{self.name}: {units} {_rows(spare)} {are} left out, aimed at nothing: {told}."
            do = "Give it a target where it hangs: neither its weight nor its size is counted."
            self.last.append(Taken("list-spare", says, do, severity="warn"))
        if added := rows.get("accessory"):
            told = _listed([f'"{word[:60]}"' for word in words["accessory"]])
            belongs = _has(added, "belongs", "belong")
            self.note(
                "list-rows", f"{_rows(added)} {belongs} to the unit above, as a remark: {told}."
            )

    def _over_told(self) -> None:
        """Note what stands over units and is theirs."""
        rows, words = self.rows, self.words
        if over := rows.get("section"):
            told = _listed([f'"{word}"' for word in words["section"]])
            self.note(
                "list-position",
                f"{told} in {_rows(over)} {_has(over, 'stands over its', 'stand over their')} units.",
            )
        for key in ("kind", "colour", "channel"):
            if said := rows.get(f"{key} over"):
                told = _listed([f'"{word[:40]}"' for word in words[f"{key} over"]])
                are = _has(said, f"is the {key}", f"are the {key}s")
                says = f"{told} in {_rows(said)} {are} of the units below."
                self.note(f"list-{key}", says)
        if over := rows.get("aimed"):
            told = _listed([f'"{word}"' for word in words["aimed"]])
            says = f"{told} in {_rows(over)}, over the units, {_has(over, 'is', 'are')} read as their target."
            self.note("list-target", says)

    def _filled_told(self) -> None:
        """Note the cells that are read as those above them."""
        rows, words = self.rows, self.words
        if blank := _in_order(rows.get("blank", ())):
            says = f"in {_rows(blank)} the position is blank: read as that of the row above."
            self.note("list-position", says)
        for key in ("kind", "target"):
            if blank := _in_order(rows.get(f"blank {key}", ())):
                says = f"in {_rows(blank)} the {key} is blank: read as that of the row above."
                self.note(f"list-{key}", says)
        if whole := rows.get("goes on"):
            told = _listed([f'"{word}"' for word in words["goes on"]])
            says = f"{_rows(whole)} {_has(whole, 'goes', 'go')} on with the cells of the row above: {told}."
            self.note("list-rows", says)
        if merged := _in_order(rows.get("merged", ())):
            self.note("list-merged", f"merged cells stand for {_rows(merged)} below their first.")
        if same := _in_order(rows.get("ditto", ())):
            self.note("list-ditto", f"in {_rows(same)} a ditto mark is read as the cell above.")


def _headed(headings: Headings, key: str) -> str:
    """The columns of a key by their headings; "" where there is none."""
    columns = [column for column in headings.columns if column.key == key]
    return _listed(
        [
            f'"{c.heading}"' if c.heading else f"column {c.letters}, without a heading"
            for c in columns
        ]
    )


def _differs(heading: str, key: str) -> bool:
    plain = "".join(filter(str.isalnum, heading.casefold()))
    wanted = key.replace("_", "")
    return key in _HOLDS or (key not in (REMARK, APART) and plain not in (wanted, f"{wanted}s"))


def _pairs(pairs: dict[str, str]) -> str:
    told = [f'"{came}" is {said}' for came, said in list(pairs.items())[:MOST_PAIRS]]
    more = len(pairs) - len(told)
    return ", ".join(told) + (f" and {more} more" if more else "")


def _in_order(rows: Sequence[int | str]) -> list[int | str]:
    """Rows once each, in order; cells of a turned table behind them."""
    return sorted(
        dict.fromkeys(rows),
        key=lambda row: (isinstance(row, str), row if isinstance(row, int) else 0),
    )


def _rows(rows: Sequence[int | str]) -> str:
    sides = [row for row in rows if isinstance(row, str)]
    if sides:
        plain = [row for row in rows if not isinstance(row, str)]
        return _listed([*([_rows(plain)] if plain else []), *sides])
    if len(rows) == 1:
        return f"row {rows[0]}"
    more = len(rows) - MOST_ROWS
    return f"rows {', '.join(map(str, rows[:MOST_ROWS]))}" + (
        f" and {more} more" if more > 0 else ""
    )


def _has(rows: Sequence[int | str], one: str, several: str) -> str:
    return one if len(rows) == 1 else several


def _listed(words: Sequence[str]) -> str:
    more = len(words) - MOST_PAIRS
    return ", ".join(words[:MOST_PAIRS]) + (f" and {more} more" if more > 0 else "")
