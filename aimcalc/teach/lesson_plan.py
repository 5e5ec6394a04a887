"""The teacher's pages of a lesson: the room, its order, marks and sign-off, the rota, what to print."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from aimcalc.named import NamedTuple
from aimcalc.paper.listing import Col, Section, list_pages
from aimcalc.paper.page import Page, body_of
from aimcalc.text import words as w
from aimcalc.text.facts import LONG, SHORT, footer
from aimcalc.text.names import short_unit
from aimcalc.text.rows import rows_of

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig
    from aimcalc.text.stamp import PaperOptions

LEAST, MOST = 4, 40  # people of a class
JOBS = ("ladder", "foot", "deck mark", "sheet")
WATCH = "next up"
DOES = {
    "ladder": "hands at the unit: clamp, safety cable, point, lock, tie",
    "foot": "foots the ladder, hands up and takes down, calls what moves",
    "deck mark": "tapes, spots, the hand to sight at, where the light lands",
    "sheet": "reads the figures out, hears them back, ticks, writes the log",
    WATCH: "stands clear, reads the next row, says STOP when something looks wrong",
}


class Rota(NamedTuple):
    """One group: its members by number, and for each round the job of each of them, in their order."""

    members: tuple[int, ...]
    rounds: tuple[tuple[str, ...], ...]


def groups_of(count: int) -> list[int]:
    """The sizes of the groups of a class: fours, and what is left over spread on them."""
    groups = max(1, count // len(JOBS))
    size, over = divmod(count, groups)
    return [size + (k < over) for k in range(groups)]


def rota(order: Sequence[int]) -> list[Rota]:
    """A rota for the people of a class, `LEAST` to `MOST` of them, in the order in which they are given.

    As many rounds as a group has members: in round r member m has job m + r, counted round. Raises
    ValueError for a class that is smaller or larger.
    """
    if not LEAST <= len(order) <= MOST:
        raise ValueError(f"expected a class of {LEAST} to {MOST}, got {len(order)}")
    found, first = [], 0
    for size in groups_of(len(order)):
        jobs = (*JOBS, *[WATCH] * (size - len(JOBS)))
        rounds = tuple(tuple(jobs[(m + r) % size] for m in range(size)) for r in range(size))
        found.append(Rota(tuple(order[first : first + size]), rounds))
        first += size
    return found


CLASS = LONG[-1][1]
ORDER = (
    "Read the cautions aloud. Show the safety cable, the ladder's own rules, where nobody stands. Name "
    "who is in charge of each group.",
    "Right way up: the quiz, then the wall.",
    "The worksheets, with the aim sheet beside them, before anything is lifted. Marked by the key.",
    "Lay out the room: pipe, zero, tapes, spots. Somebody measures the trim, the drop and the nose; "
    "type them in.",
    "Rounds: each group hangs, points and ties one unit a round, then all move on by one unit and one "
    "job. Each step waits for its signature.",
    "Predict, then light it: the log first, then the light, then the nudges.",
    "Type the log; print the class's page; say what each group learnt to look for.",
    "Strike: cable first; the safety cable stays on until somebody holds the unit. Count everything back.",
)
MARKS = (
    ("safe", "clamp tight and tried, safety cable fitted, ladder footed, nothing loose overhead"),
    ("upright", "clip on top, by its row"),
    ("tail", "below, free, tied within reach, cable doubled back, bow that opens"),
    ("landing", "the light within WITHIN, after the nudges that were counted"),
)
GATED = (
    "Four marks for each unit, given in this order. None is given before the one over it: a unit that "
    "is not safe has no mark for landing well."
)
STAY = (
    "Whoever may not go up does the ladder's job from the deck: says every move, sees it done by one "
    "who may, and checks it by the sheet."
)


def plan_pages(
    show: Show, rotas: Sequence[Rota], printed: Sequence[tuple[str, str]], options: PaperOptions
) -> list[Page]:
    """The pages; `printed` are the files of the pack, each with how many copies of what."""
    rig, length = show.rig, options.length
    sections = [
        _said("IN THIS ORDER", ORDER, note=CLASS),
        Section("THE ROOM", ROOM, _room(rig, length), note=_pipe(rig, length), size=10.0),
        Section(
            "MARKS",
            (Col("mark", 70, bold=True), Col("for", 490, wrap=True)),
            MARKS,
            note=GATED,
            size=10.0,
        ),
        Section(
            "JOBS",
            (Col("job", 70, bold=True), Col("does", 490, wrap=True)),
            [
                (job, DOES[job])
                for job in (
                    *JOBS,
                    *([WATCH] if any(len(r.members) > len(JOBS) for r in rotas) else []),
                )
            ],
            note=STAY,
            size=10.0,
        ),
        *_rotas(rig, rotas),
        Section(
            "PRINT",
            (Col("file", 150, bold=True), Col("copies", 410, wrap=True)),
            printed,
            size=10.0,
        ),
        *_sign_off(rig, rotas),
    ]
    body = body_of(options, landscape=False, cautions=SHORT)
    return list_pages("A LESSON: HANG, POINT, TIE", sections, body, footer(rig, "lesson"), SHORT)


ROOM = (
    Col("unit", 110, bold=True, name=True),
    Col("mark on pipe", 90),
    Col("spot", 80, name=True),
    Col("across", 80),
    Col("up and down stage", 90),
    Col("height", 70),
)


def _room(rig: SolidRig, length: w.LengthUnit) -> list[tuple[str, ...]]:
    """Each unit's mark, and where its spot is."""
    told: list[tuple[str, ...]] = []
    for row, answer in zip(rows_of(rig, (), length), rig.answers, strict=True):
        x, y, z = answer.face
        told.append(
            (
                short_unit(rig, row.k),
                row.hangs[0],
                answer.target or "point",
                w.across(x, length, w.HANG),
                w.upstage(y, length, w.HANG),
                f"{w.length(z, length, w.HANG)} up",
            )
        )
    return told


