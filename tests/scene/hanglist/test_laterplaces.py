"""A column of where units are moved to, beside that of where they hung before."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from tests.scene.hanglist.listed import MORE, asked_of, places_of, scene_of
from tests.scene.written import refused, write_scene

HEADED = "position,number,{},kind,target\n"
ROWS = (
    "LX 1,1,2 m SL,{},spot,Door\n",
    "LX 1,2,1 m SR,{},wide,Table\n",
    "LX 1,3,3 m SR,{},spot,A\n",
)


def _listed(headings: str, *moved: str) -> str:
    return HEADED.format(headings) + "".join(
        row.format(to) for row, to in zip(ROWS, moved, strict=True)
    )


@pytest.mark.parametrize("heading", ["Moved to", "Move to", "Rehung at", "Changed to"])
def test_a_unit_hangs_where_it_is_moved_to(tmp_path: Path, heading: str) -> None:
    text = _listed(f"Distance,{heading}", "2.5 m SL", "", "")
    scene = scene_of(tmp_path, text)
    assert [unit.at for unit in scene.units] == [2.5, -1.0, -3.0]
    assert "2 m SL" in str(scene.units[0].note)  # where it was
    assert f'("{heading}") is read as the place' in "\n".join(one.says for one in scene.taken)


@pytest.mark.parametrize("headings", ["Distance,Moved to", "Distance,Changed to"])
@pytest.mark.parametrize("dash", ["-", "–", " — "])
def test_a_dash_is_no_place_that_a_unit_moved_to(tmp_path: Path, headings: str, dash: str) -> None:
    text = _listed(headings, "2.5 m SL", dash, dash)
    assert places_of(tmp_path, text) == [2.5, -1.0, -3.0]


def test_where_all_were_and_all_are_moved_to(tmp_path: Path) -> None:
    assert places_of(tmp_path, _listed("Was,Moved to", "2.5 m SL", "1.2 m SR", "3 m SR")) == [
        2.5,
        -1.2,
        -3.0,
    ]


@pytest.mark.parametrize("heading", ["New", "Revised", "Now", "As hung", "3rd", "12th June"])
def test_a_time_alone_over_places_is_asked_about(tmp_path: Path, heading: str) -> None:
    assert heading in asked_of(tmp_path, _listed(f"Distance,{heading}", "2.5 m SL", "", ""))


@pytest.mark.parametrize("moved", ["2.5", "2.5 m SL;?", "LX 2"])
def test_a_move_that_is_not_plain_is_asked_about(tmp_path: Path, moved: str) -> None:
    first, _, second = moved.partition(";")
    assert "Moved to" in asked_of(tmp_path, _listed("Distance,Moved to", first, second, ""))


@pytest.mark.parametrize("heading", ["New", "Rev", "3rd"])
def test_figures_under_a_time_are_no_places(tmp_path: Path, heading: str) -> None:
    assert places_of(tmp_path, _listed(f"Distance,{heading}", "12", "14", "")) == [2.0, -1.0, -3.0]


@pytest.mark.parametrize(
    ("heading", "cell"), [("Refocus to", "Door"), ("Re-aim", "A"), ("Move to bar", "LX 2")]
)
def test_a_later_target_or_bar_is_asked_about(tmp_path: Path, heading: str, cell: str) -> None:
    assert heading in asked_of(tmp_path, _listed(f"Distance,{heading}", "", cell, ""))
    assert places_of(tmp_path, _listed(f"Distance,{heading}", "", "", "")) == [2.0, -1.0, -3.0]


@pytest.mark.parametrize("says", ["", 'at = "Distance"', 'remark = "Changed to"'])
def test_channels_that_changed_are_no_places_where_the_scene_says_so(
    tmp_path: Path, says: str
) -> None:
    settings = f'hang = "hang.csv"\n[hang_columns]\n{says}\n'
    path = write_scene(tmp_path, MORE, settings=settings)
    (tmp_path / "hang.csv").write_text(_listed("Distance,Changed to", "12", "", "14"), "utf-8")
    if says:
        assert [unit.at for unit in load_scene(path).units] == [2.0, -1.0, -3.0]
    else:
        asked = "\n".join(mistake.text() for mistake in refused(path))
        assert 'at = "Distance"' in asked
        assert 'remark = "Changed to"' in asked
