"""Rows of a hang list that somebody adds to the page and that are no units: who signed and checked it, when,
what it all weighs and draws, and arrows to the sides of the stage."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.rows.listrow import blank, text_of
from aimcalc.scene.hanglist.tongues.tongues import unaccented

LONGEST = 80  # characters of a cell with such words


def is_label(row: Sequence[Any]) -> bool:
    """Whether a row begins with the label of something that a page has and no unit, "Checked by", "Load", or
    says where somebody is reached."""
    cells = [text_of(cell).strip() for cell in row if not blank(cell)]
    if not cells or max(map(len, cells)) > LONGEST:
        return False
    first = (cells[0] if cells[0].isascii() else unaccented(cells[0])).casefold()
    if is_measured(row):
        return True
    return bool(_LABEL.fullmatch(first)) or any(
        _REACHED.search(c) or _PAGE.fullmatch(c) for c in cells
    )


def is_measured(row: Sequence[Any]) -> bool:
    """Whether a row of few cells says what something weighs or draws: "FOH | 24 kg"."""
    cells = [text_of(cell).strip() for cell in row if not blank(cell)]
    return len(cells) <= MOST_MEASURED and any(map(_MEASURED.fullmatch, cells))


def is_headed(row: Sequence[Any]) -> bool:
    """Whether a row begins with a word for what it lists and goes on with that: "Hire:", "Gel cuts"."""
    cells = [text_of(cell).strip() for cell in row if not blank(cell)]
    headed = len(cells) > 1 and len(cells[0]) <= LONGEST_HEAD
    return headed and bool(STOCK.fullmatch(cells[0]) or _HEADED.fullmatch(cells[0]))


def is_counted(row: Sequence[Any]) -> bool:
    """Whether a row of two cells says how many of what there are: "Circuits used:", "11 of 12"."""
    cells = [text_of(cell).strip() for cell in row if not blank(cell)]
    if len(cells) != LABEL_AND_COUNT or len(cells[0]) > LONGEST_HEAD:
        return False
    label = _HEADED.fullmatch(cells[0]) or _UNITS_COUNTED.fullmatch(cells[0])
    return bool(label and _COUNT.fullmatch(cells[1]))


_UNITS_COUNTED = regex(
    r"(?:units?|lamps?|lanterns?|fixtures?|instruments?|lights?|heads?|count|total)", re.IGNORECASE
)
LABEL_AND_COUNT = 2  # cells of such a row
_COUNT = regex(r"\d{1,4}(?:\s*(?:of|/|out\sof|von|de|di|van|av|af|z)\s*\d{1,4})?", re.IGNORECASE)
LONGEST_HEAD = 30  # characters of such a word
_HEADED = regex(r"[^\W\d_][^:]*[^\W\d_]\s*:")
# What stands over a list of what is in stock, counted or ordered.
STOCK = regex(
    r"\W*(?:(?:lantern|lamp|light|unit|fixture|colou?r|gel|filter|equipment|kit|house)s?\s)?"
    r"(?:totals?|counts?|summary|stock|accessor(?:y|ies)|inventory|hire[ds]?(?:\sin)?|cuts?|call)\W*",
    re.IGNORECASE,
)
MOST_MEASURED = 4  # cells of a row that says what something weighs or draws
_MEASURED = regex(
    r"[~≈]?\s*\d+(?:[.,]\d+)?\s*(?:kgs?|kilos?|lbs?|k[vw]a?|amps?)\b\.?", re.IGNORECASE
)
_PAGE = regex(
    r"(?:page|p\.?|pg\.?|sheet|seite|s\.|blatt|bl\.|feuille|pag(?:e|ina)?\.?|página|pagina|hoja|foglio|blad|sida|side|str\.?)"
    r"\s*\d{1,2}\s*(?:of|/|von|de|di|van|av|af|z)\s*\d{1,2}"
    r"|(?:page|sheet|seite|blatt|feuille|pagina|página|hoja|foglio|blad)\s*\d{1,2}",
    re.IGNORECASE,
)


def are_sides(row: Sequence[Any]) -> bool:
    """Whether a row shows with arrows on which hand which side of the stage is: "<- SL", "SR ->"."""
    cells = [text_of(cell).strip() for cell in row if not blank(cell)]
    if not cells or max(map(len, cells)) > LONGEST:
        return False
    if len({cell.casefold() for cell in cells}) < 2 and not any(map(_ARROW.search, cells)):
        return False
    return all(_SIDE.fullmatch(cell.casefold()) for cell in cells)


_WHO = (
    r"(?:sign(?:ed|ature)|check(?:ed)?|approved?|drawn|prepared|compiled|typed|issued|printed|updated|revised"
    r"|written|made|hung|rigged|focus(?:s)?ed|patched|verified)"
)
_BY_HAND = (
    r"unterschrift|gepruft|erstellt|gezeichnet|gedruckt|freigegeben|signe|verifie|etabli|imprime|approuve"
    r"|firma|firmato|controllato|stampato|disegnato|firmado|revisado|impreso|dibujado|assinatura|verificado|impresso"
    r"|handtekening|gecontroleerd|getekend|underskrift|kontrollerad|kontrolleret|kontrollert|allekirjoitus|tarkastettu"
    r"|podpis|sprawdzil|zkontroloval"
)
_WHEN = (
    r"date|datum|dato|fecha|data|paivays|paivamaara|last\s(?:update|change|save)d?|as\sof"
    r"|(?:version|rev(?:ision)?)(?:\W?\s?[a-z\d.]{1,4})?|venue|show|production|company"
)
_HOW_MUCH = (
    r"(?:(?:total|max|gesamt)\s?)?(?:load|weight|power|watt(?:s|age)?|amps?|leistung|gewicht|puissance|poids|charge|potenza"
    r"|peso|carico|potencia|carga|vermogen|belasting|effekt|vikt|vaegt|vekt|belastning|teho|paino|moc|waga|vykon|hmotnost)"
)
_WHOM = (
    r"contact|tel(?:ephone|efon|efono|efoon)?|phone|mobile|mob|e-?mail|designer|(?:lighting\s)?designer|ld|chief(?:\s(?:lx|electrician))?"
    r"|(?:production|master|head)\selectrician|stage\smanager|prod\w*\.?\s?(?:lx|elec\w*)|crew(?:\schief)?|lx\s(?:crew|chief)"
)
_LABEL = regex(
    rf"\W*(?:(?:{_WHO}|{_BY_HAND})(?:\s(?:by|on|at|von|am|par|le|da|il|por|el|door|op|av|af)\b.*)?\s*(?::.*|\.|_.*)?"
    r"|(?:[^\W\d_]+\s){1,2}(?:checked|tested|ordered|done|completed?)\W*"
    rf"|(?:{_WHEN}|{_HOW_MUCH}|{_WHOM})\s*(?:[:=].*|\.|\([^()]*\))?)"
)
_REACHED = regex(r"[^\s@]@[^\s@]+\.[a-z]|(?<![\w.,])(?:\+\d|0\d)(?:[\s()/.-]{0,2}\d){7,12}\s*$")
_ARROW = regex(r"<|>|[←→⇐⇒⟵⟶↔]")
_SIDE = regex(
    r"[\s<>←→⇐⇒⟵⟶↔=|_–—-]*(?:(?:stage\s|house\s)?(?:left|right)|[sh]\.?[lr]\.?|p\.?s\.?|o\.?p\.?|cl|c/l|cent(?:re|er)(?:\sline)?"
    r"|audience|public|auditorium|(?:up|down)stage|[ud]s|front|back|jardin|cour|links|rechts)?[\s<>←→⇐⇒⟵⟶↔=|_–—-]*"
)
