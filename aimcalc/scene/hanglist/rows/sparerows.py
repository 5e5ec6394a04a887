"""Rows of a hang list of which nothing lights: places that are kept free, and lights in reserve, in whatever
column it is said, or by a row above that says it of those below it."""

from __future__ import annotations

import re
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.columnkeys import GAP, HEIGHT
from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.names.sparewords import is_in_reserve, is_spare, numbered_spare
from aimcalc.scene.hanglist.rows.listrow import blank, is_ditto, is_total, text_of
from aimcalc.scene.hanglist.rows.rowcuts import says_cut

NONE = regex(r"\s*(?:-+|–|—|[nN]\.?/?[aA]\.?|(?i:none))\s*")  # says that there is none
# Of a channel or a circuit: that there is none, or that it is not known yet.
_NO_PLUG = regex(
    r"\s*(?:n\.?/?c\.?|\?+|t\.?b\.?[acd]\.?|(?:un|not\s)(?:patched|plugged|connected|assigned)"
    r"|to\sbe\s(?:confirmed|advised|decided|assigned)|pending|later|nil|keine[rs]?|aucune?|ningun[oa]|ningún|nessun[oa]"
    r"|geen|ingen|[x*/.…]+)\s*",
    re.IGNORECASE,
)
_HUNG = regex(
    r"\b(?:hung|hangs|rigged|in place|(?:un|not\s+)(?:patched|plugged|focus+ed))\b", re.IGNORECASE
)
_NOT_HUNG = regex(
    r"\bn(?:ot|o|on|icht)\s+(?:yet\s+|be\s+)?(?:rig|hung|hang|up\b|used|mont|ge)|\bin\s+(?:the\s+)?(?:stor|rack|case|stock)",
    re.IGNORECASE,
)
LONGEST_SAID = 200  # characters of a cell that is searched for whether its unit hangs
LONGEST_TOLD = 60  # characters of a row that is told

MOST_KEPT_FREE = (
    0.5  # of the rows under headings, for those without a unit to be left out of the look
)

_MAY_BE_NONE = ("number", "at", "at_SL", "at_SR", HEIGHT, GAP, "channel", "circuit", "system")

Remarks = list[tuple[str, Any]]


