"""Columns of places and of sides whose heading and cells do not say the same, or that several may be."""

from __future__ import annotations

import re
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.byvalues import NEARLY, told
from aimcalc.scene.hanglist.columns.columnclaims import (
    FITTING,
    Claiming,
    choose,
    round_zero,
    which_of,
)
from aimcalc.scene.hanglist.columns.columnkeys import (
    AGAIN,
    AT_PARTS,
    ELSE,
    GAP,
    HEIGHT,
    MARK,
    SIDE,
    Meaning,
)
from aimcalc.scene.hanglist.columns.headings import meaning
from aimcalc.scene.hanglist.columns.headingwords import meaning_words
from aimcalc.scene.hanglist.columns.laterplaces import said_later
from aimcalc.scene.hanglist.columns.sidecolumns import SIDES_ALONE
from aimcalc.scene.hanglist.columns.tradewords import LENGTHS
from aimcalc.scene.hanglist.rows.listrow import blank, text_of


def feet_beside(c: Claiming) -> None:
    """Take for the side a column whose heading says a place and each of whose cells a side: "L/R of center",
    beside feet."""
    for k, found in c.meanings.items():
        if found.keys == ("at",) and c.share("which side", k) == 1.0:
            c.meanings[k] = found._replace(keys=(SIDE,), unit="")


def dimensions_out(c: Claiming) -> None:
    """Take "DIM" over places with their sides, or figures of which some have a minus, for the dimension, and
    not for the dimmer."""
    if any("at" in found.keys for found in c.meanings.values()):
        return
    for k, found in c.meanings.items():
        if c.texts[k].casefold().strip(" .:()") not in ("dim", "dims"):
            continue
        signed = c.share("minus", k) > 0 and c.share("at", k) == 1.0
        if signed or c.share("place", k) >= FITTING:
            c.meanings[k] = found._replace(keys=("at",), rank=0)


def later_of_two(c: Claiming) -> None:
    """Take for the place the later of two columns of places headed by their times alone, "Was" beside "Now";
    where a unit has the earlier one alone, it is asked which column is meant."""
    placed = [k for k in range(len(c.texts)) if k not in c.keys and c.share.of_places(k)]
    earlier = [k for k in placed if _EARLIER.fullmatch(c.texts[k].casefold())]
    later = [k for k in placed if _LATER.fullmatch(c.texts[k].casefold())]
    if len(placed) != 2 or len(earlier) != 1 or len(later) != 1:
        return
    (was,), (now,) = earlier, later
    others = (k for k, found in c.meanings.items() if "at" in found.keys and k not in placed)
    if "at" in c.keys.values() or any(others):
        return
    if all(len(row) > now and not blank(row[now]) for row in c.below if not _is_blank(row, was)):
        c.meanings[was], c.meanings[now] = Meaning(), Meaning(("at",))
        c.keys[now] = "at"
        c.holds[now] = told(c.values.of(now))
    else:
        c.asked.append((now, which_of("at", [was, now], c.texts)))


def _is_blank(row: list[Any], k: int) -> bool:
    return k >= len(row) or blank(row[k])


_EARLIER = regex(r"\W*(?:was|before|previously|formerly)(?:\W+at)?\W*")
_LATER = regex(
    r"\W*(?:(?:is\s+)?now(?:\W+at)?|moved\s+to|re-?hung\s+at)\W*"
)  # and no "New distance" beside the old one


def places_out(c: Claiming) -> None:
    """Let a column of places give up a position that another claims too: "Pos" over 3 m SL, beside "Bar"; or
    that is named over the units, where it is `placed`."""
    several = c.claims.get("position", [])
    if not several or "at" in c.claims or "at" in c.keys.values():
        return
    if len(several) < 2 and not c.placed:
        return
    if (
        len(several) == 1
        and c.share.of_places(several[0])
        and c.share("position", several[0]) <= 0.0
    ):
        c.claims["at"] = c.claims.pop("position")  # "where", under the name of the position
        return
    named = [k for k in several if not c.share.of_places(k)]
    if 0 < len(named) < len(several):
        c.claims["position"] = named


