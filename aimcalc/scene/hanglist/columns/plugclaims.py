"""Which of two columns of plugs is the channel of the desk, where both are headed as circuits or both as
channels: "Dimmer ch." beside "Socket", the French "Circuit" beside "Gradateur"; and which of two of one thing
is its number, where the other is its name: "Circuit name" beside "Circuit number"."""

from __future__ import annotations

import re
from itertools import permutations

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.byvalues import told
from aimcalc.scene.hanglist.columns.columnclaims import FITTING, Claiming, which_of
from aimcalc.scene.hanglist.columns.columnkeys import REMARK, Meaning
from aimcalc.scene.hanglist.columns.headingparts import word_lists
from aimcalc.scene.hanglist.columns.headingwords import meaning_words
from aimcalc.scene.hanglist.rows.listrow import text_of
from aimcalc.scene.hanglist.tongues.tongues import unaccented

# Words of headings: where a plug goes, what the dimmers are, and the desk. A French desk numbers "circuits",
# and what they are plugged into has words of its own; the German word for circuits may be either, but for
# that of the mains.
_SAID = """
socket: socket outlet plug patch way feed supply mains power iwb multi mult multicore soca socapex tail loom
socket: box pocket plugged hot multicable spigot stopcontact steckdose dose presa toma prise tomada uttag
socket: uttak gniazdo stik
dimmer: dimmer dimmers dim rack thyristor gradateur gradateurs grada gradas sciemniacz himmennin stmivac
dimmer: daemper lysdaemper dimer regulador regolatore
desk: control desk board console pult mesa pupitre orgue tafel bord konsole consolle
cable: cable cables cabling jumper jumpers lead leads tail tails extension extensions loom looms multicable
cable: multi multis mult mults multicore socapex soca kabel kabels rallonge rallonges cavo cavi
french plug: gradateur gradateurs grada gradas grad ligne lignes prise prises
french: implantation cote
french: perche perches porteuse porteuses projecteur projecteurs appareil appareils gelatine gelatines gelat
french: filtre couleur visee pointage eclaire axe hauteur remarque remarques accroche pont jardin cour
mains: stromkreis lastkreis stromkreise lastkreise strom
circuit: circuit circuits cir circ
kreis: kreis kreise
name: name names label labels rack racks id code letter letters text description nom naam navn namn nombre
name: nome bezeichnung benennung libelle etichetta etiqueta nazwa nimi
number: no n numero nr num de du degree ° №
"""


_OF = word_lists(_SAID)
# A length of cable, several of them, or put together: "10m", "25'", "2 x 10 ft", "10m + 5m".
_NO_CABLE = regex(r"(?:none|no|n/?a|nil|[-–—x]|0)", re.IGNORECASE)
_LENGTHS = r"(?:m|mtrs?|met(?:er|re)s?|ft|feet|foot|['’′])\.?"
_ONE_LENGTH = rf"(?:\d{{1,2}}\s?[x×]\s?)?\d{{1,3}}(?:[.,]\d{{1,2}})?\s?{_LENGTHS}"
_LENGTH = regex(rf"{_ONE_LENGTH}(?:\s?(?:\+|&|/|,|and)\s?{_ONE_LENGTH}){{0,4}}", re.IGNORECASE)
_WHOSE_CABLE = regex(  # whose it is, or that there is none, with its length or without
    rf"(?:{_ONE_LENGTH}\s)?(?:[^\W\d_]{{3,12}}(?:[\s-]|$)){{1,3}}(?:{_ONE_LENGTH})?", re.IGNORECASE
)
FEWEST_FRENCH = 2  # other headings in that language, for a dimmer to be one of its theatres


