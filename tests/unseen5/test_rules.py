"""The rules that the lists of this folder brought, each with a case that it leaves alone.

Right readings are hand-typed from the lists; houses are those of the folder.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from aimcalc.scene.model import Scene
from tests.unseen5.test_unseen5 import HERE

FIVE = 'marks = ["16 ft SL", "8 ft SL", 0, "8 ft SR", "16 ft SR"]'


def _scene(root: Path, rows: str, house: str = "school", marks: str = "") -> Scene:
    text = (HERE / f"{house}.house").read_text("utf-8").replace("HANG", 'hang = "list.csv"', 1)
    (root / "scene.toml").write_text(text.replace("MARKS", marks), "utf-8")
    (root / "list.csv").write_text(rows, "utf-8")
    return load_scene(str(root))


def _asked(root: Path, rows: str, house: str = "school", marks: str = "") -> str:
    with pytest.raises(SceneError) as refused:
        _scene(root, rows, house, marks)
    return refused.value.report()


def _told(scene: Scene) -> str:
    return "\n".join(taken.says for taken in scene.taken)


def _numbers(scene: Scene) -> list[tuple[str, str]]:
    return [(unit.position, unit.number) for unit in scene.units]


TARGETS = """Bar,No.,Place,Type,{}
Bar 1,1,2 m SL,PC 30,{}
Bar 1,2,1 m SL,PC 30,{}
Bar 1,3,1 m SR,PC 30,{}
Bar 2,1,0,PC 30,{}
"""
AREAS = ("Area 1", "Area 2", "Area 3", "Piano")


def test_a_column_of_the_scenes_targets_is_the_target(tmp_path: Path) -> None:
    scene = _scene(tmp_path, TARGETS.format("Whither", *AREAS))
    assert [unit.target for unit in scene.units] == ["area 1", "area 2", "area 3", "piano"]
    says = 'column E ("Whither") is read as the target: it holds Area 1, Area 2, Area 3 and more.'
    assert says in _told(scene)


def test_targets_are_found_though_most_are_ditto_marks(tmp_path: Path) -> None:
    scene = _scene(tmp_path, TARGETS.format("Whither", "Area 1", '""""', "Piano", '""""'))
    assert [unit.target for unit in scene.units] == ["area 1", "area 1", "piano", "piano"]


@pytest.mark.parametrize(
    ("heading", "cells"),
    [
        ("Old whither", AREAS),  # of another time
        ("Also whither", AREAS),  # a second target
        ("Cable from", AREAS),
        ("Whither", ("Area 1", "Area 2", "by hand", "later")),  # half of them
        ("Whither", ("1", "2", "3", "4")),  # numbers may count anything
        ("Whither", ("", "", "", "Piano")),  # a remark of one unit
        ("Whither", ("Bar 1", "Bar 2", "Bar 1", "Bar 2")),
    ],
)
def test_what_may_be_no_target_is_not_taken_for_it(
    heading: str, cells: tuple[str, ...], tmp_path: Path
) -> None:
    assert "target" in _asked(tmp_path, TARGETS.format(heading, *cells))


def test_a_target_among_strange_words_is_asked_about_alone(tmp_path: Path) -> None:
    """Eleven names in twelve: the column is taken, and the twelfth cell is asked about."""
    rows = [f"Bar 1,{n},{n / 4} m SL,PC 30,Area {1 + n % 6}" for n in range(1, 12)]
    rows.append("Bar 1,12,0,PC 30,by hand")
    report = _asked(tmp_path, "\n".join(["Bar,No.,Place,Type,Whither", *rows]))
    assert "row 13" in report
    assert "row 12" not in report


def test_two_columns_of_targets_are_asked_about(tmp_path: Path) -> None:
    rows = "Bar,No.,Place,Type,Whither,Thither\n" + "".join(
        f"Bar 1,{n},{n} m SL,PC 30,Area {n},Area {n + 1}\n" for n in (1, 2, 3)
    )
    report = _asked(tmp_path, rows)
    assert 'column E ("Whither") or column F ("Thither")' in report
    assert "[hang_columns] target" in report


def test_targets_beside_a_column_headed_so_stay_a_remark(tmp_path: Path) -> None:
    rows = "Bar,No.,Place,Type,Focus,Thither\n" + "".join(
        f"Bar 1,{n},{n} m SL,PC 30,Area {n},Area {n + 1}\n" for n in (1, 2, 3)
    )
    scene = _scene(tmp_path, rows)
    assert [unit.target for unit in scene.units] == ["area 1", "area 2", "area 3"]
    assert scene.units[0].note == "Thither: Area 2"


def test_lights_over_targets_are_no_kinds(tmp_path: Path) -> None:
    rows = "Bar,No.,Place,Things,Lights\nBar 1,1,1 m SL,PC 30,Area 1\nBar 1,2,0,ERS 30,Piano\n"
    scene = _scene(tmp_path, rows)
    assert [(unit.kind, unit.target) for unit in scene.units] == [
        ("pc-30", "area 1"),
        ("ers-30", "piano"),
    ]


def test_strange_kinds_under_their_heading_are_not_left_for_others(tmp_path: Path) -> None:
    """Nobody knows a Glim 7; that another column has kinds makes them none of these units."""
    rows = (
        "Bar,No.,Place,Type,Focus,Stand-in\nBar 1,1,1 m SL,Glim 7,Area 1,PC 30\n"
        "Bar 1,2,0,Glim 9,Piano,ERS 30\n"
    )
    assert "Glim 7" in _asked(tmp_path, rows)


NUMBERS = "Bar,{},Place,Type,Focus\n" + "".join(
    f"Bar {bar},{{}},{at},PC 30,Area 1\n" for bar, at in ((1, "1 m SL"), (1, 0), (2, "1 m SR"))
)


@pytest.mark.parametrize("numbers", [("1", "2", "1"), ("1", "2", "3"), ("Head", "Shin", "Head")])
def test_numbers_along_each_position_are_those_of_the_units(
    numbers: tuple[str, ...], tmp_path: Path
) -> None:
    scene = _scene(tmp_path, NUMBERS.format("Tag", *numbers))
    assert _numbers(scene) == list(zip(("bar 1", "bar 1", "bar 2"), numbers, strict=True))
    assert 'column B ("Tag") is read as the number: it holds ' in _told(scene)


@pytest.mark.parametrize(
    "numbers", [("12", "40", "7"), ("1", "2", "")]
)  # they do not run; one has none
def test_what_may_number_the_units_is_asked_about(numbers: tuple[str, ...], tmp_path: Path) -> None:
    report = _asked(tmp_path, NUMBERS.format("Tag", *numbers))
    assert "number" in report


@pytest.mark.parametrize(
    ("heading", "numbers"),
    [
        ("Tag", ("1", "1", "1")),  # twice on one position
        ("Tag", ("Head", "Head", "Head")),
        ("Case", ("1", "2", "3")),
        ("Cue", ("2", "1", "3")),
    ],
)
def test_what_numbers_something_else_is_not_taken_for_the_units(
    heading: str, numbers: tuple[str, ...], tmp_path: Path
) -> None:
    """Nor is the unit's number asked for: units without any are numbered along the list, with a warning."""
    scene = _scene(tmp_path, NUMBERS.format(heading, *numbers))
    assert _numbers(scene) == [("bar 1", "1"), ("bar 1", "2"), ("bar 2", "1")]
    assert "3 units have no number" in _told(scene)
    assert all(unit.note.startswith(f"{heading}: ") for unit in scene.units)


