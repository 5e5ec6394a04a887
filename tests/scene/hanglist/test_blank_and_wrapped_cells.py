"""Cells of kinds and targets that are blank for the one above, and cells that go on in the next row."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_of, told_of, units_of

HEAD = "pipe,unit,at,kind,target\n"


def _kinds(tmp_path: Path, text: str, name: str = "hang.csv") -> list[str]:
    return [unit[2] for unit in units_of(tmp_path, text, name)]


def test_blank_kinds_stand_for_the_one_above(tmp_path: Path) -> None:
    text = (
        f"{HEAD}LX 1,1,-2,spot,A\nLX 1,2,-1,,A\nLX 1,3,1,wide,A\nLX 1,4,2,,Door\n"
        "LX 2,1,0,spot,A\nLX 2,2,1,,A\n"
    )
    assert _kinds(tmp_path, text) == ["spot", "spot", "wide", "wide", "spot", "spot"]
    assert "in rows 3, 5, 7 the kind is blank: read as that of the row above" in told_of(
        tmp_path, text
    )


def test_blank_kinds_and_positions_together(tmp_path: Path) -> None:
    text = f"{HEAD}LX 1,1,-2,spot,A\n,2,-1,,A\n,3,1,,A\nLX 2,1,2,wide,Door\n,2,0,,A\n"
    assert _kinds(tmp_path, text) == ["spot", "spot", "spot", "wide", "wide"]


def test_blank_kinds_under_positions_in_rows_of_their_own(tmp_path: Path) -> None:
    text = "unit,at,kind,target\nLX 1,,,\n1,-2,spot,A\n2,-1,,A\nLX 2,,,\n1,2,wide,Door\n2,0,,A\n"
    assert _kinds(tmp_path, text) == ["spot", "spot", "wide", "wide"]


@pytest.mark.parametrize(
    "rows",
    [
        # One alone was forgotten.
        "LX 1,1,-2,spot,A\nLX 1,2,-1,,A\nLX 1,3,1,wide,A\n",
        # A kind that is the same again is written.
        "LX 1,1,-2,spot,A\nLX 1,2,-1,spot,A\nLX 1,3,1,,A\nLX 1,4,2,wide,A\nLX 1,5,3,,A\n",
        # There are ditto marks for it.
        'LX 1,1,-2,spot,A\nLX 1,2,-1,"""",A\nLX 1,3,1,,A\nLX 1,4,2,wide,A\nLX 1,5,3,,A\n',
        # One kind alone is written.
        "LX 1,1,-2,spot,A\nLX 1,2,-1,,A\nLX 1,3,1,,A\n",
        # The first of another position.
        "LX 1,1,-2,spot,A\nLX 1,2,-1,,A\nLX 1,3,1,,A\nLX 2,1,2,,A\n",
        # There is none above the first.
        "LX 1,1,-2,,A\nLX 1,2,-1,spot,A\nLX 1,3,1,,A\nLX 1,4,2,,A\n",
        # Few of many.
        "LX 1,1,-2,spot,A\nLX 1,2,-1,wide,A\nLX 1,3,1,spot,A\nLX 1,4,2,wide,A\nLX 1,5,3,spot,A\n"
        "LX 1,6,3.5,,A\nLX 1,7,4,wide,A\nLX 1,8,4.5,,A\n",
    ],
)
def test_blank_kinds_that_may_be_forgotten_are_asked_about(tmp_path: Path, rows: str) -> None:
    assert "kind" in asked_of(tmp_path, HEAD + rows)


def test_blank_targets_stand_for_the_one_above(tmp_path: Path) -> None:
    text = (
        f"{HEAD}LX 1,1,-2,spot,A\nLX 1,2,-1,spot,\nLX 1,3,1,wide,\n"
        "LX 2,1,0,spot,Door\nLX 2,2,1,spot,\nLX 2,3,2,spot,\n"
    )
    assert [unit[3] for unit in units_of(tmp_path, text)] == ["A"] * 3 + ["Door"] * 3
    assert "the target is blank" in told_of(tmp_path, text)


def test_targets_that_may_be_open_yet_are_asked_about(tmp_path: Path) -> None:
    text = f"{HEAD}LX 1,1,-2,spot,A\nLX 1,2,-1,spot,\nLX 1,3,1,wide,Door\nLX 1,4,2,spot,\n"
    assert "target" in asked_of(tmp_path, text)


