"""Places that a hang list gives as gaps from unit to unit."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from aimcalc.scene.hanglist.places.gapwords import said_of
from tests.scene.hanglist.places import listed, places, read, told, units
from tests.scene.written import refused

GAPS = ["Bar", "Unit", "Gap", "Type", "Focus"]


def _rows(line: str, *gaps: Any, heading: str = "Gap") -> list[list[Any]]:
    return [[line], ["Bar", "Unit", heading, "Type", "Focus"], *units("LX 1", *gaps)]


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("First one from the SL end, then each from the one before", [4.5, 3.0, 1.0]),
        ("gap to previous lantern, no 1 = gap from OP end of bar", [-4.5, -3.0, -1.0]),
        ("spacings: first from the stage right end", [-4.5, -3.0, -1.0]),
        ("first measured from SR end of pipe, working towards SL", [-4.5, -3.0, -1.0]),
    ],
)
def test_from_an_end_towards_the_other(tmp_path: Path, line: str, expected: list[float]) -> None:
    scene = read(tmp_path, _rows(line, 0.5, 1.5, 2))
    assert places(scene) == expected
    assert told(scene, "added up from gaps", "LX 1")


@pytest.mark.parametrize(
    "heading", ["Spacing", "Space", "Gap (m)", "spacing from last unit", "Gap to previous"]
)
def test_headings_of_gaps(tmp_path: Path, heading: str) -> None:
    scene = read(tmp_path, _rows("all from the SL end", 0.5, 1.5, 2, heading=heading))
    assert places(scene) == [4.5, 3.0, 1.0]


def test_the_first_at_a_side_of_the_centre_line(tmp_path: Path) -> None:
    line = "#1 is always the stage-left-most; gap from the unit before"
    assert places(read(tmp_path, _rows(line, "3 m SL of CL", 1.5, 2))) == [3.0, 1.5, -0.5]


def test_the_only_way_that_stays_on_the_pipe_is_warned_of(tmp_path: Path) -> None:
    scene = read(tmp_path, _rows("gap from the unit before", "3 m SL", 2.5, 2))
    assert places(scene) == [3.0, 0.5, -1.5]
    assert told(scene, "towards SR", "past the end")


@pytest.mark.parametrize(
    ("line", "gaps"),
    [
        ("gap from the unit before", ("1 m SL", 1.5, 2)),  # either way is on the pipe
        ("gap from the unit before", (1, 1.5, 2)),  # whence the first is
        ("gap from the one before, first from the SL end", (1, 8, 2)),  # off the pipe
        ("gap from the one before, first from the SL end", (1, "2 SR", 2)),  # no gap
    ],
)
def test_gaps_of_two_readings_are_asked(tmp_path: Path, line: str, gaps: tuple[Any, ...]) -> None:
    assert {m.entry for m in refused(listed(tmp_path, _rows(line, *gaps)))} == {"row 3"}


def test_a_running_place_beside_a_gap(tmp_path: Path) -> None:
    head = ["Bar", "Unit", "Gap", "Running", "Type", "Focus"]
    rows = [["LX 1", 1, 1, 1, "spot", "A"], ["LX 1", 2, 2, 3, "spot", "A"]]
    line = "first lamp from the SR end of the bar"
    assert places(read(tmp_path / "a", [[line], head, *rows])) == [-4.0, -2.0]
    rows[1][3] = 4
    mistakes = refused(listed(tmp_path / "b", [[line], head, *rows]))
    assert "do not agree" in mistakes[0].expected


def test_a_heading_row_with_the_first_place_and_the_spacing(tmp_path: Path) -> None:
    head = ["No", "Type", "Focus"]
    over = ["LX 1 - first unit 3 m SL of center, then every 1.5 m to SR"]
    scene = read(tmp_path, [head, over, *([n, "spot", "A"] for n in (1, 2, 3))])
    assert places(scene) == [3.0, 1.5, 0.0]


def test_places_from_the_lamp_before(tmp_path: Path) -> None:
    line = "recital of two singers"
    cells = ("from SR end of the bar: 1.5 m", "+ 2 m from lamp 1", "+ 2.5 m from lamp 2")
    assert places(read(tmp_path / "a", _rows(line, *cells, heading="Place"))) == [-3.5, -1.5, 1.0]
    other = (*cells[:2], "+ 2.5 m from lamp 1")
    mistakes = refused(listed(tmp_path / "b", _rows(line, *other, heading="Place")))
    assert "the row above" in mistakes[0].expected


def test_a_spacing_with_sides_is_a_place(tmp_path: Path) -> None:
    scene = read(tmp_path, _rows("plot", "3 m SL", "1 m SL", "2 m SR", heading="Spacing"))
    assert places(scene) == [3.0, 1.0, -2.0]
    signed = read(tmp_path / "b", _rows("plot", 3, 1, -2, heading="Spacing"))
    assert places(signed) == [3.0, 1.0, -2.0]


def test_words_over_units() -> None:
    said = said_of("1st Electric - first unit 15'-0\" SL of center, then every 5'-0\" to SR")
    assert (said.first, said.every, said.toward) == ("15'-0\" sl", "5'-0\"", "SR")
    assert said_of("BRIDGE, first unit 3600 OP of CL").first == "3600 sr"
    assert said_of("LX 1, hung from the SL end").toward == ""
    measured = "first unit is measured from CL to stage right; each + goes on from there"
    assert said_of(measured).toward == "SR"
    assert said_of(f"{measured}, going toward stage left").toward == "SL"


def test_words_over_units_of_where_they_start() -> None:
    said = said_of("--- LX1 (start 4.00m OP of centre, work towards PS) ---")
    assert (said.first, said.toward) == ("4.00m sr", "SL")
    assert said_of("LX 1, starts 3 m SL").first == "3 m sl"
    assert said_of("LX 1, start at 7 pm, then 3 m SL").first == ""


@pytest.mark.parametrize(
    ("first", "expected"),
    [
        ("0.5 m from SL end", [4.5, 3.0, 1.0]),
        ("from the SR end: 0.5 m", [-4.5, -3.0, -1.0]),
        ("0.5 in from OP end", [-4.5, -3.0, -1.0]),
        ("0.5 m off house left end of bar", [-4.5, -3.0, -1.0]),
    ],
)
def test_a_first_gap_that_says_its_end(tmp_path: Path, first: str, expected: list[float]) -> None:
    scene = read(tmp_path, _rows("hang by spacing, from the last unit", first, 1.5, 2))
    assert places(scene) == expected


@pytest.mark.parametrize(
    "lead", ["start 3 m SL", "starts at: 3 m SL", "1st 3m SL", "First: SL 3 m"]
)
def test_a_first_gap_that_says_that_it_is_the_first(tmp_path: Path, lead: str) -> None:
    scene = read(tmp_path, _rows("gap from the unit before, going to SR", lead, 1.5, 2))
    assert places(scene) == [3.0, 1.5, -0.5]


@pytest.mark.parametrize(
    "gaps",
    [
        ("0.5 m from the end", 1.5, 2),  # of which end
        ("0.5 m from US end", 1.5, 2),  # it has none
        ("-0.5 m from SL end", 1.5, 2),
        ("0.5 m from SL end", 1.5, 1.5, "1 m from SR end", 1),
    ],
)
def test_a_first_gap_without_its_end_is_asked(tmp_path: Path, gaps: tuple[Any, ...]) -> None:
    assert refused(listed(tmp_path, _rows("gap from the unit before", *gaps)))


RULES = [
    ("First unit 3 m SL, then every 1.5 m going to SR", [3.0, 1.5, 0.0]),
    ("All bars: 1st lamp 500 mm in from SL end then 1.2 m centres", [4.5, 3.3, 2.1]),
    ("unit 1 at SR end of the row, 3m SR of center; 2 m apart", [-3.0, -1.0, 1.0]),
    ("start 10 ft SL, spaced 5 ft, working towards SR", [3.048, 1.524, 0.0]),
    ("1st lantern 0.5 m from OP end, 1 m spacing", [-4.5, -3.5, -2.5]),
    (
        "numbered from SR, first one 0.5 m in from that end then 2 ft 6 in apart",
        [-4.5, -3.738, -2.976],
    ),
    ("Evenly spaced from 4 m SR to 4 m SL", [-4.0, 0.0, 4.0]),
    ("equally spread from 3 m SL to CL", [3.0, 1.5, 0.0]),
]


@pytest.mark.parametrize(("line", "expected"), RULES)
def test_a_line_over_the_table_that_says_where_all_hang(
    tmp_path: Path, line: str, expected: list[float]
) -> None:
    head = ["Bar", "Unit", "Type", "Focus"]
    rows = [["LX 1", n, "spot", "A"] for n in (1, 2, 3)]
    scene = read(tmp_path, [[line], head, *rows])
    assert places(scene) == pytest.approx(expected)
    assert told(scene, "added up from gaps", "LX 1")


@pytest.mark.parametrize("cell", ["see top", "as note", "(see above)", "per title"])
def test_a_cell_that_leaves_its_place_to_the_line(tmp_path: Path, cell: str) -> None:
    rows = _rows(RULES[0][0], cell, cell, cell, heading="Distance")
    assert places(read(tmp_path / "a", rows)) == [3.0, 1.5, 0.0]
    rows[0] = ["Gala, three lamps on LX 1"]
    assert refused(listed(tmp_path / "b", rows))


EVEN = [
    *("evenly spaced", "even", "spread evenly", "equally spaced along bar", "Equal spacing"),
    *("spread out", "equidistant", "evenly across the whole bar", "spaced out evenly"),
]


@pytest.mark.parametrize("cell", EVEN)
def test_cells_that_say_that_all_are_spread_evenly(tmp_path: Path, cell: str) -> None:
    line = RULES[0][0]  # a line that says where all hang comes first
    rows = _rows(line, cell, cell, cell, heading="Distance")
    assert places(read(tmp_path / "a", rows)) == [3.0, 1.5, 0.0]
    rows[0] = ["Gala, lamps"]
    rows += units("LX 1", cell)
    rows[-1][1] = 4
    scene = read(tmp_path / "b", rows)
    assert places(scene) == [3.75, 1.25, -1.25, -3.75]
    assert told(scene, "4 units have no place", "spread evenly from end to end")


def test_units_spread_evenly_between_two_that_have_a_place(tmp_path: Path) -> None:
    rows = _rows("Gala, lamps", "3 m SL", "evenly", "evenly", "3 m SR", heading="Distance")
    scene = read(tmp_path, rows)
    assert places(scene) == [3.0, 1.0, -1.0, -3.0]
    assert told(scene, "spread evenly between", "LX 1")


@pytest.mark.parametrize(
    "cells",
    [
        ("3 m SL", "evenly", "evenly"),
        ("evenly", "1 m SL", "3 m SR"),
        ("evenly 2 m apart", "evenly 2 m apart", "evenly 2 m apart"),
        ("evenly between booms", "evenly between booms", "evenly between booms"),
    ],
)
def test_an_even_spread_without_its_ends_is_asked(tmp_path: Path, cells: tuple[str, ...]) -> None:
    assert refused(listed(tmp_path, _rows("Gala, lamps", *cells, heading="Distance")))


def _ranged(position: str, number: str, channel: str, place: str = "evenly spaced") -> list[Any]:
    head = ["Bar", "Unit", "Distance", "Type", "Focus", "Ch"]
    row = [position, number, place, "spot", "A", channel]
    return [head, ["side", 1, "1 m US", "spot", "A", 9], row]


@pytest.mark.parametrize(("number", "channel"), [("1-4", "31-34"), ("1 to 4", "31 thru 34")])
def test_a_row_of_several_spread_evenly(tmp_path: Path, number: str, channel: str) -> None:
    scene = read(tmp_path, _ranged("LX 1", number, channel))
    assert places(scene) == [3.75, 1.25, -1.25, -3.75]
    assert [str(u.channel)[1:] for u in scene.units if u.position == "LX 1"] == list("1234")


@pytest.mark.parametrize(("number", "channel"), [("1-4", "31-33"), ("1-3", "31-34")])
def test_a_row_of_several_with_other_channels_is_asked(
    tmp_path: Path, number: str, channel: str
) -> None:
    assert refused(listed(tmp_path, _ranged("LX 1", number, channel)))


def test_remarks_that_say_an_even_spread(tmp_path: Path) -> None:
    head = ["Bar", "Unit", "Type", "Focus", "Remarks"]
    rows = [["LX 1", n, "spot", "A", "evenly spaced"] for n in (1, 2)]
    assert places(read(tmp_path, [head, *rows])) == [2.5, -2.5]


def test_a_line_that_contradicts_the_first_row_is_asked(tmp_path: Path) -> None:
    line = RULES[0][0]
    assert places(read(tmp_path / "a", _rows(line, "3 m SL", 1.5, 1.5))) == [3.0, 1.5, 0.0]
    for k, first in enumerate(("2 m SL", 1.2, "1 m from SL end")):
        mistakes = refused(listed(tmp_path / str(k), _rows(line, first, 1.5, 1.5)))
        assert "do not agree" in mistakes[0].expected


def test_a_first_row_that_says_that_the_line_says_it(tmp_path: Path) -> None:
    head = ["No", "Gap", "Type", "Focus"]
    rows = [["1", "start", "spot", "A"], ["2", 1.5, "spot", "A"]]
    over = [head, ["LX 1 (start 3 m SL, work towards SR)"], *rows]
    assert places(read(tmp_path / "a", over)) == [3.0, 1.5]
    assert refused(listed(tmp_path / "b", [head, ["LX 1"], *rows]))


def test_a_line_that_runs_past_the_end_is_asked(tmp_path: Path) -> None:
    head = ["Bar", "Unit", "Type", "Focus"]
    rows = [["LX 1", n, "spot", "A"] for n in (1, 2, 3)]
    line = "First unit 3 m SL, then every 5 m going to SR"
    assert "past its end" in refused(listed(tmp_path, [[line], head, *rows]))[0].expected


def test_the_spacing_of_all_beside_the_first_place_over_the_units(tmp_path: Path) -> None:
    head = ["No", "Type", "Focus"]
    over = ["LX 1 - first unit 3 m SL of center, to SR"]
    rows = [["Fashion show, all on 1 m centers"], over, head]
    scene = read(tmp_path, [*rows, *([n, "spot", "A"] for n in (1, 2, 3))])
    assert places(scene) == [3.0, 2.0, 1.0]


@pytest.mark.parametrize("said", ["900 centres", "900 c/c", "900 spacing", "900 apart"])
def test_a_spacing_without_its_unit_that_can_be_millimetres_alone(
    tmp_path: Path, said: str
) -> None:
    head = ["Bar", "No", "Type", "Focus"]
    rows = [["LX 1", n, "spot", "A"] for n in (1, 2, 3)]
    line = f"Everything at {said} about the centre line, no. 1 is furthest SL"
    scene = read(tmp_path, [[line], head, *rows])
    assert places(scene) == pytest.approx([0.9, 0.0, -0.9])
    assert told(scene, "millimetres")
    line = line.replace("900", "90")
    assert refused(listed(tmp_path, [[line], head, *rows]))


@pytest.mark.parametrize("said", ["spaced 2 m apart", "2 m centres", "every 2 m, 2 m c/c"])
def test_a_spacing_over_the_units_alone_is_about_the_middle(tmp_path: Path, said: str) -> None:
    rows = [["No", "Type", "Focus"], [f"LX 1 - {said}"], *([n, "spot", "A"] for n in (1, 2, 3))]
    scene = read(tmp_path, rows)
    assert places(scene) == [2.0, 0.0, -2.0]
    assert told(scene, "2.00 m apart", "as the list says")


def test_a_spacing_from_an_end_without_the_first_place_is_asked(tmp_path: Path) -> None:
    over = ["LX 1 - spaced 2 m apart from SL end of pipe"]
    rows = [["No", "Type", "Focus"], over, *([n, "spot", "A"] for n in (1, 2, 3))]
    assert "count from SL" in refused(listed(tmp_path, rows))[0].expected


def test_where_over_places_in_the_headings_of_one_position(tmp_path: Path) -> None:
    rows = [["boom SR", "", "", "", ""], ["No", "Height", "Type", "Focus"], [1, 2, "spot", "A"]]
    rows += [["LX 1", "", "", "", ""], ["No", "Where", "Type", "Focus"]]
    rows += [[1, "3 m SL", "spot", "A"], [2, "centre", "spot", "A"]]
    scene = read(tmp_path, rows)
    assert places(scene) == [3.0, 0.0]
    assert places(scene, "boom SR") == [2.0]


@pytest.mark.parametrize(
    "line",
    [
        "evenly spaced 3 m SL to 3 m SR",
        "spread evenly: 3 m SL to 3 m SR",
        "evenly spaced from 3 m SL to 3 m SR",
    ],
)
def test_an_even_spread_from_a_place_to_another(tmp_path: Path, line: str) -> None:
    assert places(read(tmp_path, _without_places(line, "1", "2", "3"))) == [3.0, 0.0, -3.0]


@pytest.mark.parametrize("numbers", [("1", "2"), ("U1", "U2"), ("LX-1", "LX-2"), ("1-1", "1-2")])
def test_numbers_that_begin_alike_are_spread_by_what_follows(
    tmp_path: Path, numbers: tuple[str, ...]
) -> None:
    line = "hang evenly between the bar ends, 1 is SL"
    assert places(read(tmp_path, _without_places(line, *numbers))) == [2.5, -2.5]


def test_numbers_of_several_beginnings_are_asked_for_their_places(tmp_path: Path) -> None:
    assert refused(listed(tmp_path, _without_places("hang evenly, 1 is SL", "U1", "F2")))


@pytest.mark.parametrize(
    "line", ["start 3 m L of center, every 1 m to the R", "unit 1 hangs 3 m L, 1 m apart"]
)
def test_a_first_place_in_words_that_are_not_read_is_asked(tmp_path: Path, line: str) -> None:
    (mistake, *_) = refused(listed(tmp_path, _without_places(line, "1", "2")))
    assert "one line that tells where each unit" in mistake.expected


def _without_places(line: str, *numbers: str) -> list[list[Any]]:
    rows = [["LX 1", number, "spot", "A"] for number in numbers]
    return [[line], ["Bar", "Unit", "Type", "Focus"], *rows]


def test_the_first_of_several_bars_is_no_first_unit(tmp_path: Path) -> None:
    line = "1st bar: 3 m apart, evenly about the center line, #1 is the one furthest SL"
    assert places(read(tmp_path, _without_places(line, "1", "2"))) == [1.5, -1.5]
