"""What the page on the phone says: the words of the ladder and the deck sheets, position by position."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.paper.stance import stance_words
from aimcalc.rig.places import tubes_of
from aimcalc.scene.model import Boom, Pipe
from aimcalc.sheets.at_position import At, at_positions, note_of, stance_at
from aimcalc.sheets.deck import deck_acts, deck_lines
from aimcalc.sheets.ladder import ACT, act_rows, guide_lines
from aimcalc.sheets.ladder_row import pipe_columns, upright_columns
from aimcalc.sheets.phone.pictures import pictures
from aimcalc.sheets.phone.throws import deck_of, throws_of
from aimcalc.sheets.plans.rims import level_rims
from aimcalc.text.deck_rows import DeckRow, deck_rows
from aimcalc.text.facts import SHORT, position_facts, revision_words
from aimcalc.text.ladder_rows import SHOUTED, LadderRow, ladder_rows, position_findings
from aimcalc.text.names import short
from aimcalc.text.rows import heading_bases, rows_of, zero_words
from aimcalc.text.stamp import PaperOptions
from aimcalc.text.words import SIDES

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig

EVERY = 6  # of the corners of a pool's edge, those that a small plan needs

# A cell of a unit's page: label, what it counts from, figures (large), words beside them, whether it shouts.
Cell = tuple[str, str, list[str], list[str], bool]


def told(show: Show, options: PaperOptions) -> dict[str, Any]:
    """All that the page holds, as what JSON can hold. Metres and radians where it is no words."""
    rig = show.rig
    positions = at_positions(rig, options)
    facing = {name: stance_at(rig, name).facing for name, members in rig.rows.items() if members}
    ladder = ladder_rows(show, options.length, facing)
    deck = deck_rows(show, options.length, facing)
    stamp = options.stamp
    return {
        "title": rig.scene.settings.title,
        "revision": revision_words(rig),
        "set": stamp.words,
        "over": ", ".join(filter(None, (options.draft_words, options.part_words))),
        "caution": SHORT,
        "unit": rig.scene.settings.own_unit,
        "length": options.length,
        "deck": deck_of(rig),
        "solids": [solid.name for solid in rig.scene.solids],
        "positions": [_position(show, at, ladder, deck, options) for at in positions],
        "units": _units(show, positions, ladder, deck, options),
        "plan": _plan(rig),
    }


def _position(
    show: Show,
    at: At,
    ladder: Sequence[LadderRow],
    deck: Sequence[DeckRow],
    options: PaperOptions,
) -> dict[str, Any]:
    rig, rows = show.rig, [ladder[k] for k in at.printed]
    below = [deck[k] for k in at.printed]
    return {
        "name": at.name,
        "short": short(rig, at.name),
        "where": note_of(rig, at, options.length),
        "facts": position_facts(rig, at.name, options.length),
        "stance": stance_words(at.stance),
        "start": at.start,
        "lines": [
            *guide_lines(show, at, rows),
            *((ACT, said) for said, _ in act_rows(show, at, options)),
        ],
        "deck": [*deck_lines(rig, at, below, options.length), *deck_acts(show, at, options)],
        "told": position_findings(show.findings, at.name),
    }


def _units(
    show: Show,
    positions: Sequence[At],
    ladder: Sequence[LadderRow],
    deck: Sequence[DeckRow],
    options: PaperOptions,
) -> list[dict[str, Any]]:
    rig = show.rig
    rows = rows_of(rig, show.findings, options.length)
    throws = throws_of(rig, heading_bases(rig), options.length)
    made = []
    for n, at in enumerate(positions):
        acts = [{row.k: row for row in then} for _, then in act_rows(show, at, options)]
        for k in at.printed:
            unit, stopped = rig.units[k], rows[k].turn == "STOP"
            made.append(
                {
                    "name": rig.names[k],
                    "position": n,
                    "number": ladder[k].number,
                    "number_whole": unit.number,
                    "channel": unit.channel or "",
                    "target": unit.target or "",
                    "cells": [*cells(at, ladder[k]), *deck_cells(ladder[k], deck[k])],
                    "acts": [[then[k].channel, cells(at, then[k])] for then in acts],
                    "call": deck[k].call,
                    "told": [[word, says, word in SHOUTED] for word, says in ladder[k].told],
                    **pictures(rig, rows[k], at.stance),
                    "throw": None if stopped else throws[k],
                    "at": _cm(rig.aims.pivot[:2, k]),
                    "stops": _stops(rig, k),
                    "pool": _pool(rig, k),
                }
            )
    return made


def cells(at: At, row: LadderRow) -> list[Cell]:
    """The figures of one unit as its ladder row has them, under the heads of its columns, in their order."""
    (figure, side), sight = row.sight, " ".join(row.sight)
    word, angle, plumb = row.tip
    tip = [angle or word, f"plumb {plumb}" if plumb else ""]
    over = ["OVER PIPE" if row.over else "", row.how]
    tail, far = row.tail
    tape = "SIGHT TAPE" if at.tape else "NO TAPE"
    of_row: dict[str, tuple[Sequence[str], Sequence[str]]] = {
        "HANG AT": ([" ".join(row.hang)], over),
        "STAND AT": (row.stands, ()),
        "SQUARE": ([row.square], ["AT YOU" if row.at_you else ""]),
        "FACES": ([row.square], ()),
        tape: (
            [sight if side in SIDES else figure],
            ["" if side in SIDES else side, row.sight_note],
        ),
        "HEADING": ([sight], [row.sight_note]),
        "SWING": ([row.swing], [row.swing_note]),
        "AT CLAMP": ([row.swing], [row.swing_note]),
        "DOWN / UP": (tip, ()),
        "WITHIN": (row.within, ()),
        "TAIL": ([tail], [far]),
    }
    if isinstance(at.position, Pipe):
        columns = pipe_columns(zero_words(at.position), tape)
    else:
        columns = upright_columns(bool(row.swing), isinstance(at.position, Boom))
    found = []
    for label, of in (column.head for column in columns if column.draw):
        figures, words = of_row.get(label, ((), ()))
        if label == "DOWN / UP" and angle:
            label = word
        found += _cell(label, of, figures, words, label == "UP")
    return found


def deck_cells(row: LadderRow, deck: DeckRow) -> list[Cell]:
    """What else the rows of one unit say: where its light stops, what it is, where it plugs in."""
    return [
        *_cell("LIGHT STOPS", "LANDS, ON or POLE", deck.lands),
        *_cell("MISS", "over this", [deck.miss]),
        *_cell("STAND", "or POINT", deck.stand[1:], deck.stand[:1]),
        *_cell("COLOUR", "", [row.colour], [row.pattern, row.edge]),
        *_cell("CIRCUIT", "", [row.circuit.removeprefix("circuit ")]),
        *_cell("KIND", "", [row.kind]),
        *_cell("CHANNEL", "", [row.channel]),
    ]


def _cell(
    label: str, of: str, figures: Sequence[str], words: Sequence[str] = (), shouts: bool = False
) -> list[Cell]:
    """One cell; none of what has nothing to tell."""
    large = [each.strip() for each in figures if each.strip()]
    beside = [each for each in words if each]
    return [(label, of, large, beside, shouts)] if large or beside else []


def _plan(rig: SolidRig) -> dict[str, Any]:
    """The stage from above: outlines, positions, where people stand."""
    stage = rig.scene.stage
    outlines = [("deck", stage.outline)] if stage.outline else []
    if stage.acting and stage.acting != stage.outline:
        outlines.append(("acting", stage.acting))
    lines = [[kind, _path(np.array([*corners, corners[0]]))] for kind, corners in outlines]
    for solid in rig.scene.solids:
        if solid.box:
            x0, y0, _, x1, y1, _ = solid.box
            lines.append(
                ["thing", _path(np.array([(x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0)]))]
            )
        elif solid.panel and solid.stand_on:
            corners = [corner[:2] for corner in (*solid.panel, solid.panel[0])]
            lines.append(["thing", _path(np.array(corners))])
    for position in rig.scene.positions.values():
        if isinstance(position, Pipe):
            lines += [["pipe", _path(line[:2].T)] for _, line in tubes_of(position)]
    targets = [[short(rig, t.name), *_cm(np.array([t.x, t.y]))] for t in rig.scene.targets]
    return {"lines": lines, "targets": targets}


def _stops(rig: SolidRig, k: int) -> list[int] | None:
    """Where a unit's light stops on plan, cm."""
    met = rig.answers[k].meets
    return _cm(np.array(met.point[:2])) if met else None


def _pool(rig: SolidRig, k: int) -> list[int]:
    """The edge of the field at the face on plan, cm, x and y in turn; nothing of one that never closes."""
    rims = level_rims(rig, k)
    if not rims or not rims[0].closed:
        return []
    return _path(rims[0].rim[:-1:EVERY])


def _path(points: Array) -> list[int]:
    return [each for point in points for each in _cm(point)]


def _cm(point: Array) -> list[int]:
    return [int(each) for each in np.round(point * 100.0)] if np.isfinite(point).all() else []
