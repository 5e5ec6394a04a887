"""Rows of a hang list that say of their unit, in any column and language, that it does not hang: "CUT 11/4",
"entfällt", "supprimé", "spare, not rigged", "leave in rack"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.names.sections import is_accessory
from aimcalc.scene.hanglist.names.sparewords import is_spare
from aimcalc.scene.hanglist.rows.listrow import text_of
from aimcalc.scene.hanglist.tongues.tongues import unaccented

LONGEST_CUT = 30  # characters of words that say it of the whole unit
LONGEST = 100  # of a cell in which a part says it
LONGEST_LINE = 160  # of a line that says it of rows with a line through them


def cut_by(raw: dict[str, Any], remarks: list[tuple[str, Any]]) -> str:
    """The words of a row that say that its unit does not hang; "" where none do. "CUT?" may be either."""
    for heading, cell in (*raw.items(), *_of_units(remarks)):
        said = text_of(cell).strip()
        if said.casefold() in _YES and _IS_CUT.fullmatch(heading):
            return f"{heading} {said}"
        if heading == "number" and (numbered := _CUT_NUMBER.fullmatch(said)):
            said = numbered[1]
        if _LETTERS.search(said) and says_cut(said):
            return said
    return ""


def calls_cut(row: Sequence[Any]) -> bool:
    """Whether a cell of a row, or what stands behind a mark in one, calls its unit cut, "A3 - CUT", and none
    asks whether it is, or says that it is back."""
    texts = [cell for cell in row if isinstance(cell, str) and len(cell) <= LONGEST]
    said = [part for text in texts for part in _PARTS.split(text.strip()) if says_cut(part)]
    return bool(said) and not any(map(may_hang, texts))


def lined_are_cut(line: str) -> bool:
    """Whether a line beside the units says that those with a line through them are cut: "struck-through rows
    do not hang"; none that are done."""
    plain = _plain(line[: LONGEST_LINE + 1])
    if len(plain) > LONGEST_LINE or not _LINED.search(plain):
        return False
    rest = _LINED.sub(" ", plain)
    return bool(_OUT.search(rest)) and "?" not in rest and not _DONE.search(rest)


def may_hang(said: str) -> bool:
    """Whether words that call a unit cut are a question, or say too that it is back: "CUT - reinstated"."""
    return "?" in said or bool(_BACK.search(_plain(said)))


@lru_cache(4096)
def says_cut(said: str) -> bool:
    """Whether a cell says of its unit that it does not hang."""
    plain = _plain(said[: LONGEST + 1])
    if _SAID.isdisjoint([word[:4] for word in _WORD.findall(plain)]):
        return False
    if len(said) <= LONGEST_CUT and _CUT.fullmatch(plain):
        return True
    if _CUT_FIRST.match(plain) or _cut_in_revision(said.strip(), plain):
        return True
    return len(said) <= LONGEST and _stays_down(_PARTS.split(plain.strip(" !*-")))


def _cut_in_revision(said: str, plain: str) -> bool:
    """Whether a cell says when a unit was cut, and no more: "C - CUT" of revision C, "12/11 cut". A single
    letter may be a shutter's, "A - cut", but for capitals."""
    found = _MARKED.fullmatch(plain)
    return bool(
        found
        and (found["sure"] or found["behind"] or _CUT_WORD.search(said) is None or "CUT" in said)
    )


def _stays_down(parts: list[str]) -> bool:
    """Whether one of the parts of a cell says that its unit is not to be hung, or where it is kept instead:
    "spare - leave in rack", and no "spare lamp, kept in store"."""
    first, *rest = (part.strip(" !*.)]-") for part in parts)
    if is_accessory(first):
        return False
    if any(_NOT_HUNG.fullmatch(part) for part in (first, *rest)) or _STORED.fullmatch(first):
        return True
    return any(_STORED.fullmatch(part) for part in rest) and is_spare(first)


def _of_units(remarks: list[tuple[str, Any]]) -> Iterator[tuple[str, Any]]:
    """The remarks of a row that may be of its unit, without those of a thing that hangs on it: "not used"
    under "Gobo"."""
    return ((heading, cell) for heading, cell in remarks if not _THING.search(heading))


def _plain(said: str) -> str:
    return " ".join((said if said.isascii() else unaccented(said)).casefold().split())


