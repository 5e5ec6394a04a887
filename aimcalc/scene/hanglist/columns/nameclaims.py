"""Columns of positions, numbers, kinds and targets whose heading and cells do not say the same, or that
several may be."""

from __future__ import annotations

import re
from collections.abc import Sequence

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.byvalues import NEARLY, numbers_among, told
from aimcalc.scene.hanglist.columns.columnclaims import (
    FITTING,
    HALF,
    LOOKED_THROUGH,
    SOME_SIDES,
    Claiming,
    Fits,
    round_zero,
    which_of,
)
from aimcalc.scene.hanglist.columns.columnkeys import GAP, SIDE
from aimcalc.scene.hanglist.columns.headingparts import composed, word_lists
from aimcalc.scene.hanglist.columns.headingwords import meaning_words
from aimcalc.scene.hanglist.rows.listrow import text_of
from aimcalc.scene.hanglist.tongues.tongues import unaccented

LONGEST = 12  # characters of a cell that says which of several positions it is
FEWEST_CABLES = 4  # whose numbers tell that they are not lengths
_MAINS = frozenset(("mains", "power", "supply", "strom", "stroom"))


def give_way(c: Claiming) -> None:
    """Let a column spelled as a key give way to one that means the same, where its own cells never fit
    and the other's do: "Position" with places under it, beside "Pipe", or beside a word that nobody knows."""
    for key, columns in c.claims.items():
        if (
            len(columns) != 1
            or not c.meanings[columns[0]].exact
            or c.share(key, columns[0]) >= HALF
        ):
            continue
        others = [
            k for k, m in c.meanings.items() if m.keys == (key,) and c.share(key, k) >= FITTING
        ]
        if not others and key == "position" and c.share(key, columns[0]) == 0.0:
            others = [k for k, m in c.meanings.items() if not m.keys and c.share(key, k) >= FITTING]
        if len(others) == 1:
            c.claims[key] = others


def number_among(c: Claiming) -> None:
    """Take for the number the one of two columns of positions that holds numbers."""
    number = None
    if "number" not in c.claims and "number" not in c.keys.values():
        number = numbers_among(c.claims.get("position", []), c.values)
    if number is not None:
        c.claims["position"].remove(number)
        c.claims["number"] = [number]
        c.holds[number] = told(c.values.of(number))


def houses_name(c: Claiming) -> None:
    """Take the column of the house's names of positions and not that of the company's own, where the headings
    say which is which: "House position" beside "Our bar"."""
    several = c.claims.get("position", [])
    of_house = [k for k in several if _OF_HOUSE.search(c.texts[k])]
    own = [k for k in several if _OF_COMPANY.search(c.texts[k])]
    told = len(several) == 2 and len(of_house) == len(own) == 1 and own != of_house
    if told and c.share("position", of_house[0]) >= NEARLY:
        c.claims["position"] = of_house


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


def kinds_run_out(c: Claiming) -> None:
    """Let a column that counts the units give up the kind that another claims too: "Head" over 1, 2, 3."""
    several = c.claims.get("kind", [])
    kept = [k for k in several if c.values.share("kind", k) >= FITTING and not c.values.counts(k)]
    if len(several) > 1 and kept:
        c.claims["kind"] = kept


def kinds_elsewhere(c: Claiming) -> None:
    """Let columns that count the units, or hold no kind at all, give it up where one other names it that may
    be it by its heading: "Fix" over 1, 2, 3 beside "Unit", "Spot" over places beside "Lamp"."""
    several = c.claims.get("kind", [])
    position = next(iter(c.claims.get("position", [])), None)
    counts = [k for k in several if c.values.counts(k) and c.values.runs(k, position)]
    unfit = [k for k in several if k in counts or c.values.share("kind", k) == 0.0]
    named = [
        k
        for k, found in c.meanings.items()
        if k not in several and "kind" in found.keys and c.values.names("kind", k)
    ]
    if several and unfit == several and len(named) == 1:
        c.claims["kind"] = named


def best_of(keys: Sequence[str], k: int, c: Claiming) -> tuple[str, bool]:
    """The likeliest key of a column of which its heading leaves several, and whether its cells fit it.
    Numbers of units are never the same twice on a position, as kinds are: "P19" and "P36" under "Unit"."""
    if set(keys) == {"circuit", "system"}:  # "Grupp" in figures, or "fram"
        figures = max(c.share("figure", k), c.share("circuit code", k)) >= FITTING
        return ("circuit" if figures else "system"), True
    fitting = [key for key in keys if c.share(_CODED.get(key, key), k) >= FITTING]
    if "colour" in fitting and not any(map(_DIGIT.search, map(text_of, c.values.of(k)))):
        fitting.remove("colour")  # a frame may be open or shut
    position = next((j for j, key in c.keys.items() if key == "position"), None)
    twice = c.share("number", k) == 1.0 and not c.values.differ(k, position, HALF)
    if fitting[:2] == ["number", "kind"] and (twice or c.share("kind", k) > c.share("number", k)):
        fitting = fitting[1:]
    if not fitting and "kind" in keys and _kinds_in_figures(k, c, position):
        fitting = ["kind"]
    return (fitting[0], True) if fitting else (keys[0], False)


