"""Headings of places in free words, over a column of lengths."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.columns.placeheadings import place_said
from aimcalc.scene.loading import load_scene
from tests.scene.hanglist.listed import asked_of, places_of, scene_of, told_of
from tests.scene.written import write_scene

SIDE_RAIL = """
[[pipe]]
name = "Rail"
start = [4, -2, 5]
end = [4, 6, 5]
"""


def _said(heading: str) -> tuple[str, str, str, str, bool]:
    found = place_said(heading)
    return "".join(found.keys), found.unit, found.end, found.plus, found.heights


@pytest.mark.parametrize(
    ("heading", "said"),
    [
        ("spots (ft off centre)", ("at", "ft", "", "", False)),
        ("Inches? no - FEET from SL end of pipe", ("at", "ft", "SL", "", False)),
        ("Across: SL + / SR -", ("at", "", "", "SL", False)),
        ("Feet: SR+ SL-", ("at", "ft", "", "SR", False)),
        ("Across, m (SL positive)", ("at", "m", "", "SL", False)),
        ("Metres from SL end / height on post", ("at", "m", "SL", "", True)),
        ("Along bar from SR end / up boom", ("at", "", "SR", "", True)),
        ("mm ex centre / mm above deck", ("at", "mm", "", "", True)),
        ("ft from CL (booms: height)", ("at", "ft", "", "", True)),
        ("cm (Zug: ab Mitte, + Spieler links / Turm: ab Boden)", ("at", "cm", "", "SL", True)),
        ("cm von Mitte (+ = linke Bühnenseite vom Spieler)", ("at", "cm", "", "SL", False)),
        ("Hauteur (tours) / distance axe (perches) en m", ("at", "m", "", "", True)),
        ("m depuis l'axe (jardin -)", ("at", "m", "", "SL", False)),
        ("Hoogte of afstand", ("at", "", "", "", True)),
        ("Altura / sitio", ("at", "", "", "", True)),
        ("Meter von Mitte bzw. Höhe", ("at", "m", "", "", True)),
        ("posto (m dal centro) / altezza", ("at", "m", "", "", True)),
        ("Höhe am Turm", ("height", "", "", "", False)),
        ("Hauteur sur tour", ("height", "", "", "", False)),
        ("RUNG_FT", ("height", "ft", "", "", False)),
        ("Upstage (m)", ("upstage", "m", "", "", False)),
        ("y (ft, upstage +)", ("upstage", "ft", "", "", False)),
        ("Upstage of setting line (m)", ("upstage", "m", "", "", False)),
        ("Inches from the last one (first: from SR end of pipe)", ("gap", "in", "SR", "", False)),
        ("Spacing (first from SR end, then from last unit), m", ("gap", "m", "SR", "", False)),
    ],
)
def test_what_a_heading_says_part_by_part(
    heading: str, said: tuple[str, str, str, str, bool]
) -> None:
    assert _said(heading) == said


@pytest.mark.parametrize(
    "heading",
    [
        "Left(-)/Right(+) of centre, ft",  # whose left?
        "Lengte vanaf links",
        "Distance from wall (m)",
        "m from back wall / height",
        "Bar height (m)",
        "Height of bar above stage",
        "Distance to next (m)",
        "Throw distance m",
        "Cable from SL end (m)",
        "Numbered from SR end",
        "ft off centre / m up booms",  # two units
        "from SL end, from SR end (m)",
        "+ SL, + SR (m)",
        "RUNG",
        "Rung (18 in)",
        "Width (m)",
        "Upstage of centre (m)",
        "Upstage of curtain line (m)",
        "Height of hanging point (m)",
        "Trim",
        "x" * 70_000,
    ],
)
def test_headings_that_say_no_place_or_two(heading: str) -> None:
    assert place_said(heading).keys == ()


def test_a_heading_that_says_its_unit_and_end(tmp_path: Path) -> None:
    text = (
        "pipe,unit,Inches? no - CM from SL end of pipe,kind,target\nLX 1,1,100,spot,A\n"
        "LX 1,2,250,spot,A\n"
    )
    assert places_of(tmp_path, text) == [4.0, 2.5]


def test_heights_of_booms_and_an_end_for_pipes_in_one_heading(tmp_path: Path) -> None:
    text = (
        "pipe,unit,Metres from SL end / height on post,kind,target\nLX 1,1,1,spot,A\n"
        "boom SR,1,2.5,spot,A\nboom SR,2,2,spot,A\n"
    )
    assert places_of(tmp_path, text) == [4.0, 2.5, 2.0]


def test_a_sign_for_pipes_and_heights_of_booms_in_german(tmp_path: Path) -> None:
    heading = "cm (Zug: ab Mitte, + Spieler links / Turm: ab Boden)"
    text = (
        f'pipe,unit,"{heading}",kind,target\nLX 1,1,-380,spot,A\nLX 1,2,60,spot,A\n'
        "boom SR,1,220,spot,A\n"
    )
    assert places_of(tmp_path, text) == [-3.8, 0.6, 2.2]


def test_gaps_and_the_end_of_the_first_in_one_heading(tmp_path: Path) -> None:
    text = (
        'Pipe,Unit,"Spacing (first from SR end, then from last unit), m",Kind,Target\n'
        "LX 1,1,2,spot,A\nLX 1,2,2.5,spot,A\nLX 1,3,3,spot,A\n"
    )
    assert places_of(tmp_path, text) == [-3.0, -0.5, 2.5]


@pytest.mark.parametrize(
    "heading",
    [
        "Meter ab Mitte (+ Spielerlinks) / Höhe",
        "C/L (SL +) / deck",
        "x or z (SL +)",
        "distance à l'axe (cour +) / hauteur sur pied",
        "m dal centro (+ sinistra attore) / altezza",
        "afstand midden (+ = links van de speler) of hoogte (m)",
        "lamp spot in m from middle (minus = SR), trees by height",
        "How far off centre (+ stage left) or how high, metres",
    ],
)
def test_one_column_for_pipes_and_booms_in_many_words(heading: str, tmp_path: Path) -> None:
    text = (
        f'pipe,unit,"{heading}",kind,target\nLX 1,1,4,spot,A\nLX 1,2,-1,spot,A\n'
        "boom SR,1,2.5,spot,A\nboom SR,2,1.5,spot,A\n"
    )
    assert places_of(tmp_path, text) == [4.0, -1.0, 2.5, 1.5]


@pytest.mark.parametrize("heading", ["Gap (m), first from SR end", "Step (m), first from SR end"])
def test_gaps_are_no_places_from_the_end_of_the_first(heading: str, tmp_path: Path) -> None:
    text = f'pipe,unit,"{heading}",kind,target\nLX 1,1,4,spot,A\nLX 1,2,5,spot,A\n'
    assert places_of(tmp_path, text) == [-1.0, 4.0]


@pytest.mark.parametrize("heading", ["Höhe / links", "hauteur / gauche (m)"])
def test_a_left_of_nobody_beside_a_height_is_asked_about(heading: str, tmp_path: Path) -> None:
    text = (
        f"pipe,unit,{heading},kind,target\nLX 1,1,4,spot,A\nLX 1,2,1,spot,A\nboom SR,1,2.5,spot,A\n"
    )
    assert "may hold it" in asked_of(tmp_path, text)


def test_a_column_across_beside_one_upstage(tmp_path: Path) -> None:
    text = (
        "pipe,unit,Upstage (m),Across (m; +SR),kind,target\nRail,1,-1.5,,spot,A\nRail,2,2,,spot,A\n"
        "LX 1,1,,1.5,spot,A\n"
    )
    path = write_scene(tmp_path, SIDE_RAIL, settings='hang = "hang.csv"')
    (tmp_path / "hang.csv").write_text(text, encoding="utf-8")
    units = load_scene(path).units
    pipe = {"Rail": 2.0}  # its middle, from which its places count
    assert [round(u.at + pipe.get(u.position, 0.0), 6) for u in units] == [-1.5, 2.0, -1.5]


def test_two_free_columns_of_which_each_row_fills_one(tmp_path: Path) -> None:
    text = (
        "pipe,unit,Across: SL + / SR -,Along: from SR end,kind,target\nLX 1,1,2.8,,spot,A\n"
        "LX 1,2,-0.4,,spot,A\nLX 2,1,,0.9,spot,A\n"
    )
    assert places_of(tmp_path, text) == [2.8, -0.4, -4.1]


def test_what_a_free_heading_leaves_open_is_asked_about(tmp_path: Path) -> None:
    text = (
        "pipe,unit,Left(-)/Right(+) of middle in m,kind,target\nLX 1,1,2,spot,A\nLX 1,2,-1,spot,A\n"
    )
    assert "may hold it" in asked_of(tmp_path, text)
    text = "pipe,unit,m from back wall,kind,target\nLX 1,1,2,spot,A\nLX 1,2,1.5,spot,A\n"
    assert "may hold it" in asked_of(tmp_path, text)


@pytest.mark.parametrize(
    "heading", ["Feet (from DS)", "from DS in feet", "from the DS (ft)", "ft from DS"]
)
def test_a_heading_says_from_ds_for_the_ds_end(heading: str, tmp_path: Path) -> None:
    text = f"pipe,unit,{heading},kind,target\nRail,1,3,spot,A\nRail,2,18,spot,A\n"
    path = write_scene(tmp_path, SIDE_RAIL, settings='hang = "hang.csv"')
    (tmp_path / "hang.csv").write_text(text, encoding="utf-8")
    assert place_said(heading).end == "DS"
    inward = [4 + unit.at for unit in load_scene(path).units]  # it is 8 m long
    assert inward == pytest.approx([3 * 0.3048, 18 * 0.3048])


@pytest.mark.parametrize("heading", ["Dist (from SR)", "From DS wall", "From DS to US"])
def test_from_a_side_of_what_else_is_no_end(heading: str) -> None:
    assert place_said(heading).end == ""


@pytest.mark.parametrize("heading", ["Addr", "Adr.", "addr"])
def test_an_address_of_universe_and_slot_is_no_place(heading: str, tmp_path: Path) -> None:
    text = f"truss,qty,kind,target,{heading}\nLX 1,2,spot,A,1.001\nLX 1,1,spot,A,1.003\n"
    units = scene_of(tmp_path, text).units
    assert [unit.number for unit in units] == ["1", "2", "3"]


def test_a_free_heading_beside_a_plain_one_is_a_remark(tmp_path: Path) -> None:
    text = (
        "pipe,unit,at,Across the truss (m; +SL),kind,target\nLX 1,1,2,7,spot,A\n"
        "LX 1,2,1.5,8,spot,A\n"
    )
    assert [unit.at for unit in scene_of(tmp_path, text).units] == [2.0, 1.5]
    assert "Across the truss" in told_of(tmp_path, text)


def test_units_spread_in_a_word_among_heights(tmp_path: Path) -> None:
    text = (
        "Posición,Unidad,Altura / sitio,Aparato,Apunta a\nboom SR,1,2.5,spot,A\nboom SR,2,1.5,spot,A\n"
        "LX 1,1,repartidos,spot,A\nLX 1,2,repartidos,spot,A\n"
    )
    places = places_of(tmp_path, text)
    assert places[:2] == [2.5, 1.5]
    assert places[2] == -places[3]


@pytest.mark.parametrize("heading", ["Order from SR", "Lamp no. (from the SR end)", "# from SR"])
def test_the_end_at_which_numbers_begin_is_no_place(heading: str, tmp_path: Path) -> None:
    text = f"pipe,{heading},m from SL end,lamp,Focus\nLX 1,2,2,spot,A\nLX 1,4,1,spot,A\n"
    units = scene_of(tmp_path, text).units
    assert [(str(unit.number), unit.at) for unit in units] == [("2", 3.0), ("4", 4.0)]


OVER = "Nr;{heading};Lampa;Riktas mot\nLX 1;;;\n1;{first};spot;A\n2;{second};spot;Door\n"


@pytest.mark.parametrize("heading", ["Läge", "Lage", "Sted", "Stelle", "Ort", "Platz A", "Xyz"])
@pytest.mark.parametrize(
    ("first", "second"),
    [("3,2 V", "1,2 H"), ("V 3,2", "H 1,2"), ("3,2 G", "1,2 D"), ("320i", "120d")],
)
def test_figures_with_letters_of_sides_that_nobody_explains_are_not_passed_over(
    heading: str, first: str, second: str, tmp_path: Path
) -> None:
    text = OVER.format(heading=heading, first=first, second=second)
    assert "at" in asked_of(tmp_path, text)


@pytest.mark.parametrize(("first", "second"), [("3 V", "4 V"), ("V1", "X2"), ("A1", "B2")])
def test_figures_with_other_letters_are_remarks(first: str, second: str, tmp_path: Path) -> None:
    text = OVER.format(heading="Xyz", first=first, second=second)
    assert asked_of(tmp_path, text) == ""


@pytest.mark.parametrize("heading", ["Läge", "Lage", "Sted", "Stelle"])
def test_a_word_for_a_place_over_places_or_over_positions(heading: str, tmp_path: Path) -> None:
    text = OVER.format(heading=heading, first="3.2 SL", second="1.2 SR")
    assert places_of(tmp_path, text) == [3.2, -1.2]
    text = f"{heading};Nr;Lampa;Riktas mot;Avstånd\nLX 1;1;spot;A;3.2 SL\nLX 1;2;spot;Door;1.2 SR\n"
    assert places_of(tmp_path / "b", text) == [3.2, -1.2]


@pytest.mark.parametrize("heading", ["Spot on pipe", "Spot on truss", "Spot along bar"])
def test_a_spot_on_a_pipe_is_a_place(heading: str, tmp_path: Path) -> None:
    text = f"pipe,unit,{heading},kind,target\nLX 1,1,HL 2,spot,A\nLX 1,2,HR 1,spot,Door\n"
    assert places_of(tmp_path, text) == [-2.0, 1.0]


@pytest.mark.parametrize(
    "heading", ["Medida ao centro (m)", "Medida al centro", "medida do centro"]
)
def test_a_measure_to_the_centre_beside_the_sides(heading: str, tmp_path: Path) -> None:
    text = f"Vara,N.º,{heading},Lado,Aparato,Foco a\nLX 1,1,2,SL,spot,A\nLX 1,2,1,SR,spot,Door\n"
    assert places_of(tmp_path, text) == [2.0, -1.0]


@pytest.mark.parametrize(("first", "second"), [("SX 3,2", "DX 1,2"), ("3,2 izq", "1,2 der")])
def test_figures_with_short_words_of_sides_are_not_passed_over(
    first: str, second: str, tmp_path: Path
) -> None:
    assert "at" in asked_of(tmp_path, OVER.format(heading="Xyz", first=first, second=second))


@pytest.mark.parametrize("heading", ["Where it goes", "Where along", "Spot", "Thing"])
@pytest.mark.parametrize(
    ("first", "second"), [("2 m HL", "1 m HR"), ("HL 2", "HR 1"), ("2m h.l.", "1m h.r.")]
)
def test_places_on_house_left_and_right_under_any_heading(
    heading: str, first: str, second: str, tmp_path: Path
) -> None:
    text = f"pipe,unit,{heading},kind,target\nLX 1,1,{first},spot,A\nLX 1,2,{second},spot,Door\n"
    assert places_of(tmp_path, text) == [-2.0, 1.0]


@pytest.mark.parametrize(
    "heading", ["Ort auf der Stange", "Position auf der Stange", "Abstand auf der Stange (m)"]
)
def test_a_german_place_on_the_pipe_beside_its_sides(heading: str, tmp_path: Path) -> None:
    text = f"Stange;Nr.;Gerät;{heading};Seite;Ziel\nLX 1;1;spot;2;SL;A\nLX 1;2;spot;1;SR;Door\n"
    assert places_of(tmp_path, text) == [2.0, -1.0]


@pytest.mark.parametrize("heading", ["Hang point", "Hanging point", "Hung at", "Place"])
def test_a_word_for_a_place_over_the_positions_beside_the_places(
    heading: str, tmp_path: Path
) -> None:
    text = f"{heading},Unit,From SR end,Light,Focus\nLX 1,1,1,spot,A\nLX 2,1,2,spot,Door\n"
    path_units = scene_of(tmp_path, text).units
    assert [(unit.position, unit.at) for unit in path_units] == [("LX 1", -4.0), ("LX 2", -3.0)]


@pytest.mark.parametrize(
    ("left", "right"),
    [
        *(("S/L (m)", "S/R (m)"), ("S/L", "S/R"), ("Dist. SL", "Dist. SR")),
        *(("PS (m)", "OP (m)"), ("m SL of CL", "m SR of CL"), ("Metres S/L", "Metres S/R")),
    ],
)
def test_a_column_a_side_beside_one_of_heights(tmp_path: Path, left: str, right: str) -> None:
    text = f"Position,Unit,{left},{right},Height (m),Type,Focus\n"
    text += "LX 2,1,4.4,,,wide,Door\nLX 2,2,,0.3,,wide,Door\nLX 2,3,0,,,wide,Door\n"
    text += "boom SR,1,,,1.5,wide,Door\n"
    assert places_of(tmp_path, text) == [4.4, -0.3, 0.0, 1.5]
