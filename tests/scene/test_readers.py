"""Readers of one value: cleaned, or refused with what was expected."""

from __future__ import annotations

from contextlib import nullcontext
from math import inf, nan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LinearRing

from aimcalc.scene import readers as r
from aimcalc.scene.mistakes import Wrong


@pytest.mark.parametrize(
    ("raw", "text"),
    [(7, "7"), (7.0, "7"), (7.5, "7.5"), (" 7A ", "7A"), ("\u00a0L\u00a0201", "L 201")],
)
def test_numbers_of_units_and_channels_are_text(raw: object, text: str) -> None:
    assert r.text(raw) == text


@pytest.mark.parametrize(
    "raw", ["a\x07b", "a\nb", "a\u200bb", "a\u202eb", "x" * 101, True, None, [], nan, inf, 10**400]
)
def test_text_that_cannot_be_printed_on_a_sheet_is_refused(raw: object) -> None:
    with pytest.raises(Wrong, match="text"):
        r.text(raw)


def test_a_name_is_not_empty_and_a_blank_label_is_nothing() -> None:
    with pytest.raises(Wrong, match="a name"):
        r.name("  ")
    assert r.label("  ") is None
    assert r.label("front") == "front"


def test_a_note_keeps_its_lines() -> None:
    assert r.note("one\ntwo\n") == "one\ntwo"
    with pytest.raises(Wrong, match="control"):
        r.note("one\x00two")
    with pytest.raises(Wrong, match="2000"):
        r.note("x\n" * 2000)


@pytest.mark.parametrize("raw", [True, "true", "Yes", "x", "X", 1, 1.0, "y"])
def test_yes_is_understood(raw: object) -> None:
    assert r.truth(raw) is True


@pytest.mark.parametrize("raw", [False, "false", "No", "", 0, 0.0, "n"])
def test_no_is_understood(raw: object) -> None:
    assert r.truth(raw) is False


@pytest.mark.parametrize("raw", ["maybe", 2, None, []])
def test_neither_yes_nor_no_is_refused(raw: object) -> None:
    with pytest.raises(Wrong, match="true or false"):
        r.truth(raw)


def test_a_count_is_whole() -> None:
    assert r.count(4) == 4
    assert r.count(4.0) == 4
    for raw in (-1, 2.5, "4", True, nan, 10**9):
        with pytest.raises(Wrong, match="a whole number"):
            r.count(raw)


def test_a_choice_takes_any_capitals_and_knows_its_words() -> None:
    read = r.choice("tail down", "tail up")
    assert read("Tail  UP") == "tail up"
    with pytest.raises(Wrong) as caught:
        read("tails up")
    assert caught.value.choices == ("tail down", "tail up")


def test_bounds_keep_what_they_say() -> None:
    assert r.over(0, float, "a length")(0.1) == 0.1
    assert r.between(0, 10, float, "a height")(10) == 10.0
    assert r.share(float)(1) == 1.0
    for read, raw in (
        (r.over(0, float, "a length"), 0),
        (r.between(0, 10, float, "a height"), 10.1),
        (r.share(float), 0),
        (r.share(float), 1.01),
        (r.share(float), nan),
    ):
        with pytest.raises(Wrong):
            read(raw)


def test_a_point_is_a_list_or_one_cell() -> None:
    read = r.several((r.length("m", "x"), r.length("m", "y"), r.length("m")), "a point [x, y, z]")
    for raw in (["2 m SR", 3, "150 cm"], "2 m SR; 3; 150 cm", "2 m SR, 3, 150 cm", "[-2,3,1.5]"):
        assert read(raw) == (-2.0, 3.0, 1.5)
    assert read("2,5 m SR; 3; 0") == (-2.5, 3.0, 0.0)


def test_a_wrong_value_of_a_point_is_told_by_its_place() -> None:
    read = r.several((r.length("m", "x"), r.length("m", "y")), "a corner [x, y]")
    with pytest.raises(Wrong, match=r'value 2 is "3 m SL"'):
        read([1, "3 m SL"])
    with pytest.raises(Wrong, match=r"a corner \[x, y\] \(2 values\)"):
        read([1, 2, 3])
    with pytest.raises(Wrong, match="a corner"):
        read(7)


def test_a_list_has_its_limits() -> None:
    read = r.list_of(float, "a list of lengths", least=1, most=2)
    assert read([1, 2]) == (1.0, 2.0)
    with pytest.raises(Wrong, match="1 to 2 of them, not 3"):
        read([1, 2, 3])
    with pytest.raises(Wrong, match="a list of lengths"):
        read("1, 2")


def test_the_area_of_a_polygon_has_the_sense_of_its_corners() -> None:
    # An L of three unit squares.
    corners = [(0, 0), (2, 0), (2, 1), (1, 1), (1, 2), (0, 2)]
    assert r.polygon_area(corners) == 3.0
    assert r.polygon_area(corners[::-1]) == -3.0


@pytest.mark.parametrize(
    ("corners", "reason"),
    [
        ([[0, 0], [1, 0]], "3 to 1000"),
        ([[0, 0], [1, 1], [2, 2]], "enclose an area"),
        ([[0, 0], [1, 0], [0, 1], [1, 1]], "enclose an area"),  # a bow tie of equal halves
        ([[0, 0], [6, 0], [0, 4], [5, 5]], "cross itself"),
        ([[0, 0]] * 1001, "3 to 1000"),
        ("round", "a list of corners"),
    ],
)
def test_a_polygon_that_is_none_is_refused(corners: object, reason: str) -> None:
    with pytest.raises(Wrong, match=reason):
        r.polygon("m")(corners)


def test_an_edge_crosses_itself_where_another_library_says_so() -> None:
    rng, told = np.random.default_rng(5), []
    for _ in range(300):
        corners = rng.uniform(-5, 5, (rng.integers(4, 9), 2)).tolist()
        simple = bool(LinearRing(corners).is_simple)
        told.append(simple)
        with nullcontext() if simple else pytest.raises(Wrong, match="cross itself"):
            r.polygon("m")(corners)
    assert 30 < sum(told) < 270


@given(st.lists(st.floats(0.5, 5), min_size=3, max_size=12))
def test_a_star_round_the_centre_is_a_polygon(radii: list[float]) -> None:
    from math import cos, pi, sin

    step = 2 * pi / len(radii)
    corners = [[s * cos(i * step), s * sin(i * step)] for i, s in enumerate(radii)]
    assert len(r.polygon("m")(corners)) == len(radii)


@pytest.mark.parametrize(
    "raw",
    [
        "none",
        "N/C",
        "n/c",
        "NC",
        "open",
        "Open",
        "CLEAR",
        "no colour",
        "No color",
        "-",
        "–",
        "o/w",
        "",
    ],
)
def test_what_a_hang_list_writes_for_no_colour_is_none(raw: str) -> None:
    assert r.colour(raw) is None


@pytest.mark.parametrize("raw", ["cool 1", "119", "clear blue", "open amber", "straw + frost"])
def test_a_colour_keeps_its_name(raw: str) -> None:
    assert r.colour(raw) == raw