def desk_and_plug(c: Claiming) -> None:
    """Give the channel to the one of two columns of circuits that the desk calls so, and the circuit to the
    one of two columns of channels that is of the dimmers; where either may be it, that is asked."""
    claimed = {key for found in c.meanings.values() for key in found.keys} | set(c.keys.values())
    circuits = [k for k, found in c.meanings.items() if found.keys == ("circuit",)]
    channels = c.claims.get("channel", [])
    if len(circuits) == 2 and "channel" not in claimed and "circuit" not in c.keys.values():
        for mine, other in (circuits, circuits[::-1]):
            if _is_of_desk(mine, other, c):
                c.claims["circuit"], c.claims["channel"] = [other], [mine]
                c.holds |= {k: told(c.values.of(k)) for k in (mine, other)}
                return
            if _may_be_of_desk(mine, c):
                c.asked.append((mine, which_of("channel", [mine, other], c.texts)))
                return
    if len(channels) == 2 and "circuit" not in claimed:
        dimmers = [
            k for k in channels if _words(k, c) & _OF["dimmer"] and not _words(k, c) & _OF["desk"]
        ]
        if len(dimmers) == 1:
            channels.remove(dimmers[0])
            c.claims["circuit"] = dimmers
            c.holds |= {k: told(c.values.of(k)) for k in (*channels, *dimmers)}


def french_plugs(c: Claiming) -> None:
    """Give the circuit to a column of figures that a French list heads with its word for a dimmer cut short,
    "Grad.", where no other has it; in a German one these are degrees."""
    if "circuit" in {*c.claims, *c.keys.values()}:
        return
    french = [k for k in range(len(c.texts)) if _words(k, c) & _OF["french"]]
    for k, found in c.meanings.items():
        words = _words(k, c)
        headed = words <= _OF["french plug"] | _OF["number"] and words & _OF["french plug"]
        if headed and not found.keys and k not in c.keys and len(french) >= FEWEST_FRENCH:
            c.claims["circuit"] = [k]
            c.holds[k] = told(c.values.of(k))
            return


def lengths_of_cables(c: Claiming) -> None:
    """Let a column that is headed as cables be a remark where each of its cells is a length: "Tail" over
    "10m"; some may say in words from where it comes, "house". The multis "1M", "2M", "3M" are none."""
    for k, found in list(c.meanings.items()):
        if "circuit" not in found.keys or found.exact or not _words(k, c) & _OF["cable"]:
            continue
        texts = [text_of(cell).strip() for cell in c.values.of(k)]
        cells = [one for one in texts if not _NO_CABLE.fullmatch(one)]
        lengths = [one for one in cells if _LENGTH.fullmatch(one)]
        figures = [int(one[:-1]) for one in lengths if re.fullmatch(r"\d{1,3}M", one)]
        multis = len(figures) == len(lengths) and sorted(set(figures)) == list(
            range(1, len(set(figures)) + 1)
        )
        others = [one for one in cells if one not in lengths]
        in_words = len(others) < len(lengths) and all(map(_WHOSE_CABLE.fullmatch, others))
        if lengths and not multis and in_words:
            c.keys[k], c.meanings[k] = REMARK, Meaning()


def temperatures(c: Claiming) -> None:
    """Let a column that is headed "CCT" be a remark where each of its cells is a colour temperature, "3200K":
    these letters stand for that as for circuits."""
    for k, found in list(c.meanings.items()):
        if found.keys != ("circuit",) or not _CCT.search(c.texts[k].casefold()):
            continue
        cells = [text_of(cell).strip() for cell in c.values.of(k)]
        warm = [_KELVIN.fullmatch(cell) for cell in cells if not _NO_CABLE.fullmatch(cell)]
        if warm and all(one and (one[2] or one[1] in _TEMPERATURES) for one in warm):
            c.keys[k], c.meanings[k] = REMARK, Meaning()


_CCT = regex(r"\bccts?\b")
_KELVIN = regex(r"([1-9]\d{3,4})(?:\.0)?(\s?°?[Kk])?")
_WHITES = "2700 2800 2900 3000 3050 3200 3400 3500 4000 4200 4300 4500 5000 5500 5600 6000 6500"
_TEMPERATURES = frozenset(_WHITES.split())


