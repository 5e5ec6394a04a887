"""What a row of a hang list is that is no unit: a position over its units, what hangs on the unit above, a
title again, a place kept free, a total, a remark."""

from __future__ import annotations

import re
from collections.abc import Callable, Container, Iterable
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.columnkeys import AT_PARTS, HEIGHT
from aimcalc.scene.hanglist.names.kindcells import Kinds
from aimcalc.scene.hanglist.names.meant import Meant, Names
from aimcalc.scene.hanglist.names.overunits import in_cells, named_twice
from aimcalc.scene.hanglist.names.sections import (
    is_accessory,
    labelled,
    position_in,
    says_more,
)
from aimcalc.scene.hanglist.names.targetwords import BESIDE
from aimcalc.scene.hanglist.pagelines.legend import is_keyed
from aimcalc.scene.hanglist.rows.listrow import Row, blank, is_total, text_of
from aimcalc.scene.hanglist.rows.rowlabels import (
    are_sides,
    is_counted,
    is_headed,
    is_label,
    is_measured,
)
from aimcalc.scene.hanglist.table.secondtable import CODES

MOST_IN_SECTION = 3  # cells of a row with the name of a position
_OF_HOUSE = r"(?i)^\s*(?:our|your|their|the|house|venue)\b\W*"


class RowKinds:
    """Tells the rows that are no units from those that are, by the names of the scene."""

    def __init__(
        self, positions: Names, targets: Names, fits: Callable[[str, Any], bool | None]
    ) -> None:
        self.positions, self.targets, self.fits = positions, targets, fits
        self.sharing = False  # the kinds and targets of its units may stand in another table
        self.titles: set[str] = set()  # cells above the headings, without their figures

    def section(self, row: list[Any], raw: dict[str, Any]) -> str | None:
        """The position that a row names and nothing else, over its units."""
        words = list(dict.fromkeys(str(cell).strip() for cell in row if not blank(cell)))
        card = labelled(words, self.positions)
        if card:
            return card
        if 1 < len(words) <= MOST_IN_SECTION and words[0].endswith(":"):
            words, raw = [" ".join(words[:2]), *words[2:]], {}
        each = [text_of(cell).strip() for cell in row if not blank(cell)]
        named = in_cells(each, self.positions) if len(each) > 1 else None
        if named:
            return named
        if not words or len(words) > MOST_IN_SECTION:
            return None
        if len(raw) > 1 and len(words) == 1:
            return None
        name = position_in(words[0], self.positions) or named_twice(words[0], self.positions)
        if not all(says_more(word) or self._names(word, name) for word in words[1:]):
            return None
        key = next(iter(raw), None)
        if name and key == "target" and self.targets.find(words[0]).name:
            return None
        return name

    def _names(self, words: str, name: str | None) -> bool:
        """Whether words name a position once more: "house LX 2" beside "LX2"."""
        plain = re.sub(_OF_HOUSE, "", words)
        return name is not None and position_in(plain, self.positions) == name

    def over_units(self, row: list[Any], kinds: Kinds, letters: Container[str]) -> tuple[str, str]:
        """The key and the words of a row that says the kind, the colour or the channel of the units below it,
        where no column of these `letters` does: "Cyc flood", "Colour: L201", "Channel 12"; "" of others."""
        if "kind" not in letters and (kind := self.kind_over(row, kinds)):
            return "kind", kind
        words = [text_of(cell).strip() for cell in row if not blank(cell)]
        text = words[0].strip(" *_=~#<>·•:-–—.[]") if 0 < len(words) <= 2 else ""
        text = f"{text} {words[1]}" if len(words) == 2 and len(words[1]) <= LONGEST_CODE else text
        if not text or len(text) > LONGEST_OVER or (len(words) == 2 and " " not in text):
            return "", ""
        found = _CHANNEL_OVER.fullmatch(text) if "channel" not in letters else None
        if found:
            return "channel", found[1]
        found = _COLOUR_OVER.fullmatch(text) if "colour" not in letters else None
        said = found[1].strip() if found else text if "colour" not in letters else ""
        is_gel = said and len(words) == 1 and self.fits("lettered gel", said)
        return ("colour", said) if is_gel or found else ("", "")

    def with_kind(self, row: list[Any], kinds: Kinds) -> tuple[str, str]:
        """The position and the kind of the units below where a row names both and no more, "LX 1 - PC 1k" or
        "PC 1k on LX 1"; "" of any other row."""
        words = [text_of(cell).strip() for cell in row if not blank(cell)]
        if len(words) == 1 and len(words[0]) <= LONGEST_BOTH:
            words = [part for part in _BOTH.split(words[0]) if part.strip()]
        if len(words) != 2:
            return "", ""
        for place, kind in (words, words[::-1]):
            name = position_in(place, self.positions)
            if name and self.kind_over([kind], kinds) and not self.kind_over([place], kinds):
                return name, kind
        return "", ""

    def kind_over(self, row: list[Any], kinds: Kinds) -> str:
        """The words of a row that say the kind of the units below it and nothing else, "FRESNELS 1K (4)";
        "" where it says another thing."""
        words = [text_of(cell).strip() for cell in row if not blank(cell)]
        if len(words) != 1:
            return ""
        said = re.sub(_HOW_MANY, "", words[0]).strip(" *_=~#<>·•:-–—.[]")
        said = _KIND_SAID.sub("", said)
        return said if re.search(r"[^\W\d_]{2}", said) and kinds.names_one(said) else ""

    def is_tally(self, row: list[Any], kinds: Kinds) -> bool:
        """Whether a row counts the units of kinds and names no unit: "ERS 26: 4", "PAR64: 3", or a kind and a
        figure in turn; a word for a total may stand before them."""
        words = [text_of(cell).strip() for cell in row if not blank(cell)]
        words = words[1:] if words and is_total(words[0]) else words
        if len(words) < FEWEST_COUNTED:
            return False
        counted = [_COUNTED.fullmatch(word) for word in words]
        if all(counted):
            return all(kinds.names_one((one[1] or one[2]).strip()) for one in counted if one)
        named, figures = words[::2], words[1::2]
        each = len(named) == len(figures) > 1 and all(map(str.isdecimal, figures))
        return each and all(map(kinds.names_one, named))

    def target_over(self, row: list[Any]) -> str:
        """The target that a row names and nothing else, over the units aimed at it: "ALTAR (Stable)"; ""
        where it names none."""
        words = list(dict.fromkeys(str(cell).strip() for cell in row if not blank(cell)))
        if len(words) != 1 or is_total(words[0]):
            return ""
        plain = words[0].strip(" *_=~#<>|·•:-–—.[]{}")
        own = _AIMED.sub("", plain)
        ways = (plain, _before_more(plain), own, _before_more(own))
        names = (self.targets.find(way).name for way in ways if way)
        return next((name for name in names if name), "") or self._lit_by(own)

    def _lit_by(self, words: str) -> str:
        """The target of words that say what lights it too, "DSR wash" or "Specials for the bench"; "" where a
        number stands among them."""
        plain = _AIMED.sub("", _LIGHTS.sub(" ", words).strip(" -–—:,;"))
        if plain == words or re.search(r"\d", words):
            return ""
        meant = self.targets.find(" ".join(plain.split()))
        return meant.name or ""

    def added(self, raw: dict[str, Any], remarks: list[tuple[str, Any]], above: Row | None) -> str:
        """What hangs on the unit above, of a row that says no more: an accessory, or the rest of its note;
        "" where the row is another."""
        if above is None or raw.keys() & {"at", "target", "point", HEIGHT, *AT_PARTS}:
            return ""
        if self.sharing and not raw.keys().isdisjoint(CODES):
            return ""
        words = {key: text_of(cell).strip() for key, cell in raw.items()}
        for key in ("position", "number"):
            if words.get(key) == above.raw.get(key):
                words.pop(key, None)
        loose = [text_of(cell).strip() for _, cell in remarks]
        things = [text for text in (*words.values(), *loose) if is_accessory(text)]
        if things and not [
            k for k in ("position", "number") if k in words and words[k] not in things
        ]:
            return ", ".join([*words.values(), *loose])
        only_note = words.keys() == {"note"} and raw.keys() == {"note"} and not loose
        return words["note"] if only_note and not is_total(words["note"]) else ""

    def is_title(self, row: list[Any]) -> bool:
        """Whether a row is one of those above the headings, but for its figures: "Page 2 of 3"."""
        words = [str(cell).strip() for cell in row if not blank(cell)]
        return all(without_figures(word) in self.titles for word in words)

    def is_added(self, row: list[Any], raw: dict[str, Any]) -> bool:
        """Whether a row is one that pages have at their foot: a label before what it says, arrows to the
        sides, or the count of a kind; and names no position, and no kind and target otherwise."""
        if is_keyed(row):
            return True
        if "position" in raw and self._is_position(raw):
            return not raw.keys() & {"kind", "target", "point"} and is_measured(
                row
            )  # "LX 1 | 24 kg"
        if not raw.keys() & {"number", "at", "target", "point", HEIGHT} and is_headed(row):
            return True
        aimed = raw.keys() & {"target", "point"}
        if "kind" not in raw and not (aimed and "number" in raw) and is_counted(row):
            return True  # "Circuits used: | 11 of 12"
        kind, target = (
            self.fits(key, raw[key]) if key in raw else None for key in ("kind", "target")
        )
        if kind and target:
            return False
        if kind and raw.keys() == {"kind", "target"}:
            return text_of(raw["target"]).strip().isdecimal()  # "Fresnel | 2"
        return not (kind or target) and (are_sides(row) or is_label(row))

    def _is_position(self, raw: dict[str, Any]) -> bool:
        return self.positions.find(text_of(raw["position"])) != Meant()

    def no_unit(self, raw: dict[str, Any]) -> bool:
        """Whether a row is no unit: a total, a remark below the table, a number kept free."""
        if any(is_total(text_of(raw.get(key, ""))) for key in ("position", "number", "at")):
            return True  # "14 | lanterns in total"
        if is_total(text_of(raw.get("kind", ""))) and not self.fits("kind", raw["kind"]):
            return True
        if raw.keys() & {"kind", "target", "point"}:
            if len(raw) == 1 and self.fits(*next(iter(raw.items()))) is False:
                return True  # a remark in the column of targets or kinds
            return len(raw) <= 2 and any(is_total(str(cell)) for cell in raw.values())
        if "number" not in raw:
            return len(raw) <= (1 if self.sharing and not raw.keys().isdisjoint(CODES) else 2)
        if self.sharing:
            return False
        named = "position" in raw and self.positions.find(text_of(raw["position"])).name
        return not raw.keys() & {"at", HEIGHT} or not (named or "position" not in raw)


