"""Text whose columns are lined up with spaces, and marks for "the same" between marks of columns."""

from __future__ import annotations

from pathlib import Path

from aimcalc.scene.hanglist.table.linedup import lined_up
from aimcalc.scene.hanglist.table.textmarks import with_dittos
from tests.scene.hanglist.listed import places_of, scene_of, units_of

RULED = """INSTRUMENT SCHEDULE                             Page 1 of 2

LX 1
Unit Dist to CL    Inst Type Purpose   Color
---- ------------- --------- --------- -----
1    3.50 SR       spot      Door      L201
2    0             wide      Table     N/C
10   2.25 SL       wide      A
"""


def test_dashes_under_the_headings_say_where_the_columns_begin(tmp_path: Path) -> None:
    assert units_of(tmp_path, RULED, "hang.txt") == [
        ("LX 1", "1", "spot", "Door"),
        ("LX 1", "2", "wide", "Table"),
        ("LX 1", "10", "wide", "A"),
    ]
    assert places_of(tmp_path, RULED, "hang.txt") == [-3.5, 0, 2.25]


def test_a_word_across_the_dashes_is_not_cut() -> None:
    text = "Unit  At    Type  Focus\n----  ----  ----  -----\n1     2 m SR spotlights Door\n"
    rows = lined_up(text)
    assert rows is not None
    assert "spotlights" in " ".join(rows[-1])
    assert not any(cell.startswith("lights") for cell in rows[-1])


NUMBERS_BEFORE = """            where      what    to
LX 1
   1        3 m SR     spot    Door
   2        centre     wide    Table
LX 2
   1        2 m SL     spot    A
   2        1 m SR     spot    Door
"""


def test_a_column_before_the_first_heading_is_one_of_its_own(tmp_path: Path) -> None:
    assert units_of(tmp_path, NUMBERS_BEFORE, "hang.txt") == [
        ("LX 1", "1", "spot", "Door"),
        ("LX 1", "2", "wide", "Table"),
        ("LX 2", "1", "spot", "A"),
        ("LX 2", "2", "spot", "Door"),
    ]


def test_a_cell_that_fills_its_column_is_parted_from_the_next_where_that_begins() -> None:
    text = "no   unit   focus      gel   ch\n1    spot   Door       201   4\n2    spot   solo chair 106   5\n"
    rows = lined_up(text)
    assert rows is not None
    assert rows[1:] == [["1", "spot", "Door", "201", "4"], ["2", "spot", "solo chair", "106", "5"]]


def test_a_cell_of_several_words_is_whole_where_the_row_is_full_without_it() -> None:
    text = "no   unit   focus   gel   ch\n1    spot   Door, and A   201   4\n"
    rows = lined_up(text)
    assert rows is not None
    assert rows[1] == ["1", "spot", "Door, and A", "201", "4"]


def test_headings_that_come_again_elsewhere_say_anew_where_the_columns_are() -> None:
    text = (
        "no  at      unit    focus   gel\n1   2 SR    spot    Door    201\n\n"
        "no       at           unit        focus     gel\n1        2 SR         spot                  201\n"
    )
    rows = lined_up(text)
    assert rows is not None
    assert rows[-1] == ["1", "2 SR", "spot", "", "201"]


DITTO = 'POS\t#\tat\tUNIT\tFOCUS\nLX 1\t1\t3 m SR\tspot\tDoor\n"\t2\t2 m SR\t"\tTable\n"\t3\t1 m SL\t"\t"\n'


def test_a_quote_alone_in_a_cell_says_the_same(tmp_path: Path) -> None:
    assert units_of(tmp_path, DITTO, "hang.tsv") == [
        ("LX 1", "1", "spot", "Door"),
        ("LX 1", "2", "spot", "Table"),
        ("LX 1", "3", "spot", "Table"),
    ]


def test_a_text_whose_cells_are_in_quotes_is_left_as_it_is() -> None:
    text = 'a,b\n"one\n","two"\n'
    assert with_dittos(text, ",") == text
    assert with_dittos("a,b\n9'-6\",x\n", ",") == "a,b\n9'-6\",x\n"


BEHIND = """Pos   #  At      Unit  Focus  Ckt
LX 1  1  3 m SR  spot  Door   1-3
LX 1  2  0       wide  Table  1-10   CENTER SPECIAL
LX 1  3  3 m SL  spot  A      1-7
"""


def test_words_behind_what_the_last_column_holds_are_remarks(tmp_path: Path) -> None:
    circuits = [unit.circuit for unit in scene_of(tmp_path, BEHIND, "hang.txt").units]
    assert circuits == ["1-3", "1-10", "1-7"]


def test_words_within_the_last_column_belong_to_it() -> None:
    rows = lined_up(
        "Pos   #  At      Unit  Focus\nLX 1  1  3 m SR  spot  solo chair, red\n"
        "LX 1  2  0       wide  solo  chair\n"
    )
    assert rows is not None
    assert rows[-1][-1] == "solo chair"


ONE_SPACE = """POSITION  UNIT  PLACE   KIND  FOCUS CIRCUIT CHAN
LX 1      1     2 m SL  spot  Door  7       11
          2     1 m SR  wide  A     8       12
LX 2      1     3 m SR  spot  Table 9       13
LX 2      2     1 m SR  spot  A     10      14
"""


def test_headings_with_one_space_between_them_are_parted_where_the_columns_are(
    tmp_path: Path,
) -> None:
    units = scene_of(tmp_path, ONE_SPACE, "hang.txt").units
    assert [(u.target, u.circuit, u.channel) for u in units] == [
        ("Door", "7", "11"),
        ("A", "8", "12"),
        ("Table", "9", "13"),
        ("A", "10", "14"),
    ]


def test_headings_over_one_cell_are_not_parted() -> None:
    both = (
        ONE_SPACE.replace("7       11", "7").replace("8       12", "8").replace("10      14", "10")
    )
    rows = lined_up(both)
    assert rows is not None
    assert rows[0][-2:] == ["FOCUS", "CIRCUIT CHAN"]
