"""The rules that the lists of this folder brought, each with a case that it leaves alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from aimcalc.scene.model import Scene
from tests.unseen4.test_unseen4 import HERE


def _scene(root: Path, house: str, rows: str, marks: str = "") -> Scene:
    text = (HERE / f"{house}.house").read_text("utf-8").replace("HANG", 'hang = "list.csv"', 1)
    (root / "scene.toml").write_text(text.replace("MARKS", marks), "utf-8")
    (root / "list.csv").write_text(rows, "utf-8")
    return load_scene(str(root))


def _asked(root: Path, house: str, rows: str, marks: str = "") -> str:
    with pytest.raises(SceneError) as refused:
        _scene(root, house, rows, marks)
    return refused.value.report()


def _told(scene: Scene) -> str:
    return "\n".join(taken.says for taken in scene.taken)


ONE = "{}\nNo.,Distance,Lantern,Focus\n1,1 m SL,ers-30,area 1\n"


@pytest.mark.parametrize(
    "title", ["House of Paper: Bar 2", "Bar 2 - hang - Tuesday", "Hang (bar 2)", "Paper | BAR 2"]
)
def test_a_title_names_the_position_of_its_units(title: str, tmp_path: Path) -> None:
    scene = _scene(tmp_path, "drama", ONE.format(title))
    assert scene.units[0].position == "Bar 2"
    assert "Bar 2" in _told(scene)


@pytest.mark.parametrize(
    "title",
    [
        "House of Paper: Bar 2 / Bar 3",  # which of them
        "Drawn by: group 2 - Bar 3, Bar 1",
        "Scene 2 - page 3 - 2",  # a number alone is no name
        "House of Paper: Bar 7",
        "House of Paper: without Bar 2",
    ],
)
def test_a_title_that_names_no_one_position_is_not_taken_for_it(title: str, tmp_path: Path) -> None:
    assert "position" in _asked(tmp_path, "drama", ONE.format(f'"{title}"'))


CENTERS = (
    "{}\nPosition,Unit,Type,Focus\n2nd Electric,1,ERS 36,Area 4\n2nd Electric,2,ERS 36,Area 5\n"
)


@pytest.mark.parametrize(
    ("line", "inches"),
    [
        ('"All units on 24"" centers"', 12),
        ("All units 3 ft apart", 18),
        ("Hung on 20 in. c/c from the SL side", 10),
        ("Units are where they were", 9),  # 18 in is assumed, with a warning
    ],
)
def test_a_line_says_how_far_apart_units_are(line: str, inches: float, tmp_path: Path) -> None:
    """Two units about the centre line are half of that to either side."""
    scene = _scene(tmp_path, "civic", CENTERS.format(line))
    assert [u.at for u in scene.units] == pytest.approx([inches * 0.0254, -inches * 0.0254])
    assert any(t.severity == "warn" for t in scene.taken) is (inches == 9)


def test_units_that_count_from_the_other_end_are_asked_about(tmp_path: Path) -> None:
    line = '"Units on 24"" centers, numbered SR to SL"'
    assert "count from SR" in _asked(tmp_path, "civic", CENTERS.format(line))


def test_another_spacing_than_that_of_the_pipe_is_asked_about(tmp_path: Path) -> None:
    rows = CENTERS.format('"All units on 24"" centers"').replace("2nd", "1st")
    assert "another spacing" in _asked(tmp_path, "civic", rows, 'spacing = "18 in"')
    scene = _scene(tmp_path, "civic", rows, 'spacing = "24 in"')
    assert scene.units[0].at == pytest.approx(12 * 0.0254)


HOOKUP = (
    "{}\nChan,Dim,Position,Unit,Place,Type,Focus\n1,12,Cove,1,17' SL,ERS 19,Area 1\n"
    "{},13,Cove,2,8' SL,ERS 19,Area 2\n3,{},1st Electric,1,8' SL,ERS 19,Area 2\n"
)


@pytest.mark.parametrize(
    ("title", "cell", "dimmer", "channel"),
    [
        ("Channel hookup", "", "14", "1"),
        ("Channel hookup", "-", "14", None),  # it says that it has none
        ("Hang list", "", "14", None),  # by position, as far as one can see
    ],
)
def test_a_channel_stands_once_where_the_list_goes_by_channel(
    title: str, cell: str, dimmer: str, channel: str | None, tmp_path: Path
) -> None:
    scene = _scene(tmp_path, "civic", HOOKUP.format(title, cell, dimmer))
    assert [u.channel for u in scene.units] == ["1", channel, "3"]
    assert "channel is blank" in _told(scene)


def test_metres_and_centimetres_are_a_place_beside_sides_alone(tmp_path: Path) -> None:
    rows = "Bar,Unit,m,cm,{},Kind,Focus\nBar 1,1,2,5,{},ers-30,area 1\n"
    (unit,) = _scene(tmp_path, "drama", rows.format("Side", "SR")).units
    assert unit.at == pytest.approx(-2.05)
    rows = "Bar,Unit,m,cm,{},Kind,Focus\nBar 1,1,{},5,SR,ers-30,area 1\n"
    assert "centimetres" in _asked(tmp_path, "drama", rows.format("Side", "2.5"))


@pytest.mark.parametrize("heads", ["m,mm,Side", "cm,m,Side", "m,Side,cm", "m,cm,Dimmer"])
def test_lengths_that_are_no_place_together_are_not_taken_for_one(
    heads: str, tmp_path: Path
) -> None:
    cells = {"Side": "SR", "Dimmer": "7"}
    row = ",".join(cells.get(head, "2") for head in heads.split(","))
    rows = f"Bar,Unit,{heads},Kind,Focus\nBar 1,1,{row},ers-30,area 1\n"
    assert "at" in _asked(tmp_path, "drama", rows)


@pytest.mark.parametrize(("words", "target"), [("the table", "table"), ("The Window", "window")])
def test_a_target_may_have_its_article(words: str, target: str, tmp_path: Path) -> None:
    rows = f"Bar,Unit,Distance,Kind,What is it pointed at?\nBar 1,1,1 m SL,ers-30,{words}\n"
    scene = _scene(tmp_path, "drama", rows)
    assert scene.units[0].target == target
    assert words in _told(scene)


def test_where_is_a_place_beside_positions_and_one_without_them(tmp_path: Path) -> None:
    rows = "{},Unit,Where,Kind,Lights up\nBar 2,1,{},ers-30,area 1\n"
    marks = 'marks = ["3 m SL", 0]'
    (unit,) = _scene(tmp_path, "drama", rows.format("Bar", "mark 1"), marks).units
    assert unit.at == pytest.approx(3.0)
    (unit,) = _scene(tmp_path, "drama", rows.format("Remarks", "Bar 2"), marks).units
    assert (unit.position, unit.at) == ("Bar 2", pytest.approx(3.0))


def test_a_position_alone_under_two_headings_is_no_list_of_units(tmp_path: Path) -> None:
    assert "of 1 row none has one" in _asked(tmp_path, "arts", "Position,Number\nLX 1,\n")
