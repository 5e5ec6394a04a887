"""The letters that the sheets can set: those of their typeface, and those that other typefaces lend a scene.

The typeface is DejaVu Sans, plain and bold both, less what runs from the right and what stacks or joins: a
library would have to order and shape it. Its table is here, so that `aimcalc check` opens no font; a test
holds it to the font's own. `aimcalc.rig.typeface` finds who lends the rest; what draws or measures text while
`lending` is on has it without being told.
"""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from functools import cache
from unicodedata import bidirectional, category

import msgspec

from aimcalc.named import NamedTuple
from aimcalc.scene.model import Scene

TALLEST = 0.8  # that a letter which is lent stands above the base line, of the type size
TAIL = 0.24  # depth of the deepest letter

Step = tuple[str, tuple[tuple[float, float] | None, ...]]  # moveTo, lineTo, qCurveTo or closePath

_RUNS = """
20-7E A1-AC AE-2E9 2EC-2EE 2F3 2F7 300-34F 351-353 357-358 35A 35C-362 370-377 37A-37E 384-38A 38C
38E-3A1 3A3-525 531-556 559-55F 561-587 589-58A 10A0-10C5 10D0-10FC 1401-1407 1409-141B 141D-1435
1437-144A 144C-1452 1454-14BD 14C0-14EA 14EC-1507 1510-153E 1540-1550 1552-156A 1574-1585 158A-1596
15A0-15AF 15DE 15E1 1646-1647 166E-1676 1681-169C 1D00-1D14 1D16-1D23 1D26-1D2E 1D30-1D5B 1D5D-1D6A
1D77-1D78 1D7B 1D7D 1D85 1D9B-1DBF 1DC4-1DC9 1E00-1EFB 1F00-1F15 1F18-1F1D 1F20-1F45 1F48-1F4D 1F50-1F57
1F59 1F5B 1F5D 1F5F-1F7D 1F80-1FB4 1FB6-1FC4 1FC6-1FD3 1FD6-1FDB 1FDD-1FEF 1FF2-1FF4 1FF6-1FFE 2010-2027
2030-205E 2070-2071 2074-208E 2090-209C 20A0-20B5 20B8-20BA 20BD 20D0-20D1 20D6-20D7 20DB-20DC 20E1
2100-2109 210B-2149 214B 214E 2150-2185 2189 2190-2311 2318-2319 231C-2321 2324-2328 232B-232C 2373-2375
237A 237D 2387 2394 239B-23AE 23CE-23CF 23E3 23E5 23E8 2422-2423 2460-2469 2500-269C 269E-26B8 26C0-26C3
26E2 2701-2704 2706-2709 270C-2727 2729-274B 274D 274F-2752 2756 2758-275E 2761-2794 2798-27AF 27B1-27BE
27C5-27C6 27E0 27E6-27EB 27F0-28FF 2906-2907 290A-290B 2940-2941 2983-2984 29CE-29D5 29EB 29FA-29FB
2A00-2A02 2A0C-2A1C 2A2F 2A6A-2A6B 2A7D-2AA0 2AAE-2ABA 2AF9-2AFA 2B00-2B1A 2B1F-2B24 2B53-2B54 2C60-2C77
2C79-2C7F 2D00-2D25 2D30-2D65 2D6F 2E18 2E1F 2E22-2E25 2E2E 4DC0-4DFF A4D0-A4FF A644-A647 A64C-A64D
A650-A651 A654-A657 A662-A66E A68A-A68D A694-A695 A708-A716 A71B-A71F A722-A72B A730-A741 A746-A74B
A74E-A753 A756-A757 A764-A767 A780-A783 A789-A78E A790-A791 A7A0-A7AA A7F8-A7FF FB00-FB06 FB13-FB17
FE00-FE0F FFFC-FFFD 1D300-1D356 1D538-1D539 1D53B-1D53E 1D540-1D544 1D546 1D54A-1D550 1D552-1D56B
1D7D8-1D7E1 1F600-1F623 1F625-1F62B 1F62D-1F640
"""


