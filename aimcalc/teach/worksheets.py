"""The drill on paper: a worksheet for each student, and the key."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import TYPE_CHECKING

from aimcalc.named import NamedTuple
from aimcalc.paper.page import KEY, THIN, Page, Sheet, Target, body_of, write_pages
from aimcalc.teach.drill import Drill, answer_words, near_words
from aimcalc.teach.explain_page import sign_boxes
from aimcalc.teach.question import Question
from aimcalc.text.facts import footer
from aimcalc.text.stamp import PaperOptions
from aimcalc.text.typeset import BOLD, LEADING, REGULAR, wrap

if TYPE_CHECKING:
    from aimcalc.show import Show


TITLE, HEADING, TYPE, KEY_TYPE = 18.0, 12.5, 11.0, 10.0  # pt
LINE = 17.0  # pt, the room of an answer
GAP = 3.5
BOXES = 24.0  # pt, what whoever is in charge signs
NUMBER = 22.0  # pt, the column of the numbers
HEADS = {
    "safe": "SAFE: what the pipe carries",
    "upright": "UPRIGHT: which way up",
    "tail": "TAIL: where it is tied, where the cable lies",
    "landing": "LANDING: where it hangs, which way it turns, how far it tips",
}
HINTS = {
    "place": "with its side",
    "length": "with its unit",
    "angle": "degrees",
    "weight": "with its unit",
    "unit": "number",
}
CAUTION = (
    "On paper and on the deck only: nobody climbs for this sheet. Who is under age or not trained stays on "
    "the deck unless local rules say otherwise. Local rules and qualified people come first."
)
SIGN = "Name __________________________   Date ______________   Checked by ____________________"


class Part(NamedTuple):
    """Something of a page: its height, and what draws it below a y."""

    high: float
    draw: Callable[[Sheet, float], None]


def worksheets(show: Show, work: Drill, target: Target, options: PaperOptions) -> int:
    """Number of pages of all worksheets, a student's on pages of their own."""
    pages: list[Page] = []
    for student, questions in enumerate(work.sheets, start=1):
        facts = footer(show.rig, f"worksheet {student}")
        boxes = Part(BOXES, sign_boxes)
        parts = [*_head(f"Worksheet {student}", SIGN), boxes, *_asked(questions, options)]
        pages += _cut(parts, facts, options)
    title = f"{show.rig.scene.settings.title}: worksheets"
    return write_pages(target, pages, options, title=title)


def key_pages(show: Show, work: Drill, target: Target, options: PaperOptions) -> int:
    """Number of pages of the key: every answer, how near is right, and what each mistake gives."""
    pages: list[Page] = []
    for student, questions in enumerate(work.sheets, start=1):
        facts = footer(show.rig, f"key {student}")
        lead = "For whoever marks. Marks are given in this order: safe, upright, tail, landing."
        parts = [*_head(f"Key to worksheet {student}", lead), *_answers(work, questions, options)]
        pages += _cut(parts, facts, options)
    title = f"{show.rig.scene.settings.title}: key"
    return write_pages(target, pages, options, title=title)


def _cut(parts: Sequence[Part], facts: str, options: PaperOptions) -> list[Page]:
    """Parts on as many pages as they need."""
    room = body_of(options, False, CAUTION).height
    lots: list[list[Part]] = [[]]
    used = 0.0
    for part in parts:
        if lots[-1] and used + part.high > room:
            lots.append([])
            used = 0.0
        lots[-1].append(part)
        used += part.high
    return [Page(partial(_draw, lot), facts, CAUTION) for lot in lots]


def _draw(parts: Sequence[Part], sheet: Sheet) -> None:
    y = sheet.body.top
    for part in parts:
        part.draw(sheet, y)
        y -= part.high


def _head(title: str, under: str) -> Iterator[Part]:
    yield Part(TITLE + 10, partial(_line, title, TITLE, True))
    yield Part(24.0, partial(_line, under, TYPE, False))


def _line(words: str, size: float, bold: bool, sheet: Sheet, top: float) -> None:
    body = sheet.body
    sheet.text(body.left, top - size - 2, words, size, bold=bold, width=body.width)


def _group(words: str, sheet: Sheet, top: float) -> None:
    body, y = sheet.body, top - HEADING - 6
    sheet.text(body.left, y, words, HEADING, bold=True, width=body.width)
    sheet.line(body.left, y - 4, body.right, y - 4, weight=KEY)


def _asked(questions: Sequence[Question], options: PaperOptions) -> Iterator[Part]:
    width = body_of(options, False, CAUTION).width - NUMBER
    group = ""
    for number, question in enumerate(questions, start=1):
        if question.group != group:
            group = question.group
            yield Part(HEADING + 14, partial(_group, HEADS[group]))
        lines = wrap(question.asks, REGULAR, TYPE, width)
        hint = ", ".join(question.choices) or HINTS[question.form]
        high = len(lines) * TYPE * LEADING + LINE + GAP
        yield Part(high, partial(_question, number, lines, hint))


def _question(number: int, lines: Sequence[str], hint: str, sheet: Sheet, top: float) -> None:
    body = sheet.body
    sheet.text(body.left, top - TYPE, str(number), TYPE + 1, bold=True)
    y = top
    for line in lines:
        sheet.text(body.left + NUMBER, y - TYPE, line, TYPE)
        y -= TYPE * LEADING
    y -= LINE - 3
    sheet.line(body.left + NUMBER, y, body.left + body.width * 0.55, y, weight=THIN)
    sheet.text(body.left + body.width * 0.57, y + 1, f"({hint})", TYPE)


def _answers(work: Drill, questions: Sequence[Question], options: PaperOptions) -> Iterator[Part]:
    width = body_of(options, False, CAUTION).width - NUMBER
    group = ""
    for number, question in enumerate(questions, start=1):
        if question.group != group:
            group = question.group
            yield Part(HEADING + 14, partial(_group, HEADS[group]))
        near = near_words(question, work.unit)
        within = f", within {near}" if near else ""
        told = answer_words(question, question.answer, work.unit)
        wrong: dict[str, list[str]] = {}
        for each in question.mistakes:
            wrong.setdefault(each.name, []).append(answer_words(question, each.gives, work.unit))
        lines = wrap(f"{question.subject}, {question.sort}: {told}{within}", BOLD, TYPE, width)
        more = "; ".join(f"{name}: {' or '.join(gives)}" for name, gives in wrong.items())
        under = wrap(f"If wrong: {more}.", REGULAR, KEY_TYPE, width)
        high = len(lines) * TYPE * LEADING + len(under) * KEY_TYPE * LEADING + GAP
        yield Part(high, partial(_answer, number, lines, under))


def _answer(
    number: int, lines: Sequence[str], under: Sequence[str], sheet: Sheet, top: float
) -> None:
    body, y = sheet.body, top
    sheet.text(body.left, top - TYPE, str(number), TYPE + 1, bold=True)
    for line in lines:
        sheet.text(body.left + NUMBER, y - TYPE, line, TYPE, bold=True)
        y -= TYPE * LEADING
    for line in under:
        sheet.text(body.left + NUMBER, y - KEY_TYPE, line, KEY_TYPE)
        y -= KEY_TYPE * LEADING
