"""What an eye would misread on a drawing, found from its lists of lines, shapes and words alone."""

from __future__ import annotations

import itertools

import numpy as np

from aimcalc.paper.drawing import CAPITAL, PT, Drawing

BEFORE = 1.3  # mm before a figure in which the end of a level line reads as its minus sign
WHITE = 0.35  # mm of white round every label, under which nothing is seen
SLOPE = 0.7  # the steepest that still does


def dashes_before_figures(drawing: Drawing) -> list[str]:
    """The level texts that begin with a figure and have a level line running up to them."""
    pieces = np.concatenate(
        [np.stack([line.points[:-1], line.points[1:]], axis=1) for line in drawing.lines]
    )
    turned = pieces[:, 0, 0] > pieces[:, 1, 0]
    pieces[turned] = pieces[turned, ::-1]
    start, end = pieces[:, 0], pieces[:, 1]
    step = end - start
    level = (np.abs(step[:, 1]) <= SLOPE * step[:, 0]) & (step[:, 0] > 0)
    start, end, step = start[level], end[level], step[level]
    found = []
    for word in drawing.words:
        if word.turn or not word.text[:1].isdigit():
            continue
        x, y = word.start
        high = CAPITAL * word.size * PT
        near = np.maximum(start[:, 0], x - BEFORE)
        far = np.minimum(end[:, 0], x - WHITE)
        middle = start[:, 1] + step[:, 1] * ((near + far) / 2 - start[:, 0]) / step[:, 0]
        if ((near < far) & (middle > y) & (middle < y + high)).any():
            found.append(word.text)
    return found


def erased(drawing: Drawing, line: np.ndarray) -> bool:
    """Whether some white box without an outline lies on a line (n, 2) on paper."""
    share = np.linspace(0.0, 1.0, 200)[:, None]
    points = np.concatenate([a + share * (b - a) for a, b in itertools.pairwise(line)])
    for shape in drawing.shapes:
        if shape.weight or shape.fill != "white" or len(shape.points) != 4:
            continue
        low, high = shape.points.min(axis=0), shape.points.max(axis=0)
        if ((points > low) & (points < high)).all(axis=1).any():
            return True
    return False
