"""Columns whose heading has the word of a colour, a channel or a circuit and says of what else they are: how
many sheets or channels, the size of a plug in amperes, a colour temperature; and those of notes on focus."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from itertools import groupby

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.columnclaims import FITTING, Claiming
from aimcalc.scene.hanglist.columns.columnkeys import REMARK, Meaning
from aimcalc.scene.hanglist.rows.listrow import text_of
from aimcalc.scene.hanglist.tongues.tongues import unaccented


def of_else(c: Claiming) -> None:
    """Let a column be a remark whose heading has the word of a colour, a channel or a circuit and says
    that it is of something else, where each of its cells is such a thing: "Circuit (A)" over 15 and 16."""
    for k, found in list(c.meanings.items()):
        heading = unaccented(c.texts[k].casefold())
        its_own = {"colour", "channel", "circuit"} & set(found.keys)
        if not (its_own or (not found.keys and _ITS_WORD.search(heading))):
            continue
        cells = [text.casefold() for cell in c.values.of(k) if (text := text_of(cell).strip())]
        if cells and any(said.search(heading) and holds(cells) for said, holds in _ELSE):
            c.keys[k], c.meanings[k] = REMARK, Meaning()


def notes_out(c: Claiming) -> None:
    """Let a column of notes on the focus be a remark where its cells are no targets and another column, that
    no heading gives to something else, names them: "Focus note" beside "Dancers at"."""
    for k in [k for k, found in c.meanings.items() if "target" in found.keys]:
        if not _ON_FOCUS.fullmatch(c.texts[k].strip(" .:")) or c.share("target", k) >= FITTING:
            continue
        if any(_may_be_aims(j, c) for j in range(c.width) if j != k and j not in c.keys):
            c.keys[k], c.meanings[k] = REMARK, Meaning()


def _may_be_aims(k: int, c: Claiming) -> bool:
    """Whether a column may be that of targets by its heading, and is by its cells."""
    keys = c.meanings[k].keys if k in c.meanings else ()
    fit = c.share("target", k) >= FITTING
    return fit and ("target" in keys or (not keys and c.values.names("target", k)))


_ON_FOCUS = regex(
    r"(?:the\s+|lx\s+)?foc(?:us+(?:ing)?)?\W{0,2}\s*(?:notes?|remarks?|comments?|info)"
    r"|(?:notes?|remarks?|comments?)\s+(?:on|for|about|of|to)\s+(?:the\s+)?focus+(?:ing)?",
    re.IGNORECASE,
)


def _few_sheets(cells: list[str]) -> bool:
    """Whether cells are how many sheets or pieces each unit takes, and no code of a gel."""
    figures = [_COUNT.fullmatch(cell) for cell in cells]
    return all(one and float(one[1].replace(",", ".")) <= MOST_SHEETS for one in figures)


def _many_channels(cells: list[str]) -> bool:
    """Whether cells are how many channels each unit takes: most have what others have, and they are neither
    pairs nor channels that go on one by one, 1, 1, 1, 2, 2, 2."""
    if not all(cell.isdecimal() and int(cell) <= MOST_CHANNELS for cell in cells):
        return False
    times = Counter(map(int, cells))
    paired = max(times.values()) <= 2 and len(times) > 1
    blocks = [int(cell) for cell, _ in groupby(cells)]
    run_on = len(blocks) > 1 and blocks == list(range(blocks[0], blocks[0] + len(blocks)))
    return not paired and not run_on and 2 * len(times) <= len(cells)


def _all_match(pattern: str) -> Callable[[list[str]], bool]:
    whole = regex(pattern)
    return lambda cells: all(whole.fullmatch(cell) for cell in cells)


MOST_SHEETS, MOST_CHANNELS = 20, 64  # of one unit (common practice, no source)
_ITS_WORD = regex(
    r"\b(?:gels?|colou?rs?|filters?|ch|chs|chans?|channels?|circuits?|ccts?|sockets?|outlets?|plugs?)\b"
)
_COUNT = regex(r"(\d{1,2}(?:[.,]\d)?)")
_AMPS = (
    r"(?:[5-9]|1[0356]|20|30|32|50|60|63|100|125)"  # sizes of plugs (common practice, no source)
)
_NO = r"[-–/]|none|n/a"
_IN_AMPS = rf"{_AMPS}(?:\s?(?:a|amps?))?(?:\s?plug)?|{_NO}"
# What a heading says beside the word, and what its cells then are.
_ELSE = (
    (
        regex(
            r"\bsheets\b|\bhow many\b|\bpieces\b|\b(?:no|nr|number|qty|quantity) of (?:gels|cuts|frames)\b"
        ),
        _few_sheets,
    ),
    (
        regex(
            r"\b(?:ch|chs|chans?|channels|addresses)\s(?:used|needed|required|taken)\b|\bhow many ch"
        ),
        _many_channels,
    ),
    (regex(r"[(\[]\s?(?:a|amps?|amperes?)\s?[)\]]|\bamps\b"), _all_match(_IN_AMPS)),
    (
        regex(r"^(?:plugs?|plug type|connectors?|sockets?|outlets?)$"),
        _all_match(rf"{_AMPS}\s?(?:a|amps?)|{_NO}"),
    ),
    (
        regex(r"\b\d{1,3}\s?(?:a|amps?)\s(?:outlets?|sockets?|plugs?|circuits?)\b"),
        _all_match(r"y|n|yes|no|x|✓|✔|oui|non|ja|nein|si|[-–]"),
    ),
    (
        regex(r"[(\[]\s?°?(?:k|kelvin)\s?[)\]]|\bkelvin\b"),
        _all_match(rf"[1-9]\d{{3,4}}(?:\s?°?k)?|{_NO}"),
    ),
)
