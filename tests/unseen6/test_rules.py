"""The rules that the lists of this folder brought, each with a case that it leaves alone.

Right readings are hand-typed from the lists; houses are those of the folder. 1 ft = 0.3048 m and
1 in = 0.0254 m exactly (international yard and pound agreement, 1959).
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from aimcalc.scene.model import Scene
from aimcalc.show import Show
from tests.unseen6.test_unseen6 import HERE

WITHIN = 1e-9  # metres: a place is converted once
BOOMS = """[[boom]]
name = "{}"
x = 4
y = 2
height = 4
"""


def _scene(
    root: Path, text: str, house: str = "assembly", more: str = "", end: str = "csv"
) -> Scene:
    scene = (HERE / f"{house}.house").read_text("utf-8").replace("HANG", f'hang = "list.{end}"', 1)
    (root / "scene.toml").write_text(scene.replace("MARKS", "") + more, "utf-8")
    (root / f"list.{end}").write_text(text, "utf-8")
    return load_scene(str(root))


def _asked(root: Path, text: str, house: str = "assembly", more: str = "", end: str = "csv") -> str:
    with pytest.raises(SceneError) as refused:
        _scene(root, text, house, more, end)
    return refused.value.report()


def _told(scene: Scene) -> str:
    return "\n".join(taken.says for taken in scene.taken)


def _places(scene: Scene) -> list[float]:
    return [round(unit.at or 0.0, 9) for unit in scene.units]


def _csv(rows: Iterable[Sequence[object]]) -> str:
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerows(rows)
    return text.getvalue()


HEAD = ("Bar", "No.", "Place", "Lantern", "Area")
AREAS = ("area 1", "area 2", "area 2", "area 3")


def _bar(*places: object, head: Sequence[object] = HEAD) -> str:
    """A list of the units of the front bar, at the places given, from SL to SR."""
    rows = [
        ("Front bar", n, place, "Profile", area)
        for n, (place, area) in enumerate(zip(places, AREAS, strict=False), 1)
    ]
    return _csv([head, *rows])


SIDED = ("3 m SL", "1 m SL", "1 m SR", "3 m SR")
RIGHT = [3.0, 1.0, -1.0, -3.0]


# --- where the headings are ----------------------------------------------------------------------------


def test_headings_nobody_knows_are_found_over_rows_of_units(tmp_path: Path) -> None:
    scene = _scene(tmp_path, _bar(*SIDED, head=("Hol", "Hany", "Meddig", "Mivel", "Hova")))
    assert _places(scene) == RIGHT
    assert [unit.number for unit in scene.units] == ["1", "2", "3", "4"]
    assert 'column E ("Hova") is read as the target' in _told(scene)
    assert 'column C ("Meddig")' in _told(scene) or '"Meddig" as at' in _told(scene)


def test_a_list_without_headings_is_read_by_its_cells_and_says_so(tmp_path: Path) -> None:
    rows = _bar(*SIDED).splitlines()[1:]
    scene = _scene(tmp_path, "\n".join(rows))
    assert _places(scene) == RIGHT
    assert [unit.target for unit in scene.units] == list(AREAS)
    assert "column A is read as the position: it holds Front bar." in _told(scene)


def test_two_rows_without_headings_are_too_few_to_tell(tmp_path: Path) -> None:
    rows = _bar(*SIDED[:2]).splitlines()[1:]
    assert "a row of headings" in _asked(tmp_path, "\n".join(rows))


def test_rows_that_are_no_units_have_no_headings(tmp_path: Path) -> None:
    text = _csv([("Who", "Call", "Task"), *[("Rigger", n, "motors") for n in range(5)]])
    assert "a row of headings" in _asked(tmp_path, text)


def test_without_headings_numbers_that_may_be_two_things_are_asked_about(tmp_path: Path) -> None:
    rows = [("Front bar", n, n, place, "Profile", "area 1") for n, place in enumerate(SIDED, 1)]
    assert "number" in _asked(tmp_path, _csv(rows))


@pytest.mark.parametrize("row", [("", "", "(in)", "", ""), ("", "", "inches", "", "")])
def test_a_unit_under_its_heading_belongs_to_it(row: tuple[str, ...], tmp_path: Path) -> None:
    head, *rest = _bar("60 SL", "20 SL", "20 SR", "60 SR").splitlines()
    scene = _scene(tmp_path, "\n".join([head, ",".join(row), *rest]))
    assert _places(scene) == [1.524, 0.508, -0.508, -1.524]  # 60 and 20 in


def test_a_word_above_one_heading_that_is_no_unit_stays_a_title(tmp_path: Path) -> None:
    scene = _scene(tmp_path, ",,Spring show,,\n" + _bar(*SIDED))
    assert _places(scene) == RIGHT
    assert "row 1 above is passed over" in _told(scene)


def test_a_line_of_dashes_is_no_cell_of_its_columns(tmp_path: Path) -> None:
    head, *rest = _bar(*SIDED, head=("Where", "No.", "How far", "Lantern", "For")).splitlines()
    scene = _scene(tmp_path, "\n".join([head, "-----,--,------,------,----", *rest]))
    assert _places(scene) == RIGHT
    assert [unit.target for unit in scene.units] == list(AREAS)


# --- what a column holds -------------------------------------------------------------------------------


@pytest.mark.parametrize("heading", ["Position", "Location", "Loc.", "pos", "Where", "Spot"])
def test_places_under_a_word_for_positions_are_places(heading: str, tmp_path: Path) -> None:
    scene = _scene(tmp_path, _bar(*SIDED, head=("Bar", "No.", heading, "Lantern", "Area")))
    assert _places(scene) == RIGHT


def test_lengths_of_which_none_has_a_side_are_asked_about(tmp_path: Path) -> None:
    """They may be the length of a cable, or the places: none is assumed beside them."""
    head = ("Bar", "No.", "Reel", "Lantern", "Area")
    asked = _asked(tmp_path, _bar("3 m", "10 m", "5 m", "5 m", head=head))
    assert 'column C ("Reel") may hold it' in asked
    cable = _scene(tmp_path, _bar("3 m", "10 m", head=("Bar", "No.", "Cable", "Lantern", "Area")))
    assert "assumed" in _told(cable)


def test_sides_alone_under_words_for_a_place_are_its_sides(tmp_path: Path) -> None:
    rows = [
        ("Front bar", n, far, side, "Profile", "area 2")
        for n, (far, side) in enumerate(((3, "L"), (1, "L"), (0, "C"), (1, "R")), 1)
    ]
    head = ("Bar", "No.", "Metres", "L/R of centre (stage)", "Lantern", "Area")
    scene = _scene(tmp_path, _csv([head, *rows]))
    assert _places(scene) == [3.0, 1.0, 0.0, -1.0]


def test_a_column_headed_house_says_whose_sides_they_are(tmp_path: Path) -> None:
    rows = [
        ("Front bar", n, far, side, "Profile", "area 2")
        for n, (far, side) in enumerate(((3, "Right"), (1, "Right"), (1, "Left")), 1)
    ]
    head = ("Bar", "No.", "Dist", "{}", "Lantern", "Area")
    text = _csv([head, *rows])
    assert _places(_scene(tmp_path, text.format("House"))) == [3.0, 1.0, -1.0]
    assert "SL or SR" in _asked(tmp_path, text.format("Hand"))


def test_numbers_that_begin_again_on_each_bar_are_those_of_the_units(tmp_path: Path) -> None:
    rows = [
        (row, bar, n, place, "Profile", "area 2")
        for row, (bar, n, place) in enumerate(
            (("Front bar", 1, "1 m SL"), ("Front bar", 2, "1 m SR"), ("Bar 1", 1, "2 m SL")), 1
        )
    ]
    scene = _scene(tmp_path, _csv([("No.", "Bar", "Unit", "Place", "Lantern", "Area"), *rows]))
    assert [unit.number for unit in scene.units] == ["1", "2", "1"]
    assert 'column C ("Unit") is read as the number: it holds 1 to 2.' in _told(scene)


def test_a_second_column_of_numbers_that_runs_through_stays_a_remark(tmp_path: Path) -> None:
    rows = [
        (row, bar, 10 * row, place, "Profile", "area 2")
        for row, (bar, place) in enumerate(
            (("Front bar", "1 m SL"), ("Front bar", "1 m SR"), ("Bar 1", "2 m SL")), 1
        )
    ]
    scene = _scene(tmp_path, _csv([("No.", "Bar", "Unit", "Place", "Lantern", "Area"), *rows]))
    assert [unit.number for unit in scene.units] == ["1", "2", "3"]


COLOURED = ("Bar", "No.", "Place", "Lantern", "Area", "{}")


@pytest.mark.parametrize(
    ("heading", "cells", "read"),
    [
        (
            "Tint it",
            ("Straw", "Pale blue", "no colour", "Straw"),
            ["Straw", "Pale blue", None, "Straw"],
        ),
        ("Old one", ("Straw", "Pale blue", "Straw", "Straw"), [None] * 4),  # of another time
        ("Plug", ("L1", "L2", "L3", "L4"), [None] * 4),  # letters and numbers may be anything
        ("Mood", ("Straw", "happy", "sad", "Straw"), [None] * 4),
    ],
)
def test_colours_in_words_are_colours(
    heading: str, cells: tuple[str, ...], read: list[str | None], tmp_path: Path
) -> None:
    head, *rows = _bar(*SIDED, head=COLOURED[:5]).splitlines()
    lines = [f"{row},{cell}" for row, cell in zip(rows, cells, strict=True)]
    scene = _scene(tmp_path, "\n".join([f"{head},{heading}", *lines]))
    assert [unit.colour for unit in scene.units] == read


TWICE = ("Bar", "No.", "Metres from SR end", "From CL", "Lantern", "Area")


def _twice(*pairs: tuple[float, float]) -> str:
    rows = [("Front bar", n, a, b, "Profile", "area 2") for n, (a, b) in enumerate(pairs, 1)]
    return _csv([TWICE, *rows])


def test_a_place_told_twice_is_read_where_both_agree(tmp_path: Path) -> None:
    """The front bar reaches from 4.5 m SR to 4.5 m SL: 7.5 m from its SR end is 3 m SL."""
    scene = _scene(tmp_path, _twice((7.5, 3.0), (3.5, -1.0)))
    assert _places(scene) == [3.0, -1.0]
    assert '"From CL" as at a second time, which agrees' in _told(scene)


@pytest.mark.parametrize("other", [2.9, 7.5, 0.0])
def test_a_place_told_twice_is_asked_about_where_both_differ(other: float, tmp_path: Path) -> None:
    report = _asked(tmp_path, _twice((7.5, other), (3.5, -1.0)))
    assert "row 2" in report
    assert "do not agree" in report


def test_old_and_new_places_are_asked_about(tmp_path: Path) -> None:
    text = _twice((1.0, 3.0), (1.0, -1.0)).replace("Metres from SR end", "Old dist.")
    assert "[hang_columns]: at = " in _asked(tmp_path, text.replace("From CL", "New dist."))


def test_two_units_of_one_number_are_a_stop_that_says_so(tmp_path: Path) -> None:
    scene = _scene(tmp_path, _bar(*SIDED).replace("Front bar,3,", "Front bar,2,"))
    [stop] = [found for found in Show(scene).quick_findings if found.rule == "number-twice"]
    assert (stop.severity, stop.position) == ("stop", "front bar")
    assert stop.says == "2 units here have the number 2."


# --- what a cell says ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "written",
    [
        *("3m SL", "3.00 mtrs SL", "3/SL", "SL: 3 m", "SL - 3 m", "SL of C 3 m", "C + 3 m SL"),
        *(
            "3 m left of centre (stage left)",
            "3 m audience right",
            "3 m stg. L",
            "3 m SL of middle",
        ),
        *("3 m actor's left", "300cms SL", "3sl", "3 m - SL", "3 m, SL"),
    ],
)
def test_ways_to_write_a_place(written: str, tmp_path: Path) -> None:
    assert _places(_scene(tmp_path, _bar(written, "0", "1 m SR"))) == [3.0, 0.0, -1.0]


@pytest.mark.parametrize(
    "written", ["3 m left", "SL -3 m", "3 m left of centre (stage right)", "3 SL SR"]
)
def test_places_that_may_be_elsewhere_are_asked_about(written: str, tmp_path: Path) -> None:
    assert "row 2, column C (at)" in _asked(tmp_path, _bar(written, "0", "1 m SR"))


@pytest.mark.parametrize("written", ["0 (CL)", "0 m CL", "CL 0", "mid", "0"])
def test_ways_to_write_the_centre(written: str, tmp_path: Path) -> None:
    assert _places(_scene(tmp_path, _bar("1 m SL", written, "1 m SR"))) == [1.0, 0.0, -1.0]


@pytest.mark.parametrize("written", ["300 SR", "300 S.R."])
def test_a_figure_past_the_end_is_of_the_unit_that_most_are_written_in(
    written: str, tmp_path: Path
) -> None:
    scene = _scene(tmp_path, _bar("300 cm SL", "100 cm SL", "100 cm SR", written))
    assert _places(scene) == RIGHT
    assert f'"{written}" is in cm, as most of its column' in _told(scene)


@pytest.mark.parametrize(
    "places",
    [
        ("300 SL", "100 SL", "100 SR", "300 SR"),  # of no unit at all
        ("3000 SL", "100 SL", "100 SR", "300 SR"),
        ("300 cm SL", "1000 mm SL", "100 SR", "300 SR"),  # of two
        ("300 cm SL", "100 SL", "100 SR", "300 SR"),  # of one in four
    ],
)
def test_figures_past_the_end_of_no_known_unit_are_asked_about(
    places: tuple[str, ...], tmp_path: Path
) -> None:
    assert "may be of another unit" in _asked(tmp_path, _bar(*places))


PROMPT = ("3 PS", "1 PS", "1 OP", "3 OP")


@pytest.mark.parametrize(
    ("line", "right"),
    [
        ("PS = SL", RIGHT),
        ("Prompt side is stage left", RIGHT),
        ("OP: stage left", [-3.0, -1.0, 1.0, 3.0]),
        ("Stage left (PS) is the side of the stage manager", RIGHT),
    ],
)
def test_prompt_side_is_where_a_line_says(line: str, right: list[float], tmp_path: Path) -> None:
    scene = _scene(tmp_path, f"{line},,,,\n" + _bar(*PROMPT))
    assert _places(scene) == right
    assert '"3 PS" is 3.00 m ' in _told(scene)


@pytest.mark.parametrize(
    ("name", "right"), [("PS boom", RIGHT), ("OP boom", [-3.0, -1.0, 1.0, 3.0])]
)
def test_prompt_side_is_where_a_boom_of_that_name_stands(
    name: str, right: list[float], tmp_path: Path
) -> None:
    assert _places(_scene(tmp_path, _bar(*PROMPT), more=BOOMS.format(name))) == right


def test_prompt_side_that_nobody_tells_is_stage_left_and_told(tmp_path: Path) -> None:
    """PS is SL, OP is SR: common practice where the words are used, no source."""
    scene = _scene(tmp_path, _bar(*PROMPT))
    assert _places(scene) == RIGHT
    assert "PS" in _told(scene)
    assert "OP" in _told(scene)


def test_a_place_behind_the_name_of_its_bar_is_read(tmp_path: Path) -> None:
    head = ("Where", "No.", "Lantern", "Area")
    rows = [
        ("Front bar, 3 m SL", 1, "Profile", "area 1"),
        ("Front bar @ 0", 2, "Profile", "area 2"),
    ]
    scene = _scene(tmp_path, _csv([head, *rows]))
    assert _places(scene) == [3.0, 0.0]
    assert '"Front bar, 3 m SL" is front bar, at 3 m SL' in _told(scene)


def test_a_bar_and_something_else_is_a_bar_with_a_remark(tmp_path: Path) -> None:
    rows = [("Front bar, over the cake", 1, "Profile", "area 1")]
    scene = _scene(tmp_path, _csv([("Where", "No.", "Lantern", "Area"), *rows]))
    assert "over the cake" in (scene.units[0].note or "")
    assert 'with the remark "over the cake"' in _told(scene)


@pytest.mark.parametrize(
    "cell", ["1 x Profile", "Profile spot", "PROFILES", "Profile 750W", "1k profile"]
)
def test_a_kind_of_the_scenes_own_comes_before_the_generic_ones(cell: str, tmp_path: Path) -> None:
    scene = _scene(tmp_path, _bar(*SIDED).replace("Profile", cell))
    assert {unit.kind for unit in scene.units} == {"profile"}


@pytest.mark.parametrize(
    ("cell", "words"),
    [("2 x Profile", "may be several"), ("Profile x3", "may be several"), ("PC", "may be pc-15")],
)
def test_several_units_or_kinds_in_a_cell_are_asked_about(
    cell: str, words: str, tmp_path: Path
) -> None:
    assert words in _asked(tmp_path, _bar(*SIDED).replace("Profile", cell))


def test_a_lens_that_the_scenes_own_kind_does_not_have_is_another_kind(tmp_path: Path) -> None:
    scene = _scene(tmp_path, _bar(*SIDED).replace("Profile", "Profile 50"))
    assert {unit.kind for unit in scene.units} == {"ers-50"}


@pytest.mark.parametrize(
    "bar", ["FOH bar", "Front-of-house bar", "Front bar (over the seats)", "THE FRONT BAR"]
)
def test_ways_to_name_the_front_bar(bar: str, tmp_path: Path) -> None:
    rows = [line.partition(",")[2] for line in _bar(*SIDED).splitlines()]
    text = "\n".join([rows[0], bar, *rows[1:]])
    assert {unit.position for unit in _scene(tmp_path, text).units} == {"front bar"}


def test_a_side_behind_a_name_is_no_remark(tmp_path: Path) -> None:
    """The house has a boom on one side alone: the other one is not meant."""
    rows = [line.partition(",")[2] for line in _bar("2 m", "1 m").splitlines()]
    text = "\n".join([rows[0], "Boom (SR)", *rows[1:]])
    assert "position" in _asked(tmp_path, text, more=BOOMS.format("boom SL"))


# --- text ----------------------------------------------------------------------------------------------


def test_a_table_of_a_page_has_no_cells_beyond_its_bars(tmp_path: Path) -> None:
    lines = [f"| {line.replace(',', ' | ')} |" for line in _bar(*SIDED).splitlines()]
    text = "\n".join([lines[0], "|---|---|---|---|---|", *lines[1:]])
    assert _places(_scene(tmp_path, text, end="txt")) == RIGHT


@pytest.mark.parametrize("mark", [" / ", " - ", " | ", "; "])
def test_cells_of_a_mail_are_parted_by_whatever_mark(mark: str, tmp_path: Path) -> None:
    text = "Hello all,\n\n" + _bar(*SIDED).replace(",", mark) + "\nSee you there.\n"
    assert _places(_scene(tmp_path, text, end="txt")) == RIGHT


def test_lines_of_columns_without_headings_are_read_by_how_they_line_up(tmp_path: Path) -> None:
    lines = [
        f"{n}    {place}   Profile   {area}"
        for n, place, area in zip("1234", SIDED, AREAS, strict=True)
    ]
    scene = _scene(tmp_path, "\n".join(["Front bar (from SL)", "", *lines]), end="txt")
    assert _places(scene) == RIGHT
    assert {unit.position for unit in scene.units} == {"front bar"}


def test_a_row_of_words_in_the_column_of_targets_is_a_remark_and_told(tmp_path: Path) -> None:
    head, *rows = _bar(*SIDED).splitlines()
    scene = _scene(tmp_path, "\n".join([head, rows[0], ",,,,check the cable", *rows[1:]]))
    assert len(scene.units) == 4
    assert "check the cable" in _told(scene)


def test_a_row_with_a_target_alone_is_asked_about(tmp_path: Path) -> None:
    head, *rows = _bar(*SIDED).splitlines()
    assert "row 3" in _asked(tmp_path, "\n".join([head, rows[0], ",,,,area 3", *rows[1:]]))


# --- headings ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("heading", "places", "metres"),
    [
        ("Feet SL/SR", ("10 SL", "3 SR"), [3.048, -0.9144]),
        ("Metres SL(+) SR(-)", (3, -1), [3.0, -1.0]),
        ("Bar pos. (cm)", ("300 SL", "100 SR"), [3.0, -1.0]),
        ("mm from CL (SL +ve)", (3000, -1000), [3.0, -1.0]),
        ("Dist. in from SR end", (7.5, 3.5), [3.0, -1.0]),  # of a bar from 4.5 m SR to 4.5 m SL
        ("x_metres_sl_positive", (3, -1), [3.0, -1.0]),
        ("distFromCentre", ("3 m SL", "1 m SR"), [3.0, -1.0]),
    ],
)
def test_what_a_heading_says_of_its_places(
    heading: str, places: tuple[object, ...], metres: list[float], tmp_path: Path
) -> None:
    scene = _scene(tmp_path, _bar(*places, head=("Bar", "No.", heading, "Lantern", "Area")))
    assert _places(scene) == metres


def test_a_side_without_its_other_may_be_a_serial_number(tmp_path: Path) -> None:
    head, *rows = _bar(*SIDED).splitlines()
    lines = [f"{row},{n}" for n, row in enumerate(rows, 1)]
    scene = _scene(tmp_path, "\n".join([f"{head},Sr.", *lines]))
    assert _places(scene) == RIGHT
    assert scene.units[2].note == "Sr.: 3"


def test_words_in_the_place_of_a_stand_are_a_remark(tmp_path: Path) -> None:
    rows = [("Floor stand A", 1, "{}", "Flood", "altar")]
    text = _csv([("Position", "No.", "Place", "Lamp", "Target"), *rows])
    scene = _scene(tmp_path, text.format("on the floor"), "church")
    assert scene.units[0].note == "Place: on the floor"
    assert "a stand is a point" in _asked(tmp_path, text.format("3 m SL"), "church")


@pytest.mark.parametrize(
    ("heading", "metres"),
    [
        ("Distance (+L / -R of house)", [-3.0, 1.0]),
        ("Distance (+R / -L of house)", [3.0, -1.0]),
        ("From CL (+ left, - right, stage)", [3.0, -1.0]),
    ],
)
def test_the_left_that_a_sign_means_is_that_of_whom_the_heading_says(
    heading: str, metres: list[float], tmp_path: Path
) -> None:
    scene = _scene(tmp_path, _bar(3, -1, head=("Bar", "No.", heading, "Lantern", "Area")))
    assert _places(scene) == metres


@pytest.mark.parametrize("heading", ["Distance (+ = left)", "Dist. (L+ R-)"])
def test_a_sign_that_means_the_left_of_nobody_knows_whom_is_asked_about(
    heading: str, tmp_path: Path
) -> None:
    text = _bar(3, -1, head=("Bar", "No.", heading, "Lantern", "Area"))
    assert "[hang_columns]: at = " in _asked(tmp_path, text)


def test_places_with_a_bare_side_are_asked_about_and_none_is_assumed(tmp_path: Path) -> None:
    head = ("Bar", "No.", "Location", "Lantern", "Area")
    assert "SL or SR" in _asked(tmp_path, _bar("3 m L of C", "3 m R of C", head=head))


def test_a_left_that_one_line_explains_explains_the_right(tmp_path: Path) -> None:
    scene = _scene(tmp_path, _bar("3 m L", "1 m R") + "L = stage left,,,,\n")
    assert _places(scene) == [3.0, -1.0]
    scene = _scene(tmp_path, _bar("3 m L", "1 m R") + "L = stage right,,,,\n")
    assert _places(scene) == [-3.0, 1.0]


def test_house_left_in_the_name_of_a_boom_is_stage_right(tmp_path: Path) -> None:
    head = ("Where", "No.", "Height", "Lantern", "Area")
    rows = [
        ("HL boom", 1, "2 m", "Profile", "area 1"),
        ("House right boom", 1, 2, "Profile", "area 1"),
    ]
    more = BOOMS.format("boom SL") + BOOMS.format("boom SR").replace("x = 4", "x = -4")
    scene = _scene(tmp_path, _csv([head, *rows]), more=more)
    assert [unit.position for unit in scene.units] == ["boom SR", "boom SL"]


@pytest.mark.parametrize(
    ("cells", "channels"),
    [
        (("ch 7", "Ch. 8"), ["7", "8"]),
        (("ch 7", "later"), [None, None]),
        (("7", "8"), [None, None]),
    ],
)
def test_channels_that_say_so_need_no_heading(
    cells: tuple[str, ...], channels: list[str | None], tmp_path: Path
) -> None:
    head, *rows = _bar(*SIDED[:2]).splitlines()
    lines = [f"{row},{cell}" for row, cell in zip(rows, cells, strict=True)]
    scene = _scene(tmp_path, "\n".join([f"{head},Row", *lines]))
    assert [unit.channel for unit in scene.units] == channels


@pytest.mark.parametrize("cell", ["27 degree", "27°", "27 deg."])
def test_degrees_alone_are_the_one_kind_of_the_scenes_own_that_has_them(
    cell: str, tmp_path: Path
) -> None:
    more = '[[kind]]\nname = "spot 27"\nfamily = "ers"\nfield = 27\n'
    text = _bar(*SIDED).replace("Profile", cell)
    assert {unit.kind for unit in _scene(tmp_path, text, more=more).units} == {"spot 27"}
    two = more + more.replace("spot 27", "beam")
    assert "column D (kind)" in _asked(tmp_path, text, more=two)


def test_area_before_the_letter_of_a_target_says_no_more(tmp_path: Path) -> None:
    more = '[[target]]\nname = "G"\nx = 0\ny = 2\n[[target]]\nname = "step 9"\nx = 1\ny = 2\n'
    scene = _scene(tmp_path, _bar("1 m SL").replace("area 1", "Area G"), more=more)
    assert scene.units[0].target == "G"
    assert "Area 9" in _asked(tmp_path, _bar("1 m SL").replace("area 1", "Area 9"), more=more)


@pytest.mark.parametrize("heading", ["Location", "Position"])
def test_bare_lengths_beside_the_names_of_bars_are_places(heading: str, tmp_path: Path) -> None:
    head = ("Bar", "No.", heading, "Lantern", "Area")
    scene = _scene(tmp_path, "+ = SL,,,,\n" + _bar(3.2, 1, -1.5, head=head))
    assert _places(scene) == [3.2, 1.0, -1.5]
    assert f'"{heading}" as at' in _told(scene)


def test_numbers_that_count_up_beside_the_names_of_bars_are_no_places(tmp_path: Path) -> None:
    text = _bar(1, 2, 3, head=("Bar", "No.", "Location", "Lantern", "Area"))
    assert "[hang_columns]: at = " in _asked(tmp_path, text)


def test_a_number_alone_is_of_the_sort_that_its_heading_names(tmp_path: Path) -> None:
    more = '[[stand]]\nname = "stand 1"\nx = 1\ny = 1\n'
    text = _bar("1 m SL", "0").replace("Front bar", "1")
    scene = _scene(tmp_path, text, more=more)
    assert {unit.position for unit in scene.units} == {"bar 1"}
    assert '"1" is bar 1' in _told(scene)
    unplaced = text.replace("Bar,", "Position,").replace("1 m SL", "").replace(",0,", ",,")
    assert "may be bar 1 or stand 1" in _asked(tmp_path, unplaced, more=more)


def test_signed_lengths_under_both_sides_are_places(tmp_path: Path) -> None:
    head = ("Bar", "No.", "SL/SR", "Lantern", "Area")
    scene = _scene(tmp_path, _bar("+3 m", "+1 m", "-1 m", "-3 m", head=head))
    assert _places(scene) == RIGHT
    assert "places have a sign and no side: plus is read as SL" in _told(scene)


@pytest.mark.parametrize(
    ("line", "metres"),
    [
        ("Negative numbers are stage left", [-3.2, -1.0, 1.5]),
        ("Negative figures are stage right", [3.2, 1.0, -1.5]),
        ("Plus distances are SR", [-3.2, -1.0, 1.5]),
    ],
)
def test_what_a_sign_means_is_what_a_line_says(
    line: str, metres: list[float], tmp_path: Path
) -> None:
    assert _places(_scene(tmp_path, _bar(3.2, 1, -1.5) + f",,,,\n{line},,,,\n")) == metres


def test_places_without_sides_are_asked_about_where_a_target_is_on_the_other_side(
    tmp_path: Path,
) -> None:
    report = _asked(tmp_path, _bar("3 m", "1 m", "1.5 m", "3.5 m").replace("2\n", "3\n"))
    assert "area 3 is on SR" in report
    scene = _scene(tmp_path, _bar("3 m", "1 m", "0.5 m"))  # all aimed at SL or the middle
    assert _places(scene) == [3.0, 1.0, 0.5]
    assert "as no side is written" in _told(scene)


@pytest.mark.parametrize("line", ["All distances from SR", "Measured from stage right"])
def test_a_line_that_counts_from_a_side_and_no_end_is_asked_about(
    line: str, tmp_path: Path
) -> None:
    assert "where it counts from" in _asked(tmp_path, f"{line},,,,\n" + _bar("1.5 m", "3.5 m"))


def test_a_line_that_numbers_from_a_side_says_nothing_of_places(tmp_path: Path) -> None:
    scene = _scene(tmp_path, "Units are numbered from stage left,,,,\n" + _bar(*SIDED))
    assert _places(scene) == RIGHT
    scene = _scene(tmp_path, "Units are numbered from stage left,,,,\n" + _bar(3.2, 1.1, -1.5))
    assert _places(scene) == [3.2, 1.1, -1.5]


def test_a_left_and_a_right_column_of_nobody_knows_whom_are_asked_about(tmp_path: Path) -> None:
    rows = [
        ("Front bar", 1, 3, "", "Profile", "area 1"),
        ("Front bar", 2, "", 3, "Profile", "area 3"),
    ]
    head = ("Bar", "No.", "Left", "Right", "Lantern", "Area")
    assert "[hang_columns]: at = " in _asked(tmp_path, _csv([head, *rows]))


@pytest.mark.parametrize("heading", ["New place", "Revised place", "Place now"])
def test_a_newer_place_is_asked_about_where_it_is_filled(heading: str, tmp_path: Path) -> None:
    head, *rows = _bar(*SIDED).splitlines()
    lines = [f"{row}," for row in rows]
    assert _places(_scene(tmp_path, "\n".join([f"{head},{heading}", *lines]))) == RIGHT
    lines[1] += "2 m SL"
    report = _asked(tmp_path, "\n".join([f"{head},{heading}", *lines]))
    assert f'column C ("Place") or column F ("{heading}")' in report


def test_a_line_between_that_names_another_bar_stands_over_its_units(tmp_path: Path) -> None:
    rows = [line.partition(",")[2] for line in _bar("3 m SL", "1 m SL").splitlines()]
    title = "Spring show | Bar: {} | page {}"
    second = [title.format("Bar 2", 2), rows[0], rows[1]]
    scene = _scene(tmp_path, "\n".join([title.format("Front bar", 1), *rows, *second]))
    assert [unit.position for unit in scene.units] == ["front bar", "front bar", "bar 2"]


@pytest.mark.parametrize(
    ("line", "metres"),
    [
        ("All measurements are in centimetres from the middle of the bar.", 1.0),
        ("Distances are in inches from the centre line.", 2.54),
        ("Places are cm from the centre line.", 1.0),
    ],
)
def test_the_unit_that_a_line_says_is_no_inch_for_its_in(
    line: str, metres: float, tmp_path: Path
) -> None:
    scene = _scene(tmp_path, f"{line}\n\n{_bar('100 SL', '0')}")
    assert [abs(unit.at or 0.0) for unit in scene.units] == pytest.approx([metres, 0.0])


@pytest.mark.parametrize(
    ("line", "side"),
    [
        ("R / L = stage right / stage left", 1),
        ("left/right = stage left/right", 1),
        ("L and R are SL and SR", 1),
        ("L = stage left", 1),
        ("left/right = stage right/left, as the house sees it", -1),
        ("L = SR", -1),
        ("R and L are stage right and left", 1),
        ("left = house right", 1),
        ("R/L = house right/left", -1),
    ],
)
def test_a_line_says_whose_a_bare_left_is(line: str, side: int, tmp_path: Path) -> None:
    scene = _scene(tmp_path, f"{line}\n\n{_bar('3 L', '1 R')}")
    assert [unit.at for unit in scene.units] == pytest.approx([3 * side, -1 * side])


def test_a_kind_that_is_spelled_so_is_that_and_no_own_one_with_a_word_more(tmp_path: Path) -> None:
    more = '[[kind]]\nname = "ers-30 old"\nfamily = "ers"\nfield = 30\n'
    scene = _scene(tmp_path, _bar("1 m SL", "0").replace("Profile", "ers-30"), more=more)
    assert {unit.kind for unit in scene.units} == {"ers-30"}


def test_a_kind_of_which_the_scene_has_two_by_their_watts_is_asked_about(tmp_path: Path) -> None:
    kinds = "".join(
        f'[[kind]]\nname = "Fres {watts}"\nfamily = "fresnel"\nfield = 40\n'
        for watts in ("650", "1.2k")
    )
    report = _asked(tmp_path, _bar("1 m SL", "0").replace("Profile", "Fres"), more=kinds)
    assert "Fres 650" in report
    assert "Fres 1.2k" in report


@pytest.mark.parametrize(
    ("line", "metres"), [("minus = SL", -3.0), ("+ = SL", 3.0), ("+ = SR", -3.0)]
)
def test_a_short_line_says_which_side_plus_is(line: str, metres: float, tmp_path: Path) -> None:
    scene = _scene(tmp_path, f"{line}\n\n{_bar('+3', '-1')}")
    assert scene.units[0].at == pytest.approx(metres)


def test_a_bare_side_is_asked_about_where_units_are_then_aimed_across(tmp_path: Path) -> None:
    report = _asked(tmp_path, _bar("3 R", "1 R", "1 L", "3 L"))
    assert "SL or SR" in report


def test_a_bare_side_is_asked_about_where_a_line_speaks_of_sides_and_not_of_whose(
    tmp_path: Path,
) -> None:
    said = "sides as I drew them, standing where you like"
    assert "SL or SR" in _asked(tmp_path, f"{said}\n\n{_bar('3 L', '1 L', '1 R', '3 R')}")


SIDE_BAR = '[[pipe]]\nname = "side bar"\nstart = [4, -1, 4]\nend = [4, 5, 4]\n'


@pytest.mark.parametrize(
    ("heading", "places", "metres"),
    [
        ("Place", ("1 m US", "3 m US"), (-1.0, 1.0)),  # the plaster line is 2 m DS of its middle
        ("Place", ("1 m US", "0.5 m DS"), (-1.0, -2.5)),
        ("Place", ("0.5 m US of plaster line", "on plaster line"), (-1.5, -2.0)),
        ("US of plaster line", ("1 m", "3 m"), (-1.0, 1.0)),
        ("at", ("1 m US", "2 m US"), (1.0, 2.0)),  # in the words of a scene: from its middle
    ],
)
def test_places_up_the_stage_count_from_the_plaster_line(
    heading: str, places: tuple[str, ...], metres: tuple[float, ...], tmp_path: Path
) -> None:
    rows = [("side bar", n, place, "Profile", "area 1") for n, place in enumerate(places, 1)]
    text = _csv([("Bar", "No.", heading, "Lantern", "Area"), *rows])
    scene = _scene(tmp_path, text, more=SIDE_BAR)
    assert [unit.at for unit in scene.units] == pytest.approx(metres)


def test_units_of_a_boom_without_heights_hang_down_from_its_top_and_that_is_warned(
    tmp_path: Path,
) -> None:
    boom = '[[boom]]\nname = "tower"\nx = 5\ny = 1\nheight = 3\n'
    rows = [("tower", n, "", "Profile", "area 1") for n in (1, 2)]
    text = _csv([("Bar", "No.", "Place", "Lantern", "Area"), *rows])
    scene = _scene(tmp_path, text, more=boom)
    assert [unit.at for unit in scene.units] == pytest.approx([2.55, 2.1])  # 0.45 m apart
    warned = [taken for taken in scene.taken if taken.rule == "places-assumed"]
    assert [(taken.severity, taken.position) for taken in warned] == [("warn", "tower")]


def test_a_row_of_several_units_is_asked_about_where_its_places_are_fewer(tmp_path: Path) -> None:
    text = _bar("3 m SL; 1 m SL").replace("Front bar,1,", "Front bar,1-3,")
    assert "1-3" in _asked(tmp_path, text)
