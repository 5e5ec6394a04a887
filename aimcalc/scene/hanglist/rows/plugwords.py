"""A word before the number of a channel or a circuit in every cell of its column, "Kr. 41", "voie 3", "Ch 7":
the number alone is meant. A letter that parts several ranges, "L1" and "R2", stays, and so does
what is no word for what the column holds: "DR 3"."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.headingparts import word_lists
from aimcalc.scene.hanglist.columns.headings import meaning
from aimcalc.scene.hanglist.columns.headingwords import meaning_words
from aimcalc.scene.hanglist.rows.listrow import blank, is_ditto, text_of
from aimcalc.scene.hanglist.tongues.tongues import unaccented

_SAID = """
channel: ch chan chans channel kanal kan kanaal canal canale can voie voies kanava kanl csatorna regler
channel: stellkreis fader slider control ctrl desk spor chnl chl
circuit: circuit circ cir ckt cct ct kreis kr stromkreis lastkreis dimmerkreis dim dimmer dimm dmr circuito
circuit: ligne lig linea lin ligna gradateur grad prise presa ritorno groep groepen kring krets krs kreds
circuit: grupp obwod obw okruh piiri dose steckdose stdose stopcontact toma tomada uttag uttak stik gniazdo
circuit: socket skt outlet plug way gruppe ryhma zasuvka
number: no nr num n nos number nro numero
"""
_WORDS = word_lists(_SAID)
_SIDES = frozenset(("l", "r", "sl", "sr", "us", "ds", "ps", "op"))
_CELL = regex(
    r"([^\W\d_]{1,12})(?:\s*[.:#°º/-]{0,2}\s*)(\d{1,5}[a-z]?)((?:[\s(\[,;].*)?)", re.IGNORECASE
)
_MARKED = regex(r"([#№@])\s*(\d{1,5}[a-z]?)((?:[\s(\[,;].*)?)", re.IGNORECASE)
_BARE = regex(r"\d{1,5}[a-z]?(?:[\s(\[,;].*)?", re.IGNORECASE)
_DOTTED = regex(r"[^\W\d_][.:]")  # "c.12": "D1" may be what the house calls it
_CODE = regex(r"(?!CH)[A-Z]{1,2}\d{1,3}")
LONGEST = 50  # characters of such a cell
LEAST_BARE = 2  # letters of a word that some cells may leave out
FEWEST = 2  # cells with the same letter, for it to be short for the word of the heading


def word_of(key: str, heading: str, cells: Iterable[Any]) -> str:
    """The word that all cells of a column of channels or circuits have before their number; "" where they
    have none, or others."""
    texts = [text_of(cell).strip() for cell in cells if not (blank(cell) or is_ditto(cell))]
    if not texts or any(len(text) > LONGEST for text in texts):
        return ""
    said = {_parted(text)[0] for text in texts}
    word = max(said, default="")
    if not word or said - {word} - ({""} if len(word) >= LEAST_BARE else set()):
        return ""
    if any(not _parted(text)[0] and not _BARE.fullmatch(text) for text in texts):
        return ""
    if key == "circuit" and all(map(_CODE.fullmatch, texts)):
        return ""  # as in a list in the scene's own words: "N1", "KR4" name a circuit
    if len(word) < LEAST_BARE and any(text[1:2] == "-" for text in texts):
        return ""  # "N-1" is a code
    if word in _WORDS[key] | _WORDS["number"] or word in "#№@":
        return word
    letter = len(word) < LEAST_BARE and key == "circuit" and not all(map(_DOTTED.match, texts))
    short = len(texts) >= FEWEST and not letter and _is_short(word, key, heading)
    return word if short else ""


def without(word: str, text: str) -> str:
    """A cell without the word that its column has before every number."""
    found, rest = _parted(text.strip())
    return rest if word and found == word else text


def _parted(text: str) -> tuple[str, str]:
    """The word before the number of a cell in its plain form, and the rest; "" where there is none."""
    found = _CELL.fullmatch(text) or _MARKED.fullmatch(text) if len(text) <= LONGEST else None
    if found is None:
        return "", text
    return unaccented(found[1]).casefold(), f"{found[2]}{found[3]}"


def _is_short(word: str, key: str, heading: str) -> bool:
    """Whether a word begins one of the heading that is said of its key: "K" under "Kreis"; no side."""
    plain = unaccented(heading).casefold()
    said = {*meaning_words(heading), *re.findall(r"[^\W\d_]+", plain)}
    of_key = any(key in meaning(each).keys for each in said if each.startswith(word))
    return word not in _SIDES and of_key
