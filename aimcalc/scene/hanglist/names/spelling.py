"""A name as its letters alone, and as its words and numbers: two spellings of one name come to the same."""

from __future__ import annotations

import re
import unicodedata

from aimcalc.named import regex
from aimcalc.scene.hanglist.names.namewords import AS_FIGURES, AS_SPOKEN

_WATTS = regex(r"\b(\d+(?:\.\d+)?)\s*(k?)w(?:atts?)?\b")
_PARTED = regex(r"\b([cudm])/s(?:tage|tg)?\b")  # C/S, D/S, M/stage
_PARTED_SIDE = regex(r"\bs/(?=[lr]\b)")  # S/L
# A sixth of the stage in words, "down stage left", or "up centre": its three letters are its usual name.
_CORNER = regex(
    r"\b(up|down|mid)(?:dle)?[\s-]*(?:stage\b[\s-]*)?\b(left|right|cent(?:re|er)|[lrc])\b(?![\s-]*stage)"
)


def plain(text: str) -> str:
    """A name without case, spaces and punctuation; numbers stay apart."""
    return "".join(re.findall(r"[^\W_]+", re.sub(r"(?<=\d)[^\w]+(?=\d)", "n", text.casefold())))


def fold(text: str) -> str:
    """`plain`, without accents and leading zeros, with stage words as they are spoken."""
    text = _CORNER.sub(_cornered, fold_case(text))
    text = re.sub(r"\b(stage|up|down|mid)[\s-]+(left|right|stage)\b", _joined, text)
    words = (AS_SPOKEN.get(word, word) for word in re.findall(r"\d+|[^\W\d_]+", text))
    return re.sub(r"(?<![\d])0+(?=\d)", "", " ".join(words)).replace(" ", "")


def fold_code(text: str) -> str:
    """A code of a legend as it is found again: `fold` of it, or its signs where it has no letters."""
    return fold(text) or "".join(text.split())


def fold_case(text: str) -> str:
    """Lower case without accents."""
    if text.isascii():
        return text.lower()
    text = text.casefold().replace("º", "°")  # typed for a degree
    return "".join(c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c))


_SIDE_OF = {"rt": "right", "lt": "left"}
_CUT_SIDE = regex(r"\b(rt|lt)\.\s*(?=[a-z])", re.IGNORECASE)  # "Rt. Side Rail", and no RT


def tokens_of(text: str, words: dict[str, str], *, watts: bool = False) -> list[str]:
    """Words and numbers of a name, those that stand for others in their plain form; its watts among them
    where these are asked for."""
    text = fold_case(_CUT_SIDE.sub(lambda found: f"{_SIDE_OF[found[1].casefold()]} ", text))
    if re.search(r"\d\s*k?w", text):
        text = _WATTS.sub(_watts_plain if watts else " ", text)
    text = re.sub(r"(?<![\d/])1/4(?![\d/])|¼", "quarter ", text)
    text = re.sub(r"(?<![\d/])1/2(?![\d/])|½", "half ", text)
    text = re.sub(r"\b(\d+)(?:(?:st|nd|rd|th)\b|[º°])", r"\1 ", text)
    text = re.sub(r"(?<=[a-z] )(\d{2,4})['’]?s\b", r"\1", text)  # "par 38s"
    text = re.sub(r"\b([a-z])\.(?=[a-z]\b)", r"\1", text)  # s.l.
    text = _PARTED_SIDE.sub("s", _PARTED.sub(r"\1s", text))
    text = re.sub(r"\bcent(?:re|er)[\s-]+stage\b", "c", text)
    text = _CORNER.sub(_cornered, text)
    text = re.sub(
        r"\b(stage|house|up|down|mid|front[\s-]of|plano)[\s-]+(left|right|stage|house|convex)\b",
        _joined,
        text,
    )
    found: list[str] = []
    for token in re.findall(r"\d+|[^\W\d_]+", text):
        token = AS_FIGURES.get(token, AS_SPOKEN.get(token, token))
        said = words.get(token, token)
        found += said.split() if " " in said else [said]
    return found


def numbers_of(tokens: list[str]) -> list[str]:
    """The numbers among words, without leading zeros."""
    return [t.lstrip("0") or "0" for t in tokens if t[0].isdigit()]


def _watts_plain(found: re.Match[str]) -> str:
    """Watts as they are said: "1kW" and "1000W" as 1k, "650W" as 650."""
    if found[2] or "." in found[1]:
        return f"{found[1]}{found[2]} "
    watts = int(found[1])
    return f"{watts / 1000:g}k " if watts >= 1000 and watts % 100 == 0 else f"{watts} "


def _cornered(found: re.Match[str]) -> str:
    return f"{found[1][0]}s{found[2][0]}"


def _joined(found: re.Match[str]) -> str:
    return re.sub(r"[\s-]", "", found[1] + found[2])
