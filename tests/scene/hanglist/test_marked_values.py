"""Colours, channels and circuits with a mark of doubt or in brackets: the value is read without it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import scene_of


@pytest.mark.parametrize("cell", ["L202?", "L202*", "(L202)", "L202 ?", "[L202]"])
def test_a_mark_beside_a_colour_is_none_of_it(cell: str, tmp_path: Path) -> None:
    text = f"On,Unit,Place,Fixture,Focus,Colour\nLX 1,1,0,spot,A,L201\nLX 1,2,1 SL,spot,A,{cell}\n"
    assert [unit.colour for unit in scene_of(tmp_path, text).units] == ["L201", "L202"]


@pytest.mark.parametrize("cell", ["12?", "12*", "(12)", "12 ?", "12??"])
@pytest.mark.parametrize("key", ["Channel", "Circuit"])
def test_a_mark_beside_a_channel_or_a_circuit_is_none_of_it(
    key: str, cell: str, tmp_path: Path
) -> None:
    text = f"On,Unit,Place,Fixture,Focus,{key}\nLX 1,1,0,spot,A,11\nLX 1,2,1 SL,spot,A,{cell}\n"
    found = [getattr(unit, key.lower()) for unit in scene_of(tmp_path, text).units]
    assert found == ["11", "12"]
