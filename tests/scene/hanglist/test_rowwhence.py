"""Remarks in a row that say from where its place counts: applied to that row, or asked about.

Readings by hand: LX 1 runs from 5 m SR to 5 m SL, so that 2 m from its SR end are 3 m SR. The side pipe runs
from the plaster line 6 m up the stage, its zero in the middle: 1 m from its DS end are 2 m DS of that. The
boom is 4 m high.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from aimcalc.scene.mistakes import SceneError
from tests.scene.hanglist.places import HEADINGS, places, read, told

HEADED = [*HEADINGS, "Remarks"]


def _rows(position: str, place: str, said: str, first: str = "1 m SL") -> list[list[Any]]:
    return [
        HEADED,
        [position, 1, first, "spot", "A", ""],
        [position, 2, place, "spot", "A", said],
    ]


@pytest.mark.parametrize(
    ("said", "at"),
    [
        ("tape from SR end", -3.0),
        ("taped from stage right end", -3.0),
        ("measured from the SL end of the pipe", 3.0),
        ("from SR end", -3.0),
        ("NEW GEL; in from SL end", 3.0),
        ("iris. Meas. from SL end", 3.0),
        ("zero at SR end", -3.0),
        ("datum: SR end", -3.0),
        ("new gel (tape hooked on SR end)", -3.0),
        ("borrowed from the Royal", 2.0),
        ("cable from SR end", 2.0),
        ("from hire", 2.0),
        ("cut from top", 2.0),
        ("from the top", 2.0),  # of the show
        ("lens other way round", 2.0),
        ("off at interval", 2.0),
        ("from SL", 2.0),  # its cable may be
        ("measured from centre", 2.0),
        ("from CL", 2.0),
    ],
)
def test_across_the_stage(tmp_path: Path, said: str, at: float) -> None:
    scene = read(tmp_path, _rows("LX 1", "2 m", said))
    assert places(scene) == [1.0, at]
    heard = at != 2.0 or said in ("measured from centre", "from CL")
    assert told(scene, "2 m (", "Places read") == heard


@pytest.mark.parametrize(
    ("place", "said"),
    [
        ("2 m", "other way round"),
        ("2 m", "measured the other way"),
        ("2 m", "measured from the other end"),
        ("2 m", "from far end"),
        ("2 m", "tape from the wall"),
        ("2 m", "measured from unit 1"),
        ("2 m SL", "tape from SR end"),
        ("2 m", "measured from US end"),
        ("2 m", "measured from top"),
        ("2 m", "dimension is from end of bar"),
    ],
)
def test_what_is_not_clear_is_asked(tmp_path: Path, place: str, said: str) -> None:
    with pytest.raises(SceneError, match="where it counts from: its row says"):
        read(tmp_path, _rows("LX 1", place, said))


@pytest.mark.parametrize(
    ("place", "said", "at"),
    [
        ("1 m", "measured from DS", -2.0),
        ("1 m", "tape from US end", 2.0),
        ("1 m US", "from DS end", -2.0),
        ("1 m DS", "measured from US end of pipe", 2.0),
        ("1 m DS", "from middle of the pipe", -1.0),
    ],
)
def test_up_and_down_the_stage(tmp_path: Path, place: str, said: str, at: float) -> None:
    rows = _rows("side", place, said, "0.5 m from US end")
    assert places(read(tmp_path, rows), "side") == [2.5, at]


def test_a_way_that_leads_off_the_pipe_is_asked(tmp_path: Path) -> None:
    with pytest.raises(SceneError, match="where it counts from: its row says"):
        read(tmp_path, _rows("side", "1 m DS", "from DS end", "0.5 m from US end"))


@pytest.mark.parametrize(
    ("said", "at"), [("from top", 2.5), ("measured down from top", 2.5), ("from deck", 1.5)]
)
def test_on_a_boom(tmp_path: Path, said: str, at: float) -> None:
    assert places(read(tmp_path, _rows("boom SR", "1.5 m", said, "1 m")), "boom SR") == [1.0, at]


def test_the_top_of_a_boom_or_of_the_show_is_asked(tmp_path: Path) -> None:
    with pytest.raises(SceneError, match="where it counts from: its row says"):
        read(tmp_path, _rows("boom SR", "1.5 m", "from the top", "1 m"))


def test_the_other_end_is_that_across_from_the_heading(tmp_path: Path) -> None:
    head = ["Bar", "Unit", "From SL end", "Type", "Focus", "Notes"]
    rows = [["LX 1", 1, "1 m", "spot", "A", ""], ["LX 1", 2, "1 m", "spot", "A", "from other end"]]
    assert places(read(tmp_path, [head, *rows])) == [4.0, -4.0]


def test_a_column_that_says_from_where(tmp_path: Path) -> None:
    head = ["Bar", "Unit", "Distance", "Type", "Focus", "Datum"]
    rows = [
        ["LX 1", 1, "1 m", "spot", "A", "SL end"],
        ["LX 1", 2, "1 m", "spot", "A", "SR end"],
    ]
    assert places(read(tmp_path, [head, *rows])) == [4.0, -4.0]


@pytest.mark.parametrize(
    "heading", ["From", "Measured from", "Datum", "Ref", "Reference", "Taken from", "From where"]
)
@pytest.mark.parametrize(
    ("said", "at"),
    [
        ("centre to SL", 2.0),
        ("centre, SR", -2.0),
        ("CL → SR", -2.0),
        ("centre going SL", 2.0),
        ("CL/SR", -2.0),
        ("SR of centre", -2.0),
        ("centre line, stage left", 2.0),
        ("CL (SL)", 2.0),
        ("house left of centre", -2.0),
        ("centre, towards SR", -2.0),
    ],
)
def test_the_centre_line_and_the_side(tmp_path: Path, heading: str, said: str, at: float) -> None:
    rows = [[*HEADINGS, heading], ["LX 1", 1, "2 m", "spot", "A", said]]
    assert places(read(tmp_path, rows)) == [at]


@pytest.mark.parametrize("heading", ["Side", "Direction"])
@pytest.mark.parametrize("said", ["CL to SR", "CL SR", "C/L > SR", "centre towards SR", "SR of CL"])
def test_the_centre_line_in_a_column_of_sides(tmp_path: Path, heading: str, said: str) -> None:
    rows = [[*HEADINGS, heading], ["LX 1", 1, "2 m", "spot", "A", said]]
    assert places(read(tmp_path, rows)) == [-2.0]


@pytest.mark.parametrize("said", ["A12", "page 3", "US"])
def test_a_reference_that_says_no_side_is_a_remark(tmp_path: Path, said: str) -> None:
    rows = [[*HEADINGS, "Ref"], ["LX 1", 1, "2 m SR", "spot", "A", said]]
    assert places(read(tmp_path, rows)) == [-2.0]


@pytest.mark.parametrize(
    ("place", "said"),
    [("2 m SR", "centre to SL"), ("2 m", "centre left"), ("2 m", "centre to US"), ("-2", "CL, SR")],
)
def test_a_side_that_does_not_fit_is_asked(tmp_path: Path, place: str, said: str) -> None:
    rows = [[*HEADINGS, "From"], ["LX 1", 1, place, "spot", "A", said]]
    with pytest.raises(SceneError):
        read(tmp_path, rows)