TYPED = """\
LX 1
 No.  Place     Lantern    Focus     Dimmer
 1    1.5 SL    spot       Table     1
                degree
 2    1.0 SL    spot       the       2
                degree     door
 3    1.0 SR    wide       Table     3
"""


def test_cells_go_on_in_the_next_line(tmp_path: Path) -> None:
    units = units_of(tmp_path, TYPED, "hang.txt")
    assert [unit[2:] for unit in units] == [("spot", "Table"), ("spot", "Door"), ("wide", "Table")]
    assert '"spot degree"' in told_of(tmp_path, TYPED, "hang.txt")


def test_cells_go_on_in_the_next_row_of_a_table(tmp_path: Path) -> None:
    text = (
        f"{HEAD}LX 1,1,-2,spot,Table\n,,,degree,\nLX 1,2,-1,wide,Table\n,,,degrees,\n"
        "LX 2,1,0,wide,A\n"
    )
    units = units_of(tmp_path, text)
    assert [unit[2] for unit in units] == ["spot", "wide", "wide"]
    assert [unit[0] for unit in units] == ["LX 1", "LX 1", "LX 2"]


def test_a_row_that_names_another_kind_does_not_go_on(tmp_path: Path) -> None:
    text = f"{HEAD}LX 1,1,-2,spot,Table\n,,,wide,\nLX 1,2,-1,wide,Table\n"
    said = asked_of(tmp_path, text) + ("" if asked_of(tmp_path, text) else told_of(tmp_path, text))
    assert "go on" not in said


BY_PURPOSE = (
    "A,LX 1,2,-2,spot\n,LX 2,1,-1,spot\nDoor,LX 1,1,3,wide\n,LX 1,3,-3,wide\n,LX 1,4,1,wide\n"
    "Table,LX 2,2,0,spot\n,LX 2,3,2,spot\n"
)


@pytest.mark.parametrize("heading", ["Purpose", "Éclaire", "Fokus", "Lights what"])
def test_a_list_by_purpose_says_each_target_once(tmp_path: Path, heading: str) -> None:
    text = f"{heading},Pipe,Unit,At,Kind\n{BY_PURPOSE}"
    aims = ["A", "A", "Door", "Door", "Door", "Table", "Table"]
    assert [unit[3] for unit in units_of(tmp_path, text)] == aims
    told = told_of(tmp_path, text)
    assert told.count("in rows 3, 5, 6, 8 the target is blank: read as that of the row above") == 1


def test_a_list_by_kind_says_each_kind_once(tmp_path: Path) -> None:
    text = (
        "Kind,Pipe,Unit,At,Focus\nspot,LX 1,2,-2,A\n,LX 2,1,-1,Door\nwide,LX 1,1,3,A\n,LX 2,3,1,A\n"
    )
    assert _kinds(tmp_path, text) == ["spot", "spot", "wide", "wide"]


@pytest.mark.parametrize(
    "text",
    [
        # One blank cell was forgotten.
        "Purpose,Pipe,Unit,At,Kind\nA,LX 1,2,-2,spot\n,LX 2,1,-1,spot\nDoor,LX 1,1,3,wide\n",
        # A target that comes again is written again.
        f"Purpose,Pipe,Unit,At,Kind\n{BY_PURPOSE}A,LX 1,5,4,spot\n",
        # Another column.
        "Pipe,Unit,Purpose,At,Kind\nLX 1,1,A,-2,spot\nLX 2,1,,-1,spot\nLX 1,2,Door,3,wide\nLX 2,2,,1,wide\n",
        # The first row has none.
        f"Purpose,Pipe,Unit,At,Kind\n,LX 1,5,4,spot\n{BY_PURPOSE}",
        # Few of many, of which each may be forgotten.
        "Purpose,Pipe,Unit,At,Kind\nA,LX 1,1,-4,spot\n,LX 1,2,-3,spot\nDoor,LX 1,3,-2,spot\n"
        ",LX 1,4,-1,spot\nTable,LX 1,5,0,spot\nA,LX 1,6,1,spot\nDoor,LX 1,7,2,spot\n",
    ],
)
def test_blank_targets_of_no_list_by_purpose_are_asked_about(tmp_path: Path, text: str) -> None:
    assert "target" in asked_of(tmp_path, text)
