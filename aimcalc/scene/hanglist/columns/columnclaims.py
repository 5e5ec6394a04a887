"""Columns whose heading and cells do not say the same, or that several may be: which holds a key, or the
question which."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from itertools import islice
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.byvalues import NEARLY, Cells
from aimcalc.scene.hanglist.columns.headings import (
    AGAIN,
    ELSE,
    GAP,
    HEIGHT,
    SIDE,
    Meaning,
    column_letters,
    meaning,
    meaning_words,
)
from aimcalc.scene.hanglist.columns.tradewords import LENGTHS
from aimcalc.scene.hanglist.rows.listrow import blank, is_ditto, text_of
from aimcalc.scene.mistakes import CLASH, Wrong

LOOKED_THROUGH = 40  # cells of a column that say what it holds
FITTING = 0.6  # of its cells that fit a key, for a column to be taken for it

Fits = Callable[[str, Any], bool | None]  # key and cell; None: the key says nothing about its cells


def twice_placed(
    claims: dict[str, list[int]], keys: dict[int, str], meanings: dict[int, Meaning]
) -> None:
    """Take the second of two columns of places for the same again, where one counts from an end and the other
    does not, or they are in two units: they must agree, row by row."""
    if len(claims.get("at", ())) != 2:
        return
    first, second = claims["at"]
    one, other = meanings[first], meanings[second]
    two_units = one.unit and other.unit and one.unit != other.unit
    if bool(one.end) != bool(other.end) or two_units:
        if not (one.end or one.plus) and (other.end or other.plus):
            first, second = second, first
        claims["at"], keys[second] = [first], AGAIN


def places_out(
    claims: dict[str, list[int]], keys: dict[int, str], share: Shares, *, placed: bool = False
) -> None:
    """Let a column of places give up a position that another claims too: "Pos" over 3 m SL, beside "Bar"; or
    that is named over the units, where it is `placed`."""
    several = claims.get("position", [])
    if not several or "at" in claims or "at" in keys.values():
        return
    if len(several) < 2 and not placed:
        return
    if len(several) == 1 and share.of_places(several[0]) and share("position", several[0]) <= 0.0:
        claims["at"] = claims.pop("position")  # "where", under the name of the position
        return
    named = [k for k in several if not share.of_places(k)]
    if 0 < len(named) < len(several):
        claims["position"] = named


def houses_name(claims: dict[str, list[int]], texts: list[str], share: Shares) -> None:
    """Take the column of the house's names of positions and not that of the company's own, where the headings
    say which is which: "House position" beside "Our bar"."""
    several = claims.get("position", [])
    of_house = [k for k in several if _OF_HOUSE.search(texts[k])]
    own = [k for k in several if _OF_COMPANY.search(texts[k])]
    told = len(several) == 2 and len(of_house) == len(own) == 1 and own != of_house
    if told and share("position", of_house[0]) >= NEARLY:
        claims["position"] = of_house


_OF_HOUSE = regex(
    r"\b(?:house|venue|theat(?:re|er)|hall|local|your|receiving|haus\w*|vor\s?ort|salle|lieu|casa|sala|teatro|zaal"
    r"|huis|huset|hus\w*)\b",
    re.IGNORECASE,
)
_OF_COMPANY = regex(
    r"\b(?:our|ours|my|tour\w*|show|company|plot|original|rep|unser\w*|eigene\w*|gastspiel\w*|notre|compagnie"
    r"|nuestr[oa]|compañ[ií]a|gira|nostr[oa]|compagnia|ons|onze|eigen|gezelschap|vår|vores)\b",
    re.IGNORECASE,
)


def remarks_all(claims: dict[str, list[int]]) -> None:
    """Keep every column of remarks: the first as the note, what the others say beside it."""
    if len(claims.get("note", ())) > 1:
        claims["note"] = claims["note"][:1]


def sides_alone(claims: dict[str, list[int]], share: Shares) -> None:
    """Let a column that holds no sides give up that key where another of them does: "Direction" over what the
    units are aimed at, beside "L/R"."""
    several = claims.get(SIDE, [])
    kept = [k for k in several if share("which side", k) >= FITTING]
    if len(several) > 1 and kept:
        claims[SIDE] = kept


def kinds_run_out(claims: dict[str, list[int]], values: Cells) -> None:
    """Let a column that counts the units give up the kind that another claims too: "Head" over 1, 2, 3."""
    several = claims.get("kind", [])
    kept = [k for k in several if values.share("kind", k) >= FITTING and not values.counts(k)]
    if len(several) > 1 and kept:
        claims["kind"] = kept


def kinds_elsewhere(
    claims: dict[str, list[int]], meanings: dict[int, Meaning], values: Cells
) -> None:
    """Let a column that counts the units give up the kind where another names it that may be it by its
    heading: "Fix" over 1, 2, 3 beside "Unit"."""
    several = claims.get("kind", [])
    position = next(iter(claims.get("position", [])), None)
    counts = [k for k in several if values.counts(k) and values.runs(k, position)]
    named = [
        k
        for k, found in meanings.items()
        if k not in several and "kind" in found.keys and values.names("kind", k)
    ]
    if several and counts == several and len(named) == 1:
        claims["kind"] = named


# What the cells of a column are, where they fit a key that takes anything.
_CODED = {"colour": "gel code", "circuit": "circuit code", "channel": "channel code"}


def best_of(
    keys: Sequence[str], k: int, share: Shares, values: Cells, known: dict[int, str]
) -> tuple[str, bool]:
    """The likeliest key of a column of which its heading leaves several, and whether its cells fit it.
    Numbers of units are never the same twice on a position, as kinds are: "P19" and "P36" under "Unit"."""
    if set(keys) == {"circuit", "system"}:  # "Grupp" in figures, or "fram"
        figures = max(share("figure", k), share("circuit code", k)) >= FITTING
        return ("circuit" if figures else "system"), True
    fitting = [key for key in keys if share(_CODED.get(key, key), k) >= FITTING]
    position = next((j for j, key in known.items() if key == "position"), None)
    twice = share("number", k) == 1.0 and not values.differ(k, position, HALF)
    if fitting[:2] == ["number", "kind"] and (twice or share("kind", k) > share("number", k)):
        fitting = fitting[1:]
    if not fitting and "kind" in keys and _kinds_in_figures(k, share, values, position):
        fitting = ["kind"]
    return (fitting[0], True) if fitting else (keys[0], False)


def numbers_cables(heading: str, k: int, values: Cells) -> bool:
    """Whether a column numbers the cables of its units: of their lengths some would be the same."""
    named = meaning_words(heading)[:1] == ["cable"] and len(values.rows) >= FEWEST_CABLES
    round_ones = all(text_of(cell).strip()[-1:] in "05" for cell in values.of(k))
    return named and values.differ(k, None) and not round_ones


FEWEST_CABLES = 4


def _kinds_in_figures(k: int, share: Shares, values: Cells, position: int | None) -> bool:
    """Whether a column holds kinds of which many are told by their figures alone: "wash" and "62"."""
    counted = values.counts(k) or values.runs(k, position)
    return not counted and share("kind", k) > 0 and share("kind figures", k) >= NEARLY


def one_a_row(
    claims: dict[str, list[int]],
    keys: dict[int, str],
    meanings: dict[int, Meaning],
    values: Cells,
) -> None:
    """Keep all of several columns of places of which no row fills two: from the plaster line for side pipes,
    from the centre line for the others; those that count from an end come after those that do not."""
    several = sorted(claims.get("at", []), key=lambda k: bool(meanings[k].end))
    filled = [
        sum(k < len(row) and not blank(row[k]) for k in several) for row in values.rows if several
    ]
    if len(several) < 2 or max(filled, default=2) > 1:
        return
    first, *others = several
    plus = {meanings[k].plus for k in several if not meanings[k].end}
    if len(plus) < 2:
        keys |= dict.fromkeys(others, ELSE)
        claims["at"] = [first]


def newer(
    keys: dict[int, str], texts: list[str], below: Sequence[list[Any]]
) -> list[tuple[int, Wrong]]:
    """Ask about a column that says again, and later, what another says: "New distance" beside "Distance"."""
    by_key = {key: k for k, key in keys.items()}
    asked = []
    for k, text in enumerate(texts):
        filled = any(k < len(row) and not blank(row[k]) for row in below)
        rest = re.sub(_LATER, " ", text)
        if k in keys or rest == text or not filled:
            continue
        key = next(iter(meaning(rest).keys), "")
        if key in by_key and key in ("at", "position", "kind", "target"):
            asked.append((k, which_of(key, [by_key[key], k], texts)))
    return asked


_LATER = r"(?i)\b(?:new|revised|updated|moved(?:\s+to)?|changed(?:\s+to)?|now|actual|as\s+hung)\b"


def parts_alone(keys: dict[int, str], meanings: dict[int, Meaning], texts: list[str]) -> None:
    """Take feet or inches alone for the whole place: "(inches)" over 150. A side alone, without its other,
    may be a serial number: "Sr."."""
    held = set(keys.values())
    for k, key in list(keys.items()):
        sides = {"at_SL", "at_SR"}
        if key in sides and not sides - {key} <= held and len(meaning_words(texts[k])) < 2:
            del keys[k]
    for part, other, unit in (("at_feet", "at_inches", "ft"), ("at_inches", "at_feet", "in")):
        if part in held and not {"at", other} & held:
            k = next(k for k, key in keys.items() if key == part)
            keys[k], meanings[k] = "at", meanings.get(k, Meaning())._replace(unit=unit)


def no_places(keys: dict[int, str], meanings: dict[int, Meaning], share: Shares) -> None:
    """Free a column headed as that of places which holds words alone, or none where another holds some, or
    names of positions where no column has these: "Place" over the bars, beside "mm"."""
    for k in [k for k, key in keys.items() if key == "at"]:
        bars = "position" not in keys.values() and share("position", k) >= NEARLY
        others = share("at", k) == 0.0 and any(map(share.of_places, range(share.width)))
        guessed = k in meanings and not meanings[k].exact
        named = guessed and (share("words", k) == 1.0 or (bars and share("at", k) == 0.0))
        if others or named:
            del keys[k]


_UNITS = ("number", "kind", "position")


def swapped(keys: dict[int, str], meanings: dict[int, Meaning], share: Shares) -> None:
    """Give a column that its heading calls the number, the kind or the position of a unit, and that holds
    none, to another of the three that it does hold and nobody else: "Instrument" over 1, 2, 3, or "Lamp"
    over the kinds beside "Spot" over places."""
    for k, found in meanings.items():
        mine = keys.get(k)
        unfit = mine in _UNITS and share(mine, k) == 0.0
        spare = mine is None and (not found.keys or bool({"kind", "number"} & set(found.keys)))
        if (unfit or spare) and mine not in [key for j, key in keys.items() if j != k]:
            for key in ("number", "kind", "position"):
                if found.exact or share(key, k) < FITTING or not (found.keys or key == "kind"):
                    continue
                holders = [j for j, held in keys.items() if held == key]
                if all(_holds_none(j, key, meanings, share) for j in holders):
                    for j in holders:
                        del keys[j]
                    keys[k] = key
                    break


def _holds_none(k: int, key: str, meanings: dict[int, Meaning], share: Shares) -> bool:
    """Whether a column is that of a key by a guess at its heading, and not one of its cells is; or is that of
    kinds, and all are targets, one of which is named much as a kind: Fond, beside Fondljus."""
    aims = key == "kind" and share("target", k) == 1.0 and share("kind", k) < HALF
    return k in meanings and not meanings[k].exact and (share(key, k) == 0.0 or aims)


def aims_out(keys: dict[int, str], meanings: dict[int, Meaning], share: Shares) -> None:
    """Give a column that its heading calls the side, and that holds targets, to the targets where no column
    has them: "Direction" over what the units are aimed at."""
    if {"target", "point"} & set(keys.values()):
        return
    sides = [k for k, found in meanings.items() if found.keys == (SIDE,)]
    for k in [k for k in sides if keys.get(k, SIDE) == SIDE]:
        if share("which side", k) < SOME_SIDES and share("target", k) >= FITTING:
            keys[k] = "target"
            return


def placed_positions(
    keys: dict[int, str], meanings: dict[int, Meaning], values: Cells, texts: list[str]
) -> int | None:
    """The column that names the position and the place together, "Mid Truss centre", where no other names the
    position: under whatever heading, but none that is settled."""
    if "position" in keys.values():
        return None
    found = [
        k
        for k in range(len(texts))
        if (k in meanings or k not in keys)
        and keys.get(k, "") in _NO_NAMES
        and values.share("position and place", k) >= NEARLY
        and values.share("position with place", k) > 0
    ]
    if len(found) != 1:
        return None
    keys[found[0]] = "position"
    return found[0]


_NO_NAMES = ("", "at", "mount", "hung", "number", "kind", "side", "height", GAP)


def dimensions_out(texts: list[str], meanings: dict[int, Meaning], share: Shares) -> None:
    """Take "DIM" over places with their sides, or figures of which some have a minus, for the dimension, and
    not for the dimmer."""
    if any("at" in found.keys for found in meanings.values()):
        return
    for k, found in meanings.items():
        if texts[k].casefold().strip(" .:()") not in ("dim", "dims"):
            continue
        signed = share("minus", k) > 0 and share("at", k) == 1.0
        if signed or share("place", k) >= FITTING:
            meanings[k] = found._replace(keys=("at",), rank=0)


def place_by_cells(
    keys: dict[int, str],
    meanings: dict[int, Meaning],
    texts: list[str],
    share: Shares,
    values: Cells,
) -> tuple[int, Wrong] | None:
    """Find the column of places where no heading tells it: the one whose cells are places, under a
    heading of something else that they are not; or the lengths beside a column of sides."""
    for k, key in list(keys.items()):
        if key == GAP and share("minus", k) > 0:
            keys[k] = "at"  # a gap has no sign
        lengths = share("at", k) >= NEARLY and share(SIDE, k) == 0.0  # "+12'" under SL/SR
        if key == SIDE and (share.of_places(k) or lengths):
            keys[k] = "at"
    if "at" in keys.values():
        return None
    free = [
        k
        for k in range(len(texts))
        if (share("place", k) >= FITTING if keys.get(k) == GAP else share.of_places(k))
        and (k not in keys or k in meanings)
        and (k not in keys or (not meanings[k].exact or share(keys[k], k) == 0.0))
        and (k not in keys or share(keys[k], k) <= 0.0)
        and not _of_circuits(k, keys, texts, share)
    ]
    side = next((k for k, key in keys.items() if key == SIDE), None)
    if not free and side is not None and _by_unit(side, keys, meanings, texts, share):
        return None
    if not free and side is not None:
        free = _beside_sides(side, keys, meanings, texts, share, values)
    if not free and side is None:
        free = _second_position(keys, meanings, values)
    if not free:
        if side is None:
            _under_unit(keys, meanings, texts, share)
        return None
    meanings |= {k: Meaning() for k in free if k not in meanings}
    _, wrong = choose("at", free, texts, meanings, share)
    keys[free[0]] = "at"
    unit = LENGTHS.get(texts[free[0]].casefold().strip(" .()[]"), meanings[free[0]].unit)
    meanings[free[0]] = meanings[free[0]]._replace(exact=False, unit=unit)
    return None if wrong is None else (free[-1], wrong)


def _of_circuits(k: int, keys: dict[int, str], texts: list[str], share: Shares) -> bool:
    """Whether a column is headed as that of circuits and holds their codes, which might be places as well:
    "SL1-1". "Dim" alone may be the dimension, unless another column has the heights."""
    dimension = texts[k].casefold().strip(" .:()") in ("dim", "dims")
    headed = keys.get(k) == "circuit" and (not dimension or HEIGHT in keys.values())
    return headed and share("circuit code", k) >= NEARLY


def _beside_sides(
    side: int,
    keys: dict[int, str],
    meanings: dict[int, Meaning],
    texts: list[str],
    share: Shares,
    values: Cells,
) -> list[int]:
    """The column of lengths beside that of sides, under a word that may be said of places: "Off", "Amount";
    none that counts the units."""
    position = next((k for k, key in keys.items() if key == "position"), None)
    found = []
    for k in (side - 1, side + 1):
        words = set(meaning_words(texts[k])) if 0 <= k < len(texts) else set()
        known = k in meanings or (k not in keys and words & _OFF)
        if known and share("at", k) >= FITTING and not words - _MAY_BE_PLACE - _OFF:
            found.append(k)
    numbers = [
        k
        for k in found
        if position is not None
        and "number" in meanings.get(k, Meaning()).keys
        and values.runs(k, position)
    ]
    return [k for k in found if k not in numbers][:1]


_OFF = frozenset(("off", "out", "offset"))
MARKS = frozenset(("mark", "marks", "hang", "tape", "no"))


def _second_position(
    keys: dict[int, str], meanings: dict[int, Meaning], values: Cells
) -> list[int]:
    """The one column of bare lengths under a word for a position, beside the one that names the positions:
    "Location" over 12.5 and -11; none where they count up as numbers of something do."""
    position = next((k for k, key in keys.items() if key == "position"), None)
    if position is None or values.share("position", position) < NEARLY:
        return []
    found = [
        k
        for k, m in meanings.items()
        if k not in keys and m.keys == ("position",) and values.share("at", k) >= NEARLY
    ]
    return found if len(found) == 1 and not values.runs(found[0], position) else []


def _by_unit(
    side: int,
    keys: dict[int, str],
    meanings: dict[int, Meaning],
    texts: list[str],
    share: Shares,
) -> bool:
    """Take for the place what is beside the sides under a length unit alone: "Metres", or "m" and "cm"."""
    units = {
        k: LENGTHS[word]
        for k, text in enumerate(texts)
        if k not in keys
        and (word := text.casefold().strip(" .()[]")) in LENGTHS
        and max(share("at", k), share("figure", k)) >= FITTING
    }
    run = sorted(units)
    if not run or run[-1] - run[0] != len(run) - 1 or side not in (run[0] - 1, run[-1] + 1):
        return False
    if len(run) == 1:
        keys[run[0]] = "at"
        meanings[run[0]] = Meaning(("at",), unit=units[run[0]])
    elif [units[k] for k in run] == ["m", "cm"]:
        keys |= dict(zip(run, ("at_metres", "at_centimetres"), strict=True))
    return len(run) == 1 or [units[k] for k in run] == ["m", "cm"]


def _under_unit(
    keys: dict[int, str], meanings: dict[int, Meaning], texts: list[str], share: Shares
) -> None:
    """Take for the place the one column of lengths under a length unit and nothing else."""
    found = [
        k
        for k, text in enumerate(texts)
        if k not in keys
        and text.casefold().strip(" .()[]") in LENGTHS
        and max(share("at", k), share("figure", k)) >= FITTING  # 4200 may be too far in metres
    ]
    if len(found) == 1:
        keys[found[0]] = "at"
        unit = LENGTHS[texts[found[0]].casefold().strip(" .()[]")]
        meanings[found[0]] = Meaning(("at",), unit=unit)


# Words over lengths beside a column of sides that may be those of a place.
_MAY_BE_PLACE = frozenset(
    (
        *(
            "dimmer",
            "location",
            "position",
            "dimension",
            "amount",
            "no",
            "how",
            "far",
            "length",
            "away",
        ),
        *(
            "mass",
            "masse",
            "maat",
            "misura",
            "mesure",
            "mesures",
            "medida",
            "mål",
            "abstand",
            "distanz",
        ),
    )
)


def give_way(claims: dict[str, list[int]], meanings: dict[int, Meaning], share: Shares) -> None:
    """Let a column spelled as a key give way to one that means the same, where its own cells never fit
    and the other's do: "Position" with places under it, beside "Pipe"."""
    for key, columns in claims.items():
        if len(columns) != 1 or not meanings[columns[0]].exact or share(key, columns[0]) >= HALF:
            continue
        others = [k for k, m in meanings.items() if m.keys == (key,) and share(key, k) >= FITTING]
        if len(others) == 1:
            claims[key] = others


