"""A column whose heading is the word of several positions and whose cells say which: "Grid" over "A" and "C",
of Grid A and Grid C."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.byvalues import told
from aimcalc.scene.hanglist.columns.columnclaims import LOOKED_THROUGH, Fits
from aimcalc.scene.hanglist.rows.listrow import blank, is_ditto, text_of

LONGEST = 12  # characters of a cell that says which


def headed_names(
    keys: dict[int, str], texts: Sequence[str], below: Sequence[list[Any]], fits: Fits
) -> dict[int, str]:
    """Take for the position the one column whose heading makes each of its cells the name of one, where no
    other is; what it holds."""
    if "position" in keys.values():
        return {}
    found = {}
    for k, text in enumerate(texts):
        word = sort_word(text)
        if not word or keys.get(k, "number") not in ("number", "system"):
            continue
        rows = below[:LOOKED_THROUGH]
        column = (row[k] for row in rows if k < len(row))
        cells = [cell for cell in column if not (blank(cell) or is_ditto(cell))]
        short = cells and all(len(text_of(cell)) <= LONGEST for cell in cells)
        if short and all(_is_named(word, text_of(cell).strip(), fits) for cell in cells):
            found[k] = told(cells)
    if len(found) == 1:
        keys.update(dict.fromkeys(found, "position"))
    return found if len(found) == 1 else {}


def sort_word(heading: str) -> str:
    """The word of a heading for the sort of position that its cells are, "Grid" of "Grid pos."."""
    word = " ".join(_SPARE.sub(" ", heading).split())
    return word if re.fullmatch(r"[^\W\d_]{3,}(?: [^\W\d_]{2,})?", word) else ""


def _is_named(word: str, cell: str, fits: Fits) -> bool:
    named = bool(fits("spelled position", cell)) and cell.casefold().startswith(word.casefold())
    return named or bool(fits("spelled position", f"{word} {cell}"))


_SPARE = regex(
    r"\b(?:pos(?:ition)?s?|no|nr|number|name|line|letter|which|the)\b|[#.:()/]", re.IGNORECASE
)
