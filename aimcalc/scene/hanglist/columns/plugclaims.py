"""Which of two columns of plugs is the channel of the desk, where both are headed as circuits or both as
channels: "Dimmer ch." beside "Socket", the French "Circuit" beside "Gradateur"."""

from __future__ import annotations

import re

from aimcalc.scene.hanglist.columns.byvalues import told
from aimcalc.scene.hanglist.columns.columnclaims import Claiming, which_of
from aimcalc.scene.hanglist.columns.headingparts import word_lists
from aimcalc.scene.hanglist.columns.headingwords import meaning_words
from aimcalc.scene.hanglist.tongues.tongues import unaccented

# Words of headings: where a plug goes, what the dimmers are, and the desk. A French desk numbers "circuits",
# and what they are plugged into has words of its own; the German word for circuits may be either, but for
# that of the mains.
_SAID = """
socket: socket outlet plug patch way feed supply mains power iwb multi mult multicore soca socapex tail loom
socket: box pocket plugged hot multicable spigot stopcontact steckdose dose presa toma prise tomada uttag
socket: uttak gniazdo stik
dimmer: dimmer rack thyristor gradateur gradateurs grada sciemniacz himmennin stmivac
desk: control desk board console pult mesa pupitre orgue tafel bord konsole consolle
french plug: gradateur gradateurs grada gradas grad ligne lignes prise prises
french: perche perches porteuse porteuses projecteur projecteurs appareil appareils gelatine gelatines gelat
french: filtre couleur visee pointage eclaire axe hauteur remarque remarques accroche pont jardin cour
mains: stromkreis lastkreis stromkreise lastkreise strom
circuit: circuit circuits cir circ
kreis: kreis kreise
number: no n numero nr num de du degree ° №
"""


_OF = word_lists(_SAID)
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


def _words(k: int, c: Claiming) -> set[str]:
    """The words of a heading in their plain form, without accents."""
    plain = unaccented(c.texts[k]).casefold()
    return {*meaning_words(plain), *re.findall(r"[^\W\d_]+", plain)}


def _is_of_desk(k: int, other: int, c: Claiming) -> bool:
    """Whether a column is the desk's: the channel of a dimmer beside the socket, "Circuit" beside the words
    of a French theatre, "Kreis" beside that of the mains."""
    mine, its = _words(k, c), _words(other, c)
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
