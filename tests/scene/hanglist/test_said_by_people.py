"""What people write round their tables and in their cells, by lists that were read otherwise or not at
all; every place worked out by hand.
"""

from __future__ import annotations

import datetime
from pathlib import Path

import openpyxl
import pytest

from aimcalc.scene.hanglist.places.compass import in_points, o_said
from aimcalc.scene.hanglist.places.placewords import day_order
from aimcalc.scene.loading import load_scene
from tests.scene.hanglist.listed import ALTAR, BAR, HALL, asked_in, scene_in

TOWERS = """
[[boom]]
name = "East Tower"
x = 7
y = 1
height = 5

[[boom]]
name = "West Tower"
x = -7
y = 1
height = 5
"""
HOUSE = HALL + BAR + TOWERS + ALTAR
HEAD = "Position;No;Place;Lamp;Focus"
IN_FEET = HOUSE.replace('title = "Hall"', 'title = "Hall"\nunit = "ft"')


def _rows(*cells: str) -> list[str]:
    return [f"Bar 1;{n};{cell};Spot;Altar" for n, cell in enumerate(cells, 1)]


def _places(root: Path, *lines: str, house: str = HOUSE) -> list[float]:
    return [round(float(unit.at or 0), 6) for unit in scene_in(root, house, lines).units]


@pytest.mark.parametrize(
    "cell", ["2 m links v. d. Mitte", "2 m links v.d. Mitte", "2 m links v. Mitte"]
)
def test_von_der_cut_short_before_the_middle(tmp_path: Path, cell: str) -> None:
    line = "Achtung: links und rechts immer vom Publikum aus gesehen!"
    assert _places(tmp_path, line, "", HEAD, *_rows(cell)) == [-2.0]


def test_whose_left_it_is_where_another_sentence_names_the_auditorium(tmp_path: Path) -> None:
    line = "Light plot for our auditorium. Sides are DANCER'S left and right."
    assert _places(tmp_path, line, "", HEAD, *_rows("2 m R", "1 m L")) == [-2.0, 1.0]


def test_x_beside_the_height_of_a_unit_on_a_boom_is_where_the_boom_stands(tmp_path: Path) -> None:
    rows = ["East Tower;1;7000;2400;Spot;Altar", "Bar 1;1;-3000;5000;Spot;Altar"]
    head = "Position;No;X (mm, + is SL);Z Height (mm);Lamp;Focus"
    assert _places(tmp_path, head, *rows) == [2.4, -3.0]


def test_grad_is_a_dimmer_in_french_and_degrees_in_german(tmp_path: Path) -> None:
    french = [
        "Grad.;Type;Perche;n°;Cote (m);Côté;Filtre;Direction",
        "3;Spot;Bar 1;1;2;cour;202;Altar",
    ]
    (unit,) = scene_in(tmp_path, HOUSE, french).units
    assert (unit.circuit, unit.at) == ("3", 2.0)
    german = ["Grad;Gerät;Position;Nr;Maß;Ziel", "26;Spot;Bar 1;1;2 m SL;Altar"]
    (unit,) = scene_in(tmp_path, HOUSE, german).units
    assert unit.circuit is None


def test_lx_number_beside_the_bar_is_the_number(tmp_path: Path) -> None:
    lines = ["Bar;Lx No.;m SR of CL;m SL of CL;Lantern;Focus"]
    lines += ["Bar 1;1;2;;Spot;Altar", "BAR1;2;;1;Spot;Altar", "Bar 2;1;3;;Spot;Altar"]
    house = HOUSE + BAR.replace("Bar 1", "Bar 2").replace("y = 2", "y = 4")
    units = scene_in(tmp_path, house, lines).units
    assert [(u.position, u.number, u.at) for u in units] == [
        ("Bar 1", "1", -2.0),
        ("Bar 1", "2", 1.0),
        ("Bar 2", "1", -3.0),
    ]


def test_the_middle_one_of_units_spread_evenly_may_say_that_it_is_there(tmp_path: Path) -> None:
    line = "Spread evenly on each pipe, #1 at stage left."
    assert _places(tmp_path, line, HEAD, *_rows("", "CL", "")) == [4.0, 0.0, -4.0]
    asked = asked_in(tmp_path, HOUSE, [line, HEAD, *_rows("", "1 m SL", "")])
    assert "Add at" in asked  # not where an even spread has it


