"""P and O behind figures of places, the prompt side and the other where both stand in a column."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_of, places_of

HEAD = "Pipe;No;Dist. from centre;Type;Focus\n"


def _text(*cells: str, over: str = "") -> str:
    rows = [f"LX 1;{n};{cell};spot;A\n" for n, cell in enumerate(cells, 1)]
    return (f"{over}\n\n" if over else "") + HEAD + "".join(rows)


@pytest.mark.parametrize(
    ("cells", "read"),
    [
        (("2.5 P", "1 P", "1 OP"), [2.5, 1.0, -1.0]),
        (("2.5m P", "0", "1m OP"), [2.5, 0.0, -1.0]),
        (("P 2.5", "OP 1", "CL"), [2.5, -1.0, 0.0]),
        (("2.5 P", "1 O"), [2.5, -1.0]),
        (("2.5P", "1.2O"), [2.5, -1.2]),
        (("2.5 (P)", "1 (OP)"), [2.5, -1.0]),
        (("2.5 P side", "1 OP side"), [2.5, -1.0]),
        (("9ft 6 P", "3ft 0 OP"), [2.8956, -0.9144]),
    ],
)
def test_p_beside_op_is_the_prompt_side(
    tmp_path: Path, cells: tuple[str, ...], read: list[float]
) -> None:
    found = places_of(tmp_path, _text(*cells))
    assert [float(at or 0) for at in found] == pytest.approx(read)


def test_p_is_the_side_that_a_line_says_of_ps(tmp_path: Path) -> None:
    text = _text("2.5 P", "1 OP", over="PS is stage right in this house")
    assert places_of(tmp_path, text) == [-2.5, 1.0]


def test_p_alone_is_asked(tmp_path: Path) -> None:
    assert "SL or SR" in asked_of(tmp_path, _text("2.5 P", "1 P"))
