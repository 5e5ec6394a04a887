"""Readers of one value: each takes what was written and gives the cleaned value, or raises `Wrong`.

Factories (`choice`, `at_least` ...) give such readers; `aimcalc.scene.tables` puts them together.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.lengths import parse_length
from aimcalc.scene.mistakes import UNKNOWN, Wrong, show

Reader = Callable[[Any], Any]

LONGEST_NAME = 100
LONGEST_NOTE = 2000
LONGEST_REMARK = 200
MOST_CORNERS = 1000
SMALLEST_AREA = 1e-6  # square metres; a square millimetre

_TRUE = ("true", "yes", "x", "y", "1")
_FALSE = ("false", "no", "n", "0", "")


def try_reading(read: Reader, raw: object) -> Any:
    """What `read` makes of `raw`, or None where it refuses: for looking ahead only."""
    try:
        return read(raw)
    except Wrong:
        return None


def text(raw: object) -> str:
    """Text without control characters; a whole number 7 or 7.0 gives "7".

    Raises Wrong where it is neither text nor a number.
    """
    if isinstance(raw, float) and raw.is_integer() and abs(raw) < 1e15:
        raw = int(raw)
    if isinstance(raw, (int, float)) and not isinstance(raw, bool):
        raw = _figures(raw)
    if not isinstance(raw, str):
        raise Wrong("text")
    return _clean(raw, LONGEST_NAME)


def label(raw: object) -> str | None:
    """Text, or None when it is empty: a blank is a thing not written."""
    return text(raw) or None


_NONE_WORDS = (  # of other languages
    "ohne o sans senza sin sem geen zonder utan uten uden ingen inget ilman bez sense"
    " nessuna nessuno nessun kein keine keinen aucun aucune ninguno ninguna ningun nenhum nenhuma ingenting"
    " niente nada brak žádný žádná žádné inga pasde ei without wo s u z"
)
_GEL_WORDS = (
    "filter filtre filtro gel gelat gelatine gelatina farbe folie couleur colore kleur farve color cor"
    " kleurfilter farbfilter farbfolie färg farge väriä filtru filtra barvy koloru"
    " filt gél coul folio folien folii fólie filtri filtros filtres filtern gels colour color cores colores"
    " suodatin suodatinta kalvoa filtteriä"
)
_OPEN_WORDS = (  # open white, as lists of other languages have it; "white" may be a colour
    "blank bianco bianca lucebianca blanc blanche blanco blanca branco weiss weiß wit hvid hvit hvidt"
    " hvitt vit vitt biały biała bílá valkoinen klar farblos incolore incoloro neutro neutre trasparente"
    " transparente avoin kirkas åben åpen öppen aperto abierto aberto ouvert obert otwarte bezbarwny"
    " luzblanca luzbranca lumièreblanche weißlicht weißeslicht witlicht vittljus hvidtlys hvittlys whitelight"
    " światłobiałe białeświatło bílésvětlo leer vide vuoto vacío vazio leeg tomt tom pusty puste oop"
    " prázdný prázdná prázdné openwit openhvid openvit clr wht klart klara čirá čirý jasne naturel naturale"
)
_UNFILTERED_WORDS = (
    "uncoloured uncolored colourless colorless unfiltered ungefiltert ungefärbt ongekleurd ongefilterd"
    " kleurloos ofärgad ofärgat ofiltrerad ofiltrerat färglös färglöst ufarget ufiltrert"
    " fargeløs fargeløst ufarvet ufiltreret farveløs farveløst väritön värittömä suodattamaton"
    " incolor incolora noncoloré nonfiltré nonfiltrato"
    " nonfiltrata sinmica nu bezbarvý bezbarwne néant neant nulla nul nil nothing bare"
)
NO_COLOUR = {
    *(
        "",
        "none",
        "nc",
        "open",
        "clear",
        "nocolour",
        "nocolor",
        "nogel",
        "nofilter",
        "ow",
        "openwhite",
        "of",  # "o. F.", and "s/f" in two languages
        "ng",
        "ungelled",
        "empty",
        "sf",
        "offen",
    ),
    *("0", "00", "000", "ø", "∅"),
    *_OPEN_WORDS.split(),
    *_UNFILTERED_WORDS.split(),
    *(none for none in _NONE_WORDS.split() if len(none) > 1),
    *(none + gel for none in _NONE_WORDS.split() for gel in _GEL_WORDS.split()),
}
_MARKS = str.maketrans("", "", " ./-–—_()[]<>")


def colour(raw: object) -> str | None:
    """A colour's name; None for what a hang list writes where there is none: "N/C", "open", "-", or twice in
    two ways, "clear / none", "O/W (open)"."""
    value = text(raw)
    if _is_open(value):
        return None
    twice = len(value) <= LONGEST_OPEN and any(
        len(parts) > 1 and all(map(_is_open, parts))
        for split in (_PARTS.split, _STROKES.split)
        if (parts := [part for part in split(value) if part.translate(_MARKS)])
    )
    return None if twice else value


def _is_open(word: str) -> bool:
    return word.lower().translate(_MARKS) in NO_COLOUR


LONGEST_OPEN = 40  # characters of what says that there is no colour
_PARTS = regex(r"\s[-–—/|+]\s|[(),;:=]|\s(?:or|and)\s", re.IGNORECASE)
_STROKES = regex(r"[/|+(),;:=]|\s[-–—]\s")


def remark(raw: object) -> str | None:
    """A remark of one line: line ends become spaces; None when it is empty."""
    if not isinstance(raw, str):
        return label(raw)
    return " ".join(_clean(" ".join(raw.split()), LONGEST_REMARK).split()) or None


def name(raw: object) -> str:
    """Text that is not empty. Raises Wrong where it is, or is no text."""
    value = text(raw)
    if not value:
        raise Wrong("a name")
    return value


def note(raw: object) -> str:
    """Longer text, which may hold line ends. Raises Wrong where it is no text."""
    if not isinstance(raw, str):
        raise Wrong("text")
    lines = [_clean(line, LONGEST_NOTE) for line in raw[: LONGEST_NOTE + 1].splitlines()]
    if len(raw) > LONGEST_NOTE:
        raise Wrong(f"text of at most {LONGEST_NOTE} characters")
    return "\n".join(lines).strip()


def truth(raw: object) -> bool:
    """True or False, from true/false, yes/no, or an x. Raises Wrong for any other word."""
    if isinstance(raw, bool):
        return raw
    word = raw.strip().lower() if isinstance(raw, str) else str(raw).removesuffix(".0")
    if word in _TRUE:
        return True
    if word in _FALSE:
        return False
    raise Wrong("true or false (yes, no and x are understood too)")


def count(raw: object) -> int:
    """A whole number, 0 or more. Raises Wrong for any other."""
    if isinstance(raw, (int, float)) and not isinstance(raw, bool) and 0 <= raw <= 1e6:
        whole = int(raw)
        if whole == raw:
            return whole
    raise Wrong("a whole number, 0 or more")


def choice(*words: str) -> Reader:
    """A reader of one of `words`, whatever its capitals; it raises Wrong for any other word."""
    by_plain = {word.lower(): word for word in words}
    expected = "one of: " + ", ".join(words)

    def read(raw: object) -> str:
        found = by_plain.get(" ".join(raw.lower().split())) if isinstance(raw, str) else None
        if found is None:
            raise Wrong(expected, choices=words, rank=UNKNOWN)
        return found

    return read


def fitting(read: Reader, fits: Callable[[Any], bool], expected: str, do: str = "") -> Reader:
    """`read`, refusing values that do not fit: it then raises Wrong with what was `expected`."""

    def reader(raw: object) -> Any:
        value = read(raw)
        if not fits(value):
            raise Wrong(expected, do)
        return value

    return reader


def over(least: float, read: Reader, what: str) -> Reader:
    """`read`, refusing values not greater than `least` (in the unit that `read` gives) with Wrong."""

    return fitting(read, lambda value: value > least, f"{what} greater than {least:g}")


def between(least: float, most: float, read: Reader, what: str) -> Reader:
    """`read`, refusing values outside `least` to `most` (in the unit that `read` gives) with Wrong."""

    expected = f"{what} from {least:g} to {most:g}"
    return fitting(read, lambda value: least <= value <= most, expected)


def share(read: Reader) -> Reader:
    """A reader of a share: over 0, at most 1."""
    expected, do = "a share over 0 and at most 1", "25 % is written 0.25."
    return fitting(read, lambda value: 0.0 < value <= 1.0, expected, do)


def length(unit: str, axis: str = "", *, centre: bool = True) -> Reader:
    """A reader of lengths along `axis`, bare numbers in `unit`."""
    return lambda raw: parse_length(raw, unit, axis, centre=centre)


def several(readers: Sequence[Reader], what: str) -> Reader:
    """A reader of a list with one value for each of `readers`; in a spreadsheet cell, `1; 2; 3`.

    It raises Wrong where there are more or fewer, or one of the readers does.
    """

    def reader(raw: object) -> tuple[Any, ...]:
        items = _items(raw) if isinstance(raw, str) else raw
        if not isinstance(items, (list, tuple)) or len(items) != len(readers):
            raise Wrong(f"{what} ({len(readers)} values)")
        return tuple(
            _item(i, read, item) for i, (read, item) in enumerate(zip(readers, items, strict=True))
        )

    return reader


def list_of(read: Reader, what: str, least: int = 0, most: int = MOST_CORNERS) -> Reader:
    """A reader of a list of any length from `least` to `most`.

    It raises Wrong where there are more or fewer, or `read` does.
    """

    def reader(raw: object) -> tuple[Any, ...]:
        if not isinstance(raw, (list, tuple)):
            raise Wrong(what)
        if not least <= len(raw) <= most:
            raise Wrong(f"{what}: {least} to {most} of them, not {len(raw)}")
        return tuple(_item(i, read, item) for i, item in enumerate(raw))

    return reader


def one_or_more(read: Reader, what: str) -> Reader:
    """A reader of one value, or of a list of them; always a tuple."""
    many = list_of(read, what, least=1)
    return lambda raw: many(raw) if isinstance(raw, list) else (read(raw),)


def polygon(unit: str) -> Reader:
    """A reader of a plan polygon: at least three corners (x, y) in metres that enclose an area.

    It raises Wrong where they do not, or where edges cross.
    """
    corner = several((length(unit, "x"), length(unit, "y")), "a corner [x, y]")
    corners = list_of(corner, "a list of corners [[x, y], ...]", least=3)

    def reader(raw: object) -> tuple[tuple[float, float], ...]:
        points: tuple[tuple[float, float], ...] = corners(raw)
        if abs(polygon_area(points)) < SMALLEST_AREA:
            raise Wrong("corners that enclose an area", "Go round the edge in order.")
        if _crosses_itself(points):
            raise Wrong("an edge that does not cross itself", "Go round the edge in order.")
        return points

    return reader


def polygon_area(points: Sequence[tuple[float, float]]) -> float:
    """Signed area of a plan polygon, positive when its corners run anticlockwise from above."""
    x0, y0 = points[0]
    total = 0.0
    for (x1, y1), (x2, y2) in zip(points, [*points[1:], points[0]], strict=True):
        total += (x1 - x0) * (y2 - y0) - (x2 - x0) * (y1 - y0)
    return total / 2.0


def _crosses_itself(points: Sequence[tuple[float, float]]) -> bool:
    """Whether two edges of a polygon cross in their insides."""
    import numpy as np

    start = np.array(points).T
    way = np.roll(start, -1, axis=1) - start
    off = start[:, None, :] - start[:, :, None]
    side = way[0, :, None] * off[1] - way[1, :, None] * off[0]  # of each edge's line, a row each
    parts = side * np.roll(side, -1, axis=1) < 0.0  # the ends of an edge lie on either side
    return bool((parts & parts.T).any())


def _item(index: int, read: Reader, item: object) -> Any:
    try:
        return read(item)
    except Wrong as wrong:
        expected = f"{wrong.expected} (value {index + 1} is {show(item)})"
        raise Wrong(expected, wrong.do, choices=wrong.choices, rank=wrong.rank) from None


def _items(cell: str) -> list[str]:
    inside = cell.strip().removeprefix("[").removesuffix("]")
    return inside.split(";") if ";" in inside else inside.split(",")


def _figures(value: float) -> str:
    if isinstance(value, int) and abs(value) >= 10**LONGEST_NAME:
        raise Wrong(f"text of at most {LONGEST_NAME} characters")
    if value != value or value in (float("inf"), float("-inf")):
        raise Wrong("text")
    return str(value)


def _clean(raw: str, most: int) -> str:
    value = raw.replace("\u00a0", " ").strip(" ")
    if len(value) > most:
        raise Wrong(f"text of at most {most} characters")
    if not value.isprintable():
        raise Wrong("text without control characters", "Type it again by hand.")
    return value
