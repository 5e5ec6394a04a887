"""Headings put together of words that each say a part of it, in one language or another: "Lysdæmper",
"Circuit jeu d'orgue", "House dimmer no.", "Stellwerkskanal", "LX colour".

A heading counts here only where every word of it, and every part of a long word, is known, so that "Gel size"
or "Farbtemperatur" is none.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache

from aimcalc.named import NamedTuple, regex

# What a word says of a column. Those of `place` tell where a plug is, those of `aside` nothing of the key;
# `plug`, `asked` and `runs` are of long-hand headings, "Socket it is plugged into", "What colour is in it".
_SAID = """
channel: channel chan kanal kan canal canale can kanaal kanalu voie stuurkanaal regelkanaal styrkanal
channel: reglerkanal steuerkanal
console: fader faders schuif schuiven
console: console consolle consola konsoleta konsolety konsola konsoli control board desk pult lichtpult
console: stellwerk stw stell steller jeu orgue jo pupitre mesa mixer banco regia regie tafel lichttafel
console: lichtcomputer bord bordet stallverk pulpit pulpitu stol stolu nastawni nastawnia lysregulering
console: sterowania sterowanie sterujacy
console: lysstyring steuerkreis regler schieber stellregler regelkring taula poyta valopoyta mixerpult
circuit: circuit kreis stromkreis lastkreis steckdose anschluss versatz abgang stromanschluss rangierung
circuit: ligne prise circuito linea linha linia linii toma tomada presa ritorno uscita saida enchufe kring
circuit: groep stopcontact contactdoos contact aansluiting kreds stromkreds stik stikkontakt udtag krets
circuit: stromkrets kurs uttag eluttag uttak stikk obwod obwodu gniazdo gniazda gniazdko kontakt przylacze
circuit: outlet socket socapex soca patch steckplatz versatzkasten versatzkiste dose verteiler bloc depart
circuit: envio innesto ciabatta stekker prik prikpunt ligacao avgang wtyczka wtyczki elgrupp ljusgrupp
circuit: raceway iwb relay relais endoll endolls pistorasia pistoke zasuvka zasuvky
dimmer: dimmer dimer dimera dimmera gradateur gradateurs grada gradas regulador regolatore regulatora
dimmer: daemper daempere sciemniacz sciemniacza thyristor tyristor lysregulator
address: address addresses addr adr adresse adress
colour: colour gel gels filter filters farbe farben farb folie folien gelatine gelatines gelatinen gelat
colour: gela couleur couleurs filtre filtres teinte gelatina gelatinas color colores filtro filtros colore
colour: colori filtri kleur kleuren cor cores farve farver farge farger farg kolor koloru filtr filtry
colour: filtra folia folii barwa zel farbscheibe farbscheiben farbwahl farbton filterung fargsattning tinta
colour: kolory
brand: lee rosco
kind: unit fixture instrument lantern lamp luminaire fitting spotlight gerat gerate geraet geraete
kind: scheinwerfer lampe lampen leuchte leuchten strahler projecteur projecteurs projo projos appareil
kind: aparato foco proyector reflector proiettore proiettori faro fari faretto apparecchio apparecchi
kind: lampada spot armatuur armaturen schijnwerper projetor projetores projectores refletor refletores
kind: lyskaster lyskastere stralkastare projektor enhed enhet armatur armaturer lampa lampor reflektor
kind: reflektora reflektory lampy oprawa oprawy urzadzenie urzadzenia luminaria lamper instrumento strumento
kind: sprzet utrustning utstyr udstyr lyskilde ljuskalla lichtquelle zrodlo naswietlacz kaster kastere
kind: apparaat toestel apparat lichtbron materiel material materiale materiaal scheinw schw sw sources
kind: lanterne
type: type typ tipo rodzaj art soort sort modell modele modello modelo slags model
no: no nr nro nummer numero numer num n º n° № nummern
aside: lx lighting light electric electrical house venue theatre theater hall studio show rig grid plot our
aside: your my local used required reqd needed wanted assigned allocated fitted this licht lys ljus luz
aside: luces luci luce lumiere swiatla swiatlo oswietleniowy swietlny haus huis hus husets salle teatro
aside: teatralny theatro zaal saal salens casa lieu sali sala regulowany electrique electrico elettrico
aside: elettrica elektryczny strom stroom el ref reference code codigo codice kod kode id barwny barwna
aside: kolorowy buhnen buhne corriente kracht netz
memo: memo memory dmx soft softpatch plotted plotting preset
hung: bar bars pipe pipes truss trusses batten battens
place: stage floor wall rack power multi wand puissance way
little: de la le les du da do del della dell dello di d l der die das dem von am auf im in het van op i pa
little: na a au o of the av on at am by an en em
plug: plugged plugs plugging steckt eingesteckt angeschlossen gesteckt branche branchee raccorde enchufado
plug: enchufada conectado conectada aangesloten ingeprikt gestoken collegato collegata attaccato attaccata
plug: inserito ligado ligada tilsluttet kopplad kopplat inkopplad tilkoblet tilkoplet koblet podlaczony
plug: ingeplugd wpiety zapojeno zapojen kytketty
asked: it its is which what where into to from off has su sur til till zum zur vom uit
runs: runs run running goes go fed feeds wired connected patched comes up zit hangt haengt lauft laeuft geht
runs: driven powered through via
"""


def word_lists(said: str) -> dict[str, frozenset[str]]:
    """Words by what they say, of lines of both: "desk: board console"."""
    found: dict[str, frozenset[str]] = {}
    for line in said.strip().splitlines():
        what, _, words = line.partition(": ")
        found[what] = found.get(what, frozenset()) | frozenset(words.split())
    return found


class Composed(NamedTuple):
    """What a heading means that is put together of known words."""

    key: str = ""  # none where it is no such heading
    rank: int = 0  # a heading of one of the trade's own words is likelier
    fitting: bool = False  # only where the cells are fit for the key


_ROLES = {
    word: role for role, _, words in (line.partition(": ") for line in _SAID.strip().splitlines())
    for word in words.split()
}  # fmt: skip
_LONGEST = 30  # letters of one word
_SHORTEST = 3  # letters of a part of a longer word
_NUMBERED = ("nr", "no")  # that may be shorter, at the end: "kanalnr"
_BESIDE = frozenset(("aside", "little", "no"))
_AMPS = regex(r"\d{1,3}a(?:mps?)?")
_PLUGGED = ("plug", "asked", "runs")

# The key that the roles of all words together say, and the others that may stand beside those that say it:
# the first that fits. What is of a console is a channel of it, whatever else it is called.
_KEYS: tuple[tuple[str, set[str], set[str]], ...] = (
    ("colour", {"colour"}, {"brand", "kind", "asked"}),
    ("channel", {"channel", "memo"}, {"console", *_PLUGGED}),
    ("channel", {"console"}, {"channel", "circuit", "kind", *_PLUGGED}),
    ("circuit", {"dimmer"}, {"channel", "circuit", "kind", "place", "address", *_PLUGGED}),
    ("circuit", {"circuit"}, {"kind", "place", "hung", *_PLUGGED}),
    ("channel", {"channel"}, {"kind", *_PLUGGED}),
    ("circuit", {"plug"}, {"kind", "asked", "runs"}),
    ("kind", {"type", "kind"}, set()),
    ("number", {"kind", "no"}, set()),
    ("kind", {"kind"}, set()),
)


def composed(words: Sequence[str]) -> Composed:
    """What the words of a heading mean together, in lower case and without their accents."""
    if not 0 < len(words) <= 8 or words[0] == "has":  # "Has gel" asks for yes or no
        return Composed()
    parts = [_parts(word) for word in words]
    if not all(parts):
        return Composed()
    roles = {_ROLES[part] for each in parts for part in each}
    if roles <= {"brand", "no"} and "brand" in roles:
        return Composed("colour", 2, True)
    for key, needed, beside in _KEYS:
        if needed <= roles and roles <= needed | beside | _BESIDE:
            told = (
                roles & {"channel", "circuit", "type", "no"}
                if needed <= {"console", "kind", "plug"}
                else needed
            )
            return Composed(key, 2 + ("dimmer" in roles), not told)
    return Composed()


@lru_cache(maxsize=2_000)
def _parts(word: str) -> tuple[str, ...]:
    """A word as the known ones that it is put together of, "lys" and "daemper"; none where it is not."""
    if word in _ROLES:
        return (word,)
    if _AMPS.fullmatch(word):
        return ("power",)  # "15A outlet"
    if word[1:] in _ROLES and word[0] in "dl":
        return (word[1:],)  # of "jeu d'orgue"
    if len(word) > _LONGEST:
        return ()
    for k in range(_SHORTEST, len(word) - 1):
        tail, head = word[k:], word[:k]
        if tail not in _NUMBERED and (len(tail) < _SHORTEST or tail not in _ROLES):
            continue
        for first in _heads(head):
            if len(first) >= _SHORTEST and (before := _parts(first)):
                return (*before, tail)
    return ()


def role_of(word: str) -> str:
    """What one word says of a column, in lower case and without accents; "" where it is not known."""
    parts = _parts(word)
    return _ROLES[parts[-1]] if parts else ""


def is_of_another_time(heading: str) -> bool:
    """Whether a heading is of what was there before, will be, or is spare: "old gel", "2nd channel"."""
    return bool(_ANOTHER_TIME.search(heading.casefold()))


_ANOTHER_TIME = regex(
    r"\b(?:old|prev\w*|alt\w*|spare|second|2nd|was|were|before|new|act|optional|also|not|avoid|swap\w*|instead|like"
    r"|same|see|replac\w*|substitut\w*|stand in|backup|last|next|alter?|ancien\w*|viejo|vecchi\w*|oud)\b"
)


def _heads(head: str) -> Iterable[str]:
    """The first part of a word, also without the letter that links it: "stellwerks" before "kanal"."""
    return (head, head[:-1]) if head.endswith(("s", "e", "n")) else (head,)