class SpareRows:
    """Tells rows of which nothing lights from those of units, row by row down a list."""

    def __init__(self, positions: Names, targets: Names) -> None:
        self.positions, self.targets = positions, targets
        self.aside = False  # a row above says of those below that they are in reserve: "SPARE"

    def holds(self, row: list[Any], raw: dict[str, Any], remarks: Remarks, *, aimed: bool) -> bool:
        """Whether a row says that nothing hangs there, or a light in reserve, or stands below one that says
        it of those below. `aimed`: something else than the row tells its target."""
        own = raw.get("position")
        if own is not None and not is_ditto(own):
            self.aside = self._is_put_aside(raw)
        if self._is_kept(raw) or self._is_spare(raw, remarks, aimed):
            words = [text_of(cell) for cell in row if not blank(cell)]
            self.aside = self.aside or (len(words) == 1 and is_in_reserve(words[0]))
            return True
        return self.aside and not aimed and not raw.keys() & {"target", "point"}

    def _is_spare(self, raw: dict[str, Any], remarks: Remarks, aimed: bool) -> bool:
        """Whether a row says that nothing hangs there, a circuit or a place that is kept free, or that what
        does is in reserve and aimed at nothing: "spare" for a target."""
        unnamed = self.without_names(raw)
        spare = [key for key, cell in unnamed.items() if is_spare(text_of(cell))]
        if "kind" in spare or "number" in spare or "target" in spare:
            return True
        at_none = not raw.keys() & {"target", "point"}
        if "note" in spare and at_none:
            return True
        loose = any(is_spare(text_of(cell)) for _, cell in remarks)
        none = [key for key in ("kind", "target") if key in raw and NONE.fullmatch(str(raw[key]))]
        if (bool(spare) or loose) and ("kind" not in raw or "kind" in none):
            return True
        if none == ["kind", "target"]:
            return True
        if none == ["kind"] and at_none and not raw.keys() & {"number", "at", HEIGHT}:
            return True
        if aimed or not (at_none or "target" in none):
            return False
        if numbered_spare(text_of(raw.get("number", ""))):
            return True
        return any(is_in_reserve(text_of(cell)) for _, cell in (*unnamed.items(), *remarks))

    def hangs(self, raw: dict[str, Any], remarks: Remarks) -> bool:
        """Whether a light in reserve hangs: its row has its number and its place, and says so or is plugged
        somewhere. What its cells say of being spare is then taken for a remark."""
        unnamed = self.without_names(raw)
        said = {key: text_of(cell) for key, cell in unnamed.items() if is_spare(text_of(cell))}
        words = [*said.values(), text_of(raw.get("note", "")), *(text_of(c) for _, c in remarks)]
        plugged = any(re.search(r"\d", text_of(raw.get(key, ""))) for key in ("channel", "circuit"))
        hung = any(_HUNG.search(each[:LONGEST_SAID]) for each in words)
        if (
            self.aside
            or {"kind", "number", "at"} - (raw.keys() - said.keys())
            or not (plugged or hung)
        ):
            return False
        if any(says_cut(each) or _NOT_HUNG.search(each[:LONGEST_SAID]) for each in words):
            return False
        for key in said.keys() - {"note"}:
            del raw[key]
            raw.setdefault("note", said[key])
        return True

    def said_of(self, row: list[Any]) -> str:
        """The cell of a row that calls its unit spare; "" where none does, one asks whether it is or says
        that it hangs, or a name of the scene is such a word."""
        words = [cell for cell in row if isinstance(cell, str) and len(cell) <= LONGEST_SAID]
        said = [
            word
            for word in words
            if is_spare(word) and not (self.positions.spelled(word) or self.targets.spelled(word))
        ]
        if not said or any("?" in word or _says_hung(word) for word in words):
            return ""
        return said[0]

    def _is_kept(self, raw: dict[str, Any]) -> bool:
        """Whether a row without a number and a place says it in the column of positions, whatever it says of
        a target that is none: "spare | not hung, keep under stage"."""
        kept = not raw.keys() & {"number", "at", "point"} and self._is_put_aside(raw)
        return kept and self.targets.find(text_of(raw.get("target", ""))).name is None

    def _is_put_aside(self, raw: dict[str, Any]) -> bool:
        """Whether the position of a row is none, for lights in reserve: "SPARE", "Not hung"."""
        cell = text_of(self.without_names(raw).get("position", "")).strip()
        return bool(cell) and (is_in_reserve(cell) or says_cut(cell))

    def without_names(self, raw: dict[str, Any]) -> dict[str, Any]:
        """The cells of a row but for those that spell a name of the scene: its target "Reserve"."""
        named = [
            key
            for key, names in (("position", self.positions), ("target", self.targets))
            if key in raw and names.spelled(text_of(raw[key]))
        ]
        return {key: cell for key, cell in raw.items() if key not in named} if named else raw


def _says_hung(words: str) -> bool:
    return bool(_HUNG.search(words)) and not _NOT_HUNG.search(words)


def says_none(key: str, cell: str) -> bool:
    """Whether a cell says that a unit has none of what its column holds."""
    if key in ("channel", "circuit") and _NO_PLUG.fullmatch(cell):
        return True
    return key in _MAY_BE_NONE and bool(NONE.fullmatch(cell))


def of_units(rows: list[list[Any]]) -> list[list[Any]]:
    """The rows that tell what columns hold: none that says it is a total, or in reserve, whose words may be
    in any column; all, where most say so."""
    kept = [row for row in rows if not any(isinstance(c, str) and _says_none(c) for c in row)]
    return kept if len(kept) > MOST_KEPT_FREE * len(rows) else rows


def _says_none(cell: str) -> bool:
    return is_in_reserve(cell) or is_total(cell)


def told_of(row: list[Any]) -> str:
    """The words of a row that call it spare, else its first ones."""
    words = [text_of(cell).strip() for cell in row if not blank(cell)]
    said = next((word for word in words if is_spare(word)), " ".join(words[:3]))
    return " ".join(said.split())[:LONGEST_TOLD]
