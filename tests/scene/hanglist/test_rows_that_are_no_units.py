"""Rows of a list that are no units: counts in words, and those with a line through them."""

from __future__ import annotations

from pathlib import Path

import pytest
from xlsxwriter import Workbook

from aimcalc.scene.hanglist.rows.listrow import is_total
from aimcalc.scene.hanglist.rows.rowcuts import lined_are_cut
from aimcalc.scene.hanglist.rows.rowkinds import lined_out
from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from tests.scene.hanglist.places import HEADINGS, places, read, told, units
from tests.scene.written import write_scene


@pytest.mark.parametrize(
    "row", [["", 2, "lanterns in total"], ["", "", "Lanterns:", 2], ["Units: ", 2]]
)
def test_a_count_in_words_is_no_unit(tmp_path: Path, row: list[object]) -> None:
    scene = read(tmp_path, [HEADINGS, *units("LX 1", "3 m SL", "1 m SR"), row])
    assert places(scene) == [3.0, -1.0]


@pytest.mark.parametrize("words", ["lantern", "Lamp 3:", "lights: off", "no"])
def test_other_words_count_nothing(words: str) -> None:
    assert not is_total(words)


def test_a_row_that_is_lined_out_in_a_text_is_cut(tmp_path: Path) -> None:
    row = ["~~LX 1~~", "~~3~~", "~~0~~", "-", "~~A~~"]
    scene = read(tmp_path, [HEADINGS, *units("LX 1", "3 m SL", "1 m SR"), row])
    assert places(scene) == [3.0, -1.0]
    assert told(scene, "cut", "row 4")


def test_a_word_that_is_lined_out_cuts_no_row() -> None:
    assert not lined_out(["LX 1", "~~3~~ 4", "0"])
    assert not lined_out(["-", "--", ""])


def test_a_line_says_of_what_a_vague_column_of_lengths_is(tmp_path: Path) -> None:
    head = ["Bar", "Unit", "from end", "Type", "Focus"]
    line = ["All bar measurements from SR END of bar, metres"]
    scene = read(tmp_path, [line, head, *units("LX 1", "1.50", "4.80")])
    assert places(scene) == [-3.5, -0.2]


@pytest.mark.parametrize(
    "row",
    [
        ["P = profile", "CTR = centre", "", "OW = open white"],
        ["Key:", "NC = no colour"],
        ["Signed:", "J. Smith", "", "Date:", "3/5/26"],
        ["Checked by", "Sam", "on", "3 May"],
        ["Gepr\u00fcft von", "", "", "A. Muster", "3.5."],
        ["Poids", "", "", "45 kg"],
        ["Load", "", "", "2300 W"],
        ["<- SL", "", "", "SR ->"],
        ["", "", "", "spot", 2],
        ["Prod. Elec.", "Jo", "", "jo@example.org"],
        ["LX boss", "", "", "Jo", "07700 900123"],
        ["Rev C", "4/5", "", "new desk special"],
    ],
)
@pytest.mark.parametrize("before", [0, 1, 2])
def test_what_pages_have_at_their_foot_is_no_unit(
    tmp_path: Path, row: list[object], before: int
) -> None:
    both = units("LX 1", "3 m SL", "1 m SR")
    scene = read(tmp_path, [HEADINGS, *both[:before], row, *both[before:]])
    assert places(scene) == [3.0, -1.0]


@pytest.mark.parametrize(
    "row",
    [
        ["LX 9", 3, "", "spot", "A"],  # its place is missing, and its position unknown
        ["LX 1", 3, "0", "Load", "A"],
        ["Load", 3, "0", "spot", "A"],
        ["LX 1", "", "", "spot", 2],
        ["", "", "", "sopt", "Daor"],
    ],
)
def test_a_unit_with_such_a_word_is_asked_about(tmp_path: Path, row: list[object]) -> None:
    with pytest.raises(SceneError):
        read(tmp_path, [HEADINGS, *units("LX 1", "3 m SL", "1 m SR"), row])


def _lined(
    folder: Path, line: str, through: int, said: str = "", *, first: int = 0, said_too: bool = True
) -> str:
    """A workbook with such a line over it, and a line through cells of its second unit from `first` up to a
    further one, of which a remark says something."""
    path = write_scene(folder, settings='hang = "hang.xlsx"')
    with Workbook(folder / "hang.xlsx") as book:
        sheet, lined = book.add_worksheet(), book.add_format({"font_strikeout": True})
        sheet.write(0, 0, line)
        sheet.write_row(1, 0, HEADINGS)
        one, second = units("LX 1", "3 m SL", "1 m SR")
        sheet.write_row(2, 0, one)
        for k, cell in enumerate(second):
            sheet.write(3, k, cell, lined if first <= k < through else None)
        if said:
            sheet.write(1, 5, "Notes")
            sheet.write(3, 5, said, lined if said_too else None)
    return path


def test_a_line_says_that_rows_with_a_line_through_them_are_cut(tmp_path: Path) -> None:
    scene = load_scene(_lined(tmp_path, "Struck-through lines are cut, do not hang", 5))
    assert places(scene) == [3.0]
    assert told(scene, "cut", "row 4")


@pytest.mark.parametrize(
    "said", ["CUT", "A3 - CUT", "moved, cut", "cut: no budget", "SPARE", "spare - not rigged"]
)
def test_a_row_with_a_line_through_it_whose_remark_calls_it_cut(tmp_path: Path, said: str) -> None:
    scene = load_scene(_lined(tmp_path, "Rig", 5, said))
    assert places(scene) == [3.0]
    assert told(scene, "cut", "row 4")


@pytest.mark.parametrize(
    ("through", "said"),
    [
        (5, "cut?"),
        (5, "done"),
        (5, "cut - reinstated"),
        (3, "A3 - CUT"),
        (5, "cut top shutter"),
        (5, "spare?"),
        (5, "spare - hung"),
        (3, "SPARE"),
        (5, "spare bulb in dock"),
    ],
)
def test_a_row_of_which_the_line_and_the_remark_do_not_agree_is_asked(
    tmp_path: Path, through: int, said: str
) -> None:
    with pytest.raises(SceneError, match="a line through"):
        load_scene(_lined(tmp_path, "Rig", through, said))


def test_a_row_with_a_line_through_all_but_its_bar_and_the_word_spare_is_left_out(
    tmp_path: Path,
) -> None:
    path = _lined(tmp_path, "Rig", 5, "SPARE", first=1, said_too=False)
    assert places(load_scene(path)) == [3.0]


@pytest.mark.parametrize(("line", "through"), [("Struck through = done", 5), ("struck = cut", 2)])
def test_other_rows_with_a_line_through_them_are_asked_about(
    tmp_path: Path, line: str, through: int
) -> None:
    with pytest.raises(SceneError, match="a line through"):
        load_scene(_lined(tmp_path, line, through))


@pytest.mark.parametrize(
    ("line", "cut"),
    [
        ("durchgestrichen = entf\u00e4llt", True),
        ("Lignes barr\u00e9es = supprim\u00e9es", True),
        ("tachado = eliminado", True),
        ("Cut units are struck through", True),
        ("Struck-through rows are hung, do not hang again", False),
        ("durchgestrichen = erledigt", False),
        ("Struck through?", False),
        ("all of it cut", False),
    ],
)
def test_what_lines_say_of_lined_rows(line: str, cut: bool) -> None:
    assert lined_are_cut(line) is cut
