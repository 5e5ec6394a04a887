"""The unit of length that a line round the table says, in whatever words; a unit that is passed over puts
every lamp elsewhere.

By hand: 5 ft SL is x = 1.524; a rail from the plaster line to 8 m has its zero 4 m upstage, so that 1.2 ft
US of the line is 0.36576 - 4 from there.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import ALTAR, BAR_AND_RAIL, HALL, scene_in

HOUSE = HALL + BAR_AND_RAIL.replace("[-7, -6, 4]", "[-7, 0, 4]").replace("North", "Side") + ALTAR
HEAD = "Position;No;Place;Lamp;Focus"
LINES = [
    "{}",
    "({})",
    "Scale: {}",
    "Everything is {}",
    "{} L/R of centre (stage L/R)",
    "{} from the centre line",
    "Bars: {} off CL",
    "Bar dims {} SL/SR of CL",
    "bars measured in {} each side of centre",
    "CL to unit, {}",
    "we work in {}",
    "{} throughout",
    "figures = {} stage left / stage right of the centre line",
]


def _places(root: Path, *lines: str) -> list[float]:
    return [round(float(unit.at or 0), 6) for unit in scene_in(root, HOUSE, lines).units]


@pytest.mark.parametrize("line", LINES)
@pytest.mark.parametrize(("unit", "metres"), [("feet", 0.3048), ("ft", 0.3048), ("cm", 0.01)])
def test_a_line_says_the_unit(tmp_path: Path, line: str, unit: str, metres: float) -> None:
    rows = ["Bar 1;1;5 SL;Spot;Altar", "Bar 1;2;3 SR;Spot;Altar"]
    found = _places(tmp_path, line.format(unit), "", HEAD, *rows)
    assert found == pytest.approx([5 * metres, -3 * metres])


@pytest.mark.parametrize("of", ["zero", "the zero", "the zero tape", "the plaster line", "0"])
def test_feet_upstage_of_the_line_on_rails_beside_metres_on_bars(tmp_path: Path, of: str) -> None:
    line = f"Bars: m from centre. Rails: feet upstage of {of}"
    rows = ["Bar 1;1;2 SL;Spot;Altar", "Side Rail;1;1,2;Spot;Altar"]
    assert _places(tmp_path, line, "", HEAD, *rows) == [2.0, -3.63424]
    assert _places(tmp_path, f"Rails: metres upstage of {of}", "", HEAD, rows[1]) == [-2.8]