def plugs_first(c: Claiming) -> None:
    """Let the column of dimmers give up the circuit to that of what units are plugged into, which a crew
    needs: "Gradateur" beside "Prise"; they are in the remark."""
    several = c.claims.get("circuit", [])
    plugs = [k for k in several if not _words(k, c) & _OF["dimmer"]]
    if len(several) > 1 and plugs:
        c.claims["circuit"] = plugs


def numbers_of_named(c: Claiming) -> None:
    """Let a column of names give up a circuit, a channel or a colour to the one of its numbers, and any other
    of words a colour to one of gels by their codes. A name that has the number in it, "A12", says more."""
    for key in ("circuit", "channel", "colour"):
        if key in c.keys.values():
            continue
        headed = [k for k, found in c.meanings.items() if found.keys == (key,)]
        for number, name in permutations(headed, 2):
            if _numbers_it(number, name, c) or (key == "colour" and _codes_gels(number, name, c)):
                claim = dict.fromkeys((*c.claims.get(key, ()), number))
                c.claims[key] = [k for k in claim if k != name]
                c.holds[number] = told(c.values.of(number))
                break


def _numbers_it(number: int, name: int, c: Claiming) -> bool:
    """Whether of two columns that are headed as one thing the first has its numbers and the second its names,
    none of which ends in the number beside it."""
    mine, its = set(meaning_words(c.texts[number])), set(meaning_words(c.texts[name]))
    marks = _OF["number"] | _OF["name"]
    named = bool(its & _OF["name"]) or bool(mine & _OF["number"] and not its & _OF["number"])
    if mine - marks != its - marks or mine & _OF["name"] or not named:
        return False
    pairs = [
        (text_of(row[number]).strip(), text_of(row[name]).strip())
        for row in c.values.rows
        if max(number, name) < len(row)
    ]
    figures = bool(pairs) and all(re.fullmatch(r"\d{0,4}[a-z]?", one) for one, _ in pairs)
    within = any(
        one and re.search(rf"(?<!\d){re.escape(one)}$", other) and one != other
        for one, other in pairs
    )
    ordered = all(one and other.endswith(one) for one, other in pairs)
    return figures and not (within and ordered)


def _codes_gels(code: int, name: int, c: Claiming) -> bool:
    """Whether one column of colours holds codes of gels and the other their names."""
    return c.share("gel code", code) >= FITTING and c.share("gel code", name) == 0.0


def _words(k: int, c: Claiming) -> set[str]:
    """The words of a heading in their plain form, without accents."""
    plain = unaccented(c.texts[k]).casefold()
    return {*meaning_words(plain), *re.findall(r"[^\W\d_]+", plain)}


def _is_of_desk(k: int, other: int, c: Claiming) -> bool:
    """Whether a column is the desk's: the channel of a dimmer beside the socket, "Circuit" beside the words
    of a French theatre, "Kreis" beside that of the mains."""
    mine, its = _words(k, c), _words(other, c)
    if mine & _OF["desk"] and mine & _OF["circuit"] and not its & _OF["desk"]:
        return True  # "Circuit (console)"
    if {"dimmer", "channel"} <= mine:
        return bool(its & _OF["socket"]) and not its & _OF["dimmer"]
    if mine <= _OF["circuit"] | _OF["number"]:
        heads = [_words(j, c) for j in range(len(c.texts)) if j not in (k, other)]
        french = sum(bool(words & _OF["french"]) for words in heads) >= FEWEST_FRENCH
        return bool(its & _OF["french plug"]) or (french and "dimmer" in its)
    return _may_be_of_desk(k, c) and bool(its & _OF["mains"])


def _may_be_of_desk(k: int, c: Claiming) -> bool:
    """Whether a column is headed with the German word for circuits, which a desk has and a house too."""
    return "kreis" in _words(k, c) and _words(k, c) <= _OF["kreis"] | _OF["number"]