@cache
def _known() -> frozenset[str]:
    runs = ([int(end, 16) for end in run.split("-")] for run in _RUNS.split())
    return frozenset(chr(code) for run in runs for code in range(run[0], run[-1] + 1))


class Letter(NamedTuple):
    """A letter's outline (straight lines, TrueType curves) and the step to the next one, of the type size."""

    advance: float
    outline: tuple[Step, ...]


class Lent(NamedTuple):
    """The letters that a scene borrows from other typefaces; other letters have another `mark`."""

    letters: Mapping[str, Letter]
    mark: str

    def __hash__(self) -> int:
        return hash(self.mark)


NOBODY = Lent({}, "")
_lent: ContextVar[Lent] = ContextVar("lent", default=NOBODY)


@contextmanager
def lending(lent: Lent) -> Iterator[None]:
    """Text that is measured or drawn inside has these letters too."""
    token = _lent.set(lent)
    try:
        yield
    finally:
        _lent.reset(token)


def now_lent() -> Lent:
    """The letters that are lent just now."""
    return _lent.get()


def written(scene: Scene) -> str:
    """All that is written in a scene, one text: to be looked through at once."""
    return msgspec.json.encode(scene, enc_hook=float).decode()


def lacking(text: str, more: Container[str] = ()) -> list[str]:
    """The letters of a text that the typeface has not, nor `more`, each once, in their order."""
    if text.isascii():
        return []
    known = _known()
    return [c for c in dict.fromkeys(text) if not (c in known or c.isspace() or c in more)]


def from_the_right(letter: str) -> bool:
    """Whether a letter's script runs from the right."""
    return bidirectional(letter) in ("R", "AL", "AN")


# Scripts whose letters join, stack or change places (the Unicode Standard 15, chapters 12 to 17), and what
# makes another of the letter beside it: conjoining jamo, flags, shades of skin.
_SHAPED = (
    "700-74F 780-7BF 7C0-7FF 860-86F 900-DFF F00-109F 1100-11FF 1700-18AF 1900-1AFF 1B00-1C4F 1CD0-1CFF "
    "A800-A8FF A930-A97F A980-A9FF AA00-AADF AAE0-AAFF ABC0-ABFF D7B0-D7FF 10A00-10A5F 11000-11FFF "
    "1F1E6-1F1FF 1F3FB-1F3FF"
)


@cache
def _shaped_runs() -> tuple[tuple[int, int], ...]:
    ends = (run.split("-") for run in _SHAPED.split())
    return tuple((int(first, 16), int(last, 16)) for first, last in ends)


def shaped(letter: str) -> bool:
    """Whether a letter cannot stand by itself: it joins, stacks, or has no look of its own."""
    if category(letter)[0] in "MC":
        return True
    return any(first <= ord(letter) <= last for first, last in _shaped_runs())


def spelled(text: str) -> str:
    """A text as paper can show it just now: "[4E2D]" stands for a letter that it cannot set."""
    for letter in lacking(text, _lent.get().letters):
        text = text.replace(letter, code(letter))
    return text


def runs(text: str) -> list[tuple[bool, str]]:
    """A text that is `spelled`, parted where its typeface changes: whether it is lent, and the letters."""
    lent = _lent.get().letters
    if not lent or text.isascii():
        return [(False, text)]
    parted: list[tuple[bool, str]] = []
    for letter in text:
        borrowed = letter in lent
        if parted and parted[-1][0] is borrowed:
            parted[-1] = (borrowed, parted[-1][1] + letter)
        else:
            parted.append((borrowed, letter))
    return parted


def has_lent(text: str) -> bool:
    """Whether some letter of a text is lent just now."""
    return any(lent for lent, _ in runs(text))


def code(letter: str) -> str:
    """A letter by its number: "[4E2D]"."""
    return f"[{ord(letter):X}]"
