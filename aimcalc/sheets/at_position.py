"""What the two sheets of a position share: who stands where, which units are printed, where its tapes lie."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, TypeVar

from aimcalc.named import NamedTuple
from aimcalc.paper.page import Page, Sheet, Target, body_of, write_pages
from aimcalc.paper.stance import Stance, stance_of
from aimcalc.scene.model import Boom, Pipe, Position, Stand
from aimcalc.sheets.guide import Guide, Tape
from aimcalc.sheets.sides import Block, Column, Side, edges_of, side_pages
from aimcalc.text import words as w
from aimcalc.text.facts import ON_STAND, SHORT, drop_and_face, footer, stand_words, trim_words
from aimcalc.text.names import short, short_number
from aimcalc.text.rows import zero_words
from aimcalc.text.stamp import PaperOptions

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig


Row = TypeVar("Row")
LONGEST_NUMBER = 6  # letters of a unit's number in the START END box


class At(NamedTuple):
    """One position that has units to print: `printed` are their places in the rig's hang order."""

    name: str
    position: Position
    stance: Stance
    tape: Tape | None
    printed: list[int]
    start: str  # "1 = SL END"; empty where the first unit is not printed


def at_positions(rig: SolidRig, options: PaperOptions) -> list[At]:
    """Every position that has units to print, in hang order."""
    found = []
    for name, members in rig.rows.items():
        printed = [k for k in members if options.holds(rig.names[k])]
        if printed:
            stance = stance_at(rig, name)
            first = stance.start if printed[0] == members[0] else ""
            number = short_number(rig, members[0], LONGEST_NUMBER)
            start = f"{number} = {first}" if first else ""
            tape = _tape(rig, name, options.length)
            found.append(At(name, rig.scene.positions[name], stance, tape, printed, start))
    return found


def stance_at(rig: SolidRig, name: str) -> Stance:
    """Where the reader of a position's row stands."""
    members = rig.rows[name]
    units, answers = [rig.units[k] for k in members], [rig.answers[k] for k in members]
    return stance_of(rig.scene.positions[name], units, answers)


def sides_by_position(
    show: Show,
    options: PaperOptions,
    rows_of: Callable[[Show, w.LengthUnit, dict[str, str]], Sequence[Row]],
    sides: Callable[[Show, At, Sequence[Row], PaperOptions], Iterable[Page]],
) -> dict[str, list[Page]]:
    """The sides of every position that has units to print, by its name, from the rows of all units."""
    rig = show.rig
    facing = {name: stance_at(rig, name).facing for name, members in rig.rows.items() if members}
    rows = rows_of(show, options.length, facing)
    return {at.name: list(sides(show, at, rows, options)) for at in at_positions(rig, options)}


def note_of(rig: SolidRig, at: At, length: w.LengthUnit) -> str:
    """What stands beside a position's name: its trim or its place, and where its clamps open."""
    note = trim_words(at.position, length)
    if isinstance(at.position, Stand):
        note = f"stand at {', '.join(stand_words(rig, at.position, length))}"
    elif isinstance(at.position, Boom):
        note += f", at {w.place(at.position.x, at.position.y, length, w.SIZE)}"
    return ", ".join(filter(None, (note, at.stance.mouths)))


def pages_at(
    rig: SolidRig,
    at: At,
    title: str,
    columns: Sequence[Column],
    guide: Guide,
    blocks: Sequence[Block],
    told: Sequence[tuple[str, str]],
    options: PaperOptions,
    shouted: Sequence[str] = (),
) -> Iterator[Page]:
    """The sides of one sheet of a position."""
    cautions = ON_STAND if isinstance(at.position, Stand) else SHORT
    body = body_of(options, True, cautions)
    side = Side(
        name=short(rig, at.name),
        title=title,
        note=note_of(rig, at, options.length),
        stance=at.stance,
        start=at.start,
        columns=columns,
        edges=edges_of(columns, body.left, body.right),
        guide=guide,
        shouted=shouted,
        below=title == "DECK",
        cautions=cautions,
    )
    facts = [title.lower(), *drop_and_face(rig, rig.rows[at.name], options.length)]
    yield from side_pages(side, blocks, told, body, footer(rig, at.name, facts))


def write_sides(
    show: Show,
    target: Target,
    options: PaperOptions,
    what: str,
    pages: Callable[[Show, PaperOptions], dict[str, list[Page]]],
) -> int:
    """Number of pages of one sheet of every position, written to a path, a binary stream or a book."""
    rig = show.rig
    every = [page for sides in pages(show, options).values() for page in sides]
    every = every or [Page(_draw_none, footer(rig, what), SHORT)]
    title = f"{rig.scene.settings.title}: {what}"
    return write_pages(target, every, options, title=title, landscape=True)


def _draw_none(sheet: Sheet) -> None:
    sheet.text(sheet.body.left, sheet.body.top - 20, "This scene has no units.", 14)


def _tape(rig: SolidRig, name: str, length: w.LengthUnit) -> Tape | None:
    """The sight tapes of a position; None where it has none."""
    position = rig.scene.positions[name]
    if not isinstance(position, Pipe):
        return None
    level = abs(position.end[1] - position.start[1]) < 1e-9
    outs: dict[str, str] = {}
    lies: dict[str, str] = {}
    spots = [
        further.rig.answers[k]
        for further in rig.further
        if not further.positions
        for k in further.rows
        if rig.units[k].position == name
    ]
    for answer in (*(rig.answers[k] for k in rig.rows[name]), *spots):
        if answer.square and answer.sight is not None and answer.sight_out is not None:
            outs[answer.square] = w.length(answer.sight_out, length, w.HANG)
            if level and position.through is None and answer.square in ("US", "DS"):
                out = answer.sight_out if answer.square == "US" else -answer.sight_out
                lies[answer.square] = _from_plaster(position.start[1] + out, length)
    if not outs:
        return None
    return Tape(outs, zero_words(position), not (level and position.zero == "centre line"), lies)


def _from_plaster(y: float, length: w.LengthUnit) -> str:
    """Where a tape across the stage lies: "1'-0\" DS of the plaster line"."""
    told = w.upstage(y, length, w.HANG)
    return f"{told} of the plaster line" if told.split()[-1] in w.SIDES else "on the plaster line"
