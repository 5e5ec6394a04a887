"""The head electrician's pages: what to settle first, crew, loads, wedges, counts, tools, progress."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from math import isnan
from typing import TYPE_CHECKING

from aimcalc.findings.nudges import advice, basis, how_many, likely_rows, percent_down
from aimcalc.findings.report import percent
from aimcalc.hang.weights import CABLE
from aimcalc.named import NamedTuple
from aimcalc.paper.listing import Col, Section, list_pages
from aimcalc.paper.page import Page, Target, body_of, write_pages
from aimcalc.rig.wording import listed, weight
from aimcalc.scene.model import Pipe
from aimcalc.sheets.counts import cut_rows, pull_rows
from aimcalc.text import words as w
from aimcalc.text.facts import SHORT, footer, revision_words, trim_words
from aimcalc.text.hang_rows import line_words
from aimcalc.text.ladder_rows import OF_THE_LIGHT
from aimcalc.text.names import short, short_unit
from aimcalc.text.rows import PRINTED
from aimcalc.text.stamp import PaperOptions
from aimcalc.text.tables import counts
from aimcalc.text.wedges import HOW_CUT, MADE_OF, rise_words, wedges_by_pan

if TYPE_CHECKING:
    from aimcalc.hang.records import HangPlan, PositionPlan
    from aimcalc.show import Show
    from aimcalc.solid.answers import Finding
    from aimcalc.solid.rig import SolidRig


MOST_TOLD = 60  # findings; more are counted
SENTENCE = re.compile(r"(?<=[a-z0-9%)\"])\. (?=[A-Z])")

TOLD = (
    Col("where", 76, bold=True, name=True),
    Col("what", 446, wrap=True),
    Col("settled", 46, tick=True),
)
MORE = "Notes, and what would mend each: aimcalc check, with the scene."
HEADINGS = {"stop": "STOPS: nothing goes up before these are fixed", "warn": "Warnings"}
CREW = (
    Col("position", 96, bold=True, name=True),
    Col("units", 34, align="r"),
    Col("people", 42, align="r"),
    Col("up:\nhangs and aims", 98, tick=True),
    Col("foot of\nthe ladder", 98, tick=True),
    Col("deck: tape,\ncalls, landings", 98, tick=True),
    Col("cable\nand plugs", 98, tick=True),
)
LOADS = (
    Col("position", 72, bold=True, name=True),
    Col("trim", 66, wrap=True),
    Col("in all", 64, bold=True, wrap=True),
    Col("posted\nrating", 60, wrap=True),
    Col("each lift line", 252, wrap=True),
    Col("balanced,\ninitials", 56, tick=True),
)
WEDGES = (
    Col("wedge", 44, bold=True),
    Col("cut", 32, bold=True, align="r"),
    Col("set out", 200),
    Col("positions, one each", 230, wrap=True),
    Col("done", 40, tick=True),
)
NUDGED = (
    Col("unit", 130, bold=True, name=True),
    Col("wants a\nnudge", 62, bold=True, align="r"),
    Col("face in\nits beam", 66, align="r"),
    Col("face in\nits field", 66, align="r"),
    Col("lands within\n95 of 100 times", 170, align="r"),
    Col("nudged", 46, tick=True),
)
NUDGES = 6  # units told of
PULLED = (
    Col("item", 190, bold=True),
    Col("take", 50, bold=True, align="r"),
    Col("needed + spare", 100, align="r"),
    Col("in store", 70, align="r"),
    Col("", 92, wrap=True),
    Col("pulled", 46, tick=True),
)
FRAMES = (
    Col("frame", 110, bold=True, wrap=True),
    Col("cut, spares among them", 392, wrap=True),
    Col("cut", 46, tick=True),
)
GEAR = (
    Col("", 336, wrap=True),
    Col("for", 134),
    Col("out", 46, tick=True),
    Col("back", 46, tick=True),
)
BOARD = ("hung", "safety", "upright", "tail", "circuit", "aimed", "tested")
BOARD_ROW = 34.0  # pt, to be ticked with a marker on a wall
NO_SAFETY = ("safety",)  # what a stand on the deck has no step for


NONE, NO_MORE = "none", "who is up"  # at a place: nobody, and nobody more


class Crew(NamedTuple):
    """Who is at one sort of position: how many people, and the four places, empty where a name goes in."""

    people: int
    places: tuple[str, str, str, str]


# Common practice, no source: one up, one who stays at the foot, one on deck, one with the cable.
CREWS = {
    "pipe": Crew(4, ("", "", "", "")),
    "boom": Crew(3, ("", "", "", NO_MORE)),
    "stand": Crew(2, (NONE, NONE, "", "")),
}
CREW_NOTE = (
    "Names go into the boxes; the numbers are what a position usually takes. Who may go up, and how many "
    "must be there, local rules and the head of the crew decide. Nobody is alone at a ladder."
)
LOADS_NOTE = (
    "For the fly operator, who weighs, balances and moves the pipe. Worked out from what was typed, not "
    "measured. Not counted: {left_out}. No posted rating: ask a qualified person before it is loaded."
)

# Common practice, no source.
TOOLS = (
    ("wrench that fits the clamps, on a lanyard", "each who goes up"),
    ("gloves for hot housings, head torch", "each who goes up"),
    ("what the venue's rules ask for height", "each who goes up"),
    ("level or plumb card, on a lanyard; pan dial", "each who goes up"),
    ("long tape measure, spike tape, marker, chalk", "each deck helper"),
    ("pole with heights marked on it, for POLE marks", "each deck helper"),
    ("steel tape for the pipe, saddle labels, tie line", "each position"),
    ("radio or an agreed call, and a word for STOP", "each crew"),
    ("tester for cable and outlets", "those allowed to test"),
    ("SPARE lamps: one of each sort, two of the commonest", "the store"),
    ("SPARE clamp bolts, safety cables, frames, fuses, connectors", "the store"),
    ("SPARE colour: a sheet of each in the cut list", "the store"),
)
TOOLS_NOTE = (
    "Count tools out and back: a missing one may lie on a pipe. Local rules say what else is worn."
)


def head_page(show: Show, target: Target, options: PaperOptions) -> int:
    """Number of pages of the head electrician's pages, written to a path or a binary stream."""
    title = f"{show.rig.scene.settings.title}: head electrician"
    return write_pages(target, head_pages(show, options), options, title=title)


