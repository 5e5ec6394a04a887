"""Whose a bare left and right are, by the names of the house and the other sides of the list: what is read so
is told with a warning, and what speaks against it leaves it asked."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from aimcalc.scene.hanglist.columns.headings import meaning
from aimcalc.scene.hanglist.columns.headingsides import signed_sides
from tests.scene.hanglist.listed import asked_in, scene_in

_HOUSE = """
[scene]
title = "House"
unit = "m"
hang = "list.csv"

[stage]
outline = [[-6, -1], [6, -1], [6, 9], [-6, 9]]

[[kind]]
name = "spot"
family = "ers"
field = 26

[[pipe]]
name = "Bar 1"
trim = 6
y = 1
from = -5
to = 5

[[pipe]]
name = "Bar 2"
trim = 6
y = 5
from = -5
to = 5

[[target]]
name = "Middle"
x = 0
y = 3

[[target]]
name = "Desk"
x = 3
y = 3

[[target]]
name = "Bed"
x = -3
y = 3
"""


def house(*booms: tuple[str, float], y: float = 3) -> str:
    """The house with booms of these names, and where they stand to SL."""
    each = (f'\n[[boom]]\nname = "{name}"\nx = {x}\ny = {y}\nheight = 4\n' for name, x in booms)
    return _HOUSE + "".join(each)


def rows(left: str, right: str, aims: Sequence[str], *more: str) -> list[str]:
    """A list of two bars with a unit on each side of either."""
    places = [f"Bar 1;1;{left}", f"Bar 1;2;{right}", f"Bar 2;1;{left}", f"Bar 2;2;{right}"]
    units = [f"{place};spot;{aim}" for place, aim in zip(places, aims, strict=True)]
    return ["Position;No;Place;Type;Focus", *units, *more]


STAGE, HOUSE = [3.0, -3.0, 3.0, -3.0], [-3.0, 3.0, -3.0, 3.0]
TO_SL_FIRST, TO_SR_FIRST = ("Desk", "Bed") * 2, ("Bed", "Desk") * 2
BOTH, MIDDLE = ("Desk", "Bed", "Bed", "Desk"), ("Middle",) * 4


def read(tmp_path: Path, scene: str, lines: list[str]) -> list[float | None]:
    """The places of a list that is read with the one warning of whose sides they are taken for."""
    found = scene_in(tmp_path, scene, lines)
    told = [each for each in found.taken if "a bare left or right is read as" in each.says]
    assert [each.severity for each in told] == ["warn"]
    return [unit.at for unit in found.units][:4]


@pytest.mark.parametrize(
    ("names", "left", "right"),
    [
        (("Tower left", "Tower right"), "3 m left", "3 m right"),
        (("Tower left", "Tower right"), "3 m left of centre", "3 m right of centre"),
        (("Boom L", "Boom R"), "3 m L", "3 m R"),
        (("Boom 1L", "Boom 1R"), "L 3 m", "R 3 m"),
        (("Toren links", "Toren rechts"), "3,0 m links", "3,0 m rechts"),
        (("Turm links", "Turm rechts"), "3,00 li", "3,00 re"),
        (("Linker Turm", "Rechter Turm"), "links 3,00", "rechts 3,00"),
        (("Turm links", "Turm rechts"), "3 m links der Mitte", "3 m rechts der Mitte"),
        (("Calle izquierda", "Calle derecha"), "3 izq.", "3 der."),
        (("Calle izquierda", "Calle derecha"), "3 m a la izquierda", "3 m a la derecha"),
        (("Tour gauche", "Tour droite"), "3 m à gauche", "3 m à droite"),
        (("Tour gauche", "Tour droite"), "3 m gauche", "3 m droite"),
        (("Torre sinistra", "Torre destra"), "3 m sx", "3 m dx"),
        (("Torn vänster", "Torn höger"), "3 m vänster", "3 m höger"),
    ],
)
def test_the_names_of_the_house_say_whose_left_it_is(
    names: tuple[str, str], left: str, right: str, tmp_path: Path
) -> None:
    one, other = names
    of_house, of_stage = house((one, -5.5), (other, 5.5)), house((one, 5.5), (other, -5.5))
    assert read(tmp_path, of_house, rows(left, right, BOTH)) == HOUSE
    assert read(tmp_path, of_house, rows(left, right, TO_SR_FIRST)) == HOUSE
    assert read(tmp_path, of_stage, rows(left, right, BOTH)) == STAGE


@pytest.mark.parametrize(("one", "other"), [("L1", "R1"), ("1L", "1R"), ("Left", "Right")])
def test_a_unit_on_such_a_position_under_its_sort_bears_it_out(
    one: str, other: str, tmp_path: Path
) -> None:
    more = ("Boom;No;Height;Type;Focus", f"{one};1;2 m;spot;Middle", f"{other};1;2 m;spot;Middle")
    lines = rows("3 m L", "3 m R", MIDDLE, *more)
    of_house = house((f"Boom {one}", -5.5), (f"Boom {other}", 5.5))
    of_stage = house((f"Boom {one}", 5.5), (f"Boom {other}", -5.5))
    assert read(tmp_path, of_house, lines) == HOUSE
    assert read(tmp_path, of_stage, lines) == STAGE


def test_a_colour_that_is_called_as_such_a_position_leaves_it_asked(tmp_path: Path) -> None:
    lines = [f"{row};L2" for row in rows("3 m L", "3 m R", MIDDLE)]
    lines[0] = "Position;No;Place;Type;Focus;Colour"
    found = asked_in(tmp_path, house(("Boom L2", 5.5), ("Boom R2", -5.5)), lines)
    assert "SL or SR" in found


def test_a_unit_on_such_a_position_bears_it_out(tmp_path: Path) -> None:
    lines = rows("3 m left", "3 m right", MIDDLE, "Tower left;1;2 m;spot;Middle")
    assert read(tmp_path, house(("Tower left", -5.5), ("Tower right", 5.5)), lines) == HOUSE


@pytest.mark.parametrize(
    ("booms", "y", "left", "right", "aims"),
    [
        # Nothing is aimed to a side, and nothing hangs there.
        ((("Tower left", -5.5), ("Tower right", 5.5)), 3, "3 m left", "3 m right", MIDDLE),
        # Most are aimed across, which another left would explain.
        ((("Tower left", 5.5), ("Tower right", -5.5)), 3, "3 m left", "3 m right", TO_SR_FIRST),
        ((("Toren links", -5.5), ("Toren rechts", 5.5)), 3, "3 m links", "3 m rechts", TO_SL_FIRST),
        # The names do not agree, or one alone has a side, or it is no bare one.
        ((("Tower left", -5.5), ("Loft left", 5.5)), 3, "3 m left", "3 m right", BOTH),
        ((("Tower left", -5.5),), 3, "3 m left", "3 m right", BOTH),
        ((("House left", -5.5), ("House right", 5.5)), 3, "3 m left", "3 m right", BOTH),
        ((("Tower left", -0.5), ("Tower right", 0.5)), 3, "3 m left", "3 m right", BOTH),
        # Boxes in the hall are called as those call them who sit there.
        ((("Box left", -5.5), ("Box right", 5.5)), -4, "3 m left", "3 m right", BOTH),
        # The list comes with another language than the house.
        ((("Toren links", -5.5), ("Toren rechts", 5.5)), 3, "3 m left", "3 m right", BOTH),
        ((("Tower left", -5.5), ("Tower right", 5.5)), 3, "3 m izq.", "3 m der.", BOTH),
    ],
)
def test_names_of_the_house_that_do_not_tell_leave_it_asked(
    booms: tuple[tuple[str, float], ...],
    y: float,
    left: str,
    right: str,
    aims: tuple[str, ...],
    tmp_path: Path,
) -> None:
    assert "SL or SR" in asked_in(tmp_path, house(*booms, y=y), rows(left, right, aims))


@pytest.mark.parametrize("line", ["Left and right as in the plan", "L/R the other way round"])
def test_a_line_of_left_and_right_leaves_it_asked(line: str, tmp_path: Path) -> None:
    lines = [line, "", *rows("3 m left", "3 m right", BOTH)]
    scene = house(("Tower left", -5.5), ("Tower right", 5.5))
    assert "SL or SR" in asked_in(tmp_path, scene, lines)


_SIDES = (("SL 2", 5.5), ("SR 2", -5.5))


@pytest.mark.parametrize(
    ("booms", "more"),
    [
        (_SIDES, "SL 2;1;2 m;spot;Middle"),
        ((("SL Boom", 5.5),), "Boom Stage Left;1;2 m;spot;Middle"),
    ],
)
def test_a_list_that_writes_sides_of_the_stage_means_them_bare_too(
    booms: tuple[tuple[str, float], ...], more: str, tmp_path: Path
) -> None:
    assert read(tmp_path, house(*booms), rows("3 m L", "3 m R", MIDDLE, more)) == STAGE


@pytest.mark.parametrize(
    ("booms", "aims", "more"),
    [
        (_SIDES, MIDDLE, "Bar 2;3;1 m SL;spot;Middle"),  # two ways to write a place
        (_SIDES, MIDDLE, "Bar 2;3;1 m stage right;spot;Middle"),
        (_SIDES, MIDDLE, "Bar 2;3;0;spot;Middle"),  # the house alone writes them so
        (_SIDES, MIDDLE, "SL 2;1;2 m;spot;Middle;;seen from the audience"),
        (_SIDES, TO_SR_FIRST, "SL 2;1;2 m;spot;Middle"),  # aimed across, all of them
        ((("Boom L", -5.5), ("Boom R", 5.5)), BOTH, "Bar 2;3;1 m SL;spot;Middle"),
    ],
)
def test_other_sides_of_the_list_that_do_not_tell_leave_it_asked(
    booms: tuple[tuple[str, float], ...], aims: tuple[str, ...], more: str, tmp_path: Path
) -> None:
    assert "SL or SR" in asked_in(tmp_path, house(*booms), rows("3 m L", "3 m R", aims, more))


@pytest.mark.parametrize(
    ("names", "heading", "to_left"),
    [
        (("Calle izquierda", "Calle derecha"), "metros (- = derecha)", 1),
        (("Turm links", "Turm rechts"), "Meter (+ = links)", 1),
        (("Toren links", "Toren rechts"), "m (+ rechts)", -1),
        (("Tour gauche", "Tour droite"), "mètres (- = gauche)", -1),
        (("Tower left", "Tower right"), "m from centre (+ = right)", -1),
    ],
)
def test_a_sign_of_a_heading_is_a_side_as_the_house_names_it(
    names: tuple[str, str], heading: str, to_left: int, tmp_path: Path
) -> None:
    # `to_left`: the sign of what is to the left.
    one, other = names
    lines = [f"Position;No;{heading};Type;Focus", "Bar 1;1;-3;spot;Bed", "Bar 1;2;1;spot;Middle"]
    lines += [f"{one};1;2;spot;Middle"]
    of_stage, of_house = house((one, 5.5), (other, -5.5)), house((one, -5.5), (other, 5.5))
    found = [unit.at for unit in scene_in(tmp_path, of_stage, lines).units]
    assert found[:2] == [to_left * -3.0, to_left * 1.0]
    found = [unit.at for unit in scene_in(tmp_path, of_house, lines).units]
    assert found[:2] == [to_left * 3.0, to_left * -1.0]


def test_a_sign_of_a_heading_that_nobody_says_the_side_of_is_asked(tmp_path: Path) -> None:
    lines = ["Position;No;metros (- = derecha);Type;Focus", "Bar 1;1;-3;spot;Bed"]
    assert "does not tell where it counts from" in asked_in(tmp_path, house(), lines)


def _signed(heading: str, aims: Sequence[str]) -> list[str]:
    """A list with two units on each side of the middle, by a sign that the heading says the side of."""
    each = zip(("3", "-3", "2", "-2"), aims, strict=True)
    units = [f"Bar 1;{k};{at};spot;{aim}" for k, (at, aim) in enumerate(each, 1)]
    return [f"Position;No;{heading};Type;Focus", *units]


SIGNED = [
    ("Från mitten (m, vänster = +)", 1),
    ("Abstand v. Mitte (m, links +)", 1),
    ("Abstand von Mitte in m (rechts = minus)", 1),
    ("Abst. v.d. Mitte (m, links +)", 1),
    ("Afst. v/h midden (m, links = +)", 1),
    ("Meter ab Mitte (rechts negativ)", 1),
    ("m fr. midten (venstre = +)", 1),
    ("Distance (m, left +)", 1),
    ("m from centre, right is minus", 1),
    ("m from centre (right is plus)", -1),
    ("afstand midden (links +)", 1),
    ("Distance à l'axe (m, gauche = -)", -1),
    ("Distanza dal centro (m, sinistra +)", 1),
    ("Distancia al centro (m, derecha +)", -1),
    ("m from CL (L +, R -)", 1),
]


@pytest.mark.parametrize(("heading", "sign"), SIGNED)
def test_a_sign_of_a_heading_is_a_side_as_the_units_are_aimed(
    heading: str, sign: int, tmp_path: Path
) -> None:
    aims = TO_SL_FIRST if sign > 0 else TO_SR_FIRST
    found = read(tmp_path, house(), _signed(heading, aims))
    assert found == [sign * at for at in (3.0, -3.0, 2.0, -2.0)]


@pytest.mark.parametrize(("heading", "sign"), SIGNED)
def test_a_sign_of_a_heading_that_the_aims_do_not_tell_is_asked(
    heading: str, sign: int, tmp_path: Path
) -> None:
    across = TO_SR_FIRST if sign > 0 else TO_SL_FIRST
    for aims in (across, BOTH, MIDDLE):
        asked_in(tmp_path, house(), _signed(heading, aims))


def test_a_house_that_means_its_seats_is_not_overruled_by_aims(tmp_path: Path) -> None:
    of_house = house(("Toren links", -5.5), ("Toren rechts", 5.5))
    asked_in(tmp_path, of_house, _signed("Från mitten (m, vänster = +)", TO_SL_FIRST))


@pytest.mark.parametrize("heading", ["Avstånd V", "Avstånd V (m)", "Distance V"])
def test_a_v_alone_is_a_side_and_no_short_from(heading: str) -> None:
    assert "at" not in meaning(heading).keys


@pytest.mark.parametrize("heading", ["Pos L/R", "Pos. (L/R)", "L pos"])
def test_a_short_position_is_no_word_for_a_sign(heading: str) -> None:
    assert signed_sides(heading.casefold()) == heading.casefold()


def _with_stands(left: float, y: float = 3) -> str:
    each = (("Stand Left", left), ("Stand Right", -left))
    stands = (f'\n[[stand]]\nname = "{name}"\nx = {x}\ny = {y}\nz = 2\n' for name, x in each)
    return _HOUSE + "".join(stands)


def test_stands_are_named_after_their_side_too(tmp_path: Path) -> None:
    lines = rows("3 m left", "3 m right", BOTH)
    assert read(tmp_path, _with_stands(5.5), lines) == STAGE
    assert read(tmp_path, _with_stands(-5.5), lines) == HOUSE
    assert "SL or SR" in asked_in(tmp_path, _with_stands(-5.5, y=-4), lines)


@pytest.mark.parametrize(
    "left", ["3 m left of center", "3 m L of CL", "3 m left from the centre line"]
)
def test_left_of_centre_is_the_stages_where_units_are_aimed_so(tmp_path: Path, left: str) -> None:
    right = left.replace("left", "right").replace("L of", "R of")
    found = scene_in(tmp_path, _HOUSE, rows(left, right, TO_SL_FIRST))
    assert [unit.at for unit in found.units] == STAGE
    told = [each.severity for each in found.taken if "aimed to their own side" in each.says]
    assert told == ["warn"]
    for aims in (TO_SR_FIRST, BOTH, MIDDLE):
        assert "SL or SR" in asked_in(tmp_path, _HOUSE, rows(left, right, aims))
