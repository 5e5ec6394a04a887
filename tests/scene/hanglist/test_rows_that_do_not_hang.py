"""Rows that say of their unit, in any column and language, that it does not hang or is in reserve."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.names.sparewords import is_in_reserve, is_spare
from aimcalc.scene.hanglist.rows.rowcuts import may_hang, says_cut
from aimcalc.scene.loading import load_scene
from aimcalc.scene.readers import colour
from tests.scene.hanglist.listed import MORE, asked_of, scene_of, told_of, units_of
from tests.scene.written import write_scene

HEAD = "Bar;Unit;Distance;Type;Focus;Colour;Notes\n"
FIRST = "LX 1;1;2 m SL;spot;A;;\n"
LAST = "LX 1;3;1 m SR;wide;Door;;\n"
BOTH = [("LX 1", "1", "spot", "A"), ("LX 1", "3", "wide", "Door")]


@pytest.mark.parametrize(
    "words",
    [
        "tagliato",
        "eliminato",
        "Eliminata 12/11",
        "supprimé",
        "supprimée le 12/11",
        "annulé - plus de gradateur",
        "entfällt",
        "Entfällt laut Regie",
        "gestrichen",
        "nicht hängen",
        "vervalt",
        "niet hangen",
        "suprimido",
        "no se cuelga",
        "utgår",
        "hängs ej",
        "udgår",
        "strøket",
        "poistettu",
        "skreślone",
        "zrušeno",
        "do not hang",
        "not rigged",
        "leave in rack",
        "spare, not rigged",
        "Spare - stays in case",
        "scorta - non montare",
        "Reserve, bleibt im Lager",
        "lamp dead, do not hang",
    ],
)
@pytest.mark.parametrize("column", ["target", "note", "loose"])
def test_a_unit_that_does_not_hang_is_left_out_and_told(
    tmp_path: Path, words: str, column: str
) -> None:
    head = HEAD.replace("Notes", "Stato") if column == "loose" else HEAD
    cells = f"{words};;" if column == "target" else f"Table;;{words}"
    text = f"{head}{FIRST}LX 1;2;0;spot;{cells}\n{LAST}"
    assert units_of(tmp_path, text) == BOTH
    told = told_of(tmp_path / "told", text)
    assert words in told
    assert "row 3 is left out" in told


@pytest.mark.parametrize(
    "words",
    [
        "cut off the border",
        "tagliato sul fondale",
        "coupé au cadre",
        "spare lamp, kept in store",
        "reserve lamp in store",
        "swap w spare",
        "not used on Fri",
        "barn door, not rigged",
        "frisch gestrichen",
    ],
)
def test_words_of_the_beam_and_of_things_beside_it_leave_a_unit(tmp_path: Path, words: str) -> None:
    units = units_of(tmp_path, f"{HEAD}{FIRST}LX 1;2;0;spot;Table;;{words}\n{LAST}")
    assert [unit[1] for unit in units] == ["1", "2", "3"]


@pytest.mark.parametrize("heading", ["Gobo", "Iris", "Safety"])
def test_a_thing_that_is_not_used_cuts_no_unit(tmp_path: Path, heading: str) -> None:
    text = f"{HEAD.replace('Notes', heading)}{FIRST}LX 1;2;0;spot;Table;;not used\n{LAST}"
    assert [unit[1] for unit in units_of(tmp_path, text)] == ["1", "2", "3"]


@pytest.mark.parametrize("words", ["CUT - reinstated 12/11", "entfällt?", "cut, now back in"])
def test_a_unit_that_may_be_back_is_asked_about(tmp_path: Path, words: str) -> None:
    assert says_cut(words)
    assert may_hang(words)
    asked = asked_of(tmp_path, f"{HEAD}{FIRST}LX 1;2;0;spot;Table;;{words}\n{LAST}")
    assert "may mean that it does not" in asked


def test_a_target_that_is_called_so_is_no_word_for_a_cut(tmp_path: Path) -> None:
    assert says_cut("weg")
    text = f"{HEAD}{FIRST}LX 1;2;0;spot;Weg;;\n{LAST}"
    assert units_of(tmp_path / "other", text) == BOTH
    weg = '[[target]]\nname = "Weg"\nx = 0\ny = 1\n'
    path = write_scene(tmp_path, MORE + weg, settings='hang = "hang.csv"')
    (tmp_path / "hang.csv").write_text(text, encoding="utf-8")
    assert [unit.target for unit in load_scene(path).units] == ["A", "Weg", "Door"]


@pytest.mark.parametrize(
    "row",
    [
        "LX 1;2;0;spot;spare;;",
        "LX 1;2;;spot;spare, not focused;;",
        "LX 1;2;0;spot;;(spare);",
        "LX 1;2;0;spot;;;spare - not rigged, see stores",
        "LX 1;SP;;spot;;;",
        "LX 1;2;0;spot;-;;di scorta",
        "LX 1;2;0;spot;Reserve;;",
        "LX 1;2;0;spot;;;en réserve",
        "LX 1;2;0;spot;repuesto;;",
        "SPARE;;;spot;;;",
        "Spares (in store);;;spot;;;",
    ],
)
def test_a_light_in_reserve_that_is_aimed_at_nothing_is_left_out(tmp_path: Path, row: str) -> None:
    text = f"{HEAD}{FIRST}{row}\n{LAST}"
    assert units_of(tmp_path, text) == BOTH
    assert "the light of row 3 is left out, aimed at nothing" in told_of(tmp_path / "told", text)


@pytest.mark.parametrize(
    "row",
    [
        "LX 1;2;0;spot;;;12;spare - hung, not focused",
        "LX 1;2;0;spot;;;;spare - hung, not focused",
        "LX 1;2;0;spot;spare;;12;",
        "LX 1;2;0;spot;;(spare);D 12;",
        "LX 1;2;0;spot;-;;12;di scorta",
    ],
)
def test_a_light_in_reserve_that_is_plugged_or_said_to_hang_hangs_straight_down(
    tmp_path: Path, row: str
) -> None:
    head = HEAD.replace("Notes", "Dimmer;Notes")
    text = f"{head}LX 1;1;2 m SL;spot;A;;;\n{row}\nLX 1;3;1 m SR;wide;Door;;;\n"
    unit = scene_of(tmp_path, text).units[1]
    assert (unit.number, unit.kind, unit.at, unit.colour) == ("2", "spot", 0.0, None)
    assert (unit.target, unit.point) == (None, (0.0, 2.0, 0.0))
    assert "row 3 (spot) has no target" in " ".join(told_of(tmp_path / "told", text).split())


def test_a_spare_that_is_not_rigged_is_left_out_though_it_has_a_dimmer(tmp_path: Path) -> None:
    head = HEAD.replace("Notes", "Dimmer;Notes")
    text = f"{head}LX 1;1;2 m SL;spot;A;;;\nLX 1;2;0;spot;;;12;SPARE not rigged\n"
    assert [unit[1] for unit in units_of(tmp_path, text)] == ["1"]


def test_what_stands_below_a_word_for_spares_is_spare(tmp_path: Path) -> None:
    text = f"{HEAD}{FIRST}{LAST}SPARES;;;;;;\n;;;spot;;;\n;;;wide;;;long nose\n"
    assert units_of(tmp_path, text) == BOTH
    assert "rows 5, 6" in told_of(tmp_path / "told", text)


def test_a_unit_below_a_spare_one_is_not_taken_for_one_of_the_pipe_above(tmp_path: Path) -> None:
    text = f"{HEAD}{FIRST}SPARE;;;spot;;;\n;2;0;wide;Door;;\n"
    assert "position" in asked_of(tmp_path, text)


def test_the_position_of_a_spare_row_is_that_of_the_rows_below_it(tmp_path: Path) -> None:
    text = f"{HEAD}{FIRST}LX 2;1;SPARE;;;;\n;2;0;wide;Door;;\nLX 2;3;;spot;spare;;\n;4;1 m SL;spot;A;;\n"
    assert [unit[:2] for unit in units_of(tmp_path, text)] == [
        ("LX 1", "1"),
        ("LX 2", "2"),
        ("LX 2", "4"),
    ]


def test_a_unit_with_a_target_hangs_though_it_is_called_spare(tmp_path: Path) -> None:
    units = units_of(tmp_path, f"{HEAD}{FIRST}LX 1;2;0;spot;Table;;spare\n{LAST}")
    assert units[1] == ("LX 1", "2", "spot", "Table")


def test_a_unit_without_a_target_that_nobody_calls_spare_is_asked_about(tmp_path: Path) -> None:
    assert "row 3" in asked_of(tmp_path, f"{HEAD}{FIRST}LX 1;2;0;spot;;;bring a spare bulb\n{LAST}")


@pytest.mark.parametrize(
    "words", ["spare bulb", "Reserved seats", "freestanding", "varanda", "in scena", "Tom"]
)
def test_other_words_are_not_spare(words: str) -> None:
    assert not is_spare(words)
    assert not is_in_reserve(words)


@pytest.mark.parametrize("words", ["a as " * 19, "spare " * 16, "not " * 25, "- " * 49, "(" * 99])
def test_words_over_and_over_take_no_time(words: str) -> None:
    assert not is_in_reserve(words)
    assert not says_cut(words)


@pytest.mark.parametrize(
    "word", ["bianco", "Blanc", "weiß", "wit", "hvid", "klar", "luce bianca", "oop"]
)
def test_white_in_other_languages_is_no_gel(word: str) -> None:
    assert colour(word) is None


@pytest.mark.parametrize("word", ["white", "L201", "bianco ghiaccio", "steel"])
def test_a_gel_is_one(word: str) -> None:
    assert colour(word) == word


@pytest.mark.parametrize(
    ("words", "cut"),
    [
        ("C - CUT", True),
        ("REV 2: CUT", True),
        ("12/11 cut", True),
        ("CUT rev C", True),
        ("B - deleted", True),
        ("A - cut", False),  # a shutter
        ("C - cut to door", False),
        ("SL - CUT", False),  # the stage-left one of two
        ("hard cut", False),
    ],
)
def test_a_revision_may_say_that_a_unit_is_cut(words: str, cut: bool) -> None:
    assert says_cut(words) is cut


@pytest.mark.parametrize(
    ("words", "cut"),
    [
        ("CUT after tech", True),
        ("cut at the dress rehearsal", True),
        ("CUT v7", True),
        ("cut for this venue", True),
        ("cut after the technical run - no dimmer", True),
        ("cut on Monday", True),
        ("cut after preview 2", True),
        ("cut after opening night", True),
        ("now cut", True),
        ("(unit removed)", True),
        ("instrument not used", True),
        ("lamp removed", False),  # the bulb
        ("cut at the doorway", False),
        ("cut after the dress circle", False),
        ("cut on the edge of the deck", False),
        ("cut at the opening", False),  # of the set
        ("cut before the opening", False),
        ("cut on the first run of steps", False),
        ("cut before the press box", False),
        ("cut in show", False),
        ("cut on the run", False),
    ],
)
def test_when_or_why_a_unit_is_cut(words: str, cut: bool) -> None:
    assert says_cut(words) is cut