def test_feet_and_inches_that_became_dates_in_a_file_of_text(tmp_path: Path) -> None:
    """6'-2" SL is 1.8796 m; in a file without the line it may be 2'-6" too, and is asked about."""
    house = HALL.replace('"Hall"', '"Hall"\nunit = "ft"') + BAR.replace("6", "20") + ALTAR
    line = "(ft-in from center. The program made dates of them: 2-Jun is 6-2. sorry)"
    rows = _rows("2-Jun L", "14-0 R")
    head = "Position;No;Ft-In, stage left and right;Lamp;Focus"
    assert _places(tmp_path, line, "", head, *rows, house=house) == [1.8796, -4.2672]
    assert "6'-2\" or 2'-6\"" in asked_in(tmp_path, house, ["", head, *rows])


def test_which_figure_of_a_day_came_first() -> None:
    assert day_order("2-Jun is 6-2") is False
    assert day_order("2-Jun means 2-6") is True
    assert day_order("2-Jun is the opening") is None
    assert day_order("2-Jun is 7-2") is None
    assert day_order("The program turned some into dates: 6-2 came out as 2-Jun. Sorry!") is False
    assert day_order('it turned "2-6" into "2-Jun" again') is True
    assert day_order("2-6 became 2-Jun") is day_order("2-Jun should be 2-6") is True
    assert day_order("see 6-2, out as of 2-Jun") is None


def test_the_remark_of_a_row_says_what_its_day_was(tmp_path: Path) -> None:
    house = HALL.replace('"Hall"', '"Hall"\nunit = "ft"') + BAR.replace("6", "20") + ALTAR
    head = "Position;No;Ft-In;Side;Lamp;Focus;Notes"
    row = "Bar 1;{};{};{};Spot;Altar;{}".format
    rows = row(1, "2-Jun", "SL", "spreadsheet ate this one again, 6-2"), row(2, "4-Mar", "SR", "")
    assert _places(tmp_path, head, *rows, house=house) == [1.8796, -1.0160]
    assert _places(tmp_path, head, row(1, "2-Jun", "SL", "was 2-6"), house=house) == [0.762]
    for remark in ("patch 2-6", "should be 7-2", "6-2 or 2-6, spreadsheet ate it"):
        told = asked_in(tmp_path, house, [head, row(1, "2-Jun", "SL", remark)])
        assert "6'-2\" or 2'-6\"" in told


def test_points_of_the_compass_in_other_languages(tmp_path: Path) -> None:
    line = "Maße in m ab Bühnenmitte, O = zur Ostseite, W = zur Westseite."
    assert _places(tmp_path, line, "", HEAD, *_rows("1,80 O", "4,5 W", "Mitte")) == [1.8, -4.5, 0.0]
    assert in_points("Portalturm Ost") == "Portalturm east"
    assert in_points("2 m est") == "2 m est"
    assert [o_said(line) for line in ("O = ouest", "O = Ost", "O = offen")] == ["west", "east", ""]
    assert "2 O" in asked_in(tmp_path, HOUSE, [HEAD, *_rows("2 O")])


def test_o_p_with_dots_beside_op_without(tmp_path: Path) -> None:
    assert _places(tmp_path, HEAD, *_rows("2.8 OP", "1.0 O.P.", "1.0 P.S.")) == [-2.8, -1.0, 1.0]


def test_a_beam_off_the_proscenium_is_no_place_from_it(tmp_path: Path) -> None:
    head = "Position;No;Place;Lamp;Focus;Comments"
    rows = [f"{row};hard edge, off the pros" for row in _rows("0.4 SL", "2 SR")]
    assert _places(tmp_path, head, *rows) == [0.4, -2.0]


def test_hung_at_over_bars_and_numbers_beside_feet_from_an_end(tmp_path: Path) -> None:
    """5 m from the SR end of a bar from -6 to 6 is 1 m SR."""
    lines = ["Ch;Hung at;Lamp;m from SR end of pipe;Area", "1;Bar 1 #1;Spot;5;Altar"]
    (unit,) = scene_in(tmp_path, HOUSE, [*lines, "2;Bar 1 #2;Spot;8;Altar"]).units[:1]
    assert (unit.position, unit.number, unit.at) == ("Bar 1", "1", -1.0)


def test_places_from_the_zero_line_in_french_and_italian(tmp_path: Path) -> None:
    """The rail runs from 6 m downstage of the plaster line to 8 m upstage of it, its zero 1 m upstage."""
    rail = '[[pipe]]\nname = "Rail"\nstart = [-7, -6, 4]\nend = [-7, 8, 4]\n'
    lines = ["Rail : mètres depuis la ligne de zéro vers le lointain.", "", HEAD]
    house = HOUSE + rail
    assert _places(tmp_path, *lines, "Rail;1;3,4;Spot;Altar", house=house) == [2.4]
    lines = [f"{HEAD};Note", "Rail;1;4,5;Spot;Altar;4,50 dalla linea zero verso il fondo"]
    assert _places(tmp_path, *lines, house=house) == [3.5]
    assert "count from" in asked_in(tmp_path, house, [lines[0], "Rail;1;4,5;Spot;Altar;controluce"])