def test_a_column_that_runs_beside_the_numbers_stays_a_remark(tmp_path: Path) -> None:
    rows = "Bar,Unit,Tag,Place,Type,Focus\nBar 1,5,1,1 m SL,PC 30,Area 1\nBar 1,9,2,0,PC 30,Piano\n"
    scene = _scene(tmp_path, rows)
    assert _numbers(scene) == [("bar 1", "5"), ("bar 1", "9")]
    assert scene.units[0].note == "Tag: 1"


def test_a_second_column_headed_as_a_position_numbers_the_units(tmp_path: Path) -> None:
    scene = _scene(tmp_path, NUMBERS.format("Lx No", "1", "2", "1"))
    assert _numbers(scene) == [("bar 1", "1"), ("bar 1", "2"), ("bar 2", "1")]
    assert 'column B ("Lx No") is read as the number: it holds 1 to 2.' in _told(scene)


def test_two_columns_of_positions_are_asked_about(tmp_path: Path) -> None:
    report = _asked(tmp_path, NUMBERS.format("Lx No", "Bar 1", "Bar 2", "Bar 1"))
    assert "one column that holds the position" in report


def test_a_column_of_the_scenes_positions_is_the_position(tmp_path: Path) -> None:
    scene = _scene(tmp_path, NUMBERS.replace("Bar,", "Whereupon,", 1).format("No.", 1, 2, 1))
    assert _numbers(scene) == [("bar 1", "1"), ("bar 1", "2"), ("bar 2", "1")]


