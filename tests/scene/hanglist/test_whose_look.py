"""Who looks at the seats and who from them, lines that disagree on whose left it is, and those that leave it
to a drawing."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.pagelines.titles import said_by
from tests.scene.hanglist.places import HEADINGS, listed, places, read, units
from tests.scene.written import refused


@pytest.mark.parametrize(
    ("line", "whose"),
    [
        ("L = lewo, P = prawo, patrząc z widowni", "house"),
        ("L = lewo, P = prawo, patrząc na widownię", "stage"),
        ("lewo/prawo patrząc od strony widowni", "house"),
        ("lewo i prawo patrząc w stronę widowni", "stage"),
        ("levá a pravá při pohledu z hlediště", "house"),
        ("levá a pravá při pohledu do hlediště", "stage"),
        ("links und rechts, Blick von der Bühne ins Publikum", "stage"),
        ("links und rechts mit Blick vom Saal auf die Bühne", "house"),
        ("links/rechts, wenn man ins Publikum schaut", "stage"),
        ("links/rechts, wenn man auf die Bühne schaut", "house"),
        ("destra e sinistra sono dell'attore che guarda il pubblico", "stage"),
        ("sinistra e destra di chi guarda il pubblico", "stage"),
        ("sinistra e destra di chi guarda dalla platea", "house"),
        ("gauche et droite du comédien qui regarde le public", "stage"),
        ("gauche et droite de celui qui regarde", "house"),
        ("esquerda e direita do ator que olha para o público", "stage"),
        ("esquerda e direita de quem olha da plateia", "house"),
        ("vasen/oikea katsomoon päin", "stage"),
        ("vä/hö från salongen sett", "house"),
        ("ve/hø set fra scenen", "stage"),
        ("L = the left of a person on the chancel facing the pews", "stage"),
        ("left is my left standing in the pulpit looking at the pews", "stage"),
        ("L = your left when you sit in the seats", "house"),
        ("L/R house left/house right", "house"),
        # nobody's
        ("gauche/droite face public", ""),
        ("left and right when turned to the audience", ""),
        ("L = left of the conductor", ""),
        ("L and R as marked on my drawing (NOT the same way round as the stage plot)", ""),
        ("left and right are the stage manager's", ""),
        ("left/right: the other way round when you enter", ""),
    ],
)
def test_whose_left_and_right_a_line_means(line: str, whose: str) -> None:
    assert said_by([(1, [line])]).bare == whose


@pytest.mark.parametrize(
    ("top", "foot"),
    [
        ("Night - left = stage left", "NB: all lefts and rights are from the audience side"),
        ("L and R as the audience sees it", "L = SL, R = SR"),
        ("links/rechts vom Publikum aus", "links und rechts vom Darsteller aus"),
        ("v = vänster, h = höger, sett från salongen", "v/h sett från scenen, vänster och höger"),
    ],
)
def test_lines_that_disagree_are_asked(tmp_path: Path, top: str, foot: str) -> None:
    rows = [[top], HEADINGS, *units("LX 1", "3 L", "2 R"), [], [foot]]
    mistakes = refused(listed(tmp_path, rows))
    assert {mistake.entry for mistake in mistakes} == {"row 3", "row 4"}
    assert "do not agree" in mistakes[0].expected


def test_lines_that_agree_are_read(tmp_path: Path) -> None:
    rows = [
        ["left = stage left"],
        HEADINGS,
        *units("LX 1", "3 L", "2 R"),
        [],
        ["L/R from the stage"],
    ]
    assert places(read(tmp_path, rows)) == [3.0, -2.0]


def test_a_heading_that_disagrees_with_a_line_is_asked(tmp_path: Path) -> None:
    heads = ["Bar", "Unit", "Distance (left = stage left)", "Type", "Focus"]
    rows = [["L and R as the audience sees it"], heads, *units("LX 1", "3 L", "2 R")]
    assert {mistake.entry for mistake in refused(listed(tmp_path, rows))} == {"row 3", "row 4"}


@pytest.mark.parametrize(
    "cells", [("3,40 sx", "2 dx"), ("310 cm links", "2 m rechts"), ("3 m vä", "2 m hö")]
)
def test_what_is_asked_shows_what_was_typed(tmp_path: Path, cells: tuple[str, str]) -> None:
    mistakes = refused(listed(tmp_path, [HEADINGS, *units("LX 1", *cells)]))
    assert {mistake.came for mistake in mistakes} == {f'"{cell}"' for cell in cells}


def test_what_is_asked_shows_the_side_of_its_own_column_as_typed(tmp_path: Path) -> None:
    heads = ["Bar", "Unit", "Distance", "Side", "Type", "Focus"]
    rows = [["LX 1", 1, "3,40", "links", "spot", "A"], ["LX 1", 2, "2", "rechts", "spot", "A"]]
    mistakes = refused(listed(tmp_path, [heads, *rows]))
    assert any("3,40 links" in mistake.came for mistake in mistakes)


@pytest.mark.parametrize(
    "lines",
    [
        ("L and R in distances: from the seats. Stand names: performers' left and right",),
        ("Boom names: performers' left and right; L and R in distances: from the seats",),
        ("L/R from the audience, stand names are the performers' left and right",),
        ("Boom names: performers' left and right", "L and R: as seen from the seats"),
        ("L and R: as seen from the seats", "Boom names: performers' left and right"),
        ("links/rechts vom Publikum aus; Stativnamen: links/rechts vom Darsteller aus",),
    ],
)
def test_names_may_have_another_left_and_right_than_places(
    tmp_path: Path, lines: tuple[str, ...]
) -> None:
    rows = [*([line] for line in lines), HEADINGS, *units("LX 1", "3 L", "2 R")]
    assert places(read(tmp_path, rows)) == [-3.0, 2.0]


@pytest.mark.parametrize(
    "line",
    [
        "left and right are the audience's. Distances and names: the actors' left and right",
        "left and right are the audience's. In the name column they are the actors' left and right",
    ],
)
def test_what_is_said_of_names_and_places_is_not_of_names_alone(tmp_path: Path, line: str) -> None:
    rows = [[line], HEADINGS, *units("LX 1", "3 L", "2 R")]
    assert {mistake.entry for mistake in refused(listed(tmp_path, rows))} == {"row 3", "row 4"}


def test_left_and_right_of_a_drawing_are_not_the_stage_s(tmp_path: Path) -> None:
    line = "L and R as on my drawing, not the same way round as the stage plot"
    rows = [[line], HEADINGS, *units("LX 1", "3 L", "2 R")]
    assert {mistake.entry for mistake in refused(listed(tmp_path, rows))} == {"row 3", "row 4"}


def test_nordic_letters_of_places(tmp_path: Path) -> None:
    rows = [["vä/hö från salongen sett, meter från mitten"], HEADINGS]
    rows += units("LX 1", "3,6 vä", "mitt", "0,5 hö")
    assert places(read(tmp_path, rows)) == [-3.6, 0.0, 0.5]


@pytest.mark.parametrize(
    ("line", "unit"),
    [
        ("Distances depuis l'axe : J = jardin, C = cour (en m)", "m"),
        ("Distances from CL (in m)", "m"),
        ("Distances from CL (in)", "in"),
    ],
)
def test_in_before_a_unit_is_no_inches(line: str, unit: str) -> None:
    assert said_by([(1, [line])]).unit == unit


@pytest.mark.parametrize(
    ("line", "whose"),
    [
        ("L/R stage left/stage right", "stage"),
        ("R / L stage right / stage left", "stage"),
        ("L and R: stage left and stage right", "stage"),
        ("R/L stage left/stage right", ""),  # crossed, which may be a slip
        ("L/R stage left/stage left", ""),
    ],
)
def test_a_pair_of_letters_before_a_pair_of_sides(line: str, whose: str) -> None:
    assert said_by([(1, [line])]).bare == whose


@pytest.mark.parametrize(
    ("line", "whose"),
    [
        ("R / L = ARTISTE'S RIGHT / LEFT", "stage"),
        ("L and R are the artistes'", "stage"),
        ("Dims L/R of CL (performer's L/R)", "stage"),
        ("ARTISTE LEFT / RIGHT", "stage"),
        ("House L/R used", "house"),
        ("L/R house", "house"),
        ("L & R per audience", "house"),
        ("L/R NOT stage - audience!", "house"),
        ("left and right looking downstage", "stage"),
        ("left and right looking upstage", ""),
        ("House left / right doors locked", ""),
        ("Speaker left and right stacks", ""),
        ("Dancers L/R wings exit only", ""),
    ],
)
def test_whose_the_two_are_in_a_line_that_says_it_beside_them(line: str, whose: str) -> None:
    assert said_by([(1, [line])]).bare == whose


@pytest.mark.parametrize(
    ("heading", "left"),
    [
        ("Place (L/R = audience left/right)", -3.0),
        ("Place (R/L = audience right/left)", -3.0),
        ("Place (L/R = actor's left/right)", 3.0),
        ("Place (sides are the actors')", 3.0),
        ("Place (L=SL/R=SR)", 3.0),
    ],
)
def test_a_heading_that_says_whose_the_two_are_is_not_read_in_the_mirror(
    tmp_path: Path, heading: str, left: float
) -> None:
    head = [heading if word == "Distance" else word for word in HEADINGS]
    assert places(read(tmp_path, [head, *units("LX 1", "3 L", "1 R")])) == [left, -left / 3]


@pytest.mark.parametrize(
    ("line", "whose"),
    [
        ("side rails are measured from the house end", ""),
        ("side booms: heights from the stage", ""),
        ("sides as the house sees them", "house"),
    ],
)
def test_a_pipe_that_is_called_so_is_no_side_of_anybody(line: str, whose: str) -> None:
    assert said_by([(1, [line])]).bare == whose


def test_a_line_on_side_rails_leaves_no_doubt_of_left_and_right() -> None:
    assert not said_by([(1, ["side rails measured upstage, pipes from center line"])]).doubt
    assert said_by([(1, ["sides are taken from the drawing"])]).doubt


@pytest.mark.parametrize(
    ("line", "whose"),
    [
        ("L = stage R", "house"),
        ("L = PS, R = OP", "stage"),
        ("L = OP, R = PS", "house"),
        ("audience perspective", "house"),
        ("from the performers' point of view", "stage"),
        ("dims L or R of centre, house", "house"),
        ("L/R as you enter the hall (stage ahead of you)", ""),
        ("L/R opposite of stage L/R", "house"),
    ],
)
def test_whose_they_are_in_letters_and_views(line: str, whose: str) -> None:
    assert said_by([(1, [line])]).bare == whose


@pytest.mark.parametrize(
    ("heading", "left"),
    [
        ("Place (L = stage R)", -3.0),
        ("Place (L/R is looking from the tech desk to the stage)", -3.0),
        ("Place (L/R stage)", 3.0),
    ],
)
def test_a_heading_of_one_side_in_letters_or_of_a_view(
    tmp_path: Path, heading: str, left: float
) -> None:
    head = [heading if word == "Distance" else word for word in HEADINGS]
    assert places(read(tmp_path, [head, *units("LX 1", "3 L", "1 R")])) == [left, -left / 3]