def test_cote_axe_is_the_place_beside_j_and_c(tmp_path: Path) -> None:
    lines = ["J = jardin, C = cour.", "Accroche;Rep.;Appareil;Cote axe (m);J / C;Direction"]
    lines += ["Bar 1;1;Spot;3,1;J;Altar", "Bar 1;2;Spot;0;;Altar", "Bar 1;3;Spot;2,4;C;Altar"]
    assert _places(tmp_path, *lines) == [-3.1, 0.0, 2.4]


def test_feet_and_inches_that_became_dates_under_a_heading_a_side(tmp_path: Path) -> None:
    """The sixth of December was 12-6, which is 12'-6" (3.81 m): no inches are twelve."""
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.append(["Position", "Unit #", "Type", "SR of CL", "SL of CL", "Focus"])
    sheet.append(["Bar 1", 1, "Spot", datetime.date(2026, 12, 6), None, "Altar"])
    sheet.append(["Bar 1", 2, "Spot", None, "on CL", "Altar"])
    sheet.append(["Bar 1", 3, "Spot", None, datetime.date(2026, 6, 2), "Altar"])
    book.save(tmp_path / "list.xlsx")
    house = HALL.replace('"Hall"', '"Hall"\nunit = "ft"').replace("list.csv", "list.xlsx")
    (tmp_path / "scene.toml").write_text(house + BAR.replace("6", "20") + ALTAR, "utf-8")
    units = load_scene(str(tmp_path)).units
    assert [unit.at for unit in units] == pytest.approx([-3.81, 0.0, 1.8796])


@pytest.mark.parametrize(
    "line",
    [
        "1.2 m apart, symmetrical about the middle, no. 1 outermost SR",
        "Alle lamper 1,2 m fra hinanden, symmetrisk om midten, nr. 1 yderst SR",
        "1,2 m auseinander, symmetrisch zur Mitte, Nr. 1 außen SR",
    ],
)
def test_spacing_about_the_middle_from_the_side_that_a_line_says(tmp_path: Path, line: str) -> None:
    lines = [line, "Position;No;Lamp;Focus", "Bar 1;1;Spot;Altar", "Bar 1;2;Spot;Altar"]
    assert _places(tmp_path, *lines) == [-0.6, 0.6]


def test_spacing_from_a_side_alone_is_asked_about(tmp_path: Path) -> None:
    lines = ["1.2 m apart, number 1 far SR", "Position;No;Lamp;Focus", "Bar 1;1;Spot;Altar"]
    assert "how they are spaced" in asked_in(tmp_path, HOUSE, [*lines, "Bar 1;2;Spot;Altar"])


def test_a_heading_in_another_language_is_no_position_where_its_cells_are_some(
    tmp_path: Path,
) -> None:
    """ "Rør" is the Danish word for pipes, and neither "Bro" nor any other one of them."""
    bridge = BAR.replace("Bar 1", "Salongsbro").replace("y = 2", "y = -6")
    lines = [
        "Rør;Nr;Lampetype;Plads;Rettes mod",
        "Bar 1;1;Spot;2 SL;Altar",
        "Bar 1;2;Spot;2 SR;Altar",
    ]
    units = scene_in(tmp_path, HOUSE + bridge, lines).units
    assert [(unit.position, unit.at) for unit in units] == [("Bar 1", 2.0), ("Bar 1", -2.0)]


def test_kinds_in_the_plural_feet_and_inches_of_nought_and_a_line_below_the_headings(
    tmp_path: Path,
) -> None:
    house = HALL.replace('"Hall"', '"Hall"\nunit = "ft"') + BAR.replace("6", "20")
    house += ALTAR.replace('"Spot"', '"Par 38"')
    lines = ["Position;No;Ft-In;Side;Lamp;Focus", "Bar 1;1;14-2;SR;Par 38s;Altar"]
    lines += ["Bar 1;2;0-0;CL;Par 38's;Altar"]
    assert _places(tmp_path, *lines, house=house) == [-4.318, 0.0]
    lines = [
        "Position;Unit #;Lamp;Dist from end;Chan;Focus",
        ";;;;(all from the SR end of the pipe);",
    ]
    assert _places(tmp_path, *lines, "Bar 1;1;Par 38;4;1;Altar", house=house) == [-4.8768]