def words_out(c: Claiming) -> None:
    """Let a column of words alone, or of positions where no column has these, give up the place to another
    that claims it too: "Hang point" over the bars."""
    several = c.claims.get("at", [])
    if len(several) > 1:
        bars = "position" not in c.claims and "position" not in c.keys.values()
        out = {k for k in several if c.share("words", k) == 1.0}
        out |= {
            k for k in several if bars and c.share("at", k) == 0.0 and c.values.names("position", k)
        }
        c.claims["at"] = [k for k in several if k not in out] or several


def one_a_row(c: Claiming) -> None:
    """Keep all of several columns of places of which no row fills two: from the plaster line for side pipes,
    from the centre line for the others; those that count from an end come after those that do not."""
    several = sorted(
        c.claims.get("at", []), key=lambda k: (bool(c.meanings[k].end), c.meanings[k].plaster)
    )
    filled = [
        sum(k < len(row) and not blank(row[k]) for k in several) for row in c.values.rows if several
    ]
    if len(several) < 2 or max(filled, default=2) > 1 or _are_of_two_things(several, c):
        return
    first, *others = several
    apart = [k for k in several if c.meanings[k].end or c.meanings[k].plaster]
    plus = {c.meanings[k].plus for k in several if k not in apart}
    if len(plus) < 2:
        c.keys |= dict.fromkeys(others, ELSE)
        c.claims["at"] = [first]


def _are_of_two_things(several: list[int], c: Claiming) -> bool:
    """Whether two headings of places are alike but for a name that means nothing: "m from CL, street" and
    "m from CL, yard", two sides of which nobody says which they are."""
    words = [re.findall(r"[^\W\d_]+", c.texts[k].casefold()) for k in several]
    if len(words) != 2 or len(words[0]) != len(words[1]):
        return False
    other = [pair for pair in zip(*words, strict=True) if pair[0] != pair[1]]
    return len(other) == 1 and not any(meaning(word).keys or word in _LINES for word in other[0])


_LINES = frozenset(("cl", "pl", "plaster", "zero", "proscenium", "curtain", "setting", "apron"))


def twice_placed(c: Claiming) -> None:
    """Take the second of two columns of places for the same again, where one counts from an end and the other
    does not, or they are in two units: they must agree, row by row."""
    if len(c.claims.get("at", ())) != 2:
        return
    joint = [k for k in c.claims["at"] if c.values.share("joint", k) == 1.0]
    if len(joint) == 1:  # "Hung at" over "LX1 #3"
        c.claims["at"].remove(joint[0])
        return
    first, second = c.claims["at"]
    one, other = c.meanings[first], c.meanings[second]
    two_units = one.unit and other.unit and one.unit != other.unit
    if bool(one.end) != bool(other.end) or two_units:
        if not (one.end or one.plus) and (other.end or other.plus):
            first, second = second, first
        c.claims["at"], c.keys[second] = [first], AGAIN


def sides_alone(c: Claiming) -> None:
    """Let a column that holds no sides give up that key where another of them does: "Direction" over what the
    units are aimed at, beside "L/R"."""
    several = c.claims.get(SIDE, [])
    kept = [k for k in several if c.share("which side", k) >= FITTING]
    aims = [k for k in several if c.share("target", k) == 1.0 > FITTING > c.share("which side", k)]
    kept = kept or [k for k in several if k not in aims]
    if len(several) > 1 and kept:
        c.claims[SIDE] = kept


