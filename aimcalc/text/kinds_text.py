"""The generic kinds for a terminal: the families as pictures, their figures, and what to replace.

Every figure is the catalogue's own, as it is written there.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from aimcalc.scene.keys import KIND
from aimcalc.scene.loading import CATALOGUE, generic_tables
from aimcalc.text.columns import BETWEEN, MARGIN, folded, table

FAMILY_WORDS = {  # in the order of the catalogue
    "ers": "Shutters and patterns; edge hard or soft.",
    "fresnel": "Stepped lens: soft edge, spot to flood.",
    "pc": "Plain lens: firmer edge, spot to flood.",
    "par": "Lamp in a can: oval, turned in its ring.",
    "flood": "No lens: wide, even, not to be shaped.",
    "cyc": "Lopsided: lights a cloth from near its top.",
}
# Side views, lens towards the right: o the pipe, + the yoke bolts.
PICTURES = {
    "ers": (
        "      o           ",
        "  ____|______     ",
        " |    |      |___ ",
        " |    +       ___)",
        " |___________|    ",
    ),
    "fresnel": (
        "      o           ",
        "   ___|____       ",
        "  |   |    |      ",
        "  |   +    #      ",
        "  |________|      ",
    ),
    "pc": (
        "      o           ",
        "   ___|____       ",
        "  |   |    |      ",
        "  |   +    )      ",
        "  |________|      ",
    ),
    "par": (
        "      o           ",
        "   ___|_______    ",
        "  /   |       |   ",
        " (    +       |   ",
        "  \\___________|   ",
    ),
    "flood": (
        "      o           ",
        "    __|_          ",
        "   |  | \\         ",
        "   |  +  |        ",
        "   |____/         ",
    ),
    "cyc": (
        "      o           ",
        "     _|___        ",
        "   /  |   |       ",
        "  |   +  /        ",
        "   \\____/         ",
    ),
}
ACROSS, PANEL = 3, 24  # pictures beside one another, columns of one
HEADS = ("kind", "field", "beam", "peak", "drop", "nose", "length", "width", "weight", "watts")
REPLACE = (
    "Typical, round figures that belong to no maker's unit; drop is under and over alike. Copy a kind to the "
    "end of your scene:",
    "  aimcalc kinds ers-30 >> scene.toml",
    "and replace its figures by your maker's sheet, or by a tape on one of your units:",
    "  drop_under, drop_over, nose: every aim, hang mark and throw depends on them",
    "  field, beam and peak_cd, or photometry: pools, tolerances and lux",
    "  length, width: what touches, and what a body hides",
    "  weight, watts, tail, tail_exit: loads, circuits, cable",
    "  yoke_range: not among these figures; try one on the floor",
)


def kinds_text(width: int | None = None) -> str:
    """All of it; `width` is the terminal's, see `aimcalc.text.columns`."""
    kinds = generic_tables()
    heads = ["kcd" if head == "peak" else head for head in HEADS]
    rows = [[_narrow(cell) for cell in kind_row(kind)] for kind in kinds.values()]
    parts = [
        "Families from the side: o the pipe, + the yoke bolts, light towards the right.",
        *_pictures(width),
        "\n".join(table(heads, rows, width)),
        "\n".join(folded(line, width) for line in REPLACE),
    ]
    return "\n\n".join(parts)


def kind_row(kind: dict[str, Any]) -> list[str]:
    """The figures of one kind of the catalogue in the order of `HEADS`; both drops where they differ."""
    under, over = kind["drop_under"], kind["drop_over"]
    field = " x ".join(map(str, kind.get("oval", [kind["field"]])))
    sizes = [kind[key] for key in ("nose", "length", "width", "weight")]
    drop = under if under == over else f"{under}, {over}"
    peak = f"{kind['peak_cd'] / 1000:g} kcd"
    return [kind["name"], f"{field}°", f"{kind['beam']}°", peak, drop, *sizes, f"{kind['watts']} W"]


def _narrow(cell: str) -> str:
    """A cell without the unit that its head says: ten columns have to stand in 80."""
    return cell.removesuffix(" kcd").removesuffix(" W").replace(" x ", "x")


def _pictures(width: int | None) -> list[str]:
    """The families beside one another, as many as fit, each under its name."""
    wide = PANEL
    room = (80 if width is None else width) - len(MARGIN)
    across = max(1, min(ACROSS, (room + BETWEEN) // (wide + BETWEEN)))
    names = list(PICTURES)
    return [
        _beside([_panel(name, wide) for name in names[first : first + across]], wide)
        for first in range(0, len(names), across)
    ]


def _panel(family: str, wide: int) -> list[str]:
    return [family, *PICTURES[family], *folded(FAMILY_WORDS[family], wide).split("\n")]


def _beside(panels: Sequence[Sequence[str]], wide: int) -> str:
    rows = max(map(len, panels))
    filled = [[*panel, *[""] * (rows - len(panel))] for panel in panels]
    lines = (
        (" " * BETWEEN).join(cell.ljust(wide) for cell in row) for row in zip(*filled, strict=True)
    )
    return "\n".join((MARGIN + line).rstrip() for line in lines)


def kind_entry(name: str) -> str:
    """One generic kind as it stands in the catalogue, a comment on every key, to be copied into a scene.

    Raises:
        KeyError: when there is none of that name.
    """
    if name not in generic_tables():
        raise KeyError(name)
    with open(CATALOGUE, encoding="utf-8") as file:
        entries = file.read().split("[[kind]]")[1:]
    lines = next(e for e in entries if f'name = "{name}"' in e).strip().split("\n")[1:]
    told = [f"{line:<24}  # {KIND[line.partition(' =')[0]].means}" for line in lines]
    return "\n".join(["", "[[kind]]  # typical: replace by your maker's sheet", *told])
