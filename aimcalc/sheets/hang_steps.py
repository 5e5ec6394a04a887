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
    Step("upright", "upright: clip above, tail below"),
    Step("point", "point it"),
    Step("lock", "lock pan and tilt"),
    Step("cable", "lay the cable"),
    Step("tie", "tie it, loop hanging free"),
    Step("test", "test it"),
)


def steps(sort: str, opens: str | None) -> tuple[Step, ...]:
    """Steps for the units of a pipe, a boom or a stand; `opens` is the side its clamps open to, if told."""
    if sort == "stand":
        return (*_STANDING, *_POINTING)
    told = opens or "one way along the row"
    hanging = [Step(step.word, step.words.format(opens=told, tube=sort)) for step in _HANGING]
    if sort == "boom":
        hanging[0] = Step("clamp", "clamp round the boom, at its mark")
    return (*hanging, *_POINTING)


def sentence(every: tuple[Step, ...]) -> str:
    """All steps in one sentence, numbered."""
    return ". ".join(f"{k} {step.words}" for k, step in enumerate(every, 1)) + "."