HALF = 0.5  # of its cells that a column spelled as a key holds at least, or it gives way
SOME_SIDES = 0.25  # of a column of lengths that have a side, for it to be one of places


class Shares:
    """What share of a column's filled cells can be values of a key."""

    def __init__(self, below: Sequence[list[Any]], fits: Fits) -> None:
        self.below, self.fits = below, fits
        self.width = max(map(len, below), default=0)
        self._told: dict[int, list[Any]] = {}

    def of_places(self, column: int) -> bool:
        """Whether cells are places, whatever the heading: most with a side, or some among lengths alone."""
        sided = self("place", column)
        return sided >= FITTING or (sided >= SOME_SIDES and self("at", column) >= NEARLY)

    def __call__(self, key: str, column: int) -> float:
        """The share; -1 where the key says nothing about its cells, or there are none."""
        if column not in self._told:
            cells = [row[column] for row in self.below if column < len(row)]
            told = (cell for cell in cells if not (blank(cell) or is_ditto(cell)))
            self._told[column] = list(islice(told, LOOKED_THROUGH))
        fit = [self.fits(key, cell) for cell in self._told[column]]
        if not fit or None in fit:
            return -1.0
        return sum(map(bool, fit)) / len(fit)


def choose(
    key: str, columns: list[int], texts: list[str], meanings: dict[int, Meaning], share: Shares
) -> tuple[int | None, Wrong | None]:
    """The one of several columns that holds a key, or the question which."""
    if len(columns) == 1:
        return columns[0], None
    shares = [share(key, k) for k in columns]
    ranks = [meanings[k].rank for k in columns]
    fitting = [k for k, part in zip(columns, shares, strict=True) if part >= FITTING]
    if len(fitting) == 1 and max(shares) > 2 * sorted(shares)[-2]:
        return fitting[0], None
    first = [k for k, rank in zip(columns, ranks, strict=True) if rank == min(ranks)]
    named_twice = key == "circuit"  # "Circuit name" beside "Circuit no": the other is a remark
    if len(first) == 1 or named_twice:
        return first[0], None
    return columns[0], which_of(key, columns, texts)


def which_of(key: str, columns: list[int], texts: list[str]) -> Wrong:
    """The question which of several columns holds a key."""
    may_be = " or ".join(f'column {column_letters(k)} ("{texts[k]}")' for k in columns[:4])
    expected = f"one column that holds the {key}, and it may be {may_be}"
    do = f'Say which in the scene: [hang_columns] {key} = "{texts[columns[0]]}", or the column\'s letter.'
    return Wrong(expected, do, came=f"{len(columns)} of them", rank=CLASH)
