"""Dimensions beside a drawing: places along two sides of its frame, each with its words, pushed apart."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.sheets.drawing import CAPITAL, PT, Drawing, Line, Words, shrink_to_fit
from aimcalc.sheets.planpage import View

TEXT = 10.0  # pt
STEP = 4.4  # mm from one line of words to the next
ELBOW = 5.0  # mm from the frame to the words


class Place(NamedTuple):
    """A place along a side of the frame, metres, and what it is."""

    at: float
    text: str


def heights(page: Drawing, view: View, places: Sequence[Place], width: float) -> None:
    """Heights along the right side of the frame, their words in a band `width` mm wide beside it."""
    _, bottom, right, top = view.frame
    shown = [p for p in sorted(places) if bottom <= view.at(0.0, p.at)[1] <= top]
    marks = [view.at(0.0, place.at)[1] for place in shown]
    for place, mark, y in zip(shown, marks, spread(marks, STEP, bottom, top), strict=True):
        page.lines.append(
            Line(np.array([(right, mark), (right + 1.5, mark), (right + ELBOW - 1, y)]))
        )
        size = shrink_to_fit(place.text, TEXT, width - ELBOW)
        page.words.append(Words(right + ELBOW, y - CAPITAL * size * PT / 2, place.text, size))


def distances(page: Drawing, view: View, places: Sequence[Place], top: float, depth: float) -> None:
    """Distances along the foot of the frame, from `top` mm down, their words on end in `depth` mm."""
    left, _, right, _ = view.frame
    shown = [p for p in sorted(places) if left <= view.at(p.at, 0.0)[0] <= right]
    marks = [view.at(place.at, 0.0)[0] for place in shown]
    for place, mark, x in zip(shown, marks, spread(marks, STEP, left, right), strict=True):
        page.lines.append(Line(np.array([(mark, top), (mark, top - 1.5), (x, top - ELBOW + 1)])))
        size = shrink_to_fit(place.text, TEXT, depth - ELBOW)
        across = x + CAPITAL * size * PT / 2
        page.words.append(Words(across, top - ELBOW, place.text, size, align="right", turn=90.0))


def spread(marks: Sequence[float], step: float, low: float, high: float) -> Array:
    """Rising places nearest to rising `marks` that are at least `step` apart, between low and high.

    Clusters that would overlap are set side by side about their middle. More marks than there is room
    for are set closer.
    """
    if not marks:
        return np.zeros(0)
    step = min(step, (high - low) / max(1, len(marks) - 1))
    shifted = [mark - k * step for k, mark in enumerate(marks)]  # then order is all that must hold
    blocks: list[list[float]] = []
    for mark in shifted:
        blocks.append([mark])
        while len(blocks) > 1 and _mean(blocks[-2]) > _mean(blocks[-1]):
            last = blocks.pop()
            blocks[-1] += last
    even = np.array([_mean(block) for block in blocks for _ in block])
    first = np.clip(even, low, high - (len(marks) - 1) * step)
    return np.asarray(first + step * np.arange(len(marks)))


def _mean(values: list[float]) -> float:
    return sum(values) / len(values)
