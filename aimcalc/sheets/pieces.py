"""What `aimcalc prep` can make. A new sheet takes its place in `PIECES` with one line.

What is made where nobody names pieces is `SET`: packs, one file for each who holds it, out of the pieces in
`HEAD` and `DRAWN` and of the two sheets of every position; and the lists.

This module loads nothing, so that `--help` can tell the names.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
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
    `PaperOptions.holds`. `whom`: who is handed it.
    """

    name: str
    files: tuple[str, ...]
    maker: str
    light: bool = False
    part: Literal["positions", "units"] | None = None
    whom: str = ""


PIECES = (
    Piece("aim-sheets", ("aim-sheets.pdf",), "aimcalc.sheets.aim_sheets:aim_sheets", part="units"),
    Piece(
        "cards",
        ("cards.pdf",),
        "aimcalc.sheets.cards:unit_cards",
        part="units",
        whom="to cut up and tie on, one a unit",
    ),
    Piece(
        "hang-sheets", ("hang-sheets.pdf",), "aimcalc.sheets.hang_sheets:hang_sheets", part="units"
    ),
    Piece(
        "hang-strip",
        ("hang-strip.pdf",),
        "aimcalc.sheets.strip.hang_strip:hang_strip",
        part="positions",
    ),
    Piece(
        "saddles",
        ("saddle-labels.pdf",),
        "aimcalc.sheets.strip.saddles:saddle_labels",
        part="units",
    ),
    Piece("ladder", ("ladder-sheets.pdf",), "aimcalc.sheets.ladder:ladder", part="units"),
    Piece("deck", ("deck-sheets.pdf",), "aimcalc.sheets.deck:deck", part="units"),
    Piece("pan-dial", ("pan-dial.pdf",), "aimcalc.sheets.pan_dial:pan_dial"),
    Piece("plumb-card", ("plumb-card.pdf",), "aimcalc.sheets.plumb_card:plumb_card"),
    Piece("test-sheet", ("test-sheet.pdf",), "aimcalc.sheets.test_sheet:check_out"),
    Piece("head-page", ("head-page.pdf",), "aimcalc.sheets.head_page:head_page"),
    Piece("steps", ("steps-card.pdf",), "aimcalc.sheets.steps:steps_card"),
    Piece("labels", ("labels.pdf",), "aimcalc.sheets.unit_labels:labels", part="units"),
    Piece("counts", ("counts.pdf", "counts.xlsx"), "aimcalc.sheets.counts:counts"),
    Piece("plan", ("pool-plan.pdf", "pool-plan.png"), "aimcalc.sheets.plans.pool_plan:pool_plan"),
    Piece("fall-plan", ("fall-plan.pdf",), "aimcalc.sheets.plans.fall_plan:fall_plan"),
    Piece("section", ("section.pdf",), "aimcalc.sheets.plans.section:section"),
    Piece(
        "light-plot",
        ("light-plot.pdf", "light-plot.svg", "light-plot.dxf"),
        "aimcalc.sheets.plot.light_plot:light_plot",
    ),
    Piece(
        "gap-map",
        ("gap-map.pdf", "gap-map.png"),
        "aimcalc.sheets.plans.gap_map:gap_map",
        light=True,
    ),
    Piece(
        "by-area",
        ("by-area.pdf", "by-area.csv", "by-channel.csv", "angles.csv"),
        "aimcalc.sheets.by_area:by_area",
        light=True,
    ),
    Piece("overview", ("overview.png",), "aimcalc.sheets.plans.overview:overview"),
    Piece(
        "phone",
        ("rig.html",),
        "aimcalc.sheets.phone.page:phone",
        part="units",
        whom="for phones in the hand, without a network",
    ),
    Piece(
        "lists",
        ("aims.csv", "aims.xlsx", "aims.json"),
        "aimcalc.text.lists:lists",
        part="units",
        whom="for the office, and for compare",
    ),
)

