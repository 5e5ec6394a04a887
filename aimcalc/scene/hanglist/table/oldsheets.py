"""Sheets that say themselves that they are no longer to be used, by name or above their table: "OLD last
season", "Archive", "v1 - superseded". Two versions of which none says so are asked about elsewhere."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from itertools import zip_longest

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.columnclaims import Fits
from aimcalc.scene.hanglist.columns.headings import meaning
from aimcalc.scene.hanglist.rows.listrow import blank, says_nothing, text_of
from aimcalc.scene.hanglist.table.findhead import Head, has_units
from aimcalc.scene.hanglist.table.sheetfile import Sheet
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.hanglist.tongues.tongues import unaccented

LONGEST_LINE = 80  # characters of a line that says so in a few words


def in_use(
    shown: list[int],
    sheets: Sequence[Sheet],
    heads: Sequence[Head],
    places: Iterable[str],
    noticed: Noticed,
) -> list[int]:
    """The sheets but for those that say themselves that they are no longer to be used; told."""
    known = {name.casefold() for name in places}
    names = [sheets[k].name for k in shown]
    void = [
        k
        for k in shown
        if sheets[k].name.strip().casefold() not in known  # a bar may be called "Old Bar"
        if _is_old(sheets[k].name, heads[k], [n for n in names if n != sheets[k].name])
    ]
    if not void or len(void) == len(shown):
        return shown
    left = ", ".join(f'"{sheets[k].name}"' for k in void[:8])
    noticed.note(
        "list-sheet",
        f"left out, for it says that it is not to be used: sheet {left}.",
        "hang_sheet in [scene] names it if it is.",
    )
    return [k for k in shown if k not in void]


def said_once(
    shown: list[int], sheets: Sequence[Sheet], heads: Sequence[Head], fits: Fits
) -> list[int]:
    """The sheets but for those that have the same rows as another, in whatever order its rows and columns
    are, "Print" or "By channel"; and those named after stock that hold no unit. Rows that do not say their
    position may be those of another bar, and are read."""
    rows = {k: _rows_of(heads[k]) if _says_positions(heads[k]) else set() for k in shown}
    kept: list[int] = []
    for k in shown:
        again = bool(rows[k]) and any(rows[k] == rows[j] for j in kept)
        stock = bool(_IN_STOCK.fullmatch(sheets[k].name)) and not has_units(heads[k], fits)
        if not (again or stock):
            kept.append(k)
    return kept or shown


def _says_positions(head: Head) -> bool:
    return any("position" in meaning(str(cell)).keys for cell in head.headings())


def _rows_of(head: Head) -> set[frozenset[tuple[str, str]]]:
    """The rows below the headings of a sheet, each cell with its heading."""
    names = [" ".join(str(cell).casefold().split()) for cell in head.headings()]
    below = (r for r in head.rows[head.last + 1 :] if not says_nothing(r) and not head.is_again(r))
    return {
        frozenset(
            (name, text_of(cell).strip())
            for name, cell in zip_longest(names, row, fillvalue="")
            if not blank(cell)
        )
        for row in below
    }


_IN_STOCK = regex(
    r"\W*(?:(?:house|lx)\s)?(?:stock|spares?|store|inventory|lager|bestand|reserve|magasin)\W*",
    re.IGNORECASE,
)


def _is_old(name: str, head: Head, others: Sequence[str]) -> bool:
    lines = [" ".join(str(c) for c in row if not blank(c)) for row in head.above]
    said = "; ".join((name, *lines))
    if _IN_FORCE.search(said):
        return False
    return (
        bool(_SUPERSEDED.search(said))
        or _is_named_old(name, others)
        or any(_says_old(line, _OLD, ()) for line in lines)
    )


def _is_named_old(name: str, others: Sequence[str]) -> bool:
    """Whether the name of a sheet says that it is old, beside others: "OLD last season", "Hang (old)" and
    "Copy of Hang" beside "Hang"; no "Old specials", which may be the old specials or those of old."""
    plain = [_words(other) for other in others]
    parts = [name, *re.split(r"[()\[\]_]+|\s[-–—]\s", name)]  # "Autumn play (old)"
    if any(_says_old(part, said, plain) for part in parts for said in (_OLD, _BEFORE)):
        return True
    mine = _words(name)
    copied = [word for word in mine if not _COPY.fullmatch(word)]
    if copied != mine and copied in plain:
        return True
    drafted = [word for word in mine if not _DRAFT.fullmatch(word)]
    return drafted != mine and any(
        set(drafted) <= set(other) and any(map(_FINAL.fullmatch, other)) for other in plain
    )


def _says_old(text: str, said: re.Pattern[str], others: Sequence[Sequence[str]]) -> bool:
    """Whether a text says that something is old and nothing else but words of lists and of the `others`."""
    words = " ".join(_words(text)) if len(text) <= LONGEST_LINE else ""
    if not said.search(words):
        return False
    rest = _BEFORE.sub(" ", _OLD.sub(" ", words)).split()
    known = {word for other in others for word in other}
    return all(word in known or _NEUTRAL.fullmatch(word) for word in rest)


def _words(text: str) -> list[str]:
    return re.findall(r"[a-z]+\d*|\d+", unaccented(text).casefold())


# A sheet that says so of itself: "v1 - SUPERSEDED, do not use", and not of a circuit or a bar.
_SUPERSEDED = regex(
    r"\bsuperseded\b|\bobsolete\b|\bout of date\b|\bno longer (?:valid|current|used|in use)\b|\bwithdrawn\b"
    r"|\bdo(?: not|n['’]t) use(?: (?:this|it|any\s?more|me))?\s*(?:[!.,;:)\]*-]|$)"
    r"|\breplaced by\b|\bveraltet\b|\bungültig\b|\bnicht (?:mehr )?(?:ver|be)?(?:wenden|nutzen)\b"
    r"|\bpérimée?\b|\bne (?:plus|pas) utiliser\b|\bvervallen\b|\bniet (?:meer )?gebruiken\b"
    r"|\bno usar\b|\bnon usare\b",
    re.IGNORECASE,
)
_IN_FORCE = regex(
    r"\b(?:use this|current|latest|newest|supersedes|replaces|in force)\b", re.IGNORECASE
)
# Words for what is old, without accents; then for what was before, which alone says it of no title.
_OLD = regex(
    r"\b(?:old|oldest|outdated|archived?|archives?|template|alte(?:r|s)?|archiv|vorlage|ancien(?:ne)?s?|vieux|vieille"
    r"|perime|modele|vecchi(?:o|a)|archivio|viej(?:o|a)|antigu(?:o|a)|archivo|plantilla|velh(?:o|a)|antig(?:o|a)|arquivo|oude?|archief"
    r"|sjabloon|gammal|gamla|gammel|gamle|arkiv|star[yae]|stare|archiwum|szablon|vanha)\b"
)
_BEFORE = regex(
    r"\b(?:last|previous|prev|prior|earlier)(?: s)? (?:season|years?|show|production|tour|week|month|term"
    r"|summer|autumn|fall|winter|spring|version|list|hang|rig|plot)(?: s)?\b|\bprevious\b|\bvorjahr\b"
    r"|\b(?:letzte|vorige)(?:r|s)? (?:saison|spielzeit|jahr|woche|version)\b"
    r"|\b(?:saison|annee|version) (?:derniere|passee|precedente)\b"
    r"|\b(?:stagione|anno|versione) (?:scorsa|scorso|precedente)\b"
    r"|\b(?:temporada|ano|version|versao) (?:pasada|pasado|passada|passado|anterior)\b"
    r"|\b(?:vorig|afgelopen) (?:seizoen|jaar)\b"
    r"|\b(?:forra|forrige) (?:aret|sasongen|saesonen|sesongen|ar)\b"
)
_COPY = regex(r"copy|backup|copie|kopie|kopia|kopi|copia|of|von|de|di|van|av|bak")
_DRAFT = regex(r"draft|entwurf|brouillon|bozza|borrador|rascunho|concept|utkast")
_FINAL = regex(r"final|finale?s?|definiti\w*|endgultig\w*|endfassung|slutlig\w*")
# What else such a name or title may say.
_NEUTRAL = regex(
    r"v?\d+|v|ver|version\w*|versie|versao|wersja|rev\d*|revision|hang|hanging|rig|rigging|plot|plan|list\w*|sheet\d*"
    r"|tabelle\d*|blatt\d*|feuil\w*|foglio\d*|hoja\d*|lx|lights?|lighting|lanterns?|units?|data|season|year|s|the|this|one|is"
    r"|from|of|do|not|use|in|der|die|das|stand|von|vom|de|du|la|le|di|del|before|only|ref\w*|for|reference|saison|spielzeit"
    r"|seizoen|temporada|stagione|keep|kept|please|dont|t"
)
