"""Heights on booms: in a column that speaks of sides, by a legend, down from the top. The boom is 4 m."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.places.heights import legend_of
from aimcalc.scene.model import Scene
from tests.scene.hanglist.listed import asked_in, scene_in
from tests.scene.written import BASE

HEAD = "Position;No;{};Lamp;Focus"
BAR = "LX 1;1;1;spot;A"


def _scene(root: Path, *lines: str) -> Scene:
    return scene_in(root, BASE.format(settings='hang = "list.csv"'), lines)


def _asked(root: Path, *lines: str) -> str:
    return asked_in(root, BASE.format(settings='hang = "list.csv"'), lines)


def _places(scene: Scene) -> list[float]:
    return [round(unit.at or 0.0, 6) for unit in scene.units]


def test_a_heading_with_a_sign_does_not_make_a_side_of_a_height(tmp_path: Path) -> None:
    rows = [HEAD.format("mm from CL (- = SR)"), "LX 1;1;-3500;spot;A", "boom SR;1;1800;spot;A"]
    scene = _scene(tmp_path, *rows)
    assert _places(scene) == [-3.5, 1.8]
    (warned,) = [t for t in scene.taken if "heights on boom SR" in t.says]
    assert warned.severity == "warn"


def test_it_is_no_warning_where_a_line_says_that_they_are_heights(tmp_path: Path) -> None:
    rows = [HEAD.format("Offset (m, SL +)"), BAR, "boom SR;1;1,8;spot;A"]
    scene = _scene(tmp_path, *rows, "Boom offsets = height above deck")
    assert _places(scene) == [1.0, 1.8]
    assert [t.severity for t in scene.taken if "heights on boom SR" in t.says] == ["note"]


def test_an_end_in_the_heading_is_none_of_a_boom(tmp_path: Path) -> None:
    rows = [HEAD.format("From SL end (m)"), BAR, "boom SR;1;1,8;spot;A"]
    assert "an end or side SL" in _asked(tmp_path, *rows)


def test_a_height_that_says_so_does_not_count_from_the_end_in_the_heading(tmp_path: Path) -> None:
    for k, height in enumerate(
        ("1.8 m up", "1.8m AFF", "ht 1.8 m", "1,8 m above deck", "1.8 off floor")
    ):
        (tmp_path / str(k)).mkdir()
        rows = [HEAD.format("From SL end (m)"), BAR, f"boom SR;1;{height};spot;A"]
        assert _places(_scene(tmp_path / str(k), *rows)) == [4.0, 1.8]


def test_a_line_says_that_booms_have_heights_under_a_heading_of_an_end(tmp_path: Path) -> None:
    rows = [HEAD.format("From SL end (m)"), BAR, "boom SR;1;1,8;spot;A"]
    scene = _scene(tmp_path, "Boom offsets = height above deck", *rows)
    assert _places(scene) == [4.0, 1.8]
    assert any("heights on boom SR" in taken.says for taken in scene.taken)


def test_words_for_heights_are_read_by_a_legend(tmp_path: Path) -> None:
    rows = [HEAD.format("Height/Pos"), "boom SR;1;shin;spot;A", "boom SR;2;Mid;spot;A"]
    scene = _scene(tmp_path, "Boom heights:;shin 0.4;mid 1.3 m;head 220 cm", *rows)
    assert _places(scene) == [0.4, 1.3]


def test_words_for_heights_without_a_legend_are_asked_about(tmp_path: Path) -> None:
    rows = [HEAD.format("Height"), "boom SR;1;shin;spot;A", "boom SR;2;1;spot;A"]
    assert "length" in _asked(tmp_path, *rows)


def test_a_column_of_sides_may_say_that_a_figure_is_a_height(tmp_path: Path) -> None:
    rows = ["Position;No;Dist;Side;Lamp;Focus", "LX 1;1;1;SR;spot;A", "boom SR;1;0.6;ht;spot;A"]
    assert _places(_scene(tmp_path, *rows)) == [-1.0, 0.6]


def test_a_dash_for_the_side_is_none_on_a_boom_and_no_minus(tmp_path: Path) -> None:
    rows = ["Position;No;Dist;Side;Lamp;Focus", "LX 1;1;1;SR;spot;A", "boom SR;1;0.6;-;spot;A"]
    assert _places(_scene(tmp_path, *rows)) == [-1.0, 0.6]


def test_heights_count_down_from_the_top_where_it_is_said(tmp_path: Path) -> None:
    card = ["boom SR (cm DOWN from the top);;;", "No;Down;Kind;Focus;Gel;Ch"]
    assert _places(_scene(tmp_path, *card, "1;10;spot;A", "2;360;spot;A")) == [3.9, 0.4]
    assert "down from its top" in _asked(tmp_path, *card, "1;410;spot;A", "2;10;spot;A")


def test_a_heading_from_top_counts_down_too(tmp_path: Path) -> None:
    rows = [HEAD.format("Distance from top (m)"), "boom SR;1;0.5;spot;A", "boom SR;2;1;spot;A"]
    assert _places(_scene(tmp_path, *rows)) == [3.5, 3.0]


def test_down_alone_is_no_heading_of_heights(tmp_path: Path) -> None:
    rows = ["Position;No;Height;Down;Lamp;Focus", "boom SR;1;2;35;spot;A", "boom SR;2;1;40;spot;A"]
    assert _places(_scene(tmp_path, *rows)) == [2.0, 1.0]


def test_an_order_of_hanging_is_no_place_from_the_top(tmp_path: Path) -> None:
    rows = [HEAD.format("Height (m)"), "boom SR;1;3;spot;A", "boom SR;2;1;spot;A"]
    assert _places(_scene(tmp_path, "BOOMS - hang from top down", *rows)) == [3.0, 1.0]


def test_a_column_of_words_for_heights_is_that_of_places_whatever_heads_it(tmp_path: Path) -> None:
    rows = [HEAD.format("Slot"), "boom SR;1;shin;spot;A", "boom SR;2;Mid;spot;A"]
    scene = _scene(tmp_path, "shin = 0.4 m, mid = 1.3 m (off the deck)", *rows)
    assert _places(scene) == [0.4, 1.3]
    assert "note" in {taken.severity for taken in scene.taken}


def test_a_height_beside_a_place_across_is_the_place_on_a_boom(tmp_path: Path) -> None:
    head = "Position;No;From CL;Height;Lamp;Focus"
    scene = _scene(tmp_path, head, "LX 1;1;2 m SL;6;spot;A", "boom SR;1;3 m SR;2.5;spot;A")
    assert _places(scene) == [2.0, 2.5]


def test_gaps_on_a_boom_are_heights_where_a_line_says_so_and_asked_about_else(
    tmp_path: Path,
) -> None:
    rows = [HEAD.format("Gap"), "LX 1;1;1;spot;A", "LX 1;2;2;spot;A", "boom SR;1;2.5;spot;A"]
    line = "First from the SL end, then from the one before."
    scene = _scene(tmp_path, f"{line} Booms = from floor", *rows)
    assert _places(scene) == [4.0, 2.0, 2.5]
    assert "a height on boom SR" in _asked(tmp_path, line, *rows)


_HEADED = "Position;No;From centre;{};Lamp;Focus"


@pytest.mark.parametrize(
    "heading",
    [
        *("Height off floor", "Height to clamp", "Clamp ht", "Ht. above the deck", "How high"),
        *("Distance off deck (m)", "From deck to yoke", "Mounting height", "Elevation", "High (m)"),
    ],
)
def test_ways_to_head_heights_beside_a_column_of_places(heading: str, tmp_path: Path) -> None:
    rows = [_HEADED.format(heading), "LX 1;1;1 m SL;;spot;A", "boom SR;1;;1.8 m;spot;A"]
    assert _places(_scene(tmp_path, *rows)) == [1.0, 1.8]


@pytest.mark.parametrize("heading", ["Trim", "Up stage", "Rod"])
def test_lengths_of_units_without_a_place_are_not_passed_over(heading: str, tmp_path: Path) -> None:
    rows = [_HEADED.format(heading), "LX 1;1;1 m SL;;spot;A", "boom SR;1;;1.8 m;spot;A"]
    assert f'column D ("{heading}") may hold it' in _asked(tmp_path, *rows)


def test_lengths_of_cables_are_no_places(tmp_path: Path) -> None:
    rows = [_HEADED.format("Cable"), "LX 1;1;1 m SL;5 m;spot;A", "boom SR;1;;10 m;spot;A"]
    scene = _scene(tmp_path, *rows)
    assert scene.units[0].at == 1.0
    assert any("1 unit has no height" in taken.says for taken in scene.taken)


@pytest.mark.parametrize(
    ("written", "height"),
    [
        *(("1.8 m from top", 2.2), ("1.8 m down from the top", 2.2), ("180 cm below top", 2.2)),
        *(("1.8 m off the deck", 1.8), ("1.8 m above floor", 1.8), ("1.8 m up", 1.8)),
    ],
)
def test_a_place_says_itself_from_where_it_counts(
    written: str, height: float, tmp_path: Path
) -> None:
    rows = ["Position;No;Placement;Lamp;Focus", "LX 1;1;1 m SL;spot;A", "LX 1;2;1 m SR;spot;A"]
    scene = _scene(tmp_path, *rows, f"boom SR;1;{written};spot;A")
    assert _places(scene) == [1.0, -1.0, height]
    assert any(written in taken.says for taken in scene.taken)


@pytest.mark.parametrize(
    "line", ["'Down' is from the top of the boom", 'Measured "down" means from its top']
)
def test_a_line_explains_a_heading_in_quotes(line: str, tmp_path: Path) -> None:
    rows = [line, "Position;No;Down;Lamp;Focus", "boom SR;1;1 m;spot;A", "boom SR;2;3 m;spot;A"]
    assert _places(_scene(tmp_path, *rows)) == [3.0, 1.0]


@pytest.mark.parametrize("heading", ["Colored plastic", "Coloured gel", "Gel sheet", "Swatch"])
def test_plain_words_for_a_gel(heading: str, tmp_path: Path) -> None:
    rows = [f"Position;No;Place;Lamp;Focus;{heading}", "LX 1;1;1 m SL;spot;A;light amber"]
    scene = _scene(tmp_path, *rows, "LX 1;2;1 m SR;spot;A;")
    assert [unit.colour for unit in scene.units] == ["light amber", None]


@pytest.mark.parametrize(
    "lines",
    [
        [["Level heights above the floor:"], ["SHIN", "1'-6\""], ["HEAD", "8'-6\""]],
        [["Shin", "18"], ["Head", "8.5"]],
        [["Shins at 1'-6\" above the deck"], ["Heads at 8'-6\" above the deck"]],
        [["SHIN", "HEAD"], ["1'-6\"", "8'-6\""]],
        [["Head = 8'6\", shin = 1'6\""]],
    ],
)
def test_a_legend_of_heights_in_rows(lines: list[list[str]]) -> None:
    found = legend_of(lines)
    assert found["head"].startswith("8")
    assert found["shins"].startswith("1")


@pytest.mark.parametrize(
    "lines",
    [
        [["Shin", "1'-6\""]],  # one alone explains no list of them
        [["SHIN", "HEAD"], ["1'-6\"", "spot"]],
        [["LX 1", "1", "Head", "5", "spot"], ["LX 1", "2", "Shin", "6", "spot"]],  # units
    ],
)
def test_what_is_no_legend_of_heights(lines: list[list[str]]) -> None:
    assert legend_of(lines) == {}
