"""The channel, circuit, colour and mount of a unit, as cells say them: two in one, with words beside, or as
days: a spreadsheet takes circuit 3-4 for the fourth of March or the third of April."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.document import ASKED, ask
from aimcalc.scene.hanglist.columns.columnkeys import COUPLED, Column, Headings
from aimcalc.scene.hanglist.names.spelling import fold_code
from aimcalc.scene.hanglist.rows.cellaside import of_both, of_colour, of_plug
from aimcalc.scene.hanglist.rows.cellfits import CHANNEL, CIRCUIT, CellFits
from aimcalc.scene.hanglist.rows.listrow import NO_GEL, any_of, day_of, text_of
from aimcalc.scene.hanglist.rows.plugwords import without, word_of
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.mistakes import Log, Where, Wrong

LONGEST_PLUG = 50  # of a channel, a circuit or a colour with what stands beside it


class PlugCells:
    """Reads what a unit is plugged into, what is before it and how it is mounted."""

    def __init__(self, fits: CellFits, noticed: Noticed) -> None:
        self.fits, self.noticed = fits, noticed
        self.words: dict[str, str] = {}  # before the number in every cell, by key

    def take_column(self, column: Column, cells: Iterable[Any]) -> None:
        """Know the word that all cells of a column have before their number."""
        if column.key in _OF_DESK and not column.settled:
            self.words[column.key] = word_of(column.key, column.heading, cells)

    def gel_out(self, raw: dict[str, Any], headings: Headings) -> None:
        """Part a gel from the kind before it, "PC 500 + L205" or "PC 500 L205", where no column is that of
        colours, or that has the same."""
        text = text_of(raw.get("kind", ""))
        parts = (
            _AND_GEL.fullmatch(text) or _GEL_BEHIND.fullmatch(text)
            if len(text) <= LONGEST_PLUG
            else None
        )
        told = text_of(raw.get("colour", parts[2] if parts else "")).strip()
        same = parts is not None and told.casefold() == parts[2].casefold()
        free = "colour" not in headings.by_key or same
        if parts and free and not self.fits("kind", text) and self.fits("kind", parts[1]):
            raw["kind"], raw["colour"] = parts[1], parts[2]
            self.noticed.read_as("kind", text, f"{parts[1]}, with the colour {parts[2]}")
        note = text_of(raw.get("note", "")).strip()
        if headings.by_key.keys() & {"colour", *COUPLED} or "colour" in raw:
            return
        if self.fits("lettered gel", note):  # "R80" among the remarks
            raw["colour"] = raw.pop("note")
            self.noticed.read_as("note", note, f"the colour {note}")

    def part_coupled(
        self, raw: dict[str, Any], remarks: list[tuple[str, Any]], headings: Headings
    ) -> None:
        """Part a channel and a circuit that stand in one cell: "12/101", "(12) 101"."""
        for key in COUPLED:
            if key not in raw:
                continue
            cell = raw.pop(key)
            apart = r"[^/,;|]+" if "colour" in key else r"\w+"
            parts = [part.strip() for part in re.findall(apart, text_of(cell))]
            first, _, second = key.partition("+")
            if len(parts) == 2 and not raw.keys() & {first, second}:
                raw[first], raw[second] = parts
                self.noticed.read_as(
                    first, text_of(cell), f"{first} {parts[0]}, {second} {parts[1]}"
                )
            else:
                remarks.append((headings.by_key[key].heading, cell))

    def plugs_out(self, raw: dict[str, Any], remarks: list[tuple[str, Any]]) -> None:
        """Take words beside a channel, a circuit or a colour for a remark, "12 (spare)", "L201 (new)", and
        part a channel and a circuit that one cell names, "Ch 12 / Dim 34"."""
        for key, other in (("channel", "circuit"), ("circuit", "channel")):
            text = text_of(raw[key]).strip() if raw.get(key) not in (None, ASKED) else ""
            if text.isdecimal() or len(text) > LONGEST_PLUG:
                continue
            plain = without(self.words.get(key, ""), text)
            if plain != text:
                self.noticed.read_as(key, text, plain)
                raw[key] = text = plain
            both = of_both(text)
            if both:
                mine, its = both if key == "channel" else both[::-1]
                raw[key] = mine
                if raw.setdefault(other, its) is not ASKED and text_of(raw[other]).strip() != its:
                    remarks.append((other, its))
                self.noticed.read_as(key, text, f"{key} {mine}, {other} {its}")
            elif aside := of_plug(text):
                raw[key] = aside.value
                remarks.append(("", aside.words))
                self.noticed.read_as(key, text, aside.value)
        text = text_of(raw["colour"]).strip() if raw.get("colour") not in (None, ASKED) else ""
        coded = self.fits.around.codes.get("colour", {}).get(fold_code(text)) if text else None
        if coded:
            raw["colour"] = coded
            self.noticed.read_as("colour", text, coded)
            return
        bracketed = re.fullmatch(r"[(\[]\s*(\w+)\s*[)\]]", text[:LONGEST_PLUG])
        if bracketed and self.fits("gel", bracketed[1]):  # "(L202)"
            raw["colour"] = bracketed[1]
            self.noticed.read_as("colour", text, bracketed[1])
            return
        aside = of_colour(text) if len(text) <= LONGEST_PLUG else None
        if aside and (self.fits("gel", aside.value) or self.fits("gel code", aside.value)):
            raw["colour"] = aside.value
            remarks.append(("", aside.words))
            self.noticed.read_as("colour", text, aside.value)

    def read(self, raw: dict[str, Any]) -> None:
        """Put what is left in these cells into the words of a scene."""
        for key, prefix in (("channel", CHANNEL), ("circuit", CIRCUIT)):
            if key in raw and raw[key] is not ASKED:
                text = text_of(raw[key]).strip()
                if text[:1].casefold() not in _TOLD_FIRST:
                    raw[key] = text
                    continue
                bare = re.sub(r"^[(\[<{]\s*(\w+)\s*[)\]>}]$", r"\1", text)
                raw[key] = re.sub(prefix, "", bare)
                if raw[key] != bare:
                    self.noticed.read_as(key, text, raw[key])
        if text_of(raw.get("colour", "")).strip().casefold() in NO_GEL:
            raw.pop("colour")
        mount = raw.get("mount")
        if isinstance(mount, str):
            word = _MOUNTS.get(re.sub(r"[^a-z]", "", mount.casefold()))
            if word and word != mount.strip().casefold():
                self.noticed.read_as("mount", mount, word)
                raw["mount"] = word
        share = raw.get("transmission")
        percent = (
            re.fullmatch(r"\s*(\d+(?:[.,]\d+)?)\s*%\s*", share) if isinstance(share, str) else None
        )
        if percent:
            raw["transmission"] = float(percent[1].replace(",", ".")) / 100
        if isinstance(raw.get("precise"), str) and raw["precise"].strip() in "✓✔☑":
            raw["precise"] = True


class PlugDays:
    """Reads the circuits of a column that have become days, by those of it that have not."""

    def __init__(self, log: Log, noticed: Noticed) -> None:
        self.log, self.noticed = log, noticed
        self.mark = "/"  # between the two figures of a circuit
        self.month_first: bool | None = None  # how the days were written; None where nothing tells

    def take_column(self, cells: Iterable[Any]) -> None:
        """Know how the circuits of a column are written, and so which figure of its days came first: one that
        others begin with."""
        cells = list(cells)
        days = [day for day in map(day_of, cells) if day is not None]
        if not days:
            return
        pairs = [found for cell in cells if (found := _TWO_FIGURES.fullmatch(text_of(cell)))]
        if pairs:
            self.mark = pairs[0][2]
        begins = {int(found[1]) for found in pairs}
        by_month = bool(begins) and all(month in begins for month, _ in days)
        by_day = bool(begins) and all(day in begins for _, day in days)
        self.month_first = by_month if by_month != by_day else None

    def read(self, raw: dict[str, Any], where: Where) -> None:
        """Read a circuit that is a day; ask where it may be two."""
        cell = raw.get("circuit")
        day = day_of(cell)
        if day is None:
            return
        ways = [f"{first}{self.mark}{second}" for first, second in (day, day[::-1])]
        if self.month_first is not None or ways[0] == ways[1]:
            raw["circuit"] = ways[0] if self.month_first else ways[1]
            self.noticed.read_as("circuit", text_of(cell), f"{raw['circuit']}, which became a date")
            return
        wrong = Wrong(
            f"one circuit: a spreadsheet made a date of it, which was {any_of(ways)}",
            "Format the column as text, and type the circuit again.",
            came=text_of(cell),
        )
        ask(self.log, raw, where, "circuit", wrong, cell)


_TWO_FIGURES = regex(r"\s*(\d{1,4})\s*([-–/.])\s*\d{1,4}\s*")
_OF_DESK = ("channel", "circuit")
_AND_GEL = regex(
    r"(.*\w)\s*(?:[+,/&]|\s[-–—]|\bw/)\s*([a-z]{1,2}\s?\d{2,4}|[no]/?[cw])", re.IGNORECASE
)
_GEL_BEHIND = regex(r"(.*\w)\s+[(\[]?\s*([lrg]\d{2,4})\s*[)\]]?", re.IGNORECASE)
_TOLD_FIRST = "([<{cd"  # what a bracket, or the word for a channel or a circuit, begins with
_MOUNTS = {
    **dict.fromkeys(
        ("under", "underhung", "underslung", "hungunder", "yokedown", "hanging", "down"), "under"
    ),
    **dict.fromkeys(
        ("over", "overhung", "tophung", "ontop", "standing", "standingover", "yokeup"), "over"
    ),
    **dict.fromkeys(("arm", "sidearm", "onsidearm", "onarm"), "arm"),
    **dict.fromkeys(("out", "outrigged", "swungout", "yokeout"), "out"),
    **dict.fromkeys(("direct", "straight", "clampeddirect"), "direct"),
    **dict.fromkeys(
        ("stand", "floorstand", "floor", "onstand", "floorbase", "baseplate", "onbase"), "stand"
    ),
}