# What the head electrician's pack and the drawings are made of, in their order. Not in them is what another
# page of the set says (counts: the head page; the test sheet: the deck sheets' last column), what is printed
# once and kept (pan dial, plumb card), and what is looked at once (pools, where light falls, gaps, pages by
# area).
HEAD = ("head-page", "steps", "labels", "saddles")
DRAWN = ("light-plot", "section")

# What each pack says, by the pieces that say the same.
SAYS = {
    "pack-head": (*HEAD, "counts"),
    "packs": ("ladder", "deck"),
    "drawings": DRAWN,
    "light-lists": ("by-area",),
}
LONGEST_FILE = 40  # letters of a position in the name of its pack: most disks take 255 bytes of any
EACH_POSITION = "pack-*.pdf"  # stands for a file of each position
PACKS = (
    Piece(
        "pack-head",
        ("pack-head.pdf", "counts.xlsx"),
        "aimcalc.sheets.packs:head_pack",
        whom="for the head electrician",
    ),
    Piece(
        "packs",
        (EACH_POSITION,),
        "aimcalc.sheets.packs:position_packs",
        part="units",
        whom="for the crew at each position: ladder sheet, deck sheet",
    ),
    Piece(
        "drawings",
        ("drawings.pdf", "light-plot.svg", "light-plot.dxf"),
        "aimcalc.sheets.packs:drawings",
        whom="for the designer, and for the wall",
    ),
    Piece(
        "light-lists",
        ("by-area.csv", "by-channel.csv", "angles.csv"),
        "aimcalc.text.light.cover_lists:light_lists",
        light=True,
        whom="for the programmer",
    ),
)

# Made of what changed since an earlier scene or print, and of nothing else.
SLIPS = Piece("change-slips", ("change-slips.pdf",), "aimcalc.sheets.slips:change_slips")

ALL = (*PIECES, *PACKS)
NAMES = tuple(piece.name for piece in ALL)
SET = tuple(
    next(piece for piece in ALL if piece.name == name)
    for name in ("pack-head", "packs", "cards", "phone", "drawings", "lists", "light-lists")
)


def pack_files(positions: Sequence[str]) -> dict[str, str]:
    """The file of each position's pack, by its name: "pack-pipe-1.pdf".

    Letters and figures of any language stay, all else becomes a dash. No two are alike, whatever case a
    disk tells apart, and none is the head electrician's.
    """
    import re

    taken, files = {"pack-head.pdf"}, {}
    for position in dict.fromkeys(positions):
        plain = re.sub(r"[^\w]+", "-", position).strip("-")[:LONGEST_FILE] or "position"
        file, more = f"pack-{plain}.pdf", 2
        while file.casefold() in taken:
            file, more = f"pack-{plain}-{more}.pdf", more + 1
        taken.add(file.casefold())
        files[position] = file
    return files


def maker_of(piece: Piece) -> Callable[..., int | None]:
    """What makes a piece, loaded now."""
    from importlib import import_module

    module, function = piece.maker.split(":")
    made: Callable[..., int | None] = getattr(import_module(module), function)
    return made


def chosen(only: str | None) -> list[Piece]:
    """The pieces named in `only` ("aim-sheets,plan"), the set without it, in their usual order.

    Raises:
        ValueError: for a name that is none, with the nearest right one.
    """
    from aimcalc.scene.mistakes import nearest

    if only is None:
        return list(SET)
    names = [name.strip() for name in only.split(",")]
    for name in names:
        if name not in NAMES:
            near = nearest(name, NAMES)
            meant = f' Did you mean "{near}"?' if near else ""
            raise ValueError(f'no piece is called "{name}".{meant} There are: {", ".join(NAMES)}.')
    return [piece for piece in ALL if piece.name in names]


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
        parts = ", ".join(p.name for p in ALL if p.part == "units" or (p.part and not units))
        raise ValueError(f"{whole}: made {what} only. In part there are: {parts}.")
    return can
