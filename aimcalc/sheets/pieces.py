"""What `aimcalc prep` can make. A new sheet takes its place in `PIECES` with one line.

This module loads nothing, so that `--help` can tell the names.
"""

from __future__ import annotations

from typing import Literal

from aimcalc.named import NamedTuple


class PieceError(Exception):
    """A piece cannot be made of this scene; the text says why, and what to do."""


class Piece(NamedTuple):
    """One thing to make.

    `maker` is "module:function". The function takes the `Show`, one binary stream for each of `files`,
    and the `PaperOptions`; it is loaded only when the piece is wanted. What it gives back, if anything, is
    its number of pages. `light`: it asks for the light over the area, which takes long to work out.
    `part`: it can be made of some positions alone, or of some units: of which its maker asks
    `PaperOptions.holds`. `usual`: it is made where nobody names pieces.
    """

    name: str
    files: tuple[str, ...]
    maker: str
    light: bool = False
    part: Literal["positions", "units"] | None = None
    usual: bool = True


PIECES = (
    Piece("aim-sheets", ("aim-sheets.pdf",), "aimcalc.sheets.aim_sheets:aim_sheets", part="units"),
    Piece("cards", ("unit-cards.pdf",), "aimcalc.sheets.cards:unit_cards", part="units"),
    Piece(
        "hang-sheets", ("hang-sheets.pdf",), "aimcalc.sheets.hang_sheets:hang_sheets", part="units"
    ),
    Piece(
        "hang-strip",
        ("hang-strip.pdf",),
        "aimcalc.sheets.hang_strip:hang_strip",
        part="positions",
        usual=False,
    ),
    Piece("saddles", ("saddle-labels.pdf",), "aimcalc.sheets.saddles:saddle_labels", part="units"),
    Piece("pan-dial", ("pan-dial.pdf",), "aimcalc.sheets.pan_dial:pan_dial"),
    Piece("plumb-card", ("plumb-card.pdf",), "aimcalc.sheets.plumb_card:plumb_card"),
    Piece("test-sheet", ("test-sheet.pdf",), "aimcalc.sheets.test_sheet:check_out"),
    Piece("head-page", ("head-page.pdf",), "aimcalc.sheets.head_page:head_page"),
    Piece("steps", ("steps-card.pdf",), "aimcalc.sheets.steps:steps_card"),
    Piece("labels", ("labels.pdf",), "aimcalc.sheets.unit_labels:labels", part="units"),
    Piece("counts", ("counts.pdf", "counts.xlsx"), "aimcalc.sheets.counts:counts"),
    Piece("plan", ("pool-plan.pdf", "pool-plan.png"), "aimcalc.sheets.pool_plan:pool_plan"),
    Piece("fall-plan", ("fall-plan.pdf",), "aimcalc.sheets.fall_plan:fall_plan"),
    Piece("section", ("section.pdf",), "aimcalc.sheets.section:section"),
    Piece(
        "light-plot",
        ("light-plot.pdf", "light-plot.svg", "light-plot.dxf"),
        "aimcalc.sheets.light_plot:light_plot",
    ),
    Piece("gap-map", ("gap-map.pdf", "gap-map.png"), "aimcalc.sheets.gap_map:gap_map", light=True),
    Piece(
        "by-area",
        ("by-area.pdf", "by-area.csv", "by-channel.csv", "angles.csv"),
        "aimcalc.sheets.by_area:by_area",
        light=True,
    ),
    Piece("overview", ("overview.png",), "aimcalc.sheets.overview:overview"),
    Piece(
        "lists", ("aims.csv", "aims.xlsx", "aims.json"), "aimcalc.text.lists:lists", part="units"
    ),
)

# Made of what changed since an earlier scene or print, and of nothing else.
SLIPS = Piece("change-slips", ("change-slips.pdf",), "aimcalc.sheets.slips:change_slips")

NAMES = tuple(piece.name for piece in PIECES)


def chosen(only: str | None) -> list[Piece]:
    """The pieces named in `only` ("aim-sheets,plan"), the usual ones without it, in their own order.

    Raises:
        ValueError: for a name that is none, with the nearest right one.
    """
    from aimcalc.scene.mistakes import nearest

    if only is None:
        return [piece for piece in PIECES if piece.usual]
    names = [name.strip() for name in only.split(",")]
    for name in names:
        if name not in NAMES:
            near = nearest(name, NAMES)
            meant = f' Did you mean "{near}"?' if near else ""
            raise ValueError(f'no piece is called "{name}".{meant} There are: {", ".join(NAMES)}.')
    return [piece for piece in PIECES if piece.name in names]


def chosen_in_part(only: str | None, *, units: bool) -> list[Piece]:
    """The pieces named in `only` of some positions alone, or of some `units`; without it all that can be.

    Raises:
        ValueError: for a name that is none, and for a piece that only the whole rig has.
    """
    wanted = chosen(only)
    can = [piece for piece in wanted if piece.part == "units" or (piece.part and not units)]
    if only is not None and len(can) < len(wanted):
        whole = ", ".join(piece.name for piece in wanted if piece not in can)
        what = "of whole positions" if units and whole == "hang-strip" else "of the whole rig"
        parts = ", ".join(p.name for p in PIECES if p.part == "units" or (p.part and not units))
        raise ValueError(f"{whole}: made {what} only. In part there are: {parts}.")
    return can
