"""The rules that the lists of this folder brought, each with a case that it leaves alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from aimcalc.scene.model import Scene
from tests.unseen3.test_unseen3 import HERE

HEADS = "Position,Unit,Distance,Type,Focus,Channel\n"


def _scene(root: Path, house: str, rows: str) -> Scene:
    text = (HERE / f"{house}.house").read_text("utf-8").replace("HANG", 'hang = "list.csv"', 1)
    (root / "scene.toml").write_text(text.replace("MARKS", ""), "utf-8")
    (root / "list.csv").write_text(rows, "utf-8")
    return load_scene(str(root))


def _asked(root: Path, house: str, rows: str) -> str:
    with pytest.raises(SceneError) as refused:
        _scene(root, house, rows)
    return refused.value.report()


def test_a_letter_before_a_number_is_a_position_only_where_it_is_its_whole_name(
    tmp_path: Path,
) -> None:
    rows = "Unit,Distance,Kind,Focus\n{},1 m SL,ers-30,zone 1\n"
    (unit,) = _scene(tmp_path, "studio", rows.format("A1")).units
    assert (unit.position, unit.number) == ("A", "1")
    assert "position" in _asked(tmp_path, "studio", rows.format("W1"))  # no "Wall pipe SL"


@pytest.mark.parametrize(
    ("words", "target"),
    [("down stage left", "DSL"), ("Upstage Right", "USR"), ("up centre", "USC"), ("D.S.R.", "DSR")],
)
def test_a_part_of_the_stage_in_words_is_its_three_letters(
    words: str, target: str, tmp_path: Path
) -> None:
    (unit,) = _scene(tmp_path, "hall", f"{HEADS}LX 1,1,1 m SL,PC 1k,{words},1\n").units
    assert unit.target == target


def test_half_of_a_part_of_the_stage_is_asked_about(tmp_path: Path) -> None:
    told = _asked(tmp_path, "hall", f"{HEADS}LX 1,1,1 m SL,PC 1k,down stage,1\n")
    assert "DSL, DSC, DSR" in told


def test_a_title_that_comes_again_is_no_unit_and_a_unit_is_no_title(tmp_path: Path) -> None:
    title = "The Show,,,Schedule,,Page {}\n"
    rows = [
        title.format(1),
        HEADS,
        "LX 1,1,1 m SL,PC 1k,DSL,1\n",
        title.format(2),
        HEADS,
        "LX 1,2,2 m SL,PC 1k,DSL,2\n",
    ]
    assert [u.number for u in _scene(tmp_path, "hall", "".join(rows)).units] == ["1", "2"]
    strange = [*rows[:3], "The Other,,,Schedule,DSL,Page 2\n", *rows[4:]]
    assert "The Other" in _asked(tmp_path, "hall", "".join(strange))


def test_a_word_for_a_side_is_what_the_list_says_or_what_it_commonly_is_and_told(
    tmp_path: Path,
) -> None:
    row = "LX 1,1,1.5 OP,PC 1k,DSR,1\n"
    (unit,) = _scene(tmp_path, "hall", f'"OP: stage right, PS: stage left"\n{HEADS}{row}').units
    assert unit.at == pytest.approx(-1.5)
    alone = _scene(tmp_path, "hall", HEADS + row)
    assert alone.units[0].at == pytest.approx(-1.5)
    assert any("1.5 OP" in taken.says for taken in alone.taken)


def test_a_list_in_which_no_unit_is_found_is_asked_about(tmp_path: Path) -> None:
    told = _asked(tmp_path, "hall", "Position,Unit,Channel,Thing,Whither\nLX 1,1,7,Gizmo,Moon\n")
    assert "none has one" in told
    assert "[hang_columns]" in told


@pytest.mark.parametrize(
    ("places", "asks"),
    [
        (("15'", "15'"), True),
        (("15'", "14'"), False),
        (("15' SL", "15' SR"), False),
        (("+15'", "-15'"), False),
    ],
)
def test_one_place_twice_without_a_side_is_asked_about(
    places: tuple[str, str], asks: bool, tmp_path: Path
) -> None:
    rows = HEADS + "".join(
        f"1st Electric,{n},{place},ERS 26,Area {2 * n - 1},{n}\n"
        for n, place in enumerate(places, 1)
    )
    if asks:
        assert "no side is written" in _asked(tmp_path, "college", rows)
    else:
        assert len(_scene(tmp_path, "college", rows).units) == 2


def test_places_up_and_down_the_stage_are_known_by_their_cells(tmp_path: Path) -> None:
    rows = (
        "Pipe,No,Location,Type,Focus\n{0},1,2.1 m US,ers-30,zone 1\n{0},2,0.7 m DS,ers-30,zone 2\n"
    )
    units = _scene(tmp_path, "studio", rows.format("Wall pipe SL")).units
    assert [u.at for u in units] == [pytest.approx(2.1), pytest.approx(-0.7)]
    assert "2.1 m US" in _asked(tmp_path, "studio", rows.format("B"))  # a pipe across the stage


def test_the_plaster_line_is_where_it_crosses_the_pipe(tmp_path: Path) -> None:
    """From 3 m DS to 5 m US: its middle, where places count from, is 1 m US."""
    rows = "Pipe,No,At,Type,Focus\nWall pipe SL,1,plaster line,ers-30,zone 1\n"
    _scene(tmp_path, "studio", rows)
    text = (tmp_path / "scene.toml").read_text("utf-8").replace("[4.2, 3, 3.6]", "[4.2, 5, 3.6]")
    (tmp_path / "scene.toml").write_text(text, "utf-8")
    assert load_scene(str(tmp_path)).units[0].at == pytest.approx(-1.0)


def test_the_middle_is_a_place_where_the_zero_is_there_too(tmp_path: Path) -> None:
    rows = f"{HEADS}LX 1,1,in the middle,PC 1k,DSL,1\n"
    assert _scene(tmp_path, "hall", rows).units[0].at == 0
    text = (tmp_path / "scene.toml").read_text("utf-8").replace('to = "5 m SL"', 'to = "4 m SL"')
    (tmp_path / "scene.toml").write_text(text, "utf-8")
    with pytest.raises(SceneError, match="in the middle"):
        load_scene(str(tmp_path))


def test_signs_behind_their_sides_say_which_is_which(tmp_path: Path) -> None:
    rows = "Position,Unit,X in m ({}),Type,Focus\nLX 1,1,-2,PC 1k,DSL\n"
    (unit,) = _scene(tmp_path, "hall", rows.format("SR +; SL -")).units
    assert unit.at == pytest.approx(2.0)
    (unit,) = _scene(tmp_path, "hall", rows.format("SL +; SR -")).units
    assert unit.at == pytest.approx(-2.0)