@pytest.mark.parametrize(
    "above", ["Bar 2\nNo.,Place,Type,Focus,Tag\n", "No.,Place,Type,Focus,Tag\nBar 2\n"]
)
def test_positions_under_the_name_of_one_stay_a_remark(above: str, tmp_path: Path) -> None:
    scene = _scene(tmp_path, above + "1,1 m SL,PC 30,Area 1,Bar 1\n2,0,PC 30,Piano,Bar 1\n")
    assert _numbers(scene) == [("bar 2", "1"), ("bar 2", "2")]


MARK = "Position,Unit,{},Lamp,Focus\nLX 4,1,{},Cyc 100,Cyc\nLX 4,2,{},Cyc 100,Cyc\n"


def test_marks_are_counted_where_the_pipe_has_them(tmp_path: Path) -> None:
    scene = _scene(tmp_path, MARK.format("Mark", 1, 4), "rep", FIVE)
    assert [unit.at for unit in scene.units] == pytest.approx([16 * 0.3048, -8 * 0.3048])
    says = 'column C ("Mark") is read as the place: it holds 1 to 4, which count the marks of the pipe.'
    assert says in _told(scene)


@pytest.mark.parametrize(
    ("heading", "cells", "feet"),
    [
        ("Mark", ("1.5", "4"), (1.5, 4)),  # no count
        ("Mark", ("7", "4"), (7, 4)),  # more than there are
        ("Mark", ("4 ft SR", "4"), (-4, 4)),
        ("Mark (ft)", ("1", "4"), (1, 4)),
        ("At", ("1", "4"), (1, 4)),
    ],
)
def test_lengths_are_no_count_of_marks(
    heading: str, cells: tuple[str, str], feet: tuple[float, float], tmp_path: Path
) -> None:
    scene = _scene(tmp_path, MARK.format(heading, *cells), "rep", FIVE)
    assert [unit.at for unit in scene.units] == pytest.approx([0.3048 * at for at in feet])


def test_a_mark_of_a_pipe_without_marks_is_asked_about(tmp_path: Path) -> None:
    rows = MARK.format("Mark", 1, 4) + "LX 1,1,2,ERS 30,Area 1\n"
    assert "marks" in _asked(tmp_path, rows, "rep", FIVE)


@pytest.mark.parametrize("total", [",3,lamps in all", ",,Total: 3", ",3,PC altogether"])
def test_a_row_that_counts_the_units_is_none(total: str, tmp_path: Path) -> None:
    rows = "Bar,Qty,Type,No.,Place,Focus\nBar 1,1,PC 30,1,1 m SL,Area 1\n"
    scene = _scene(tmp_path, f"{rows}{total}\n")
    assert _numbers(scene) == [("bar 1", "1")]
    assert "row 3 holds no unit" in _told(scene)


def test_a_row_of_three_units_is_no_count_of_all(tmp_path: Path) -> None:
    rows = "Bar,Qty,Type,No.,Place,Focus\nBar 1,1,PC 30,1,1 m SL,Area 1\n,3,PC 30,,,\n"
    assert "row 3" in _asked(tmp_path, rows)


def test_numbers_of_one_unit_a_position_may_be_the_positions(tmp_path: Path) -> None:
    rows = "Bar,Lx No,Place,Type,Focus\nBar 1,1,1 m SL,PC 30,Area 1\nBar 2,2,0,PC 30,Piano\n"
    assert "number" in _asked(tmp_path, rows)


def test_the_rest_of_a_note_is_no_count_of_all(tmp_path: Path) -> None:
    rows = "Bar,No.,Place,Type,Focus,Notes\nBar 1,1,1 m SL,PC 30,Area 1,sharp\n,,,,,top cut altogether\n"
    assert _scene(tmp_path, rows).units[0].note == "sharp; top cut altogether"