@pytest.mark.parametrize(("kind", "cell"), [("LED Wash", "LED Washes"), ("Sunbox", "sunboxes")])
def test_a_plural_in_es_of_a_kind(tmp_path: Path, kind: str, cell: str) -> None:
    house = HOUSE.replace('"Spot"', f'"{kind}"')
    scene = scene_in(tmp_path, house, [HEAD, f"Bar 1;1;2 SL;{cell};Altar"])
    assert [unit.kind for unit in scene.units] == [kind]


def _book(root: Path, *sheets: tuple[str, list[list[object]]], house: str) -> None:
    book = openpyxl.Workbook()
    book.remove(book.worksheets[0])
    for name, rows in sheets:
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(row)
    root.mkdir(exist_ok=True)
    book.save(root / "list.xlsx")
    (root / "scene.toml").write_text(house.replace("list.csv", "list.xlsx"), "utf-8")


def test_a_sheet_of_props_beside_the_one_sheet_of_units_is_not_asked_about(tmp_path: Path) -> None:
    units = [["Which bar", "#", "Light", "Pointing at"], ["Bar 1", 1, "Spot", "Altar"]]
    props = [["Item", "Who"], ["Lamp", "Trish"], ["Carpet", "Bev"]]
    _book(tmp_path / "a", ("Lights", units), ("Props", props), house=HOUSE)
    assert len(load_scene(str(tmp_path / "a")).units) == 1


def test_the_foot_of_a_page_may_count_what_is_used(tmp_path: Path) -> None:
    rows = [*_rows("2 SL"), "", "Circuits used:;11 of 12;;;"]
    assert _places(tmp_path, HEAD, *rows) == [2.0]


def test_letters_for_numbers_and_a_mark_of_the_encoding_at_the_end(tmp_path: Path) -> None:
    lines = ["Hung on;Letter / no.;Place;Lamp;Focus", "Bar 1;A;2 SL;Spot;Altar\ufeff"]
    (unit,) = scene_in(tmp_path, HOUSE, lines).units
    assert (unit.number, unit.at) == ("A", 2.0)


def test_stage_right_explained_as_yours_says_whose_left_it_is(tmp_path: Path) -> None:
    line = "SR = your right standing on stage facing the audience"
    lines = [line, "", "Position;No;L/R;Distance;Lamp;Focus", "Bar 1;1;L;3.0m;Spot;Altar"]
    assert _places(tmp_path, *lines) == [3.0]


@pytest.mark.parametrize("side", ["u/s of 0", "hinter Nulllinie", "US of the zero line"])
def test_a_column_of_sides_may_say_from_where_a_rail_counts(tmp_path: Path, side: str) -> None:
    rail = '[[pipe]]\nname = "Rail"\nstart = [-7, 0, 4]\nend = [-7, 8, 4]\n'
    lines = ["Position;No;Place (m);Side;Lamp;Focus", f"Rail;1;2.5;{side};Spot;Altar"]
    assert _places(tmp_path, *lines, house=HOUSE + rail) == [-1.5]


@pytest.mark.parametrize("unit", ["Maße in cm", "All dims in cm", "cm"])
def test_the_unit_in_a_title_of_several_cells(tmp_path: Path, unit: str) -> None:
    lines = [f"NACHTZUG;;Licht: Henning;;{unit}", HEAD, *_rows("250 SL", "30 SR")]
    assert _places(tmp_path, *lines) == [2.5, -0.3]


def test_contre_is_no_centre(tmp_path: Path) -> None:
    """In French that is light from behind, and one slip off "centre"."""
    head = "Perche;Projecteur;Emplacement;Éclaire;Remarques"
    lines = [head, "Bar 1;Spot;jardin 3m50;Altar;contre", "Bar 1;Spot;cour 1m;Altar;contre"]
    assert _places(tmp_path, *lines) == [-3.5, 1.0]


def test_a_kind_cut_short_with_a_dot_and_a_dash(tmp_path: Path) -> None:
    house = HOUSE.replace('"Spot"', '"Horizontfluter"')
    lines = [HEAD, "Bar 1;1;2 SL;Horiz.-Fluter;Altar"]
    assert _places(tmp_path, *lines, house=house) == [2.0]


def test_dates_with_a_nought_before_the_day_were_typed_day_first(tmp_path: Path) -> None:
    """06-Feb was 6-2: 6'-2" SL is 1.8796 m."""
    house = HALL.replace('"Hall"', '"Hall"\nunit = "ft"') + BAR.replace("6", "20") + ALTAR
    lines = ["Position;No;Ft-in;Side;Lamp;Focus", "Bar 1;1;06-Feb;SL;Spot;Altar"]
    scene = scene_in(tmp_path, house, lines)
    assert [unit.at for unit in scene.units] == pytest.approx([1.8796])
    assert any(t.severity == "warn" and "06-Feb" in t.says for t in scene.taken)


