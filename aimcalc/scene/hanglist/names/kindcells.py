"""Names in the cells of a hang list: one of the scene's with what stands beside it, and the kind of a unit
with its lens, its watts and how many there are."""

from __future__ import annotations

import re
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.document import ASKED, ask
from aimcalc.scene.hanglist.columns.columnkeys import LENS
from aimcalc.scene.hanglist.names.kindbeside import by_words, joined, other_watts, without_beside
from aimcalc.scene.hanglist.names.kindinbrackets import at_odds
from aimcalc.scene.hanglist.names.kindtrade import KIND_SPARE, KIND_WORDS
from aimcalc.scene.hanglist.names.meant import Meant, Names
from aimcalc.scene.hanglist.names.morethannames import (
    in_two_ways,
    near_with_more,
    parted_off,
    short_in_brackets,
    spells,
    with_more,
    within,
)
from aimcalc.scene.hanglist.names.shortkinds import ShortKinds
from aimcalc.scene.hanglist.names.spelling import fold_case, fold_code
from aimcalc.scene.hanglist.rows.listrow import Around, any_of, text_of
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.mistakes import UNKNOWN, Log, Where, Wrong, show

ONE_ROW_EACH = "Give each unit a row of its own, with its own number and place."


class Naming:
    """Finds the names that cells mean, notes what is read by its meaning, and asks where several fit."""

    def __init__(self, log: Log, noticed: Noticed) -> None:
        self.log, self.noticed = log, noticed

    def named(
        self, key: str, cell: Any, names: Names, where: Where, remarks: list[tuple[str, Any]]
    ) -> Any:
        """The name that a cell means; what fits several is asked."""
        text = text_of(cell)
        meant = names.find(text)
        if meant.name is not None:
            if not meant.sure:
                self.noticed.read_as(key, text, meant.name)
            return meant.name
        if meant.several:
            expected = f"one {key}, and {show(text)} may be {any_of(meant.several)}"
            self.log.add(where, key, Wrong(expected, "Write which.", rank=UNKNOWN), cell)
            return ASKED
        name, rest = with_more(text, names, beside=key != "position")
        aside = re.fullmatch(r"\s*([^()]*?)\s*\(([^()]+)\)\s*", text)
        if name is None and aside and spells(aside[2], names):
            name, rest = names.find(aside[2]).name, aside[1]  # "choir centre (DSC)"
            other = names.find(aside[1])
            if other.sure and other.name not in (None, name):  # "LX 1 (LX 2)"
                expected = f"one {key}, and {show(text)} names {other.name} and {name}"
                self.log.add(where, key, Wrong(expected, "Write which.", rank=UNKNOWN), cell)
                return ASKED
        if name is None:
            name, rest = in_two_ways(text, names)
        if name is None:
            name, rest = short_in_brackets(text, names) or None, ""
        if name is None and key == "target":
            name, rest = within(text, names)
        if name is None:
            name, rest = names.near(text), ""
        if name is None and key == "target":
            name, rest = near_with_more(text, names)
        if name is None:
            return cell
        self.noticed.read_as(key, text, f"{name}, with the remark {show(rest)}" if rest else name)
        if rest:
            remarks.append(("", rest))
        return name