def head_pages(show: Show, options: PaperOptions) -> list[Page]:
    """The pages themselves, upright; the last goes on the wall: the progress board, what to watch."""
    rig = show.rig
    facts, body = footer(rig, "head electrician"), body_of(options, False, SHORT)
    title = f"Head electrician, {revision_words(rig)}"
    return list_pages(title, list(_sections(show, options.length)), body, facts, SHORT)


def _sections(show: Show, length: w.LengthUnit) -> Iterator[Section]:
    rig, plan = show.rig, show.hang
    yield from _told(rig, show.findings)
    used = [position for position in plan.positions if position.units]
    if not used:
        return
    yield Section("Who is where", CREW, _crew_rows(rig, used), CREW_NOTE, row=20, size=12)
    if loads := _load_rows(rig, plan, length):
        note = LOADS_NOTE.format(left_out=listed(_left_out(used)))
        yield Section("Loads", LOADS, loads, note, row=22, size=11)
    if wedges := _wedge_rows(rig, plan, length):
        yield Section("Wedges to cut", WEDGES, wedges, f"{MADE_OF} {HOW_CUT}", row=15, size=11)
    yield Section("Counts", PULLED, _pull_rows(plan), row=15, size=11)
    if plan.cuts:
        yield Section("Colour to cut, by frame", FRAMES, _cut_rows(plan), row=15, size=11)
    yield Section("Tools and spares", GEAR, TOOLS, TOOLS_NOTE, row=15, size=11)
    yield _board(rig, used)
    yield _nudged(show, length)


def _told(rig: SolidRig, findings: Sequence[Finding]) -> Iterator[Section]:
    """Stops, then warnings, the first sentence of each; at most MOST_TOLD in all.

    What the light alone does comes after the rest, and the whole rig before its positions.
    """
    note = f"{counts(findings).removesuffix('.')}. {MORE}"
    worst = [found for found in findings if found.severity in PRINTED]
    worst.sort(key=_turn_of)
    if not worst:
        yield Section("Nothing to settle", TOLD, (), note)
    for severity in PRINTED:
        rows = [_row(rig, found) for found in worst[:MOST_TOLD] if found.severity == severity]
        if rows:
            yield Section(HEADINGS[severity], TOLD, rows, note, row=14, size=10)
            note = ""
    if len(worst) > MOST_TOLD:
        yield Section(f"and {len(worst) - MOST_TOLD} more: see aimcalc check", TOLD, ())


def _turn_of(found: Finding) -> tuple[int, bool, bool]:
    light = found.rule in OF_THE_LIGHT and found.rule != "stock-short"
    return PRINTED.index(found.severity), light, bool(found.unit or found.position)


def _row(rig: SolidRig, found: Finding) -> tuple[str, str]:
    return _where(rig, found), SENTENCE.split(found.says)[0].rstrip(".") + "."


def _where(rig: SolidRig, found: Finding) -> str:
    if found.unit:
        return short_unit(rig, rig.by_name[found.unit])
    return short(rig, found.position) if found.position else "whole rig"


