"""A row of a hang list that names a sort of positions over several of it."""

from __future__ import annotations

from pathlib import Path

from aimcalc.scene.hanglist.names.sections import sort_over
from aimcalc.scene.loading import load_scene
from tests.scene.hanglist.listed import asked_of
from tests.scene.written import write_scene

PIPE = '\n[[pipe]]\nname = "pipe SR"\ntrim = 6\ny = 4\nfrom = -5\nto = 5\n'
BOOM = '\n[[boom]]\nname = "boom SL"\nx = 6\ny = 1\nheight = 4\n'
TEXT = "Pipe,No,Fixture,Place,Focus\nSR,1,spot,2,A\n{}SR,2,spot,3,A\n"


def _positions(tmp_path: Path, text: str) -> list[str]:
    path = write_scene(tmp_path, PIPE, BOOM, settings='hang = "list.csv"')
    (tmp_path / "list.csv").write_text(text, encoding="utf-8")
    return [unit.position for unit in load_scene(path).units]


def test_below_a_row_that_names_a_sort_a_side_is_one_of_that_sort(tmp_path: Path) -> None:
    assert _positions(tmp_path, TEXT.format("BOOMS,,,,\n")) == ["pipe SR", "boom SR"]


def test_another_row_of_words_names_no_sort(tmp_path: Path) -> None:
    assert _positions(tmp_path, TEXT.format("ACT TWO,,,,\n")) == ["pipe SR", "pipe SR"]


def test_sorts_over_several() -> None:
    assert [sort_over(words) for words in ("TOWERS", "Booms:", "- stands -")] == [
        *("tower", "boom", "stand")
    ]
    assert [sort_over(words) for words in ("Tower", "notes", "boom SR", "")] == [""] * 4


def test_what_stands_under_a_counted_position_that_the_scene_has_not_is_asked(
    tmp_path: Path,
) -> None:
    text = (
        "LX 1\nUnit,Place,Fixture,Focus\n1,2,spot,A\n\n{}\nUnit,Place,Fixture,Focus\n1,2,spot,A\n"
    )
    for name in ("LX 9", "Boom 4 SL", "Pipe no. 7", "LX 9 (cont.)"):
        assert "position" in asked_of(tmp_path, text.format(name))
    assert not asked_of(tmp_path, text.format("page 2").replace("\n1,2,spot,A\n\n", "\n"))


def test_what_is_spelled_out_is_no_other_of_a_sort(tmp_path: Path) -> None:
    pipes = [
        f'\n[[pipe]]\nname = "{name}"\ntrim = 6\ny = {y}\nfrom = -5\nto = 5\n'
        for name, y in (("Front Truss", 5), ("Rear Truss", 7), ("Back Bar", 8))
    ]
    path = write_scene(tmp_path, *pipes, settings='hang = "list.csv"')
    rows = "Rear Truss,1,spot,2 SL,A\nBack Bar,1,spot,1 SL,A\nRear,2,spot,1 SL,A\n"
    text = f"TRUSSES,,,,\nTruss,No,Fixture,Place,Focus\n{rows}"
    (tmp_path / "list.csv").write_text(text, encoding="utf-8")
    read = [unit.position for unit in load_scene(path).units]
    assert read == ["Rear Truss", "Back Bar", "Rear Truss"]
