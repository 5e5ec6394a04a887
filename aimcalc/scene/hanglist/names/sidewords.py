"""Left, right and the middle in names, as each language shortens and bends them: "Torre dx" of Torre destra,
"Wieża lewo" of Wieża lewa. Each stands for its own language's word alone, so none is another one's side.
And the sides that the words of either habit are, and left and right of the stage or the house."""

from __future__ import annotations

from collections.abc import Set

Sides = tuple[tuple[str, str], ...]

USUAL: Sides = (("ps", "SL"), ("op", "SR"))  # common practice, no source
# The sides that left and right are, said to be of the stage or of the house.
LEFT_AND_RIGHT: dict[str, Sides] = {
    "stage": (("left", "SL"), ("right", "SR")),
    "house": (("left", "SR"), ("right", "SL")),
}

# Without accents, as names are compared; the Danish and Norwegian ø is a letter of its own.
_FORMS = """
sinistra: sx, sin, sinis, sinistro, sinistre, sinistri
destra: dx, des, dest, destro, destre, destri
links: li, lks, linke, linker, linkes, linken, linkse, linkerkant, linkerzijde
rechts: re, rts, rechte, rechter, rechtes, rechten, rechtse, rechterkant, rechterzijde
gauche: gch, gche, ga
droite: dte, drte, droit, dr
izquierda: izq, izqda, izda, izdo, izquierdo
derecha: der, dcha, dcho, drcha, derecho
esquerda: esq, esqda, esqdo, esquerdo
direita: dir, dta, dto, drta, direito
esquerra: esq, esquerre
dreta: dr, dret
vanster: va, vst, vanstra
hoger: ho, hst, hogra
venstre: ve, vst, venstra
højre: hø, hj
høyre: hø, hoy
lewa: lew, lewo, lewy, lewe, lewej
prawa: pr, praw, prawo, prawy, prawe, prawej
leva: lev, levo, levy, leve, vlevo
prava: prav, pravo, pravy, prave, vpravo
vasen: vas, vasemman, vasemmalla
oikea: oik, oikean, oikealla
mitte: mitten, mittel, mittig
mitt: mitten, mittre
midt: midten, midter, midterste
midden: midde, middel
centro: cent, cen, centrale
centre: central, centrale
srodek: srodku, srodkowy, srodkowa, srodkowe
stred: stredni, stredu, uprostred
keski: keskella, keskiosa
"""


_LETTERS = frozenset("sdlrgievhpo")  # that a side begins with, and no middle


def side_words(names: Set[str]) -> dict[str, str]:
    """The forms of left, right and the middle in the languages of the words that some names have, and the
    word that each is a form of; none that is one of two words, "esq" of esquerda and esquerra."""
    found: dict[str, set[str]] = {}
    for line in _FORMS.strip().splitlines():
        word, _, forms = line.partition(": ")
        written = (word, *forms.split(", "))
        if not names.isdisjoint(written):
            for form in (*written, *(word[0] if word[0] in _LETTERS else "")):
                found.setdefault(form, set()).add(word)
    return {form: words.pop() for form, words in found.items() if len(words) == 1}
