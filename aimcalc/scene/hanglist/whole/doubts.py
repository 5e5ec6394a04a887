"""Lines of a page by which its writer doubts its own places: "L and R may be either. Ask before you hang!",
"Sam measured some of these from the upstage end, the rest are from downstage". No reading of it is sure.
So are heights that rise under the name of a boom that is listed from the top."""

from __future__ import annotations

import re
from collections.abc import Iterable
from itertools import pairwise

from aimcalc.named import regex
from aimcalc.scene.document import ask
from aimcalc.scene.hanglist.places.placing import Placing
from aimcalc.scene.hanglist.rows.listrow import Row, text_of
from aimcalc.scene.mistakes import CLASH, Log, Wrong, show

LONGEST = 400  # characters of a line that is looked through


def ask_in_doubt(rows: list[Row], lines: Iterable[str], log: Log) -> None:
    """Ask about the places of a table of which a line beside it says that they may be meant in two ways."""
    doubtful = next((line for line in lines if is_doubtful(line)), None)
    placed = next((row for row in rows if "at" in row.raw), None)
    if doubtful is None or placed is None:
        return
    wrong = Wrong(
        f"places that whoever wrote them is sure of, and a line of the list says: {show(doubtful)}",
        "Ask how each place was measured, correct it, and take the line out of the list.",
        rank=CLASH,
    )
    ask(log, placed.raw, placed.where, "at", wrong, text_of(placed.raw["at"]))


def is_doubtful(line: str) -> bool:
    """Whether a line says of places that nobody knows how they are meant."""
    said = line[:LONGEST].casefold()
    return bool(_DOUBT.search(said)) and bool(_OF_PLACES.search(said))


_DOUBT = regex(
    r"\b(?:may|might|could|can)\s+be\s+(?:either|the\s+other\s+way|mirrored|wrong\s+way|swapped|mixed\s+up)"
    r"|\b(?:ask|check)\b[^.;]{0,30}\bbefore\s+(?:you|we|anyone|anybody|it\s+is|they\s+are)?\s*h[au]ng"
    r"|\bwill\s+mark\s+which\b|\bnot\s+(?:marked|said|sure|clear|written)\s+(?:which|whose|who|what|from\s+where)\b"
    r"|\b(?:don'?t|do\s+not|can'?t|cannot)\s+(?:know|remember|recall|tell)\s+(?:which|whose|what|if|whether)\b"
    r"|\bsome\s+(?:of\s+(?:these|them|those|the\s+\w+)\s+)?(?:are\s+|were\s+)?(?:measured\s+|taken\s+)?from\b.{0,80}\b(?:the\s+rest|the\s+others|others|some)\b"
    r"|\bmeasured\s+some\b.{0,80}\b(?:the\s+rest|the\s+others|others|some)\b"
)
_OF_PLACES = regex(
    r"\b(?:l|r|left|right|s[lr]|ps|op|ends?|cent(?:re|er)|measur\w*|distances?|places?|sides?|feet|met(?:re|er)s)\b"
)

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
