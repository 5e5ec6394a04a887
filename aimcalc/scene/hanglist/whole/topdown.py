"""Heights on a boom whose units are listed from the top, and that rise: they may count from there."""

from __future__ import annotations

import re
from itertools import pairwise

from aimcalc.named import regex
from aimcalc.scene.document import ask
from aimcalc.scene.hanglist.places.placing import Placing
from aimcalc.scene.hanglist.rows.listrow import Row
from aimcalc.scene.mistakes import Wrong

_TOP_DOWN = regex(
    r"\b(?:top(?:\W{1,3}to)?\W{1,3}(?:the\s+)?(?:down|bottom)|high\W{1,3}to\W{1,3}low)",
    re.IGNORECASE,
)


def ask_rising(placing: Placing, rows: list[Row]) -> None:
    """Ask about heights that rise from unit to unit under the name of a boom that says "top down": its units
    are numbered so, and then these fall, or they are measured so."""
    for position, words in placing.over.items():
        place = placing.around.places.get(position)
        if place is None or place.sort != "boom" or not _TOP_DOWN.search(words):
            continue
        hung = [row for row in rows if row.raw.get("position") == position]
        hung = [row for row in hung if isinstance(row.raw.get("at"), str)]
        heights = [float(row.raw["at"].removesuffix(" m")) for row in hung]
        if any(low < high for low, high in pairwise(heights)):
            wrong = Wrong(
                f"heights that fall, or a line that says where they count from: {position} is listed "
                "from the top down, and they rise",
                "Write above the units: heights above the deck, or: from the top.",
            )
            ask(placing.log, hung[0].raw, hung[0].where, "at", wrong, f"{heights[0]:.6g} m")