def test_the_side_before_of_centre_is_the_side_of_plus(tmp_path: Path) -> None:
    head = "Position;No;metres SL of centre (minus = SR);Lamp;Focus"
    assert _places(tmp_path, head, *_rows("2.6", "-1")) == [2.6, -1.0]


def test_numbers_keep_a_letter_that_is_one_with_them_and_lose_words_before_them(
    tmp_path: Path,
) -> None:
    lines = [HEAD, "Bar 1;F1;2 SL;Spot;Altar", "Bar 1;U1;1 SR;Spot;Altar"]
    assert [unit.number for unit in scene_in(tmp_path, HOUSE, lines).units] == ["F1", "U1"]
    lines = [HEAD, "Bar 1;U1;2 SL;Spot;Altar", "Bar 1;U2;1 SR;Spot;Altar"]
    assert [unit.number for unit in scene_in(tmp_path, HOUSE, lines).units] == ["U1", "U2"]
    lines = [HEAD, "Bar 1;Unit 1;2 SL;Spot;Altar", "Bar 1;U 2;1 SR;Spot;Altar"]
    scene = scene_in(tmp_path, HOUSE, lines)
    assert [unit.number for unit in scene.units] == ["1", "2"]
    assert any('"U 2" is 2' in taken.says for taken in scene.taken)


def test_us_of_zero_with_dots(tmp_path: Path) -> None:
    rail = '[[pipe]]\nname = "Rail"\nstart = [-7, 0, 4]\nend = [-7, 8, 4]\n'
    lines = [HEAD, *_rows("2 SL"), "Rail;1;2.5 U.S. of zero;Spot;Altar"]
    assert _places(tmp_path, *lines, house=HOUSE + rail) == [2.0, -1.5]


@pytest.mark.parametrize(
    "line",
    [
        "Metres from the middle. Stage right (north, pulpit side) is negative.",
        "x: meter fra midtlinjen, pluss mot scene venstre (skuespillerens venstre)",
        "Maße in m ab Mitte, minus = West-Tower-Seite, plus = East-Tower-Seite",
    ],
)
def test_a_sign_and_its_side_with_an_aside_or_a_dash(tmp_path: Path, line: str) -> None:
    assert _places(tmp_path, line, "", HEAD, *_rows("-2", "1.5")) == [-2.0, 1.5]


def test_days_explained_with_their_month_in_full_and_feet_that_count_units(tmp_path: Path) -> None:
    assert day_order("the program made dates of them (June 2 is 6-2), sorry") is False
    assert day_order("2 June is 2-6") is True
    rows = [*(f"{row};R83" for row in _rows("2 SL")), ";;;;UNITS;9"]
    assert _places(tmp_path, f"{HEAD};Gel", *rows) == [2.0]


def test_a_column_a_side_may_say_from_where_in_its_bracket(tmp_path: Path) -> None:
    head = "Porteuse;Num;Projecteur;Jardin (cm de l'axe);Cour (cm de l'axe);Réglage"
    lines = [head, "Bar 1;1;Spot;210;;Altar", "Bar 1;2;Spot;;35;Altar"]
    assert _places(tmp_path, *lines) == [-2.1, 0.35]


@pytest.mark.parametrize("heading", ["Incharge", "In-charge", "House", "Gang"])
def test_school_classes_are_no_places_whatever_is_over_them(tmp_path: Path, heading: str) -> None:
    lines = ["Lights hung evenly by the electrician, no measuring", f"Bar;No;Lamp;Focus;{heading}"]
    rows = [f"Bar 1;{n};Spot;Altar;Std {n + 8}" for n in (1, 2, 3)]
    assert [unit.at for unit in scene_in(tmp_path, HOUSE, [*lines, *rows]).units] == [4, 0, -4]


def test_holes_under_a_heading_of_the_house_may_be_places(tmp_path: Path) -> None:
    rows = [f"Bar 1;{n};Spot;Altar;Hole {n + 8}" for n in (1, 2, 3)]
    assert "may hold it" in asked_in(tmp_path, HOUSE, ["Bar;No;Lamp;Focus;House", *rows])


def test_gel_paper_is_the_colour(tmp_path: Path) -> None:
    lines = ["Bar;No;Place;Lamp;Focus;Gel paper", "Bar 1;1;2 m SL;Spot;Altar;L104"]
    (unit,) = scene_in(tmp_path, HOUSE, lines).units
    assert unit.colour == "L104"
