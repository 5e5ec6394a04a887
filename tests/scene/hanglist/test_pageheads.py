"""Rows between the units that name a position in two cells, and the head of the page that comes again."""

from __future__ import annotations

from pathlib import Path

from tests.scene.hanglist.listed import asked_of, told_of, units_of

TWICE_NAMED = """LX1,house LX 1,,
#,at,unit,focus
1,2 m SR,spot,Door
2,1 m SL,wide,Table
LX2,house LX 2,,
#,at,unit,focus
1,3 m SR,spot,A
2,1 m SL,wide,Door
"""


def test_a_position_may_be_named_twice_over_its_units(tmp_path: Path) -> None:
    assert [unit[0] for unit in units_of(tmp_path, TWICE_NAMED)] == ["LX 1", "LX 1", "LX 2", "LX 2"]


def test_units_under_a_row_that_names_a_position_and_is_not_read_do_not_hang_on_the_one_above(
    tmp_path: Path,
) -> None:
    assert asked_of(tmp_path, TWICE_NAMED.replace("house LX 2", "or LX 1"))


PAGES = """SCHEDULE,The Ferry,Millpond,
LX 1,,,
#,at,unit,focus
1,2 m SR,spot,Door
SCHEDULE,The Ferry,Millpond,
LX 2,,,
#,at,unit,focus
1,3 m SR,spot,A
"""


def test_the_head_of_a_page_is_passed_over_when_it_comes_again(tmp_path: Path) -> None:
    assert units_of(tmp_path, PAGES) == [
        ("LX 1", "1", "spot", "Door"),
        ("LX 2", "1", "spot", "A"),
    ]


SPARE = """LX 2,,,
#,at,unit,focus
1,3 m SR,spot,A
2,SPARE,,
3,2 m SL,wide,Door
"""


def test_the_number_of_a_spare_unit_is_no_name_of_a_position(tmp_path: Path) -> None:
    assert [unit[:2] for unit in units_of(tmp_path, SPARE)] == [("LX 2", "1"), ("LX 2", "3")]


SHORT_HEAD = """DE KRING op reis  -  lichtlijst,,,
m from CL,,,blad 1
Bar #,at,unit,focus
LX 1/1,2 m SR,spot,Door
,,,
DE KRING op reis,,,blad 2
Bar #,at,unit,focus
LX 2/1,3 m SR,spot,A
"""


def test_the_head_of_a_further_page_may_be_shorter_than_the_first(tmp_path: Path) -> None:
    assert [unit[0] for unit in units_of(tmp_path, SHORT_HEAD)] == ["LX 1", "LX 2"]
    assert "blad 2" in told_of(tmp_path / "told", SHORT_HEAD)