def _pipe(rig: SolidRig, length: w.LengthUnit) -> str:
    trims = [
        f"{pipe.name} {w.length(pipe.start[2], length, w.HANG)} high" for pipe in rig.scene.pipes
    ]
    return (
        f"{', '.join(trims)}. A qualified person puts it up and says what it may carry. Lenses are hot "
        "and bright at head height: no paper, cloth, hair or eyes near them; keep the distance on each "
        "unit's label."
    )


def _said(title: str, lines: Sequence[str], note: str = "") -> Section:
    told = [(str(k), line) for k, line in enumerate(lines, 1)]
    return Section(
        title, (Col("", 20, bold=True), Col("", 540, wrap=True)), told, note=note, size=10.0
    )


def unit_in_round(units: int, group: int, round_: int) -> int:
    """Which unit a group is at in a round: each group of a wave at another one, all moving on by one."""
    return (group + round_) % units


def _rotas(rig: SolidRig, rotas: Sequence[Rota]) -> list[Section]:
    """A section a group: rounds down, members across."""
    units = len(rig.units)
    waves = -(-len(rotas) // units)
    found = []
    for g, one in enumerate(rotas):
        share = 440.0 / len(one.members)
        columns = (
            Col("round", 36, bold=True),
            Col("unit", 84, name=True),
            *(Col(f"no. {m}", share, wrap=True) for m in one.members),
        )
        told = [
            (str(r + 1), short_unit(rig, unit_in_round(units, g, r)), *jobs)
            for r, jobs in enumerate(one.rounds)
        ]
        wave = (
            f" Wave {g // units + 1} of {waves}: the other waves are at paper meanwhile."
            if waves > 1
            else ""
        )
        note = f"Names: {', '.join(f'{m} ____________' for m in one.members)}.{wave}"
        found.append(
            Section(f"ROTA, GROUP {g + 1}", columns, told, note=note, size=10.0, anew=g == 0)
        )
    return found


def _sign_off(rig: SolidRig, rotas: Sequence[Rota]) -> list[Section]:
    """Boxes for each group and unit, in the order of the marks."""
    columns = (
        Col("unit", 130, bold=True, name=True),
        Col("on the ladder", 110),
        *(Col(word, 64, tick=True) for word, _ in MARKS),
        Col("initials", 64, tick=True),
    )
    units = len(rig.units)
    return [
        Section(
            f"SIGN-OFF, GROUP {g + 1}",
            columns,
            [
                (
                    short_unit(rig, unit_in_round(units, g, r)),
                    f"no. {one.members[jobs.index(JOBS[0])]}",
                )
                for r, jobs in enumerate(one.rounds)
            ],
            note=GATED if not g else "",
            row=22.0,
            size=10.0,
            anew=g == 0,
        )
        for g, one in enumerate(rotas)
    ]
