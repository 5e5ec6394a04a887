"""Whose left and right people mean that are no people of the theatre, in lines and headings; the sides of a
Danish stage; the middle by its letter; a unit before its figure; legends of several names; no colour at all.

By hand: who faces the seats has stage left to the left, who faces the stage has stage left to the right.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.pagelines.legendlists import told_by
from aimcalc.scene.hanglist.pagelines.titles import said_by
from aimcalc.scene.hanglist.pagelines.whosewords import whose_in_brackets, whose_left
from aimcalc.scene.readers import colour
from tests.scene.hanglist.listed import asked_of, places_of, scene_of

STAGE = [
    "Left and right are the CHILDREN'S left and right (facing the mums and dads)",
    "left and right as the children on stage see it",
    "left/right is from the drummer's side",
    "L and R from the band's point of view",
    "left and right looking out at the guests",
    "left and right when you're standing on stage",
    "left and right as the vicar sees it",
    "Left is the guests' right",
    "left and right as viewed from upstage",
]
HOUSE = [
    "left/right as the congregation sees it",
    "left and right as the mums and dads see it",
    "left and right as you sit in the pews",
    "left and right as seen from the control box",
    "left/right are from the sound desk",
    "L and R given from FOH perspective",
    "left and right as you look at the band",
    "left and right facing the cast",
    "left and right are the parents', not the actors'",
    "sides as seen by the punters",
    "Places as seen by someone in the hall looking at the stage, left and right",
    "left and right of centre, as you watch the show",
]
NOBODY = [
    "Left and right are the children's left and right",  # who play, or who look on
    "left and right as the choir sees it",
    "left and right standing on the stage with your back to the audience",
    "left and right standing on stage facing upstage",
    "Parents on the left, guests on the right",
    "The left stand lights the band, the right one the narrator",
    "Left and right legs: see the band's rider",
    "Sound desk is at the back left, drummer is at the right",
    "left and right as printed on the stage floor",
]


STAGE_IN_TONGUES = [
    "links und rechts aus Sicht des Musikers",
    "gauche/droite du chanteur",
    "gauche et droite quand on est sur scène",
    "izquierda y derecha del músico",
    "dx e sx stando sul palco",
    "esquerda/direita do bailarino",
    "links en rechts van de danseres",
    "vänster och höger för sångaren",
    "venstre/højre for danserne",
    "venstre/høyre for sangeren",
    "vasen ja oikea esiintyjän näkökulmasta",
    "lewa i prawa strona tancerza",
    "vlevo/vpravo z pohledu zpěváka",
    "esquerra/dreta del cantant",
]
HOUSE_IN_TONGUES = [
    "links und rechts aus Sicht der Gemeinde",
    "links/rechts vom Regiepult aus",
    "gauche et droite de l'assemblée",
    "izquierda y derecha vistas por los padres",
    "sx e dx dalla cabina",
    "esquerda e direita da cabine",
    "links en rechts gezien vanaf de regietafel",
    "vänster/höger sett från ljusbordet",
    "venstre og højre som forældrene ser det",
    "venstre og høyre sett fra menigheten",
    "vasen/oikea valopöydältä katsottuna",
    "lewa/prawa patrząc z reżyserki",
    "vlevo/vpravo z kabiny",
]
UNITS_IN_TONGUES = [  # what is lit from the left and what from the right, and nobody's view
    "Links der Sänger, rechts der Schauspieler",
    "Foco izquierdo para el músico, derecho para la bailarina",
    "Cabina a la izquierda, torre a la derecha",
    "gauche: cabine, droite: porte",
    "Muzikant links, zanger rechts",
    "Lyspulten står til venstre, døren til højre",
    "Die Eltern sitzen links, die Gäste rechts",
    "Barre gauche : chanteuse",
]


@pytest.mark.parametrize("line", STAGE_IN_TONGUES)
def test_the_left_of_who_plays_is_the_stages_in_other_languages(line: str) -> None:
    assert said_by([(1, [line])]).bare == "stage"


@pytest.mark.parametrize("line", HOUSE_IN_TONGUES)
def test_the_left_of_who_looks_on_is_the_houses_in_other_languages(line: str) -> None:
    assert said_by([(1, [line])]).bare == "house"


@pytest.mark.parametrize("line", UNITS_IN_TONGUES)
def test_somebody_on_each_side_is_no_view(line: str) -> None:
    said = said_by([(1, [line])])
    assert (said.bare, said.sides) == ("", ())


@pytest.mark.parametrize(
    "cell",
    [
        "Door from above",
        "Door from the left",
        "Door von hinten",
        "Door dall'alto",
        "Door de derrière",
    ],
)
def test_a_target_says_from_where_it_is_lit(tmp_path: Path, cell: str) -> None:
    text = f'Position,Unit,At,Kind,Target\nLX 2,1,1 m SL,wide,"{cell}"\n'
    units = [unit for unit in scene_of(tmp_path, text).units if unit.position == "LX 2"]
    assert [unit.target for unit in units] == ["Door"]


def test_a_target_from_another_is_asked(tmp_path: Path) -> None:
    assert asked_of(tmp_path, "Position,Unit,At,Kind,Target\nLX 2,1,1 m SL,wide,Door from Table\n")


@pytest.mark.parametrize("line", STAGE)
def test_the_left_of_who_faces_the_seats_is_the_stages(line: str) -> None:
    assert said_by([(1, [line])]).bare == "stage"


@pytest.mark.parametrize("line", HOUSE)
def test_the_left_of_who_faces_the_stage_is_the_houses(line: str) -> None:
    assert said_by([(1, [line])]).bare == "house"


@pytest.mark.parametrize("line", NOBODY)
def test_a_line_that_says_no_view_of_anybody_tells_nothing(line: str) -> None:
    assert said_by([(1, [line])]).bare == ""


@pytest.mark.parametrize(
    ("heading", "whose"),
    [
        ("Place (left/right as the congregation sees it)", "house"),
        ("Place (your left/right when you sit in the hall)", "house"),
        ("Distance, left or right (looking out at the mums and dads)", "stage"),
        ("Position on bar (L/R from the sound desk)", "house"),
        ("Place (left/right)", ""),
        ("Place (children's left/right)", ""),
    ],
)
def test_a_heading_says_whose_left_and_right_it_has(heading: str, whose: str) -> None:
    assert whose_in_brackets(heading) == whose


def test_places_under_a_heading_of_the_congregation(tmp_path: Path) -> None:
    text = (
        "Bar,Light,Place (left/right as the congregation sees it),Kind,Target\n"
        "LX 2,1,2 m right of center,wide,Door\nLX 2,2,1.5 m left of center,wide,Table\n"
    )
    assert places_of(tmp_path, text) == [2.0, -1.5]


@pytest.mark.parametrize(
    ("line", "sides"),
    [
        ("KS = kongeside (venstre set fra salen), DS = dameside", {"ks": "SR", "ds": "SL"}),
        ("kongeside (KS) og dameside (DS)", {"ks": "SR", "ds": "SL"}),
        ("K = kongeside, D = dameside", {"k": "SR", "d": "SL"}),
        ("KS = kongeside (højre set fra salen), DS = dameside (venstre set fra salen)", {}),
        ("DS = downstage, US = upstage", {}),
    ],
)
def test_sides_of_a_danish_stage(line: str, sides: dict[str, str]) -> None:
    said = dict(said_by([(1, [line])]).sides)
    assert {word: side for word, side in said.items() if word[0] in "kd"} == sides


DANISH = "KS = kongeside, DS = dameside\nPosition,Unit,At,Kind,Target\n"


def test_ds_is_a_side_where_a_line_says_so(tmp_path: Path) -> None:
    text = f"{DANISH}LX 2,1,3.4 m KS,wide,Door\nLX 2,2,0.6 m DS,wide,Table\n"
    assert places_of(tmp_path, text) == [-3.4, 0.6]


def test_ds_is_no_side_of_a_bar_elsewhere(tmp_path: Path) -> None:
    assert "DS" in asked_of(tmp_path, "Position,Unit,At,Kind,Target\nLX 2,1,0.6 m DS,wide,Door\n")


def test_m_between_left_and_right_is_the_middle(tmp_path: Path) -> None:
    text = (
        "L en R vanaf het toneel gezien\nPosition,Unit,Maat (cm),Kind,Target\n"
        "LX 2,1,L 320,wide,Door\nLX 2,2,M,wide,Table\nLX 2,3,R 40,wide,Door\n"
    )
    assert places_of(tmp_path, text) == [3.2, 0.0, -0.4]


def test_m_before_a_figure_without_a_side_is_asked(tmp_path: Path) -> None:
    assert asked_of(tmp_path, "Position,Unit,At,Kind,Target\nLX 2,1,M 3,wide,Door\n")


@pytest.mark.parametrize(
    ("cell", "at"),
    [
        ("cm 310 SR", -3.1),
        ("m 3.10 SL", 3.1),
        ("mt. 3.10 SR", -3.1),
        ("SL cm 45", 0.45),
        ("cm310 SL", 3.1),
        ("ft 10 SR", -3.048),
    ],
)
def test_a_unit_stands_before_its_figure(tmp_path: Path, cell: str, at: float) -> None:
    text = f"Position,Unit,At,Kind,Target\nLX 2,1,{cell},wide,Door\n"
    assert places_of(tmp_path, text) == pytest.approx([at])


NAMES = ("Vorne links", "Vorne Mitte", "Vorne rechts", "Mitte")
FRONT = {"VL": "Vorne links", "VM": "Vorne Mitte", "VR": "Vorne rechts"}


@pytest.mark.parametrize(
    ("line", "codes"),
    [
        ("li = links, re = rechts; VL/VM/VR = Vorne links/Mitte/rechts", FRONT),
        ("li = links, re = rechts, VL/VM/VR = Vorne links/Mitte/rechts", FRONT),
        ("A = links; VL, VM, VR = Vorne links, Mitte, rechts", FRONT),
        ("VL/VM/VR = Vorne links/Mitte/rechts", FRONT),
        ("VR = Vorne links/Mitte/rechts", {}),  # one code of three names
    ],
)
def test_several_codes_behind_other_words_have_a_name_each(
    line: str, codes: dict[str, str]
) -> None:
    told = told_by(line, {"target": lambda name: name if name in NAMES else None})
    assert {code: name for _, code, name in told.found} == codes


@pytest.mark.parametrize(
    "cell",
    [
        "s/ filtro",
        "w/o gel",
        "pas de gel",
        "z. filter",
        "u/ farge",
        "bez folii",
        "luce bianca",
        "leer",
    ],
)
def test_no_colour_in_other_words(cell: str) -> None:
    assert colour(cell) is None


@pytest.mark.parametrize("cell", ["S", "Z", "R33", "S201", "white"])
def test_a_colour_is_one(cell: str) -> None:
    assert colour(cell) == cell


def test_gels_among_open_ones_are_a_column_of_colours(tmp_path: Path) -> None:
    rows = ["R33", "OPEN", "R64", "open", "OPEN"]
    lines = [f"LX 2,{k},{k * 0.5} m SL,wide,Door,{gel}" for k, gel in enumerate(rows, 1)]
    text = "\n".join(["Position,Unit,At,Kind,Target,Frame", *lines])
    found = [unit.colour for unit in scene_of(tmp_path, text).units if unit.position == "LX 2"]
    assert found == ["R33", None, "R64", None, None]


def test_open_and_closed_are_no_colours(tmp_path: Path) -> None:
    rows = ["open", "shut", "open"]
    lines = [f"LX 2,{k},{k * 0.5} m SL,wide,Door,{gel}" for k, gel in enumerate(rows, 1)]
    text = "\n".join(["Position,Unit,At,Kind,Target,Frame", *lines])
    assert all(unit.colour is None for unit in scene_of(tmp_path, text).units)


@pytest.mark.parametrize(
    ("line", "whose"),
    [
        ("left and right as the minister faces the people", "stage"),
        ("left and right as the priest faces the people", "stage"),
        ("left and right as the choir faces the people", "stage"),
        ("left and right are the minister's", "stage"),
        ("left and right as the people face the minister", "house"),
        ("l and r as the conductor faces the choir", "house"),
        ("left and right as the choir faces the conductor", ""),
        ("left and right as the minister faces the altar", ""),  # behind it, or before it
        ("left and right as the priest sees them", ""),
    ],
)
def test_who_faces_whom_in_a_church(line: str, whose: str) -> None:
    assert whose_left(line) == whose