def sides_by_cells(c: Claiming) -> None:
    """Take for the sides the first column of nothing else that holds them, where no heading says so; one that
    was taken for circuits, channels or systems by a guess at its heading holds sides alone, and leaves its
    key to the only other that claims it."""
    for k in range(c.width):
        guessed = k in c.meanings and not c.meanings[k].exact
        said = k not in c.keys or (guessed and c.keys[k] in ("circuit", "channel", "system"))
        over = c.keys.get(k) == "position" and guessed and c.values.under_positions()
        said = said or over  # "Which" over left and right, under the bars
        least = 1.0 if k in c.keys else SIDES_ALONE
        if "target" not in c.keys.values() and c.share("target", k) == 1.0 > c.share(SIDE, k):
            continue  # Centre and Sofa
        if said_later(k, c) == "target":
            continue
        if said and SIDE not in c.keys.values() and c.share("which side", k) >= least:
            before = c.keys.get(k, "")
            c.keys[k] = SIDE
            left = [
                other
                for other, found in c.meanings.items()
                if other not in c.keys and found.keys == (before,)
            ]
            if len(left) == 1:  # "Plug", beside "Way" over SL and SR
                c.keys[left[0]] = before


def parts_alone(c: Claiming) -> None:
    """Take feet or inches alone for the whole place: "(inches)" over 150. A side alone, without its other,
    may be a serial number: "Sr."."""
    held = set(c.keys.values())
    for k, key in list(c.keys.items()):
        sides = {"at_SL", "at_SR"}
        if key in sides and not sides - {key} <= held and len(meaning_words(c.texts[k])) < 2:
            del c.keys[k]
    for part, other, unit in (("at_feet", "at_inches", "ft"), ("at_inches", "at_feet", "in")):
        if part in held and not {"at", other} & held:
            k = next(k for k, key in c.keys.items() if key == part)
            c.keys[k], c.meanings[k] = "at", c.meanings.get(k, Meaning())._replace(unit=unit)


def no_places(c: Claiming) -> None:
    """Free a column headed as that of places which holds words alone, or none where another holds some, or
    names of positions where no column has these: "Place" over the bars, beside "mm"."""
    for k in [k for k, key in c.keys.items() if key == "at"]:
        bars = "position" not in c.keys.values() and c.share("position", k) >= NEARLY
        others = c.share("at", k) == 0.0 and any(map(c.share.of_places, range(c.share.width)))
        guessed = k in c.meanings and not c.meanings[k].exact
        named = guessed and (c.share("words", k) == 1.0 or (bars and c.share("at", k) == 0.0))
        if others or named:
            del c.keys[k]


def place_by_cells(c: Claiming) -> None:
    """Find the column of places where no heading tells it: the one whose cells are places, under a
    heading of something else that they are not; or the lengths beside a column of sides."""
    if {"at", *AT_PARTS} & set(c.keys.values()):
        return
    for k, key in list(c.keys.items()):
        if key == GAP and c.share("minus", k) > 0:
            c.keys[k] = "at"  # a gap has no sign
        lengths = c.share("at", k) >= NEARLY and c.share(SIDE, k) == 0.0  # "+12'" under SL/SR
        if key == SIDE and (c.share.of_places(k) or lengths or _are_lettered(k, c)):
            c.keys[k] = "at"
    if "at" in c.keys.values():
        return
    free = [
        k
        for k in range(len(c.texts))
        if (c.share("place", k) >= FITTING if c.keys.get(k) == GAP else c.share.of_places(k))
        and (k not in c.keys or k in c.meanings)
        and (k not in c.keys or (not c.meanings[k].exact or c.share(c.keys[k], k) == 0.0))
        and (k not in c.keys or c.share(c.keys[k], k) <= 0.0)
        and not (k in c.holds and c.keys.get(k) == "position")  # "Grid 1 @ 7'L"
        and not _of_circuits(k, c)
    ]
    side = next((k for k, key in c.keys.items() if key == SIDE), None)
    if not free and side is not None and _by_unit(c):
        return
    if not free and side is not None:
        free = _beside_sides(side, c)
    if not free and side is None:
        free = _second_position(c) or _bare_places(c)
    if not free:
        if side is None:
            _under_unit(c)
        return
    c.meanings |= {k: Meaning() for k in free if k not in c.meanings}
    _, wrong = choose("at", free, c)
    c.keys[free[0]] = "at"
    unit = LENGTHS.get(c.texts[free[0]].casefold().strip(" .()[]"), c.meanings[free[0]].unit)
    c.meanings[free[0]] = c.meanings[free[0]]._replace(exact=False, unit=unit)
    if wrong is not None:
        c.asked.append((free[-1], wrong))