class Kinds:
    """The kinds that cells mean: the scene's own ones first."""

    def __init__(self, around: Around, naming: Naming) -> None:
        self.around, self.naming = around, naming
        self.log, self.noticed = naming.log, naming.noticed
        self.own_kinds = dict.fromkeys(name for name, _, _ in around.kinds)
        self.own = Names(self.own_kinds, KIND_WORDS, KIND_SPARE, whole=True, mixed=True)
        self.short = ShortKinds(self.own_kinds, usual=True)
        self.codes = around.codes.get("kind", {})
        self.kinds: Names | None = None

    def fits(self, cell: Any) -> bool:
        """Whether a cell names a kind, or one of several."""
        return self._fits(cell) or bool(self._alone(text_of(cell).strip()))

    def _alone(self, text: str) -> str:
        """A cell that names a kind once what stands beside it is out, without that, or by its words in any
        order; else nothing."""
        if not re.search(r"[^\W\d_]", text) or with_more(text, self._all_kinds())[0]:
            return ""
        each = [part for part in joined(text) if re.search(r"[^\W\d_]{2}", part)]
        if len(each) > 1 and all(map(self._fits, each)):
            return ""
        plain = next((plain for plain in without_beside(text) if self._fits(plain)), "")
        plain = plain or short_in_brackets(text, self.own)
        return plain or by_words(text, self.own_kinds) or self._without_inches(text)

    def _without_inches(self, text: str) -> str:
        """The kind of a cell that says how wide its lens is, "6in ERS 26", where the kind says no size that
        the cell does not; else nothing."""
        plain = _INCHES.sub(" ", text).strip()
        name = self._told_alone(plain) if plain and plain != text.strip() else None
        kept = set(re.findall(r"\d+", plain))
        return (
            name if name in self.own_kinds and set(re.findall(r"\d+", name or "")) <= kept else ""
        )

    def _fits(self, cell: Any) -> bool:
        text = text_of(cell).strip()
        meant = self._all_kinds().find(text)
        found = text in self.own_kinds or meant.name is not None or bool(meant.several)
        if len(text) == 1 and text.isdecimal() and text not in self.own_kinds and not meant.name:
            return False  # "1" is the number of a lamp, whatever kinds are of 1 kW
        return (
            found
            or bool(self._of_lens(text))
            or (self._short_for(text)[0] is not None and bool(re.search(r"[^\W\d_]", text)))
            or self._all_kinds().near(text) is not None
        )

    def fits_figures(self, cell: Any) -> bool:
        """Whether a cell names a kind, or has the figures of one alone: "62" of Par 64 CP62."""
        text = text_of(cell).strip()
        return self.fits(cell) or (text.isdecimal() and self.short.find(text).name is not None)

    def of_meaning(self, meaning: str, code: str) -> str | None:
        """The kind that a legend names; with the figure of its code where that tells its size: "F6" of
        "F6 / F8 = fresnel"."""
        figures = re.findall(r"\d+", code)
        also = (f"{meaning} {figures[0]}",) if len(figures) == 1 else ()
        found = (self._told_alone(text) for text in (meaning, *also))
        return next((name for name in found if name), None)

    def names_one(self, text: str) -> bool:
        """Whether a line names a kind of the house, or several that it is short for."""
        return bool(self._told_alone(text) or self.short.find(text).several)

    def _told_alone(self, text: str) -> str | None:
        if text in self.own_kinds:
            return text
        own = self.own.find(text).name or self._short_for(text)[0]
        return own or self._all_kinds().spelled(text)

    def _short_for(self, text: str) -> tuple[str | None, str]:
        """The kind of the house's own that a cell is short for, and what it says beside it, in brackets or
        behind a comma, without a number."""
        name = self.short.find(text).name or self.short.explained(text)
        parted = parted_off(text) if name is None else None
        return (self.short.find(parted[0]).name, parted[1]) if parted else (name, "")

    def _of_lens(self, text: str) -> list[str]:
        """The kinds of the scene's own that have the degrees that a cell says alone: "26 degree"."""
        lens = re.fullmatch(_LENS_ALONE, re.split(_MORE, text)[0])
        kinds = self.around.kinds if lens else ()
        found = {
            name: None
            for name, _, field in kinds
            if lens and (lens[1] in re.findall(r"\d+", name) or field == float(lens[1]))
        }
        return list(found)

    def _all_kinds(self) -> Names:
        if self.kinds is None:
            also = [
                (f"{family} {field:g}", name)
                for name, family, field in self.around.kinds
                if field is not None
            ]
            every = (*self.own_kinds, *self.around.generic())
            self.kinds = Names(every, KIND_WORDS, KIND_SPARE, also=also, mixed=True)
            self.kinds.codes = self.codes
        return self.kinds

    def read(
        self, raw: dict[str, Any], remarks: list[tuple[str, Any]], where: Where, lens_heading: str
    ) -> None:
        """Put the name of its kind into a row; ask where it may be several, or several units."""
        cell, lens = raw.get("kind"), raw.pop(LENS, None)
        if cell is None and lens is None:
            return
        if cell is ASKED or lens is ASKED:
            raw["kind"] = ASKED
            return
        if cell is None:  # "50 deg ERS" under "Lens", where no column is that of kinds
            cell, lens = lens, None
        text = text_of(cell)
        if lens is None:
            if text in self.own_kinds:
                raw["kind"] = text
                return
            odd = () if fold_code(text) in self.codes else at_odds(text, self.own)
            if odd:
                raw["kind"] = self._which(list(odd), text, where, cell)
                return
            counted = re.fullmatch(_COUNTED, text.strip()) if not self.fits(cell) else None
            if counted and counted[2] and "number" not in raw:
                counted = None  # "1 spot" over "2 wide" may be numbers
            if counted and any(one not in (None, "1") for one in counted.group(1, 2, 3, 6, 7)):
                wrong = Wrong(f"one unit a row, and {show(text)} may be several", ONE_ROW_EACH)
                ask(self.log, raw, where, "kind", wrong, cell)
                return
            if counted:
                cell = counted[4] or counted[5]
                self.noticed.read_as("kind", text, cell)
            raw["kind"] = self._of_watts(self._beside_out(cell, remarks), text, where, remarks)
            return
        both = f"{text} {text_of(lens)}".strip()
        names = self.own if self.own.find(both).name else self._all_kinds()
        together, alone = names.find(both), self._all_kinds().find(text)
        if together.name is not None:
            raw["kind"] = self.naming.named("kind", both, names, where, remarks)
        elif alone.name is None:
            raw["kind"] = self.naming.named(
                "kind", both if together.several else (cell or lens), names, where, remarks
            )
        elif _degrees(text_of(lens)) - _degrees(alone.name):
            expected = f"a kind and degrees that agree: {alone.name} is not of {text_of(lens)}"
            wrong = Wrong(expected, "Correct one of the two columns.")
            ask(self.log, raw, where, "kind", wrong, both)
        else:
            raw["kind"] = self.naming.named("kind", text, names, where, remarks)
            if not _degrees(text_of(lens)):
                remarks.append((lens_heading, lens))

    def _beside_out(self, cell: Any, remarks: list[tuple[str, Any]]) -> Any:
        """A kind without its watts, its lamp and what hangs on it, where it is none with them; they become
        a remark."""
        text = text_of(cell).strip()
        plain = "" if self._fits(cell) else self._alone(text)
        if not plain:
            return cell
        remarks.append(("", text))
        self.noticed.read_as("kind", text, plain)
        return plain

    def _of_watts(self, cell: Any, text: str, where: Where, remarks: list[tuple[str, Any]]) -> Any:
        """The kind of a cell, where its watts are not others than the cell says."""
        name = self._one_kind(cell, where, remarks)
        if name not in self.own_kinds or fold_code(text) in self.codes:
            return name
        if not other_watts(text, name):
            return name
        expected = f"the name of a kind: {name} is of other watts than {show(text)}"
        wrong = Wrong(expected, "Write which it is, or add the kind to the scene.", rank=UNKNOWN)
        self.log.add(where, "kind", wrong, cell)
        return ASKED

    def _one_kind(self, cell: Any, where: Where, remarks: list[tuple[str, Any]]) -> Any:
        """The kind of a cell: the one that it names word for word, else one of the scene's own, else any;
        without its watts, where they are in the way."""
        names, text = self._all_kinds(), text_of(cell)
        told = self.codes.get(fold_code(text)) if self.codes else None
        if told is not None and text not in self.own_kinds:
            self.noticed.read_as("kind", text, told)
            return told
        if text in names.names:  # "ers-20", beside an "ers-20 old" of the scene's own
            return text
        worded = re.search(r"[^\W\d_]", text) and len(re.findall(r"\w", text)) > 1
        if worded and self.own.find(text).name is not None:
            spelled = self._spelled(text)
            if len(spelled) < 2 or self.own.find(text).name in spelled:
                return self.naming.named("kind", cell, self.own, where, remarks)
            return self._which(spelled, text, where, cell)
        meant = names.find(text)
        of_lens = self._of_lens(text)
        known = len(of_lens) > 1 or (meant.name and meant.sure)
        short, aside = (None, "") if known else self._short_for(text)
        if short is not None:
            self.noticed.read_as("kind", text, short)
            remarks += [("", aside)] if aside else []
            return short
        own = [name for name in meant.several if name in self.own_kinds]
        if len(own) == 1:  # "25/50", which a generic kind may be too
            self.noticed.read_as("kind", text, own[0])
            return own[0]
        if len(of_lens) > 1:  # the house's own before a generic one of the same angles
            of_lens = [name for name in of_lens if self.own.find(name).sure] or of_lens
        if len(of_lens) == 1 and names.find(text) == Meant():
            self.noticed.read_as("kind", text, of_lens[0])
            return of_lens[0]
        if len(of_lens) > 1:
            return self._which(of_lens, text, where, cell)
        sizeless = re.sub(_SIZE, " ", text)
        for way in (sizeless, re.sub(_POWER, " ", sizeless)) if names.find(text) == Meant() else ():
            plain = " ".join(way.split())
            found = self.own if self.own.find(plain).name else names
            name = found.find(plain).name
            if name is not None and plain != text:
                remarks.append(("", text))
                self.noticed.read_as("kind", text, name)
                return name
        return self.naming.named("kind", cell, names, where, remarks)

    def _spelled(self, text: str) -> list[str]:
        """The kinds of the house's own that have a word as the cell spells it: by "Fres" a "Fres 650",
        and not a "fresnel"."""
        return [name for name in self.own_kinds if fold_case(text) in fold_case(name).split()]

    def _which(self, several: list[str], text: str, where: Where, cell: Any) -> Any:
        expected = f"one kind, and {show(text)} may be {any_of(several)}"
        self.log.add(where, "kind", Wrong(expected, "Write which.", rank=UNKNOWN), cell)
        return ASKED


