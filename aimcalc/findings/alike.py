"""Names that a reader takes for one another, on paper or aloud: they differ, the things do too."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from functools import lru_cache
from typing import Any
from unicodedata import normalize

import msgspec
import numpy as np

from aimcalc.findings.positions import TOUCH
from aimcalc.findings.report import STOP, WARN, about, by_position, subject
from aimcalc.geometry.deck import bare_height
from aimcalc.geometry.vectors import Array
from aimcalc.named import regex
from aimcalc.rig.letters import from_the_right, lacking, shaped
from aimcalc.rig.places import inside
from aimcalc.rig.solve import hung
from aimcalc.rig.wording import by_typical, length, listed
from aimcalc.scene.model import Boom, Pipe, Position
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import SolidRig

MOST_TOLD = 3  # pairs of one sort of thing
KEPT = 4096  # names made plain: every pipe has a unit 1
# Greek and Cyrillic letters that look as these Latin ones do in the typeface of the sheets.
_LATIN = str.maketrans(
    "ΑΒΕΖΗΙΚΜΝΟΡΤΥΧοАВЕЅІЈКМНОРСТХаеорсухѕіј",
    "ABEZHIKMNOPTYXoABESIJKMHOPCTXaeopcyxsij",
)


_JOINERS = regex(r"[\s_‐‑–—-]+")
_LOOSE_DASHES = regex(r"(?<!\d)-|-(?!\d)")
_LEADING_ZEROS = regex(r"(?<![\d.])0+(?=\d)")
_NUMBER = regex(r"0|[1-9][0-9]*")


def look_alike(rig: SolidRig) -> Iterator[Finding]:
    """Stops for names that print the same, warns of those that differ only in case, spaces or zeros."""
    yield from rig.kept.ask(_looking_alike, [target.name for target in rig.scene.targets])


def _looking_alike(rig: SolidRig, targets: list[str]) -> list[Finding]:
    return list(_names_alike(rig, targets))


def _names_alike(rig: SolidRig, targets: list[str]) -> Iterator[Finding]:
    scene = rig.scene
    yield from _among("positions", scene.positions)
    yield from _among("targets", targets)
    yield from _among("kinds", scene.kinds)
    yield from _among("scenery", (solid.name for solid in scene.solids))
    yield from _among("seats", (block.name for block in scene.seats))
    for sort in ("system", "channel", "circuit", "colour"):
        names = (getattr(unit, sort) for unit in rig.units)
        yield from _among(f"{sort}s", dict.fromkeys(filter(None, names)))
    for position, rows in hung(rig):
        numbers = dict.fromkeys(rig.units[k].number for k in rows)
        yield from _among("unit numbers", numbers, position.name)


def one_key(rig: SolidRig) -> Iterator[Finding]:
    """Stops for units of two positions that are called the same: "a" unit "b/1", "a/b" unit "1"."""
    if len(set(rig.names)) == len(rig.names):
        return
    units = {
        (unit.position, unit.number): name for unit, name in zip(rig.units, rig.names, strict=True)
    }
    again = [name for name, times in Counter(units.values()).items() if times > 1]
    for name in again:
        pairs = [pair for pair, called in units.items() if called == name]
        told = listed(f'unit "{number}" of "{position}"' for position, number in pairs)
        says = f'Both are called "{name}": {told}.'
        do = "Give one of the positions another name, without the /."
        yield Finding(STOP, "names-alike", says, do, position=pairs[0][0])


def _among(what: str, names: Iterable[str], position: str | None = None) -> Iterator[Finding]:
    every = list(names)
    same, near = _groups(every, _on_paper), _groups(every, _aloud)
    if same:
        says = f"These {what} differ, but print the same: {_told(same)}."
        do = "Rename one of each, with the letters of one alphabet and single spaces."
        yield Finding(STOP, "names-alike", says, do, position=position)
    near = [group for group in near if group not in same]
    if near:
        says = f"These {what} are easily taken for one another: {_told(near)}."
        do = "Write them alike if they are one thing, or rename one of each."
        yield Finding(WARN, "names-alike", says, do, position=position)


def _groups(names: list[str], plain: Callable[[str], str]) -> list[list[str]]:
    """Names that are one once they are made plain; a number without leading zeros is so as it is."""
    is_number = _NUMBER.fullmatch
    made = [name if is_number(name) else plain(name) for name in names]
    if len(set(made)) == len(made):
        return []
    groups: dict[str, list[str]] = {}
    for name, key in zip(names, made, strict=True):
        groups.setdefault(key, []).append(name)
    return [group for group in groups.values() if len(group) > 1]


def _told(groups: list[list[str]]) -> str:
    shown = "; ".join(listed(f'"{name}"' for name in group) for group in groups[:MOST_TOLD])
    more = len(groups) - MOST_TOLD
    return f"{shown}; and {more} more" if more > 0 else shown


@lru_cache(KEPT)
def _on_paper(name: str) -> str:
    """A name as the sheets print it: accents in one letter, single spaces, letters by their looks."""
    return " ".join(normalize("NFC", name).split()).translate(_LATIN)


@lru_cache(KEPT)
def _aloud(name: str) -> str:
    """A name as it is called out: no case or spaces, no dash but between figures, no leading zeros."""
    letters = _JOINERS.sub("-", _on_paper(name).casefold())
    return _LEADING_ZEROS.sub("", _LOOSE_DASHES.sub("", letters))


NOT_PRINTED = ("source", "hang", "typeface", "mesh", "photometry")  # names of files
REWRITE = (
    "Write it with other letters; Latin, Greek and Cyrillic print. A draft spells them by number."
)
LEND = (
    "Install an open typeface that has them: Noto Sans CJK, Droid Sans Fallback or GNU Unifont. Or put its "
    'file beside the scene and name it in [scene]: typeface = "FILE.ttf". Or write it with other letters. A '
    "draft spells them by number."
)
SAID_ELSEWHERE = ("position", "kind", "target")  # a unit's: told of these themselves


def letters(rig: SolidRig) -> Iterator[Finding]:
    """Stops once for letters that no typeface has, that run from the right, that join or stack."""
    if rig.written.isascii():
        return
    where: dict[str, list[str]] = {}
    for place, text in _texts(rig):
        for letter in lacking(text):
            where.setdefault(letter, []).append(place)
    if not where:
        return
    for wrong, do, sort in (
        ("The sheets' typefaces have no", LEND, _unlent),
        ("The sheets cannot set letters that run from the right:", REWRITE, from_the_right),
        ("The sheets cannot set letters that join or stack:", REWRITE, _joins),
    ):
        found = {c: places for c, places in where.items() if sort(c) and c not in rig.lent.letters}
        if found:
            named = listed(f"{letter} (U+{ord(letter):04X})" for letter in found)
            places = listed(dict.fromkeys(place for some in found.values() for place in some))
            says = f"{wrong} {named}. They are in {places}."
            yield Finding(STOP, "letters-not-printed", says, do)


def _joins(letter: str) -> bool:
    return shaped(letter) and not from_the_right(letter)


def _unlent(letter: str) -> bool:
    return not shaped(letter) and not from_the_right(letter)


def _texts(rig: SolidRig) -> Iterator[tuple[str, str]]:
    """Every text of a scene that reaches paper, with its place: ([[pipe]] "A", "A")."""
    scene = rig.scene
    for entry, what in (
        (scene.settings, "[scene]"),
        *((one, "[[pipe]]") for one in scene.pipes),
        *((one, "[[boom]]") for one in scene.booms),
        *((one, "[[stand]]") for one in scene.stands),
        *((one, "[[target]]") for one in scene.targets),
        *((one, "[[kind]]") for one in scene.kinds.values()),
        *((one, "[[solid]]") for one in scene.solids),
        *((one, "[[seats]]") for one in scene.seats),
        *((one, "[[cable]]") for one in scene.cables),
    ):
        yield from _of(entry, what)
    for name, unit in zip(rig.names, rig.units, strict=True):
        yield from _of(unit, f"unit {name},", SAID_ELSEWHERE)


def _of(entry: msgspec.Struct, what: str, said: tuple[str, ...] = ()) -> Iterator[tuple[str, str]]:
    for key in entry.__struct_fields__:
        value: Any = getattr(entry, key)
        if isinstance(value, str) and key not in (*NOT_PRINTED, *said) and not value.isascii():
            yield (f'{what} "{value}"' if key == "name" else f"{what} {key}"), value
        elif isinstance(value, tuple):
            for part in value:
                if isinstance(part, msgspec.Struct):
                    yield from _of(part, f"{what} {key}")


DO = "Correct the height; a unit in a trap or a pit needs that left out of the stage's outline."


def depth(rig: SolidRig, points: Array) -> Array:
    """How far points (3, N) are under the deck itself, metres, (N,); negative above it and beside it.

    The deck lies within the stage's outline; without one, everywhere upstage of the plaster line.
    """
    x, y, z = points
    outline = rig.scene.stage.outline
    under = np.fmax(bare_height(rig.deck, y) - z, -np.inf)
    low = np.flatnonzero(under > 0)
    if low.size:
        over = inside(outline, x[low], y[low]) if outline else y[low] >= 0.0
        under[low[~over]] = -np.inf
    return np.asarray(under)


def positions(rig: SolidRig) -> Iterator[Finding]:
    """Stops for pipes and stands that are under the deck, all or in part."""
    for position in rig.scene.positions.values():
        under = _under(rig, position)
        if under > TOUCH:
            says = f"It is {length(under, rig.scene.settings.unit)} under the deck."
            yield Finding(STOP, "under-deck", says, DO, position=position.name)


def _under(rig: SolidRig, position: Position) -> float:
    """How far the deepest of a position's ends is under the deck; a boom without a foot stands on it."""
    if isinstance(position, Boom):
        if position.foot is None:
            return 0.0
        ends = np.array([[position.x], [position.y], [position.foot]])
    elif isinstance(position, Pipe):
        ends = np.array([position.start, position.end]).T
    elif position.z is None:
        return 0.0
    else:
        ends = np.array([[position.x], [position.y], [position.z]])
    return float(depth(rig, ends).max())


def pivots(rig: SolidRig) -> Iterator[Finding]:
    """Stops for pivots under the deck, their position above it; warnings where the drop is a typical one."""
    held = {name: _under(rig, position) > TOUCH for name, position in rig.scene.positions.items()}
    under = depth(rig, rig.aims.pivot)
    fires = (under > TOUCH) & ~np.array([held[u.position] for u in rig.units], dtype=bool)
    typical = np.array([kind.typical for kind in rig.kinds], dtype=bool)
    for severity, some in ((STOP, fires & ~typical), (WARN, fires & typical)):
        for rows in by_position(rig, some):
            deepest = length(float(under[rows].max()), rig.scene.settings.unit)
            most = "" if len(rows) == 1 else "up to "
            have = subject(rig, rows, "has its pivot", "have their pivots")
            says = f"{have} {most}{deepest} under the deck."
            if severity == WARN:
                says += by_typical("drops", list(dict.fromkeys(rig.units[k].kind for k in rows)))
            yield about(rig, rows, severity, "under-deck", says=says, do=DO)
