"""The report: every mistake, worst first, in words that a person at the pipe can use."""

from __future__ import annotations

import datetime

import pytest

from aimcalc.scene import mistakes
from aimcalc.scene.mistakes import (
    CLASH,
    FILE,
    MOST_KEPT,
    UNKNOWN,
    VALUE,
    Log,
    SceneError,
    TooManyError,
    Where,
    Wrong,
    nearest,
    show,
)

WHERE = Where("scene.toml", "[[pipe]]", '"LX 1"')


def test_a_mistake_says_where_what_was_expected_what_came_and_what_to_do() -> None:
    mistake = WHERE.mistake("trim", Wrong("a height", "Measure it."), '"high"')
    assert mistake.text() == (
        'scene.toml, [[pipe]] "LX 1", trim\n'
        "   expected: a height\n"
        '   got:      "high"\n'
        "   do:       Measure it."
    )


def test_a_place_in_a_list_is_its_sheet_row_and_column() -> None:
    where = Where("hang.xlsx", "sheet Hang", "row 7", {"at": "C"})
    assert where.mistake("at", Wrong("a length"), "").place() == (
        "hang.xlsx, sheet Hang, row 7, column C (at)"
    )


def test_the_nearest_right_spelling_is_offered() -> None:
    choices = ("swing_out", "arm_to", "colour")
    assert nearest("Swing Out", choices) == "swing_out"
    assert nearest("color", choices) == "colour"
    assert nearest("wattage", choices) is None
    mistake = WHERE.mistake("", Wrong("a key", choices=choices), show("color"))
    assert mistake.advice() == 'Did you mean "colour"?'


def test_where_nothing_is_near_the_right_spellings_are_listed() -> None:
    mistake = WHERE.mistake("", Wrong("a target", choices=("A", "B")), show("zzz"))
    assert mistake.advice() == "There is: A, B."
    many = tuple(f"area {n}" for n in range(30))
    assert WHERE.mistake("", Wrong("x", choices=many), show("?")).advice().endswith("area 23 ...")


def test_the_worst_comes_first() -> None:
    log = Log()
    for rank in (CLASH, VALUE, UNKNOWN, FILE):
        log.add(WHERE, "trim", Wrong(f"rank {rank}", rank=rank))
    report = SceneError("show", log.mistakes).report()
    places = [report.index(f"rank {rank}") for rank in (FILE, UNKNOWN, VALUE, CLASH)]
    assert places == sorted(places)


def test_equal_mistakes_of_many_entries_are_told_once() -> None:
    log = Log()
    for row in (2, 5, 9):
        where = Where("hang.csv", "", f"row {row}", {"position": "A"})
        log.add(where, "position", Wrong("a position"), "LX1")
    report = SceneError("show", log.mistakes).report()
    assert report.startswith("show cannot be used: 3 mistakes. Nothing was written.")
    assert "1. hang.csv, rows 2, 5, 9, column A (position)" in report
    assert "\n2." not in report


def test_a_list_is_told_sort_by_sort_and_the_counts_agree(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    log = Log()
    for row in range(2, 20):
        where = Where("hang.csv", "", f"row {row}", {"target": "E", "kind": "D"})
        if row < 5:
            log.add(where, "kind", Wrong("a kind", choices=("ers-30",), rank=UNKNOWN), "ers30")
        came = f"aera {row}" if row < 12 else "nobody"
        log.add(where, "target", Wrong("a target", choices=("area 3",), rank=UNKNOWN), came)
    error = SceneError("show", log.mistakes)
    assert error.report().startswith("show cannot be used: 21 mistakes.")
    first, second = error.report().split("\n\n")[1:]
    rows = "2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13 and 6 more"  # 18 of them
    assert first.startswith(f"1. hang.csv, rows {rows}, column E (target)")
    assert '"aera 9" and 3 more' in first  # eleven that came, eight told
    assert '"area 3" by "aera 3"' in first
    assert second.startswith("2. hang.csv, rows 2, 3, 4, column D (kind)")
    monkeypatch.setattr(mistakes, "MOST_PRINTED", 1)
    assert error.report().endswith("and 3 more.")


def test_a_long_report_is_cut_and_says_how_much_is_left() -> None:
    log = Log()
    for n in range(70):
        log.add(WHERE, f"key {n}", Wrong("something"))
    report = SceneError("show", log.mistakes).report()
    assert "\n50. " in report
    assert "\n51. " not in report
    assert report.endswith("and 20 more.")


def test_reading_stops_when_it_only_finds_mistakes() -> None:
    log = Log()
    for n in range(MOST_KEPT - 1):
        log.add(WHERE, f"key {n}", Wrong("something"))
    with pytest.raises(TooManyError):
        log.add(WHERE, "the last", Wrong("something"))
    assert len(log.mistakes) == MOST_KEPT
    assert "reading stopped here" in SceneError("show", log.mistakes).report()


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (None, "nothing"),
        (True, "true"),
        ("", "empty text"),
        ("LX\x07 1", '"LX\\x07 1"'),
        ("x" * 100, '"' + "x" * 57 + '..."'),
        ({"a": 1}, "a table"),
        ([1, "a"], '[1, "a"]'),
        (10**4000, "a whole number of more than 60 figures"),
        (2.5, "2.5"),
    ],
)
def test_what_came_is_shown_on_one_short_line(value: object, shown: str) -> None:
    assert show(value) == shown


def test_a_date_made_by_a_spreadsheet_is_named_as_one() -> None:
    assert show(datetime.date(2024, 6, 2)).startswith("the date or time 2024-06-02")
