"""Everything the crew carries, made in one go into one folder, whole or not at all.

A new sheet takes its place in `PIECES` with one line.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from importlib import import_module
from typing import TYPE_CHECKING, Any, NamedTuple

from aimcalc.rig.answers import Finding
from aimcalc.scene.mistakes import nearest
from aimcalc.sheets.paper import PaperOptions
from aimcalc.sheets.whole import whole_set

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig


class Piece(NamedTuple):
    """One thing to make.

    `maker` is "module:function". The function takes the rig, its findings, one binary stream for each of
    `files`, and the `PaperOptions`; it is loaded only when the piece is wanted. What it gives back, if
    anything, is its number of pages.
    """

    name: str
    files: tuple[str, ...]
    maker: str


PIECES = (
    Piece("aim-sheets", ("aim-sheets.pdf",), "aimcalc.sheets.aim_sheets:aim_sheets"),
    Piece("cards", ("unit-cards.pdf",), "aimcalc.sheets.cards:unit_cards"),
    Piece("plan", ("pool-plan.pdf", "pool-plan.png"), "aimcalc.sheets.plan:pool_plan"),
    Piece("lists", ("aims.csv", "aims.xlsx", "aims.json"), "aimcalc.sheets.lists:lists"),
)


class Made(NamedTuple):
    """A piece that was made, with its number of pages where it has pages."""

    piece: Piece
    pages: int | None


def chosen(only: str | None) -> list[Piece]:
    """The pieces named in `only` ("aim-sheets,plan"), all without it, in their usual order.

    Raises:
        ValueError: for a name that is none, with the nearest right one.
    """
    if only is None:
        return list(PIECES)
    names = [name.strip() for name in only.split(",")]
    known = tuple(piece.name for piece in PIECES)
    for name in names:
        if name not in known:
            near = nearest(name, known)
            meant = f' Did you mean "{near}"?' if near else ""
            raise ValueError(f'no piece is called "{name}".{meant} There are: {", ".join(known)}.')
    return [piece for piece in PIECES if piece.name in names]


def options_for(
    rig: Rig, *, paper: str | None = None, length: str | None = None, draft: bool = False
) -> PaperOptions:
    """Paper and length unit as asked for, else as the scene's own unit suggests."""
    in_feet = rig.scene.settings.unit in ("ft", "in")
    return PaperOptions(
        paper=paper or ("letter" if in_feet else "a4"),  # type: ignore[arg-type]
        length=length or ("ft" if in_feet else "m"),  # type: ignore[arg-type]
        draft=draft,
    )


def prepare(
    rig: Rig,
    findings: Sequence[Finding],
    folder: str,
    options: PaperOptions,
    pieces: Sequence[Piece] = PIECES,
    tell: Callable[[Piece], None] = lambda piece: None,
) -> list[Made]:
    """Make `pieces` into `folder`; `tell` hears of each before it is begun.

    The files appear when all of them are done. Raises OSError when the disk refuses; nothing has then
    arrived.
    """
    made = []
    with whole_set(folder) as hidden:
        for piece in pieces:
            tell(piece)
            with _streams(hidden, piece.files) as streams:
                made.append(Made(piece, _maker(piece)(rig, findings, *streams, options)))
    return made


def left_alone(folder: str, pieces: Sequence[Piece]) -> list[str]:
    """Files of ours in `folder` that a run of `pieces` does not renew: they may be of an older scene."""
    kept = [file for piece in PIECES if piece not in pieces for file in piece.files]
    return [file for file in kept if os.path.exists(os.path.join(folder, file))]


def _maker(piece: Piece) -> Callable[..., int | None]:
    module, function = piece.maker.split(":")
    make: Callable[..., int | None] = getattr(import_module(module), function)
    return make


@contextmanager
def _streams(folder: str, files: Sequence[str]) -> Iterator[list[Any]]:
    with ExitStack() as stack:
        yield [stack.enter_context(open(os.path.join(folder, file), "wb")) for file in files]
