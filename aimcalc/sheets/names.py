"""Names shortened together, so that things that differ never look alike on paper."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING
from weakref import WeakKeyDictionary

from aimcalc.sheets.typeset import shorten

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig

LONGEST_NAME = 24  # letters
LONGEST_KIND = 18

LONGEST_NUMBER = 8

_known: WeakKeyDictionary[Rig, dict[tuple[bool, int], dict[str, str]]] = WeakKeyDictionary()


def short(rig: Rig, name: str, letters: int = LONGEST_NAME) -> str:
    """A name of a scene in at most `letters` letters, as no other name of that scene is shortened.

    A name that no cut tells from all others stays whole: whoever draws it makes it smaller. Words that
    the scene does not hold are cut in the middle.
    """
    return _table(rig, letters, _names).get(name) or shorten(name, letters, keep_end=True)


def short_number(rig: Rig, k: int, letters: int = LONGEST_NUMBER) -> str:
    """A unit's number, shortened so that it stays unlike all others."""
    return _table(rig, letters, _numbers)[rig.units[k].number]


def short_unit(rig: Rig, k: int) -> str:
    """A unit's "position/number", both parts shortened so that they stay different."""
    return f"{short(rig, rig.units[k].position)}/{short_number(rig, k)}"


def _table(rig: Rig, letters: int, names: Callable[[Rig], Iterable[str]]) -> dict[str, str]:
    tables = _known.setdefault(rig, {})
    key = (names is _numbers, letters)
    if key not in tables:
        tables[key] = shortened(names(rig), letters)
    return tables[key]


def shortened(names: Iterable[str], letters: int) -> dict[str, str]:
    """What stands for each of some names, all different where the names are.

    The beginning is kept, then the beginning and the end, then more and more of the end, then a piece
    out of the middle from where the name parts from a neighbour.
    """
    plain = {name: " ".join(name.split()) for name in names}
    given = {name: text for name, text in plain.items() if len(text) <= letters}
    taken = set(given.values())
    rest = sorted({text for name, text in plain.items() if name not in given})
    made: dict[str, str] = {}
    for ways in zip(*(_cuts(text, letters) for text in rest), strict=True):
        tried = {text: cut for text, cut in zip(rest, ways, strict=True) if text not in made}
        new = _alone(tried, taken | set(made.values()))
        made |= new
        if len(made) == len(rest):
            break
    made |= _by_where_they_part([text for text in rest if text not in made], taken, made, letters)
    return {name: given.get(name) or made.get(text) or text for name, text in plain.items()}


def _cuts(text: str, letters: int) -> Iterator[str]:
    """One name cut in as many ways as any other."""
    yield text[: letters - 1].rstrip() + "…"
    for tail in range(letters // 3, letters - 1):
        yield f"{text[: letters - 1 - tail].rstrip()}…{text[-tail:].lstrip()}"


def _alone(tried: dict[str, str], taken: set[str]) -> dict[str, str]:
    """The names whose cut is nobody else's."""
    owners: dict[str, int] = {}
    for cut in tried.values():
        owners[cut] = owners.get(cut, 0) + 1
    return {text: cut for text, cut in tried.items() if owners[cut] == 1 and cut not in taken}


def _by_where_they_part(
    rest: list[str], taken: set[str], made: dict[str, str], letters: int
) -> dict[str, str]:
    """Sorted names cut to a beginning and the piece from just before where they part from the next."""
    tried = {}
    for k, text in enumerate(rest):
        beside = [rest[j] for j in (k - 1, k + 1) if 0 <= j < len(rest)]
        part = max((_same(text, other) for other in beside), default=0)
        head, piece = letters // 3, letters - 2 - letters // 3
        start = max(head, part - piece // 2)
        end = "…" if start + piece < len(text) else ""
        tried[text] = f"{text[:head].rstrip()}…{text[start : start + piece].strip()}{end}"
    return _alone(tried, taken | set(made.values()))


def _same(one: str, other: str) -> int:
    """How many letters two names begin with alike."""
    pairs = zip(one, other, strict=False)
    return next((k for k, (a, b) in enumerate(pairs) if a != b), min(len(one), len(other)))


def _names(rig: Rig) -> Iterator[str]:
    """Everything in a scene that paper calls by a name."""
    scene = rig.scene
    yield from scene.positions
    yield from (target.name for target in scene.targets)
    yield from (solid.name for solid in scene.solids)
    yield from (block.name for block in scene.seats)
    yield from scene.kinds
    yield from (unit.system for unit in rig.units if unit.system)
    yield "deck"


def _numbers(rig: Rig) -> Iterable[str]:
    return (unit.number for unit in rig.units)
