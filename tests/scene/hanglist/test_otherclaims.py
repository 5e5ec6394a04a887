"""Columns whose cells do not fit what their headings mostly mean are read by their cells."""

from __future__ import annotations

from pathlib import Path

from aimcalc.scene.hanglist.columns.otherclaims import Tried, Way, clearly_best
from tests.scene.hanglist.listed import MORE, asked_of, places_of, told_of, units_of
from tests.scene.written import refused, write_scene

BLOCKS = """LX 1
no,pos,what,where,ch
1,-3.9,spot,Door,1
2,+1.1,wide,Table,2

LX 2
no,pos,what,where,ch
1,-2,spot,A,3
2,2.5,spot,Door,4
"""


def test_blocks_under_the_names_of_pipes_have_places_under_pos_and_targets_under_where(
    tmp_path: Path,
) -> None:
    assert units_of(tmp_path, BLOCKS) == [
        ("LX 1", "1", "spot", "Door"),
        ("LX 1", "2", "wide", "Table"),
        ("LX 2", "1", "spot", "A"),
        ("LX 2", "2", "spot", "Door"),
    ]
    assert places_of(tmp_path / "again", BLOCKS) == [-3.9, 1.1, -2, 2.5]


def test_it_is_told_which_columns_are_read_by_their_cells(tmp_path: Path) -> None:
    told = told_of(tmp_path, BLOCKS)
    assert 'column B ("pos") is read as the place: it holds -3.9' in told
    assert 'column D ("where") is read as the target: it holds Door' in told


def test_the_pipes_may_stand_under_hang_and_the_places_under_where(tmp_path: Path) -> None:
    rows = (
        "hang,no,where,item,focus\nLX 1,1,3 m SR,spot,A\nLX 1,2,2 m SL,wide,Door\nLX 2,1,0,spot,A\n"
    )
    assert units_of(tmp_path, rows)[1] == ("LX 1", "2", "wide", "Door")
    assert places_of(tmp_path / "again", rows) == [-3, 2, 0]


def test_a_direction_is_a_target_where_its_cells_are(tmp_path: Path) -> None:
    rows = "bar,no,distance,type,direction\nLX 1,1,2 m SR,spot,A\nLX 1,2,2 m SL,spot,Door\n"
    assert units_of(tmp_path, rows) == [
        ("LX 1", "1", "spot", "A"),
        ("LX 1", "2", "spot", "Door"),
    ]


def test_places_are_read_under_pos_where_another_column_names_the_pipes(tmp_path: Path) -> None:
    rows = "Grid,Lamp,Pos,Fitting,On\nLX 1,1,2.8,spot,Door\nLX 1,2,-0.6,wide,Table\nLX 2,1,3.2,spot,A\n"
    assert places_of(tmp_path, rows) == [2.8, -0.6, 3.2]


def test_a_list_whose_names_are_wrong_alone_is_not_read_by_other_columns(tmp_path: Path) -> None:
    rows = "position,number,at,kind,target\nBridge,1,2 m SR,spot,A\nBridge,2,2 m SL,spot,A\n"
    said = asked_of(tmp_path, rows)
    assert "the name of a pipe, boom or stand" in said
    assert '"Bridge"' in said


def test_numbers_under_another_heading_are_not_taken_for_places(tmp_path: Path) -> None:
    rows = "position,number,page,kind,target\nLX 9,1,2.5,spot,A\nLX 9,2,3,spot,A\n"
    assert "the name of a pipe, boom or stand" in asked_of(tmp_path, rows)


def _tried(mistakes: int, units: str, key: str) -> Tried:
    return Tried(mistakes, units, Way({(3, "what"): key}, sure=True))


def test_two_readings_that_are_as_good_and_differ_are_asked_about() -> None:
    best, wrong = clearly_best([_tried(0, "one", "kind"), _tried(0, "other", "target")], 9)
    assert best is None
    assert wrong is not None
    assert "kind" in wrong.do


def test_two_ways_to_one_reading_are_no_question() -> None:
    best, wrong = clearly_best([_tried(0, "one", "kind"), _tried(0, "one", "target")], 9)
    assert best is not None
    assert wrong is None


def test_a_reading_with_as_many_mistakes_does_not_stand() -> None:
    assert clearly_best([_tried(9, "other", "kind")], 9) == (None, None)


def test_columns_that_the_scene_settles_stay(tmp_path: Path) -> None:
    settled = '\n[hang_columns]\nposition = "pos"\n'
    path = write_scene(tmp_path, MORE, settled, settings='hang = "hang.csv"')
    (tmp_path / "hang.csv").write_text(BLOCKS, encoding="utf-8")
    assert any("the name of a pipe" in mistake.expected for mistake in refused(path))
