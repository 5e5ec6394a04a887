"""One row of a hang list: what of the scene it is read by, what becomes of it, and the text of its cells."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Iterable, Sequence
from itertools import islice
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.mistakes import Where
from aimcalc.scene.model import Taken
from aimcalc.scene.records import Place


class Around(NamedTuple):
    """What of a scene its hang list is read by."""

    unit: str
    places: dict[str, Place]
    targets: tuple[str, ...]
    kinds: tuple[tuple[str, str, float | None], ...]  # the scene's own: name, family, field
    generic: Callable[[], Iterable[str]]  # the names of the generic kinds
    hung: frozenset[str] = frozenset()  # positions that have units in the scene file
    columns: dict[str, Any] = {}  # noqa: RUF012 - [hang_columns], never changed
    sheet: str | None = None
    supposed: dict[tuple[int, str], str] = {}  # noqa: RUF012 - keys of columns by place and heading
    aims: dict[str, float] = {}  # noqa: RUF012 - x of the targets by name, never changed
    apart: tuple[list[Any], ...] = ()  # rows of a sheet that is a legend and no table
    codes: dict[str, dict[str, str]] = {}  # noqa: RUF012 - by key, what a legend says, never changed
    stage_sides: bool = False  # all tables together say that a bare L and R are the stage's
    whose: str = ""  # left and right, where names of the house or other cells of the list tell it
    borne_out: bool = True  # that tells it alone; else units aimed to their own side must too
    aims_alone: bool = False  # these alone tell it
    spots: dict[str, tuple[float, float]] = {}  # noqa: RUF012 - and where they are, never changed
    title: str = ""  # of the scene
    front: float | None = None  # y of the front of the stage's outline


class Row(NamedTuple):
    """One row of units as it was found: its cells by key, its place."""

    raw: dict[str, Any]
    where: Where
    source: str
    sided: int = (
        0  # 1: its place says SL or SR, 2: whence, -1: it might and does not, 0: it need not
    )


HangRow = tuple[dict[str, Any], Where, str]


class HangList(NamedTuple):
    """A hang list that was read: its units as entries, what was taken for granted, what its columns hold."""

    rows: list[HangRow]
    taken: tuple[Taken, ...] = ()
    columns: tuple[tuple[str, str, str], ...] = ()  # letters, heading, what it holds


MOST_ROWS = 20_000  # with a unit in each; the largest rigs there are have a tenth
LONGEST_DITTO = 30
_EDGES = " -–—_.\t()"  # round a ditto mark
_MARKS = ('"', "″", "”", "“", "〃", "''", "’’", '""', "↓", "↑", "^", "|", "||")
_WORDS = (
    "ditto",
    "dto",
    "do",
    "same",
    "the same",
    "same as above",
    "as above",
    "see above",
    *("same bar", "same pipe", "same pos", "same position", "same place", "as previous", "s/a"),
    *("cont", "contd", "cont'd", "cont’d", "continued", "como arriba", "tamtéž", "j. w"),
    *("as before", "same again", "same type", "same kind", "same lamp", "same light"),
    *("likewise", "dito", "detto", "come sopra", "dsgl", "desgl", "wie oben", "comme ci-dessus"),
    *("igual", "samma", "som ovan", "samme", "idem dito"),
    *("jw", "j.w", "jak wyżej", "jak wyzej", "tak samo", "to samo", "j/w"),  # Polish
    *("desgleichen", "ebenso", "siehe oben", "s.o", "w.o", "dt", "gleich", "wie vor"),  # German
    *("même", "meme", "le même", "la même", "pareil", "ci-dessus", "voir ci-dessus"),
    *(
        "ídem",
        "mismo",
        "misma",
        "lo mismo",
        "el mismo",
        "la misma",
        "ver arriba",
        "igual que arriba",
    ),
    *(
        "stesso",
        "stessa",
        "lo stesso",
        "la stessa",
        "uguale",
        "c.s",
        "vedi sopra",
        "mesmo",
        "o mesmo",
    ),
    *(
        "zelfde",
        "hetzelfde",
        "dezelfde",
        "als boven",
        "zie boven",
        "idem als boven",
        "als hierboven",
    ),
    *("samma som ovan", "d:o", "do:", "d.o", "se ovan", "som over", "samme som over", "se over"),
    *("som ovenfor", "samme som ovenfor", "dtto", "totéž", "viz výše", "sama", "sama kuin yllä"),
    "idem",
    "id",
    "^",
)
_DITTO = {*_MARKS, *_WORDS}
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_TOTAL = regex(
    r"\s*(?:(?:grand\s+|sub-?)?(?:totals?|sum|count)\b"
    r"|(?:sub-?|tussen|zwischen|sous-?|delsum+a?\s*)?(?:totaal|totaux|totale|totali|totales|totalt|summe|gesamt(?:zahl|summe|anzahl)?|insgesamt"
    r"|zusammen|somme|somma|suma|soma|summa|yhteensä|razem|łącznie|celkem|i\s?alt|(?:in|en|em)\s+tota(?:al|le?|l))\b"
    r"|(?:all\s+)?(?:units?|fixtures?|fittings?|lamps?|lanterns?|lights?|heads?|instruments?|luminaires?|no\.?"
    r"|number|qty)\s*(?::\s*$|(?:,|:|-|in)?\s*(?:(?:grand\s+|sub-?)?total|count)s?\s*[.:]?\s*$)"
    r"|(?!.*\b(?:cut|out|off|not?|shut\w*)\b)[^,;]{0,30}"
    r"\b(?:in all|all told|altogether|(?:sub)?totals?)\s*[.:]?\s*$)",
    re.IGNORECASE,
)


def blank(cell: object) -> bool:
    """Whether a cell is empty, or holds spaces alone."""
    return cell is None or (isinstance(cell, str) and (not cell or cell.isspace()))


def is_dash(cell: object) -> bool:
    """Whether a cell holds a dash alone: there is nothing to say in it."""
    return isinstance(cell, str) and cell.strip() in ("-", "–", "—")


def says_nothing(row: Iterable[object]) -> bool:
    """Whether a row says nothing: blank cells, or a line drawn with dashes."""
    return not any(any(map(str.isalnum, str(cell))) for cell in row if not blank(cell))


def is_ditto(cell: object) -> bool:
    """Whether a cell is a mark for the one above it."""
    if not isinstance(cell, str) or len(cell) > LONGEST_DITTO:
        return False
    plain = " ".join(cell.casefold().strip(_EDGES).split())
    return plain.replace("” ”", "”").replace('" "', '"') in _DITTO


def position_and_number(text: str) -> re.Match[str] | None:
    """A position and a number written in one, "LX1/3": its two groups; none in a
    cell too long for that."""
    if len(text) > LONGEST_JOINT:
        return None
    return _JOINT.fullmatch(text) or re.fullmatch(_SPOKEN, text)


LONGEST_JOINT = 120  # characters of a position and a number
LONGEST_TOTAL = 200  # characters of what says a total; of longer cells, the first ones
_JOINT = regex(r"(.*[^\W_].*?)\s*[/:#–-]\s*(\w+)")
_SPOKEN = (
    r"(?i)"
    r"(.*[^\W\d_].*?)(?:[.,]\s*|\s+(?:unit|no|number|lamp|lantern)\b\.?\s*)(\d{1,3}[a-z]?)"
)


def is_total(text: str) -> bool:
    """Whether a row that says so counts units and is none."""
    return bool(_TOTAL.match(text[: 4 * LONGEST_TOTAL].strip()[:LONGEST_TOTAL]))


def float_of(text: str) -> float | None:
    """A figure without its unit; None of anything else."""
    try:
        return float(text.replace(",", "."))
    except ValueError:
        return None


def rest_of_inches(inches: str) -> str:
    """What a cell of inches adds to feet; nothing where it is empty or naught."""
    inches = re.sub(
        r"\s*(?:[\"”″]|''|in(?:s|ch|ches)?\.?)$", "", inches.strip(), flags=re.IGNORECASE
    )
    return f'-{inches}"' if inches and float_of(inches) != 0 else ""


def text_of(cell: Any) -> str:
    """A cell as somebody reads it: 7 for 7.0, a day as a day."""
    if isinstance(cell, str):
        whole = re.fullmatch(r"\s*(\d+)\.0+\s*", cell) if ".0" in cell else None
        return whole[1] if whole else cell.replace("\u00a0", " ").strip(" ")
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, float):
        return str(int(cell)) if cell.is_integer() and abs(cell) < 1e15 else f"{cell:.10g}"
    return str(cell)


_WIDE = {0xFF01 + k: 0x21 + k for k in range(94)} | dict.fromkeys(
    (0x3000, 0xA0, 0x202F, 0x2009), 0x20
)
_UNSEEN = dict.fromkeys((0x200B, 0x200C, 0x200D, 0xFEFF, 0xAD, 0x200E, 0x200F))


def narrowed(text: str) -> str:
    """A cell with letters and digits of double width, and spaces of other widths, as plain ones, without what
    nobody sees, and without the quotation marks that the whole of it stands in."""
    plain = text.translate(_WIDE | _UNSEEN)
    quoted = re.fullmatch(r"\s*[“‘„](.*[^\d'′’\"″”].*)[”’“]\s*|\s*[“‘„]([^\"″”“]*)[”’]\s*", plain)
    return plain if quoted is None else quoted[1] or quoted[2] or ""


def one_line(cell: Any) -> Any:
    """A cell with its line breaks as spaces."""
    return " ".join(cell.split()) if isinstance(cell, str) and not cell.isprintable() else cell


def day_of(cell: Any) -> tuple[int, int] | None:
    """Month and day of a date, or of text that a spreadsheet has made of one: "2-Jan"."""
    if isinstance(cell, (datetime.date, datetime.datetime)):
        return cell.month, cell.day
    if not isinstance(cell, str):
        return None
    found = re.fullmatch(
        r"\s*(?:(\d{1,2})[-. ]([a-z]{3})[a-z]*|([a-z]{3})[a-z]*[-. ](\d{1,2}))\s*", cell.casefold()
    )
    if not found:
        return None
    month, day = found[2] or found[3], int(found[1] or found[4])
    return (_MONTHS.index(month) + 1, day) if month in _MONTHS and 1 <= day <= 31 else None


def day_shown(cell: Any) -> str:
    """A cell as a spreadsheet shows it, a day with its month in letters: "6-Dec"."""
    if isinstance(cell, (datetime.date, datetime.datetime)):
        return f"{cell.day}-{_MONTHS[cell.month - 1].title()}"
    return text_of(cell)


def any_of(words: Sequence[str]) -> str:
    """A few words for a sentence: "a, b or c"."""
    shown = list(islice(words, 8))
    return ", ".join(shown[:-1]) + f" or {shown[-1]}" + (" ..." if len(words) > len(shown) else "")


# Cells of a colour that say that there is none.
NO_GEL = (
    *("no", "no gel", "no colour", "no color", "no filter", "without", "n/a", "nil", "nothing"),
    *("nessuno", "nessuna", "ninguno", "ninguna", "aucun", "aucune", "kein", "keine", "keiner"),
    *("nenhum", "nenhuma", "cap", "niets", "intet", "nic", "brak"),
    *("rien", "nichts", "tyhjä", "niks", "nincs", "res", "ingenting", "tyhja", "ei mitään"),
    *("ofärgat", "ofärgad", "ufarvet", "ufarget", "farblos", "ohne farbe"),
)