# How many units a cell of kinds stands for: "1 x ERS 30", "1 ERS 30", "(2) ERS 30", "ERS 30 x2".
_COUNTED = (
    r"(?i)"
    r"(?:(\d{1,2})\s*(?:x|×|no\.?|off|stk\.?|st\.?)\s+|(1)\s+(?=[^\W\d_])|\(\s*(\d{1,2})\s*\)\s*)(\S.*)"
    r"|(\S.*?\S)\s+(?:(?:x|×)(\d{1,2})(?!\d)|\((1)\))"
)
_INCHES = regex(r"(?<![\w.])\d{1,2}(?:\.\d)?\s?[-–]?(?:in\b\.?|inch\b|[\"”″]|'')", re.IGNORECASE)
_MORE = r"\s*(?:[+&,;(]|\bw/|\bwith\b)"  # an accessory behind it
_LENS_ALONE = r"(?i)\s*(\d+)\s*(?:°|º|deg(?:ree)?s?\b)\.?\s*(?:lens|spot|unit)?\s*"
_SIZE = r"(?i)\b(?:big|small|little|large|old|new)\b"  # of a lamp, in the way of its name
_POWER = (
    r"(?i)"
    r"(?<![\w.])(?:\d+(?:[.,]\d+)?\s*kw?|(?:500|575|600|650|750|1000|1200|2000)(?:\s*w)?)(?![\w.])"
)


def _degrees(text: str) -> set[str]:
    """The numbers of a lens in degrees; none of what is told in inches or by two lengths."""
    return set() if re.search(r"[\"”″x×]|in\b|mm", text) else set(re.findall(r"\d+", text))