_LETTERS = regex(r"[^\W\d_]{3}|n/u", re.IGNORECASE)
_IS_CUT = regex(r"\W*(?:cut|deleted?|omit(?:ted)?)\W*", re.IGNORECASE)
_THING = regex(r"gobo|iris|templ|pattern|safet|frost|scroll|access|barn|hat\b|frame", re.IGNORECASE)
_CUT_NUMBER = regex(r"#?\s*\d{1,4}[a-z]?[\s(\[–—,:;-]+([^\W\d_]{2}[^\d?]*)", re.IGNORECASE)
_YES = ("y", "yes", "x", "true", "✓", "✔", "1")
# Of a unit that is taken out of the rig, without accents and in lower case.
_GONE = (
    r"(?:now|is|was)\scut|deleted?|omit(?:ted)?|struck|strike|to\s(?:be\s)?str(?:ike|uck)|removed?|cancel(?:l?ed)?"
    r"|scrapped|axed|redundant"
    r"|no\slonger\s(?:used|needed|required|hung|in\suse|there|exists?)|taken\s(?:out|down"
    r"|off)(?:\sof)?(?:\sthe)?(?:\srig|\splot)?"
    r"|not\s(?:used|hung|rigged|in\suse|needed|required)|do(?:\snot|n['’]?t)\s(?:hang|rig)|n/u"
    r"|not\s(?:used\s)?(?:(?:for\s)?this\s(?:year|time|show|season|production)|tonight)"
)
_GONE_ELSEWHERE = (  # in other languages
    r"(?:ent|weg)fallt|fallt\s(?:weg|aus|raus|heraus)|(?:ent|weg)fallen|entf\.?|gestrichen|gestr\.?"
    r"|streichen"
    r"|ausgebaut|geloscht|storniert|wird\snicht\s(?:gehangt|gebraucht|benotigt|verwendet)"
    r"|nicht\s(?:benutzt|benotigt|gebraucht|verwendet|in\sgebrauch|mehr)|unbenutzt"
    r"|(?:a\s)?supprim(?:ee?|er)s?|(?:a\s)?annul(?:ee?|er)s?|(?:a\s)?retir(?:ee?|er)"
    r"|(?:a\s)?enlev(?:ee?|er)|rayee?"
    r"|elimin(?:ee?|er)|(?:non|pas|plus)\sutilisee?|inutilisee?"
    r"|(?:da\s)?(?:elimina(?:t[oa]|re)|soppress[oa]|annulla(?:t[oa]|re)|cancellat[oa]|toglier[e]"
    r"|tolt[oa]|rimoss[oa]"
    r"|cassat[oa]|depennat[oa])|non\s(?:usat[oa]|utilizzat[oa]|serve|si\susa)"
    r"|eliminad[oa]|suprimid[oa]|anulad[oa]|quitad[oa]|retirad[oa]|tachad[oa]|cancelad[oa]"
    r"|removid[oa]"
    r"|no\sse\susa|no\susad[oa]|sin\susar|sin\suso|nao\s(?:se\s)?usad?[oa]"
    r"|eliminat|suprimit|anul[·.]?lat|anulat"
    r"|(?:komt\ste\s)?verval(?:t|len)|geschrapt|schrappen|verwijderd|niet\s(?:meer\s)?(?:gebruikt"
    r"|nodig|in\sgebruik)"
    r"|utgar|utgatt|struken|struket|strukna|stryks|borttagen|anvands\s(?:ej|inte)|(?:ej"
    r"|inte)\s(?:anvand|i\sbruk)"
    r"|udgar|udgaet|slettet|stroget|strokes|stroket|strykes|fjernet|bruges\sikke|brukes\sikke"
    r"|ikke\s(?:brugt|brukt|i\sbrug|i\sbruk)"
    r"|poistettu|poistuu|jaa\spois|ei\skaytossa|ei\skayteta"
    r"|skreslon[aey]|usuniet[aey]|wypada|anulowan[aey]|nieuzywan[aey]"
    r"|zrusen[aoy]?|(?:vy)?skrtnut[aoy]?|vypusten[aoy]?|odpada|nepouzit[aoy]?|nepouziva\sse|torolve"
    r"|elmarad|kimarad"
)
# Words that may be of the beam too, "tagliato sul fondale": alone, or before a mark or a day.
_CUT_TOO = r"cut|coupee?s?|tagliat[oa]|cortad[oa]|tallat|raus|bortagen|vaek|weg"
# How it is said that a unit stays on the ground, whatever stands beside it.
_NOT_HUNG = regex(
    r"(?:please\s)?do(?:\snot|n['’]?t)\s(?:hang|rig)(?:\s(?:it|this|this\sone|yet))?"
    r"|not\s(?:to\sbe\s)?(?:hung|rigged)|nothing\shung"
    r"|(?:bitte\s)?nicht\s(?:(?:auf|ein)?hangen|(?:auf|ein)?gehangt|montieren|montiert)"
    r"|hangt\snicht"
    r"|wird\snicht\s(?:auf)?gehangt"
    r"|ne\spas\s(?:accrocher|monter|pendre|installer)|(?:non|pas)\s(?:accroche|monte|installe"
    r"|pendu)e?s?"
    r"|non\s(?:si\s)?(?:mont(?:are|at[oa]|a)|appen(?:dere|de)|appes[oa]|installare)"
    r"|da\snon\s(?:montare|appendere)"
    r"|no\s(?:se\s)?(?:colg(?:ar|ado)|cuelga|mont(?:ar|ado|a)|instalar)"
    r"|nao\s(?:montar|pendurar|instalar)"
    r"|niet\s(?:op)?hangen|hangt\sniet|niet\s(?:opgehangen|monteren)"
    r"|(?:ska\s)?(?:hangs|hanger|hangas)\s(?:ej|inte)|hang\s(?:ej|inte)|(?:ej|inte)\s(?:hangd"
    r"|upphangd"
    r"|riggad)"
    r"|(?:skal\s)?(?:henges|henger|haenges|haenger|riggs)\sikke|skal\sikke\s(?:henge|haenge"
    r"|rigges)s?"
    r"|ikke\s(?:heng|haeng|hengt|haengt|rigg|rigget)|ei\sripusteta|nie\swieszac|nie\swisi|nevesit"
    r"|nevisi"
)
# And where a spare one is kept.
_STORED = regex(
    r"(?:to\sbe\s|it\s|this\sone\s)?(?:leave|left|stays?|keep|kept|remains?)(?:\sit|\sthis"
    r"|\sone)?\s(?:in"
    r"|on)\s(?:the\s|its\s|our\s)?"
    r"(?:\w+\s)?(?:rack|(?:flight\s?)?case|stores?|storage|box|crate|truck|van|shelf|cupboard"
    r"|warehouse|dolly|trolley|dock"
    r"|floor\sof\sthe\sdock|ground)"
    r"|(?:bleibt|bleiben|liegt)\s(?:im|in\sder|auf\sdem)\s(?:lager|case|koffer|kiste|boden|lkw|rack"
    r"|regal)"
    r"|(?:a\slaisser|reste|rester|laisser)\s(?:au|en|dans\sle|dans\sla|sur\sle)\s(?:stock|depot"
    r"|reserve"
    r"|camion|caisse|flight|rack)"
    r"|(?:resta|lasciare|rimane)\s(?:in|nel|nella|sul)\s(?:magazzino|rack|cassa|baule|deposito"
    r"|camion)"
    r"|queda\sen\s(?:el\s)?(?:almacen|caja|camion|rack)|fica\s(?:no|na|em)\s(?:armazem|caixa|rack"
    r"|camiao)"
    r"|blijft\s(?:in|op)\s(?:de\s|het\s)?(?:kist|case|opslag|magazijn|rek)"
)
_PARTS = regex(r"\s*(?:[,;:(\[!]|\.\s|\s?[–—]\s?|\s-+\s?|-\s)\s*")
_WORD = regex(r"[a-z]+")
# How the words begin of which each of the patterns asks for one: most cells have none.
_BEGINNINGS = """
annu anul anva ausg axed blei blij bort brug bruk canc cass cort coup cut dele depe do don dont
ei ej elim elma enle entf fall fica fjer gelo gesc gest haen hang heng ikke inte inut jaa keep
kept kima komt lais lasc leav left lieg n nao ne nepo neve nevi nich nie niet nieu no non not
noth odpa omit pas plus pois qued quit raus raye redu rema remo rest reti rigg rima rimo schr
scra sin ska skal skre skrt slet sopp stay stor stre stri stro stru stry supp supr tach tagl
take tall togl tolt toro udga unbe usun utga vaek verv verw vypu vysk weg wegf wird wypa zrus
"""
_SAID = frozenset(_BEGINNINGS.split())
_OF_UNIT = (
    r"(?:(?:this\s|the\s)?(?:unit|lantern|fixture|instrument|fitting|luminaire)\s(?:is\s|was\s)?)?"
)
_CUT = regex(rf"\W*{_OF_UNIT}(?:{_GONE}|{_GONE_ELSEWHERE}|{_CUT_TOO})\W*")
# At the start of a longer remark; "cut top shutter" is of the beam, so that more must tell it of the unit.
_DAY = r"(?:(?:am|le|il|el|den|op|de)\s+)?\d"
_REASON = (
    rf"(?:{_DAY}|(?:laut|lt\.?|gemass|wegen|wg\.?|ab|selon|par|depuis|come\sda|secondo|per|segun"
    rf"|por|desde|volgens|wegens"
    r"|ivm|i\.v\.m\.|enligt|pga|ifolge)\b)"
)
# When and why: "CUT after tech", "cut for the tour", and no "cut at the opening", "cut on the first run
# of steps" or "cut before the press box", which are of the beam.
_ON_DAY = r"(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri|sat(?:ur)?|sun)(?:day)?"
_IN_WORK = r"(?:tech(?:nical)?|dress|previews?|rehearsals?)"
_AT_TIME = (
    rf"(?:{_IN_WORK}|(?<!the\s)opening|opening(?=\snight)|press|tour(?:ing)?|venue|run|show|season|transfer|budget"
    rf"|weight|money|time|week|year|{_ON_DAY})"
)
_WHEN = (
    r"\s+(?:"
    rf"(?:after|before|since|during|for|this)\s+(?:(?:the|this|our|first|last|second)\s+){{0,2}}{_AT_TIME}"
    rf"|(?:at|in)\s+(?:(?:the|this|our|first|last|second)\s+){{0,2}}{_IN_WORK}"
    rf"|in\s+(?:the|this)\s+(?:venue|season|transfer)|on\s+{_ON_DAY})"
    r"(?:\s(?:rehearsals?|run|night|week|day|reasons?|dates?|version))?"
    r"(?=\W*$|\s*[,;.(–-]|\s+(?:\d|per\b|by\b))"
    r"|\s+v\.?\d"
)
_CUT_FIRST = regex(
    r"\W*(?:(?:deleted?|omit(?:ted)?|struck|do(?:\snot|n['’]?t)\shang)\b|not\s(?:hung"
    r"|used)\b(?=\s*[-–—,;:(]|\s*$)"
    r"|cut\b(?:\s*[.;,(–—-]|\s+(?:per|as\sper|as\sof|by|from\s(?:the\s)?(?:show|plot|rig|list)|\d))"
    rf"|cut\b(?:{_WHEN})"
    rf"|(?:{_GONE_ELSEWHERE})\b(?:\s*[.;,:(–—]|\s*-\s|\s+{_REASON})"
    rf"|(?:{_CUT_TOO})\b(?:\s*[;(]|\s+[-–—]\s|\s+{_DAY}))"
)
_MARKED = regex(
    rf"(?:(?P<sure>rev(?:ision)?\.?\s*(?:[a-z]|\d{{1,2}})|{_DAY}{{1,2}}[./]\d{{1,2}}(?:[./]\d{{2,4}})?)|[a-z]|v?\d{{1,2}})"
    rf"\s*(?:[-–—:.)/]\s*)?(?:{_GONE}|{_GONE_ELSEWHERE}|{_CUT_TOO})\W*"
    rf"|(?P<behind>(?:{_GONE}|{_CUT_TOO})\s+(?:in\s)?rev(?:ision)?\.?\s*(?:[a-z]|\d{{1,2}}))"
)
_CUT_WORD = regex(r"\bcut\b", re.IGNORECASE)
_BACK = regex(
    r"\b(?:re-?instat\w+|restor\w+|un-?cut|put\sback|back\sin|now\sback|back\sagain|back\son"
    r"|not\scut"
    r"|un-?struck|wieder\s(?:drin|da|rein)"
    r"|doch\s(?:wieder|hangen)|remise?s?|retablie?|ripristinat[oa]|recuperad[oa]|toch\s(?:wel|weer)"
    r"|anda\smed|tilbage|tilbake)\b"
)
# Rows with a line through them, as people call them in a line beside.
_LINED = regex(
    r"\b(?:struck(?=\s(?:lines?|rows?|units?|lamps?|lights?|ones)\b)|(?:struck|strike|strikes|crossed|lined|scored|ruled)[\s-]*(?:through|thru|out|off)"
    r"|strike\s?through|lines?\s(?:drawn\s)?through|(?:durch|aus)gestrichene?[nrs]?|barr(?:ee?s?|at[oaie])"
    r"|raye(?:e?s)?|biffee?s?"
    r"|sbarrat[oaie]|tachad[oa]s?|riscad[oa]s?|ratllad[oae]s?|doorge(?:streept|haald)e?|(?:over|genom)struk(?:na|et|en)"
    r"|(?:over|gennem|gjennom)stre(?:get|gede|ket|kede|kne)|yliviiva\w+|przekreslon\w*|preskrtnut\w*|athuz\w+)\b"
)
_OUT = regex(
    rf"\b(?:{_GONE}|{_GONE_ELSEWHERE}|{_CUT_TOO}|{_NOT_HUNG.pattern}|cuts|(?:is|are|=)\sout|left\sout|gone|dropped"
    r"|ignore[dn]?|ignorer|ignorar|dead|eliminat[ei]|annullat[ei]|soppress[ei]|tagliat[ei])\b"
)
_DONE = regex(
    r"\b(?:done|again|already|finished|complete[d]?|is\shung|are\shung|hung\s(?:ok|up)|hanging|erledigt|fertig|schon|bereits"
    r"|faits?|deja|fatto|fatti|gia|hecho|ya|feito|ja|gedaan|klaar|klart?|redan|allerede|valmis|gotowe|hotovo)\b"
)
