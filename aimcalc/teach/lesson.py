"""A lesson in a folder: a scene of a low pipe to edit, and all the paper that a class needs with it."""

from __future__ import annotations

import os
import random
from collections.abc import Callable, Sequence
from io import BytesIO
from typing import TYPE_CHECKING

from aimcalc.named import NamedTuple
from aimcalc.paper.page import write_pages
from aimcalc.rig.letters import lending
from aimcalc.sheets.aim_sheets import aim_sheets
from aimcalc.sheets.steps import steps_pages
from aimcalc.teach.cable_page import cable_pages
from aimcalc.teach.class_page import log_csv, log_pages
from aimcalc.teach.drill import Drill, drill
from aimcalc.teach.lesson_plan import Rota, plan_pages, rota
from aimcalc.teach.marking import blank_answers
from aimcalc.teach.way_up import way_up_pages
from aimcalc.teach.worksheets import key_pages, worksheets
from aimcalc.text.whole import whole_set

if TYPE_CHECKING:
    from aimcalc.paper.page import Page
    from aimcalc.show import Show
    from aimcalc.text.stamp import PaperOptions

SCENE = "scene.toml"
OWN_SCENE = os.path.join(os.path.dirname(__file__), "practice.toml")
PLAN, LOG, ANSWERS = "1-lesson.pdf", "log.csv", "answers.csv"
TYPED = (LOG, ANSWERS)
LEVEL = 2  # of the worksheets: what is worked out from the plot


class Piece(NamedTuple):
    """One file of a pack: its name, how many copies of it, what makes it."""

    file: str
    copies: str
    make: Callable[[Show, PaperOptions], bytes]


def own_scene() -> bytes:
    """The scene of a lesson, as it is written into a folder that has none."""
    with open(OWN_SCENE, "rb") as file:
        return file.read()


def write_lesson(
    show: Show, folder: str, options: PaperOptions, *, students: int, seed: int
) -> list[Piece]:
    """Write the pack of a show into a folder, whole or not at all, beside its scene; its pieces come back.

    The same show, options, class and seed give the same bytes; what is typed in there already stays. Raises
    ValueError for a class of a size that has no rota, OSError when the disk refuses.
    """
    order = list(range(1, students + 1))
    random.Random(seed).shuffle(order)
    rotas = rota(order)
    typed = {name for name in TYPED if os.path.lexists(os.path.join(folder, name))}
    work = drill(show, seed=seed, students=students, level=LEVEL)
    pieces = [each for each in pieces_of(rotas, work, seed) if each.file not in typed]
    with lending(show.rig.lent), whole_set(folder) as hidden:
        for piece in pieces:
            with open(os.path.join(hidden, piece.file), "wb") as stream:
                stream.write(piece.make(show, options))
    return pieces


def pieces_of(rotas: Sequence[Rota], work: Drill, seed: int) -> list[Piece]:
    """The pieces of a pack in the order in which they are needed; `work` are its worksheets."""
    groups = [str(g + 1) for g in range(len(rotas))]
    people = sum(len(one.members) for one in rotas)
    each, group = f"{people}, one for each", f"{len(groups)}, one for each group"
    rest = [
        Piece(
            "2-right-way-up.pdf",
            f"page 1: {each}; page 2: one for the wall",
            _paged(lambda s, o: way_up_pages(o, seed), "right way up"),
        ),
        Piece("3-steps-card.pdf", f"{group}, both sides", _paged(steps_pages, "steps card")),
        Piece("4-aim-sheet.pdf", group, _aim),
        Piece(
            "5-cable-and-knots.pdf",
            group,
            _paged(lambda s, o: cable_pages(s, 0, o), "cable and knots"),
        ),
        Piece(
            "6-log-sheet.pdf",
            "one: a page for each group",
            _paged(lambda s, o: log_pages(s, groups, o), "log", lying=True),
        ),
        Piece("7-worksheets.pdf", f"one: a sheet for each of {people}", _written(work, worksheets)),
        Piece("8-key.pdf", "one, for whoever marks", _written(work, key_pages)),
        Piece("9-light-plot.pdf", group, _plot),
        Piece(LOG, "to type the log into", lambda show, options: log_csv(show, groups)),
        Piece(ANSWERS, "to type the answers into", lambda show, options: blank_answers(work)),
    ]
    printed = [(PLAN, "one, for whoever teaches"), *((piece.file, piece.copies) for piece in rest)]
    plan = Piece(
        PLAN, printed[0][1], _paged(lambda s, o: plan_pages(s, rotas, printed, o), "lesson")
    )
    return [plan, *rest]


def _paged(
    pages: Callable[[Show, PaperOptions], list[Page]], title: str, *, lying: bool = False
) -> Callable[[Show, PaperOptions], bytes]:
    """What makes a PDF of pages."""

    def make(show: Show, options: PaperOptions) -> bytes:
        out = BytesIO()
        named = f"{show.scene.settings.title}: {title}"
        write_pages(out, pages(show, options), options, title=named, landscape=lying)
        return out.getvalue()

    return make


def _written(
    work: Drill, make: Callable[[Show, Drill, BytesIO, PaperOptions], int]
) -> Callable[[Show, PaperOptions], bytes]:
    """What makes the worksheets, or their key."""

    def made(show: Show, options: PaperOptions) -> bytes:
        out = BytesIO()
        make(show, work, out, options)
        return out.getvalue()

    return made


def _plot(show: Show, options: PaperOptions) -> bytes:
    from aimcalc.sheets.plot.light_plot import light_plot

    out = BytesIO()
    light_plot(show, out, BytesIO(), BytesIO(), options)
    return out.getvalue()


def _aim(show: Show, options: PaperOptions) -> bytes:
    out = BytesIO()
    aim_sheets(show, out, options)
    return out.getvalue()
