"""The steps at a unit, in the order of the trade: what is done, and the word over its tick box."""

from __future__ import annotations

from typing import NamedTuple


class Step(NamedTuple):
    """One step: the word over its tick box, and what is done."""

    word: str
    words: str


_HANGING = (
    Step("clamp", "clamp over the pipe, on its mark"),
    Step("opening", "clamp opening {opens}"),
    Step("snug", "snug by hand"),
    Step("wrench", "wrench tight, then try it"),
    Step("safety", "safety cable round the {tube} and through the yoke"),
)
_STANDING = (
    Step("stand", "stand on its mark, legs out and weighted"),
    Step("spigot", "spigot home and locked, then try it"),
)
_POINTING = (
    Step("tail", "tail free"),
    Step("shutters", "shutters out"),
    Step("clip", "{clip}"),
    Step("point", "{point}"),
    Step("lock", "lock pan and tilt"),
    Step("cable", "lay the cable"),
    Step("tie", "tie it, loop hanging free"),
    Step("test", "test it"),
)


_UPRIGHT = "upright: clip above, tail below"
_LYING = "it lies on its side: clip to the side its row names, tail to the other"
_POINT = "point it"
_POINT_DIRECT = "point it (DIRECT: the clamp tips the nose, the yoke turns it)"


class Bodies(NamedTuple):
    """How the bodies of a row lie: whether any is upright, any on its side, any clamped DIRECT."""

    upright: bool = True
    lying: bool = False
    direct: bool = False


def steps(sort: str, opens: str | None, bodies: Bodies | None = None) -> tuple[Step, ...]:
    """Steps for the units of a pipe, a boom or a stand; `opens` is the side its clamps open to, if told."""
    pointing = _pointing(bodies or Bodies())
    if sort == "stand":
        return (*_STANDING, *pointing)
    told = opens or "one way along the row"
    hanging = [Step(step.word, step.words.format(opens=told, tube=sort)) for step in _HANGING]
    if sort == "boom":
        hanging[0] = Step("clamp", "clamp round the boom, at its mark")
    return (*hanging, *pointing)


def _pointing(bodies: Bodies) -> list[Step]:
    """The steps from tail to test, for bodies that lie as they do."""
    clip, point = _UPRIGHT, _POINT
    if bodies.lying:
        clip = f"{_UPRIGHT}; where the row says CLIP, {_LYING}" if bodies.upright else _LYING
    if bodies.direct:
        point = _POINT_DIRECT
    return [Step(step.word, step.words.format(clip=clip, point=point)) for step in _POINTING]


def sentence(every: tuple[Step, ...]) -> str:
    """All steps in one sentence, numbered."""
    return ". ".join(f"{k} {step.words}" for k, step in enumerate(every, 1)) + "."