def _are_lettered(k: int, c: Claiming) -> bool:
    """Whether cells are figures, each but a zero with a letter that a word of the heading begins with:
    "2,5 G" under "G/D"."""
    first = {word[0] for word in re.findall(r"[^\W\d_]+", c.texts[k].casefold())}
    cells = [text_of(cell).strip().casefold() for cell in c.values.of(k)]
    told = [_FIGURE_AND_LETTER.fullmatch(cell) for cell in cells if cell.strip("0,.")]
    return len(told) > 1 and all(found and (found[1] or found[2]) in first for found in told)


_FIGURE_AND_LETTER = regex(r"\d{1,4}(?:[.,]\d+)?\s*m?\s*([a-z])|([a-z])\s*\d{1,4}(?:[.,]\d+)?\s*m?")


def _of_circuits(k: int, c: Claiming) -> bool:
    """Whether a column is headed as that of circuits and holds their codes, which might be places as well:
    "SL1-1". "Dim" alone may be the dimension, unless another column has the heights."""
    dimension = c.texts[k].casefold().strip(" .:()") in ("dim", "dims")
    headed = c.keys.get(k) == "circuit" and (not dimension or HEIGHT in c.keys.values())
    return headed and c.share("circuit code", k) >= NEARLY


def _by_unit(c: Claiming) -> bool:
    """Take for the place what stands under a length unit alone, beside the sides or not: "Metres", or "m" and
    "cm"."""
    units = {
        k: LENGTHS[word]
        for k, text in enumerate(c.texts)
        if k not in c.keys
        and (word := text.casefold().strip(" .()[]")) in LENGTHS
        and max(c.share("at", k), c.share("figure", k)) >= FITTING
    }
    run = sorted(units)
    if not run or run[-1] - run[0] != len(run) - 1:
        return False
    if len(run) == 1:
        c.keys[run[0]] = "at"
        c.meanings[run[0]] = Meaning(("at",), unit=units[run[0]])
    elif [units[k] for k in run] == ["m", "cm"]:
        c.keys |= dict(zip(run, ("at_metres", "at_centimetres"), strict=True))
    return len(run) == 1 or [units[k] for k in run] == ["m", "cm"]


def _beside_sides(side: int, c: Claiming) -> list[int]:
    """The column of lengths beside that of sides, under a word that may be said of places: "Off", "Amount";
    none that counts the units. Or else the one of the table that has length units alone over it: "Ft-In"."""
    position = next((k for k, key in c.keys.items() if key == "position"), None)
    found = []
    for k in (side - 1, side + 1):
        words = set(meaning_words(c.texts[k])) if 0 <= k < len(c.texts) else set()
        known = k in c.meanings or (k not in c.keys and words & _OFF)
        if known and c.share("at", k) >= FITTING and not words - _MAY_BE_PLACE - _OFF:
            found.append(k)
    numbers = [
        k
        for k in found
        if position is not None
        and "number" in c.meanings.get(k, Meaning()).keys
        and c.values.runs(k, position)
    ]
    if len(found) > len(numbers):
        return [k for k in found if k not in numbers][:1]
    measured = [
        k
        for k, m in c.meanings.items()
        if k not in c.keys and m.unit and not m.keys and c.share("at", k) >= FITTING
    ]
    return [k for k in measured if not meaning_words(c.texts[k])] if len(measured) == 1 else []


_OFF = frozenset(("off", "out", "offset"))


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


