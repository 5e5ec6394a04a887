"""Everything the crew carries, made in one go into one folder, whole or not at all."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from importlib import import_module
from typing import TYPE_CHECKING, Any, NamedTuple

from aimcalc.rig.answers import Finding
from aimcalc.scene.mistakes import nearest
from aimcalc.sheets.paper import PaperOptions
from aimcalc.sheets.pieces import PIECES, Piece
from aimcalc.sheets.whole import whole_set

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig


class Made(NamedTuple):
    """A piece that was made, with its number of pages where it has pages."""

    piece: Piece
    pages: int | None


def options_for(
    rig: Rig,
    *,
    paper: str | None = None,
    length: str | None = None,
    draft: bool = False,
    section: str | None = None,
) -> PaperOptions:
    """Paper and length unit as asked for, else as the scene's own unit suggests.

    Raises:
        ValueError: for a name in `section` ("LX 1/3,LX 1/4") that is no unit's, with the nearest right one.
    """
    in_feet = rig.scene.settings.own_unit in ("ft", "in")
    return PaperOptions(
        paper=paper or ("letter" if in_feet else "a4"),  # type: ignore[arg-type]
        length=length or ("ft" if in_feet else "m"),  # type: ignore[arg-type]
        draft=draft,
        section=_units_named(rig, section),
    )


def _units_named(rig: Rig, section: str | None) -> tuple[str, ...]:
    names = [name.strip() for name in (section or "").split(",") if name.strip()]
    for name in names:
        if name not in rig.names:
            near = nearest(name, tuple(rig.names))
            meant = f' Did you mean "{near}"?' if near else ""
            raise ValueError(f'no unit is called "{name}".{meant} Say position/number.')
    return tuple(dict.fromkeys(names))


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
