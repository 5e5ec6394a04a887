"""Cells of places that say how far apart the units of a position are: "1.5 m about centre", "2 m spacing",
"every 60 cm from SL end"."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Any

from msgspec.structs import replace

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.pagelines.sidenames import prompt_plain
from aimcalc.scene.hanglist.places.ends import sides_plain
from aimcalc.scene.hanglist.places.steps import SIZE
from aimcalc.scene.hanglist.tongues.tongues import in_english
from aimcalc.scene.mistakes import CLASH, Wrong
from aimcalc.scene.model import Pipe, runs_across

FEWEST = 2  # units that are so far apart
SAME_STEP = 0.01  # metres between two spacings that are one
ASIDE = 0.05  # metres from the centre line at which the middle of a pipe is not there
LEAST_STEP = 0.05  # metres: no two units hang closer (common practice, no source)
LONGEST_SPACING = 60  # characters of such a cell


class Spacing(NamedTuple):
    """How far apart units are, as it is written, and from where they begin: the centre line, an end, or
    nowhere that the cell says."""

    size: str
    about: bool = False
    end: str = ""  # SL, SR, US or DS


def spacing_of(cell: Any, *, gaps: bool = False) -> Spacing | None:
    """What a cell says of the spacing of all units of a position, and from where they begin; None of one that
    does not. In a column of `gaps` it need not say from where: "@ 18 in"."""
    if not isinstance(cell, str) or len(cell) > LONGEST_SPACING or not any(map(str.isdigit, cell)):
        return None
    found = _SPACING.fullmatch(_plain(cell))
    if found is None:
        return None
    apart = bool(found["word"] or found["behind"])
    begins = bool(found["middle"] or (found["end"] and apart))
    if not (begins or (gaps and (apart or found["at"]))):
        return None
    return Spacing(found["size"], bool(found["middle"]), (found["end"] or "").upper())


@lru_cache(1024)
def _plain(cell: str) -> str:
    return prompt_plain(sides_plain(in_english(cell).casefold().strip(" .;,")))


def one_spacing(cells: Sequence[Any]) -> Spacing | None:
    """The spacing that the cells of all units of a position say alike, or that of the first alone; None where
    they say no such thing, or there is no more than one."""
    if len(cells) < FEWEST:
        return None
    said = [spacing_of(cell, gaps=True) for cell in cells]
    alone = [cell is None for cell in cells[1:]]
    return said[0] if said and (all(one == said[0] for one in said) or all(alone)) else None


def fits_units(step: float) -> float:
    """A distance from unit to unit at which units can hang, metres.

    Raises:
        Wrong: when it is nought, or so small that none can.
    """
    if step < LEAST_STEP:
        raise Wrong(
            "a distance from unit to unit of 0.05 m (2 in) or more",
            "Write it with its unit, or the places of the units.",
        )
    return step


def spaced_so(pipe: Pipe, cells: Spacing, step: float, other: float | None) -> Pipe:
    """A pipe with the spacing of a step in metres that the cells of its units say, beside that of a line.

    Raises:
        Wrong: when the line or the pipe says another, or it cannot begin where the cells say.
    """
    others = [each for each in (pipe.spacing, other) if each is not None]
    across = runs_across(pipe.start, pipe.end)
    begins = cells.end or ("" if cells.about else pipe.spaced_from or "")
    no_end = begins not in ("", *(("SL", "SR") if across else ("US", "DS")))
    middle = (pipe.start[0] + pipe.end[0]) / 2 if pipe.zero != "centre line" else 0.0
    if (
        pipe.marks
        or any(abs(each - step) > SAME_STEP for each in others)
        or begins != (pipe.spaced_from or begins)
        or no_end
        or (across and cells.about and abs(middle) > ASIDE)
    ):
        raise Wrong(
            "a place for each unit: its rows say how they are spaced, and the pipe or a line says other",
            "Write their places, or correct spacing and spaced_from of the pipe.",
            rank=CLASH,
        )
    return replace(pipe, spacing=step, spaced_from=begins or None)


_EVENLY = r"(?:even(?:ly)?|equal(?:ly)?)"
_APART = (
    r"(?:apart|spac(?:ed|es?|ings?)|gaps?|intervals?|pitch|c/c|o\.?c|(?:on\s+)?(?:cent(?:re|er)s|ctrs)|each|equal(?:ly)?"
    r"|even(?:ly)?)"
)
_SPACING = regex(
    rf"(?P<word>(?:(?:all|{_EVENLY})\W+)?(?:every|spac(?:ed|es?|ings?)|gaps?|intervals?|pitch)\b\W*|{_EVENLY}\W+)?"
    rf"(?P<at>@|at\b|of\b)?\s*(?P<size>{SIZE})\W*(?P<behind>{_APART}(?:\s+{_APART})?)?\W*"
    r"(?P<middle>(?:symm\w*|cent(?:red|ered)|balanced)?\s*(?:about|around|round|centred\s+on"
    r"|symmetrical\s+to)\s+(?:the\s+)?(?:cl|c/l|cent(?:re|er)(?:\W?line)?|middle)|(?:symmetrical(?:ly)?|centred|centered)"
    r"(?:\s+on\s+(?:the\s+)?(?:cl|c/l|cent(?:re|er)(?:\W?line)?))?)?"
    r"(?P<from>(?:starting\s+|going\s+)?(?:from|off)\s+(?:the\s+)?(?P<end>sl|sr|us|ds)(?:\s+(?:end|tip))\b)?\W*"
)