def _second_position(c: Claiming) -> list[int]:
    """The one column of bare lengths under a word for a position, beside the one that names the positions:
    "Location" over 12.5 and -11; none where they count up as numbers of something do."""
    position = next((k for k, key in c.keys.items() if key == "position"), None)
    if position is None or c.values.share("position", position) < NEARLY:
        return []
    found = [
        k
        for k, m in c.meanings.items()
        if k not in c.keys and m.keys == ("position",) and c.values.share("at", k) >= NEARLY
    ]
    return found if len(found) == 1 and not c.values.runs(found[0], position) else []


def _bare_places(c: Claiming) -> list[int]:
    """The one column of nothing else whose cells are lengths with a bare left or right: "Spot" over L 9' and
    R 6' 6", beside the kinds; a letter and a figure alone may be a plug or a gel, but not among zeros."""
    found = [
        k
        for k, heading in enumerate(c.texts)
        if k not in c.keys
        and (heading or len(c.values.of(k)) > 1)
        and c.share("which place", k) >= FITTING
        and (
            sum(bool(_MEASURED.search(text_of(cell))) for cell in c.values.of(k))
            >= FITTING * len(c.values.of(k))
            or round_zero(k, c)
        )
    ]
    return found if len(found) == 1 else []


_MEASURED = regex(
    r"^\W*(?:s?[lr]|left|right)\b.{0,3}?\d{1,3}(?:[.,]\d+|\s*(?:['\"\u2032\u2033\u2019]|m\b|cm\b|mm\b|ft\b|in\b))"
    r"|\d+(?:[.,]\d+|\s*(?:['\"\u2032\u2033\u2019]|m|cm|mm|ft|in))[\d\s'\".]*(?:s?[lr]|left|right)\W*$",
    re.IGNORECASE,
)


def _under_unit(c: Claiming) -> None:
    """Take for the place the one column of lengths under a length unit and nothing else."""
    found = [
        k
        for k, text in enumerate(c.texts)
        if k not in c.keys and text.casefold().strip(" .()[]") in LENGTHS and _holds_figures(k, c)
    ]
    if len(found) == 1:
        c.keys[found[0]] = "at"
        unit = LENGTHS[c.texts[found[0]].casefold().strip(" .()[]")]
        c.meanings[found[0]] = Meaning(("at",), unit=unit)


def _holds_figures(k: int, c: Claiming) -> bool:
    """Whether cells are places, some with a side, or figures: 4200 may be too far in metres."""
    cells = c.values.of(k)
    fit = sum(bool(c.fits("at", cell) or c.fits("figure", cell)) for cell in cells)
    return bool(cells) and fit >= FITTING * len(cells)


def marks_counted(c: Claiming) -> None:
    """Let whole figures under "Mark", "Hang" or "No" with no unit count the marks of the pipe."""
    for k, key in c.keys.items():
        if key == "at" and k in c.meanings and set(meaning_words(c.texts[k])) <= MARKS:
            counted = not c.meanings[k].unit and c.share("mark", k) == 1.0
            if counted:
                c.meanings[k] = c.meanings[k]._replace(unit=MARK)
                c.holds[k] = f"{told(c.values.of(k))}, which count the marks of the pipe"


MARKS = frozenset(("mark", "marks", "hang", "tape", "no"))


LONGEST = 20  # characters of a place with the letter of its side
_LETTERED = regex(r"^\s*[a-ln-z]\.?\s?\d|\d\s?[a-ln-z]\.?\s*$", re.IGNORECASE)  # "J 4,50", "6.40 P"


def sides_unsaid(c: Claiming) -> None:
    """Free a column of places whose heading names both sides and no cell one, where no other column does:
    which side each is on, nobody says."""
    for k, key in list(c.keys.items()):
        said = SIDE in c.keys.values() or k not in c.meanings or not c.meanings[k].sides
        lettered = any(_LETTERED.search(text_of(cell)[:LONGEST]) for cell in c.values.of(k))
        if key == "at" and not (said or lettered) and c.share("which place", k) == 0.0:
            del c.keys[k]