_DIGIT = regex(r"\d")
# What the cells of a column are, where they fit a key that takes anything.
_CODED = {"colour": "gel code", "circuit": "circuit code", "channel": "channel code"}


def numbers_cables(k: int, c: Claiming) -> bool:
    """Whether a column numbers the cables of its units, of whose lengths some would be the same, or, beside
    one of channels or over some more units, what of the mains they are plugged into: watts are round."""
    words = meaning_words(c.texts[k])
    several = len(c.values.rows) >= FEWEST_CABLES
    named = words[:1] == ["cable"] and several
    desk = any("channel" in found.keys for found in c.meanings.values())
    fed = bool(_MAINS & set(words)) and (several or desk or "channel" in c.keys.values())
    named = named or (fed and c.share("figure", k) == 1.0)
    round_ones = all(text_of(cell).strip()[-1:] in "05" for cell in c.values.of(k))
    return named and c.values.differ(k, None) and not round_ones


def numbers_plugs(k: int, c: Claiming) -> bool:
    """Whether a column is headed in long hand as where its units are plugged in, and holds figures alone:
    "yes" is no plug."""
    plugged = composed(meaning_words(unaccented(c.texts[k]))).key == "circuit"
    return plugged and c.share("figure", k) == 1.0


def _kinds_in_figures(k: int, c: Claiming, position: int | None) -> bool:
    """Whether a column holds kinds of which many are told by their figures alone: "wash" and "62"."""
    counted = c.values.counts(k) or c.values.runs(k, position)
    return not counted and c.share("kind", k) > 0 and c.share("kind figures", k) >= NEARLY


def swapped(c: Claiming) -> None:
    """Give a column that its heading calls the number, the kind or the position of a unit, and that holds
    none, to another of the three that it does hold and nobody else: "Instrument" over 1, 2, 3, or "Lamp"
    over the kinds beside "Spot" over places."""
    for k, found in c.meanings.items():
        mine = c.keys.get(k)
        unfit = mine in _UNITS and c.share(mine, k) == 0.0
        spare = mine is None and (not found.keys or bool({"kind", "number"} & set(found.keys)))
        spare = spare or (mine is None and found.keys == ("position",) and _kinds_alone(k, c))
        if (unfit or spare) and mine not in [key for j, key in c.keys.items() if j != k]:
            for key in ("number", "kind", "position"):
                if found.exact or c.share(key, k) < FITTING or not (found.keys or key == "kind"):
                    continue
                if key == "number" and round_zero(k, c):
                    continue
                holders = [j for j, held in c.keys.items() if held == key]
                if all(_holds_none(j, key, c) for j in holders):
                    for j in holders:
                        del c.keys[j]
                    c.keys[k] = key
                    break


def _kinds_alone(k: int, c: Claiming) -> bool:
    """Whether a column holds kinds and neither names of positions nor figures alone: "Lx" over them."""
    other = max(c.share("position", k), c.share("at", k), c.share("figure", k))
    return c.share("kind", k) == 1.0 and other < HALF and not c.values.counts(k)


_UNITS = ("number", "kind", "position")


def _holds_none(k: int, key: str, c: Claiming) -> bool:
    """Whether a column is that of a key by a guess at its heading, and not one of its cells is; or is that of
    kinds, and all are targets, one of which is named much as a kind: Fond, beside Fondljus."""
    aims = key == "kind" and c.share("target", k) == 1.0 and c.share("kind", k) < HALF
    return k in c.meanings and not c.meanings[k].exact and (c.share(key, k) == 0.0 or aims)


def aims_out(c: Claiming) -> None:
    """Give a column that its heading calls the side, and that holds targets, to the targets where no column
    has them: "Direction" over what the units are aimed at."""
    if {"target", "point"} & set(c.keys.values()):
        return
    sides = [k for k, found in c.meanings.items() if found.keys == (SIDE,)]
    for k in [k for k in sides if c.keys.get(k, SIDE) == SIDE]:
        if c.share("which side", k) < SOME_SIDES and c.share("target", k) >= FITTING:
            c.keys[k] = "target"
            return


def aimed_better(k: int, c: Claiming) -> bool:
    """Whether few cells of a column that may be that of targets are any, and all of another that may be it
    too: "Use" over key, fill and cyc, beside "On"."""
    return c.share("target", k) < HALF and any(
        j not in c.keys and "target" in found.keys and c.share("target", j) >= NEARLY
        for j, found in c.meanings.items()
    )