def _before_more(words: str) -> str:
    """Words without what explains them: "ALTAR (Stable)", "Desk, from both sides"."""
    return re.split(r"\s*[(\[:;,]|\s[-–—]\s", words, maxsplit=1)[0]


# What a row over units says before the name of what they are aimed at: "FOCUS: DSR", "All on the desk".
_AIMED = regex(
    r"(?:(?:all|both|everything|these|units?|lights?|lamps?|lanterns?|fixtures?|instruments?|specials?|wash|cover)\s+)?"
    r"(?:(?:focus(?:s?ed|ing)?|aim(?:ed|ing)?|point(?:ed|ing|s)?|targets?|areas?|subjects?|objects?|purpose"
    r"|light(?:s|ing)?|lit|hits?|covers?|covering|shots?|for)\b\s*(?:area|point)?\s*(?:(?:to|at|on|onto)\b)?"
    r"|(?:on|onto|to)\b)\s*[:=>→-]*\s*(?:the\s+)?(?=[^\s])",
    re.IGNORECASE,
)
# And what beside the name says by what it is lit.
_LIGHTS = regex(
    rf"{BESIDE.pattern}|\b(?:lights|lamps?|lanterns?|units?|fixtures?|specials|washes|keys|fills|backlights|lighting"
    r"|focus)\b",
    re.IGNORECASE,
)
# What stands before the kind in such a row: "Type: PC 1k", "All units are PC 1k".
_KIND_SAID = regex(
    r"^(?:(?:(?:fixture|unit|lamp|lantern|light|instrument)\W{0,2})?(?:types?|kinds?|fixtures?|lanterns?|instruments?"
    r"|luminaires?|appareils?|gerät(?:e|etyp)?|scheinwerfer|typ|tipo|apparecchi|proiettori|lampen|armaturen?)\s*[:=–-]\s*"
    r"|(?:all|every)\s+(?:(?:of\s+)?(?:these|the|them)\s*)?(?:units?|lamps?|lanterns?|lights?|fixtures?|instruments?)?\s*"
    r"(?:are|is|:|=)\s+)",
    re.IGNORECASE,
)
LONGEST_BOTH = 60  # characters of a row that says a position and a kind
_BOTH = regex(r"\s+[-–—/|]+\s+|\s*[:;,()\[\]]\s*|\s+on\s+", re.IGNORECASE)
LONGEST_OVER = 30  # characters of a row that says a colour or a channel
LONGEST_CODE = 8
_CHANNEL_OVER = regex(
    r"(?:ch(?:an(?:nel)?)?|kanal|kan|voie|canale?|kanaal|kanał)\W{0,3}(\d{1,4})", re.IGNORECASE
)
_COLOUR_OVER = regex(
    r"(?:colou?r|gel|filter|filtre|couleur|farbe|filtro|color|kleur|färg|filtr)s?\W{1,3}"
    r"((?:[a-z]{1,2}\s?)?\d{2,4}|n/?c|o/?w)",
    re.IGNORECASE,
)
FEWEST_COUNTED = 2  # kinds of a row that counts them
_COUNTED = regex(
    r"(.*[^\W_])\s*(?:[:=]|\s[-–—]\s|\s[x×])\s*\d{1,3}(?:\s*(?:x|×|pcs?|off|no|nos|units|st|stk|stuks?|ks|szt|kpl)\.?)?"
    r"|\d{1,3}\s*(?:x|×|off|pcs?|stk|st|stuks?)\.?\s+(.*[^\W_].*)",
    re.IGNORECASE,
)
_HOW_MANY = (
    r"(?i)"
    r"\s*[(\[]?\s*(?:(?:x|×|qty\.?)\s*\d{1,3}|\(\s*\d{1,3}\s*\)|\d{1,3}\s*(?:off|no|units|of them))"
    r"\s*[)\]]?\s*:?\s*$"
)


def without_figures(words: str) -> str:
    """Words without their numbers; nothing where they are no words."""
    plain = re.sub(r"\d+", "", words)
    return plain if re.search(r"[^\W_]{2}", plain) else ""


def lined_out(row: Iterable[Any]) -> bool:
    """Whether a line is drawn through all cells of a row of a text, as it is typed there: "~~LX 2~~"."""
    cells = [text_of(cell).strip() for cell in row if not blank(cell)]
    lined = [cell for cell in cells if cell.strip("-–—")]
    return bool(lined) and all(re.fullmatch(r"~~.+~~", cell) for cell in lined)
