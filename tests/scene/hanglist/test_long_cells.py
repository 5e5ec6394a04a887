"""A cell of tens of thousands of characters is read, or asked about, in no more than a few times what the
list takes with that text as a remark: each rule looks at as much of a cell as it can be about."""

from __future__ import annotations

import time
from contextlib import suppress
from pathlib import Path

import pytest

from aimcalc.scene.mistakes import SceneError
from tests.scene.hanglist.listed import scene_of

LONG = 30_000  # characters; a rule that looks at every pair of them takes minutes
TIMES = 20  # a plain reading, at most
HEADINGS = ["Position", "Unit", "Distance", "Type", "Focus", "Colour", "Channel", "Dimmer", "Note"]


def _list(text: str, heading: str) -> str:
    """A list with a text in the cell of a heading, as a heading, or as a line over them."""
    cells = ["LX 1", "2", "0", "spot", "A", "L202", "12", "22", "x"]
    heads, first = list(HEADINGS), "LX 1,1,2 SL,spot,A,L201,11,21,\n"
    if heading == "line":
        return f'"{text}"\n{",".join(heads)}\n{first}'
    if heading == "heading":
        return f'{",".join(heads)},"{text}"\n{first}'
    cells[heads.index(heading)] = f'"{text}"'
    return f"{','.join(heads)}\n{first}{','.join(cells)}\n"


def _seconds(folder: Path, text: str, heading: str) -> float:
    """The shorter of two readings, seconds."""
    taken = []
    for _ in range(2):
        begun = time.perf_counter()
        with suppress(SceneError):
            scene_of(folder, _list(text, heading))
        taken.append(time.perf_counter() - begun)
    return min(taken)


@pytest.mark.timing
@pytest.mark.parametrize("heading", [*HEADINGS[:-1], "heading", "line"])
@pytest.mark.parametrize("fill", ["(", "( ", "a", " ", "L ", "1 ", "a/", "'", "left right "])
def test_a_long_cell_takes_little_more_than_a_long_remark(
    fill: str, heading: str, tmp_path: Path
) -> None:
    text = (fill * LONG)[:LONG]
    floor = _seconds(tmp_path, text, "Note")
    assert _seconds(tmp_path, text, heading) < TIMES * floor