def aims_elsewhere(c: Claiming) -> None:
    """Give the targets to the column that holds their names and nothing that its heading is taken for, where
    none has them: "At" over DSC and USC, "Lights" over the areas A to F beside the kinds; ask of two."""
    if {"target", "point"} & set(c.keys.values()):
        return
    found = [
        k
        for k in c.meanings
        if _LIT & set(meaning_words(c.texts[k]))
        and c.share("target", k) >= NEARLY
        and (k not in c.keys or (c.keys[k] in _NOT_LIT and c.share(c.keys[k], k) < SOME_SIDES))
    ]
    if found:
        c.keys[found[0]] = "target"
        c.holds[found[0]] = told(c.values.of(found[0]))
    if len(found) > 1:
        c.asked.append((found[-1], which_of("target", found, c.texts)))


# Words of headings of targets that may be those of something else, and what columns so headed are taken for.
_LIT = word_lists("""
lit: light lights at on to for spot lit where what who which place position unit beam covers over onto shines
lit: hits auf sur su en op pa mot mod na para per pour fur voor
""")["lit"]
_NOT_LIT = ("kind", "at", "position", "number", "system", SIDE, "mount")


def restarting(c: Claiming) -> None:
    """Take for the number the one column that counts from 1 on each position and may be it by its heading, in
    place of one that counts the rows or names the units."""
    by_key = {key: k for k, key in c.keys.items()}
    number, position = by_key.get("number"), by_key.get("position")
    if number is None or position is None or number not in c.meanings or c.meanings[number].exact:
        return
    names_units = "channel" in c.meanings[number].keys  # an ID, which the desk may call it by
    may_be = [
        k
        for k, m in c.meanings.items()
        if k not in c.keys and ("number" in m.keys or (names_units and (m.fitting or not m.keys)))
    ]
    found = [k for k in may_be if c.values.restarts(k, position)]
    if len(found) != 1 or c.values.restarts(number, position):
        return
    del c.keys[number]
    if names_units and "channel" not in c.keys.values():
        c.keys[number] = "channel"
    c.keys[found[0]] = "number"
    c.holds[found[0]] = told(c.values.of(found[0]))


def initialled(c: Claiming) -> None:
    """Take for the number an ID that begins with the first letters of its position, "FT1" on the Front Truss,
    and for the channel the number of the whole list that stands beside it."""
    by_key = {key: k for k, key in c.keys.items()}
    number, channel, position = (by_key.get(key) for key in ("number", "channel", "position"))
    if number is None or channel is None or channel not in c.meanings:
        return
    if position is None and not c.values.under_positions():
        return
    whole = [text for text in map(text_of, c.values.of(number)) if text.isdecimal()]
    if "number" not in c.meanings[channel].keys or not c.values.initialled(channel, position):
        return
    if len(set(whole)) != len(c.values.rows) or c.values.initialled(number, position):
        return
    c.keys[number], c.keys[channel] = "channel", "number"
    c.holds |= {k: told(c.values.of(k)) for k in (number, channel)}


def placed_positions(c: Claiming) -> None:
    """Take for the position the one column that names it and the place together, "Mid Truss centre", where no
    other names it: under whatever heading, but none that is settled."""
    if c.placed or "position" in c.keys.values():
        return
    found = [
        k
        for k in range(len(c.texts))
        if (k in c.meanings or k not in c.keys)
        and c.keys.get(k, "") in _NO_NAMES
        and c.values.share("position and place", k) >= NEARLY
        and c.values.share("position with place", k) > 0
    ]
    if len(found) != 1:
        return
    c.keys[found[0]] = "position"
    c.holds[found[0]] = told(c.values.of(found[0]))


_NO_NAMES = ("", "at", "mount", "hung", "number", "kind", "side", "height", GAP)


def headed_names(c: Claiming) -> None:
    """Take for the position the one column whose heading makes each of its cells the name of one, where no
    other is: "SL" and "SR" below "Gallery" where no place has that side."""
    if c.placed or "position" in c.keys.values():
        return
    found = {}
    for k, text in enumerate(c.texts):
        word = sort_word(text)
        if not word or c.keys.get(k, "number") not in ("number", "system", SIDE):
            continue
        cells = c.values.of(k)[:LOOKED_THROUGH]  # no total below, no thanks
        short = cells and all(len(text_of(cell)) <= LONGEST for cell in cells)
        if short and all(_is_named(word, text_of(cell).strip(), c.fits) for cell in cells):
            found[k] = told(cells)
    if len(found) == 1:
        c.keys.update(dict.fromkeys(found, "position"))
        c.holds |= found


def sort_word(heading: str) -> str:
    """The word of a heading for the sort of position that its cells are, "Grid" of "Grid pos."."""
    word = " ".join(_SPARE.sub(" ", heading).split())
    return word if re.fullmatch(r"[^\W\d_]{3,}(?: [^\W\d_]{2,})?", word) else ""


def _is_named(word: str, cell: str, fits: Fits) -> bool:
    named = bool(fits("spelled position", cell)) and cell.casefold().startswith(word.casefold())
    return named or bool(fits("spelled position", f"{word} {cell}"))


_SPARE = regex(
    r"\b(?:pos(?:ition)?s?|no|nr|number|name|line|letter|which|the)\b|[#.:()/]", re.IGNORECASE
)
