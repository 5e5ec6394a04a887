"""Names shortened together, so that things that differ never look alike on paper."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from functools import partial
from itertools import pairwise
from typing import TYPE_CHECKING
from weakref import WeakKeyDictionary

from aimcalc.text.typeset import shorten

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig


LONGEST_NAME = 24  # letters
LONGEST_KIND = 18

LONGEST_NUMBER = 8

_known: WeakKeyDictionary[SolidRig, dict[tuple[bool, int], dict[str, str]]] = WeakKeyDictionary()


def short(rig: SolidRig, name: str, letters: int = LONGEST_NAME) -> str:
    """A name of a scene in at most `letters` letters, as no other name of that scene is shortened.

    A name that no cut tells from all others stays whole: whoever draws it makes it smaller. Words that
    the scene does not hold are cut in the middle.
    """
    return _table(rig, letters, _names).get(name) or shorten(name, letters, keep_end=True)


def short_number(rig: SolidRig, k: int, letters: int = LONGEST_NUMBER) -> str:
    """A unit's number, shortened so that it stays unlike all others."""
    return _table(rig, letters, _numbers)[rig.units[k].number]


def short_unit(rig: SolidRig, k: int) -> str:
    """A unit's "position/number", both parts shortened so that they stay different."""
    return f"{short(rig, rig.units[k].position)}/{short_number(rig, k)}"


def _table(
    rig: SolidRig, letters: int, names: Callable[[SolidRig], Iterable[str]]
) -> dict[str, str]:
    tables = _known.setdefault(rig, {})
    key = (names is _numbers, letters)
    if key not in tables:
        tables[key] = shortened(names(rig), letters)
    return tables[key]


def shortened(names: Iterable[str], letters: int) -> dict[str, str]:
    """What stands for each of some names, all different where the names are.

    The beginning is kept; where others begin so too, the beginning and the words from where the name parts
    from its neighbours; else the beginning and more and more of the end.
    """
    plain = {name: " ".join(name.split()) for name in names}
    given = {name: text for name, text in plain.items() if len(text) <= letters}
    taken = set(given.values())
    rest = sorted({text for name, text in plain.items() if name not in given})
    made: dict[str, str] = {}
    parts = _parts(rest)
    ways: list[Callable[[str], str]] = [
        partial(shorten, letters=letters),
        lambda text: _from(text, parts[text], letters),
    ]
    ways += [partial(_with_end, letters=letters, end=k) for k in range(letters // 3, letters - 1)]
    for cut in ways:
        tried = {text: cut(text) for text in rest if text not in made}
        made |= _alone(tried, taken | set(made.values()))
        if len(made) == len(rest):
            break
    return {name: given.get(name) or made.get(text) or text for name, text in plain.items()}


def _alone(tried: dict[str, str], taken: set[str]) -> dict[str, str]:
    """The names whose cut is nobody else's."""
    owners = Counter(tried.values())
    return {text: cut for text, cut in tried.items() if owners[cut] == 1 and cut not in taken}


def _parts(names: list[str]) -> dict[str, int]:
    """Where each of some sorted names parts from those that begin most like it, in letters."""
    same = [0, *(_same(one, other) for one, other in pairwise(names)), 0]
    return {text: max(same[k], same[k + 1]) for k, text in enumerate(names)}


def _from(text: str, part: int, letters: int) -> str:
    """A beginning, and a name from the word on where it parts from others; a word or two before, if short."""
    part = min(part, len(text) - 1)
    head, start = letters // 4, text.rfind(" ", 0, part) + 1
    if part - start > letters // 3:  # a long word: from where it parts itself, no number cut in two
        start = part
        while text[start].isdigit() and text[start - 1].isdigit():
            start -= 1
    while len(text) - (before := text.rfind(" ", 0, max(start - 1, 0)) + 1) <= letters // 2:
        start = before
    tail = text[max(start, head) :]
    head = max(head, letters - 1 - len(tail))
    room = letters - 1 - head
    tail = tail if len(tail) <= room else tail[: room - 1].rstrip() + "…"
    return f"{text[:head].rstrip()}…{tail.lstrip()}"


def _with_end(text: str, letters: int, end: int) -> str:
    return f"{text[: letters - 1 - end].rstrip()}…{text[-end:].lstrip()}"


def _same(one: str, other: str) -> int:
    """How many letters two names begin with alike."""
    pairs = zip(one, other, strict=False)
    return next((k for k, (a, b) in enumerate(pairs) if a != b), min(len(one), len(other)))


def _names(rig: SolidRig) -> Iterator[str]:
    """Everything in a scene that paper calls by a name."""
    scene = rig.scene
    yield from scene.positions
    yield from (target.name for target in scene.targets)
    yield from (solid.name for solid in scene.solids)
    yield from (block.name for block in scene.seats)
    yield from scene.kinds
    yield from (unit.system for unit in rig.units if unit.system)
    yield "deck"


def _numbers(rig: SolidRig) -> Iterable[str]:
    return (unit.number for unit in rig.units)