def _crew_rows(rig: SolidRig, used: Sequence[PositionPlan]) -> list[list[str]]:
    rows = []
    for position in used:
        crew = CREWS[position.sort]
        name = short(rig, position.position)
        rows.append([name, str(len(position.units)), str(crew.people), *crew.places])
    return rows


def _load_rows(rig: SolidRig, plan: HangPlan, length: w.LengthUnit) -> list[list[str]]:
    """What each pipe that carries units or has lift lines weighs, and what each of its lines carries."""
    rows = []
    for mine in plan.positions:
        position = rig.scene.positions[mine.position]
        if not isinstance(position, Pipe) or not (mine.units or mine.lines):
            continue
        least = "at least " if mine.missing else ""
        lines = "not worked out: it is curved" if mine.shared == "curved" else ""
        rows.append(
            [
                short(rig, mine.position),
                trim_words(position, length, word=""),
                f"{least}{weight(mine.weight, length)}",
                "none" if mine.rating is None else weight(mine.rating, length),
                line_words(position, mine, length) if mine.lines else lines,
            ]
        )
    return rows


def _left_out(used: Sequence[PositionPlan]) -> list[str]:
    """What no sum has, and "some" of what is in the sums of some units only, each once; cable last."""

    def part(words: str) -> str:
        """The clamps of "3 of 7 clamps"."""
        return words.rpartition(" of ")[2].lstrip("0123456789 ")

    counted = {part(words) for position in used for words in position.counted}
    parts = dict.fromkeys(part(words) for position in used for words in position.left_out)
    told = [f"some {each}" if each in counted else each for each in parts if each != CABLE]
    return [*told, CABLE]


def _nudged(show: Show, length: w.LengthUnit) -> Section:
    """The units to watch first when the light is on."""
    rig, budget = show.rig, show.budget
    told = likely_rows(budget, NUDGES)
    number = how_many(budget.expected)
    note = f"Set as printed, {number} of {w.count(len(rig.units), 'unit')} will want one."
    if not told:
        note = "Set as printed, none is likely to land farther off than it may."
    elif budget.helps:
        note += f" {advice(rig, budget)}"
    note += f" {basis(rig)}"
    rows = [
        [
            short_unit(rig, k),
            percent(budget.nudge[k]),
            percent_down(budget.in_beam[k]),
            percent_down(budget.in_field[k]),
            spread_words(budget.long[k], budget.wide[k], length),
        ]
        for k in told
    ]
    return Section("Likeliest to want a nudge", NUDGED, rows, note, row=18, size=11)


def spread_words(long: float, wide: float, length: w.LengthUnit) -> str:
    """The two widths of where a light may land: "1.50 m by 0.60 m"."""
    if isnan(long):
        return "comes in level"
    return " by ".join(w.length_up(size, length) for size in (long, wide))


def _wedge_rows(rig: SolidRig, plan: HangPlan, length: w.LengthUnit) -> list[list[str]]:
    return [
        [
            w.angle(pan),
            str(len(names)),
            rise_words(pan, length),
            ", ".join(short(rig, name) for name in names),
        ]
        for pan, names in wedges_by_pan(plan).items()
    ]


def _pull_rows(plan: HangPlan) -> list[list[str]]:
    """What to pull for the whole show, but for colours, which have a list of their own."""
    return [
        [item, take, f"{needed} + {spare}", owned, note]
        for item, needed, spare, take, owned, note in pull_rows(plan)
        if item not in {f"colour {cut.colour}" for cut in plan.cuts}
    ]


def _cut_rows(plan: HangPlan) -> list[list[str]]:
    """The colours to cut for each size of frame: "9 cool 1, 2 deep blue"."""
    frames: dict[str, list[str]] = {}
    for frame, colour, _, _, cut in cut_rows(plan):
        frames.setdefault(frame, []).append(f"{cut} of {colour}")
    return [[frame, ", ".join(pieces)] for frame, pieces in frames.items()]


def _board(rig: SolidRig, used: Sequence[PositionPlan]) -> Section:
    """Positions by steps, on a page of its own."""
    columns = (
        Col("position", 120, bold=True, name=True),
        Col("units", 40, align="r"),
        *(Col(step, 56, tick=True) for step in BOARD),
    )
    rows = [
        [
            short(rig, position.position),
            str(len(position.units)),
            *("none" if position.sort == "stand" and step in NO_SAFETY else "" for step in BOARD),
        ]
        for position in used
    ]
    note = (
        "On the wall. Tick when every unit of the position is there, and somebody has looked again."
    )
    return Section("Progress board", columns, rows, note, row=BOARD_ROW, size=14, anew=True)
