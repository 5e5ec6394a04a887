"""Rows of which a remark says that their unit hangs on the other side too, "mirrored", "both sides", a
column "Mirror: yes": the second unit of the pair, where what it has of its own is plain; else asked about."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.document import ASKED, ask
from aimcalc.scene.hanglist.names.namesides import other_side
from aimcalc.scene.hanglist.rows.listrow import Around, Row, text_of
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.mistakes import Log, Wrong, show
from aimcalc.scene.records import Place

SAME = 0.03  # metres between two places that are one, each rounded as it was typed
MIDDLE = 0.3  # metres from the centre line of what both of a pair can be aimed at
LONGEST = 60  # characters of a remark that says it


def with_mirrored(rows: list[Row], around: Around, log: Log, noticed: Noticed) -> list[Row]:
    """The units of a table with those on the other side, each behind its own; asked about, where a row says
    that there is one and not what it has. One that has a row of its own is no second."""
    said = [_said(row.raw) for row in rows]
    if not any(said):
        return rows
    found = []
    for row, words in zip(rows, said, strict=True):
        found.append(row)
        place = around.places.get(str(row.raw.get("position"))) if words else None
        if place is None or row.raw.get("at", ASKED) is ASKED or row.raw.get("number") is ASKED:
            continue
        try:
            raws = _pair(row, place, words, rows, around)
        except Wrong as wrong:
            ask(log, row.raw, row.where, "number", wrong, words)
            continue
        if raws:
            one, other = raws
            noticed.read_as("position", f"{row.raw['position']}, {words}", _told(one, other))
            row.raw.update(one)
            found.append(row._replace(raw=other))
    return found


def _said(raw: dict[str, Any]) -> str:
    """The words of the remarks of a row that say that it is of a unit on either side; "" where none do."""
    note = raw.get("note")
    if not isinstance(note, str) or not _MAY.search(note):
        return ""
    parts = (part.strip(" .!*") for part in re.split(r";\s*|\.\s+|,\s+", note))
    fit = (p for p in parts if len(p) <= LONGEST and (_SAYS.fullmatch(p) or _HEADED.fullmatch(p)))
    return next(fit, "")


def _pair(
    row: Row, place: Place, words: str, rows: list[Row], around: Around
) -> tuple[dict[str, Any], dict[str, Any]] | None:
    """The two units of a row; None where the other has a row of its own.

    Raises:
        Wrong: when there is no other side, or what the other has is open.
    """
    raw, position, at = row.raw, row.raw["position"], _metres(row.raw)
    across = place.sort == "pipe" and place.axis == "x"
    other = position if across else other_side(position, around.places)
    if other is None or (across and abs(at) < SAME):
        raise Wrong(f"a unit that has another side, and {show(words)} stands beside it", _DO)
    there = -at if across else at
    for one in rows:
        if one is not row and one.raw.get("position") == other:
            same = not across and text_of(one.raw.get("number", "")) == text_of(
                raw.get("number", "")
            )
            if same or abs(_metres(one.raw) - there) < SAME:
                return None
    own = {key: _parts(raw.get(key)) for key in ("number", "channel", "circuit")}
    numbers = len(own["number"])
    plugs = max(len(own["channel"]), len(own["circuit"]))
    told = numbers in (0, 2) if across else numbers < 2 and plugs != 1
    first = _SIDE.search(words)
    ordered = row.sided != -1 and not (first and _turned(first[0], at if across else place.x))
    aim = around.spots.get(str(raw.get("target")), (0.0, 0.0))
    if not told or max(map(len, own.values())) > 2 or not ordered or abs(aim[0]) > MIDDLE:
        raise Wrong(
            f"what each of two units has, its number, channel and target: {show(words)} stands beside one",
            _DO,
        )
    pair = (dict(raw), dict(raw, position=other, at=f"{there!r} m"))
    for key, parts in own.items():
        for each, part in zip(pair, parts if len(parts) == 2 else (), strict=False):
            each[key] = part
    for each in pair if not across else ():
        each.pop("arm_to", None)
    return pair


_DO = "Write a row for each of the two, or take the words out where it is one unit."


def _metres(raw: Mapping[str, Any]) -> float:
    at = raw.get("at")
    plain = at.removesuffix(" m") if isinstance(at, str) else at
    try:
        return float(plain)  # type: ignore[arg-type]
    except (TypeError, ValueError):
        return float("inf")


def _parts(cell: Any) -> list[str]:
    text = text_of("" if cell is None or cell is ASKED else cell).strip()
    return [part for part in re.split(r"\s*[/,;&+]\s*", text[:LONGEST]) if part]


def _turned(side: str, x: float) -> bool:
    """Whether words name the other side before that of the unit: "x2 (SL+SR)" beside one on SR."""
    return bool(_BOTH_WAYS.search(side)) and (side[:2].casefold() == "sl") != (x > 0)


def _told(one: dict[str, Any], other: dict[str, Any]) -> str:
    if one["position"] == other["position"]:
        return f"2 units, at {one['at']} and {other['at']}"
    return f"{one['position']} and {other['position']}, a unit on each"


_MAY = regex(
    r"(?i)mirror|both|each|either|other|oppos|x\s?2|2\s?x|spiegel|beid|sym|simm|sim[eé]|miroir|c[oô]t|lado|espe|specch"
    r"|specul|lati|kant|zijd|sid(?:or|er|an)|jeweils|s\W?l\s*[+&/]\s*s\W?r|s\W?r\s*[+&/]\s*s\W?l"
)
_BOTH_WAYS = regex(r"(?i)s[lr]\s*[+&/]\s*s[lr]")
_SIDE = regex(r"(?i)(?<![^\W\d_])s[lr](?:\s*[+&/]\s*s[lr])?(?![^\W\d_])")
_TO = (
    r"(?:\s+(?:on|to|at|in)?\s*(?:the\s+)?(?:s[lr]|other\s+side|opp(?:osite)?(?:\s+side)?|both\s+sides"
    r"|pair))?"
)
_SAYS = regex(
    rf"(?i)(?:unit\s+is\s+|to\s+be\s+)?(?:mirror(?:ed|\s+image)?{_TO}|(?:on\s+)?(?:both|each|either)\s+(?:sides?|booms?)"
    r"|(?:(?:x\s?2|2\s?x|2|pair)\s*[,:]?\s*)?\(?s[lr]\s*[+&/]\s*s[lr]\)?|(?:x\s?2|2\s?x|2|one|1)\s*\(?(?:on\s+|per\s+)?(?:both|each|either)?\s*sides?"
    rf"|(?:same|repeat(?:ed)?|also|and){_TO.removesuffix('?')}|(?:an\s+)?(?:auf\s+)?beide[nr]?\s+seiten|beidseit\w*|beiderseits|gespiegelt|spiegelbildlich"
    r"|sym+[eé]tri\w*|sim+[eé]tric\w*|en\s+miroir|miroir|des\s+deux\s+c[oô]t[eé]s|de\s+chaque\s+c[oô]t[eé]|(?:en|a|de|por)\s+(?:ambos|cada|los\s+dos)\s+lados?"
    r"|ambos\s+lados|(?:en\s+)?espejo|a\s+specchio|specular[ei]|(?:su|da)\s+entrambi\s+i\s+lati|gespiegeld|(?:aan\s+)?beide\s+(?:kanten|zijden)"
    r"|(?:på\s+)?(?:båda|begge)\s+(?:sidor(?:na)?|sider)|spegelvän\w*|speilvendt|spejlvendt)"
)
_HEADED = regex(
    r"(?i)(?:mirror(?:ed)?|both\s+sides|each\s+side|other\s+side|pair(?:ed)?|gespiegelt|spiegeln|beidseitig|sym[eé]trique|miroir"
    r"|espejo|sim[eé]trico|ambos\s+lados|specchio|simmetrico|gespiegeld|speg\w+|spejl\w*|speil\w*)\s*\??\s*:\s*"
    r"(?:yes|y|x|ja|j|oui|o|s[ií]|s|✓|✔|1|true|both|mirror(?:ed)?|s[lr](?:\s*[+&/]\s*s[lr])?)"
)
