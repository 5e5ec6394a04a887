"""The line across the stage that places count from, by its other names, and what is no such line.

By hand: the rails run from 6 m downstage of the plaster line to 8 m upstage of it, so that their middle, and
the zero of their places, is 1 m upstage of it: 3 m US of the line is 2 m US of the zero, 3 m DS of it 4 m DS.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.pagelines.titles import said_by
from aimcalc.scene.hanglist.places.stagelines import lines_plain, unplaced
from tests.scene.hanglist.listed import ALTAR, BAR_AND_RAIL, HALL, asked_in, scene_in
from tests.scene.hanglist.places import told

HOUSE = f"""{HALL}{BAR_AND_RAIL}
[[pipe]]
name = "South Rail"
start = [7, -6, 4]
end = [7, 8, 4]
{ALTAR}"""
HEAD = "Position;No;Place;Lamp;Focus"
PLAIN = "1 m US of the plaster line"


def _rows(*cells: str, position: str = "North Rail") -> list[str]:
    return [f"{position};{n};{cell};Spot;Altar" for n, cell in enumerate(cells, 1)]


def _upstage(root: Path, *lines: str) -> list[float]:
    """How far upstage of the plaster line the units of a list on the rails are."""
    return [round((unit.at or 0.0) + 1, 6) for unit in scene_in(root, HOUSE, lines).units]


@pytest.mark.parametrize(
    ("cell", "y"),
    [
        ("3 m upstage of curtain line", 3.0),
        ("3 m US of the house curtain", 3.0),
        ("3 m upstage of setting line", 3.0),
        ("3 m behind the arch", 3.0),
        ("3 m US of pros", 3.0),
        ("3 m upstage of the stage edge (0)", 3.0),
        ("3 m from the proscenium, upstage", 3.0),
        ("3 m tief", 3.0),
        ("3 m de profondeur", 3.0),
        ("3 m vers le lointain depuis le cadre de scène", 3.0),
        ("3 m detrás de la embocadura", 3.0),
        ("3 m dietro il sipario", 3.0),
        ("3 m achter het portaal", 3.0),
        ("3 m bakom ridån", 3.0),
        ("3 m ab Portalkante nach hinten", 3.0),
        ("3 m hinter Nulllinie", 3.0),
        ("3m U/S prosc", 3.0),
        ("3 m US plaster", 3.0),
        ("plaster + 3 m", 3.0),
        ("PL - 3 m", -3.0),
        ("3 m DS pros", -3.0),
        ("3 m toward the seats from the plaster line", -3.0),
        ("3 m towards the house from the curtain line", -3.0),
        ("3 m in front of the arch", -3.0),
        ("3 m before the arch", -3.0),
        ("3 m into the house from the pros", -3.0),
        ("3 m audience side of the curtain line", -3.0),
        ("3 m vers la salle depuis le cadre", -3.0),
        ("3 m vom Portal zum Saal", -3.0),
        ("3 m hacia la sala desde la embocadura", -3.0),
        ("3 m verso la platea dal boccascena", -3.0),
        ("3 m naar de zaal vanaf het portaal", -3.0),
    ],
)
def test_the_plaster_line_has_other_names(cell: str, y: float, tmp_path: Path) -> None:
    assert _upstage(tmp_path, HEAD, *_rows(cell, PLAIN)) == [y, 1.0]


@pytest.mark.parametrize(
    "cell",
    [
        "3 m US of the stage edge",
        "3 m toward the seats from the stage edge",
        "3 m towards the altar from the font",
        "3 m up from the step",
        "3 m US of the curtain",
        "3 m US of the chancel arch",
        "3 m from the arch end",
        "3 m past the plaster line",
        "middle of the arch",
    ],
)
def test_what_nobody_places_is_asked_about(cell: str, tmp_path: Path) -> None:
    assert "a length" in asked_in(tmp_path, HOUSE, [HEAD, *_rows(cell, PLAIN)])


@pytest.mark.parametrize("cell", ["3 m from the plaster line", "3 m US of the arch", "3 m tief"])
def test_a_pipe_across_the_stage_has_no_place_from_that_line(cell: str, tmp_path: Path) -> None:
    assert asked_in(tmp_path, HOUSE, [HEAD, *_rows(cell, position="Bar 1")])


@pytest.mark.parametrize(
    ("heading", "y"),
    [
        ("Upstage of setting line (m)", 3.0),
        ("m du cadre de scène", 3.0),
        ("Behind arch (m)", 3.0),
        ("Tiefe ab Portal (m)", 3.0),
        ("m dal boccascena", 3.0),
        ("m from stage edge (0)", 3.0),
        ("Distance from house curtain (m)", 3.0),
        ("m downstage of curtain line", -3.0),
        ("m into the house from pros", -3.0),
        ("m vor Portal", -3.0),
    ],
)
def test_a_heading_names_the_line(heading: str, y: float, tmp_path: Path) -> None:
    head = HEAD.replace("Place", heading)
    assert _upstage(tmp_path, head, *_rows("3", "1")) == [y, y / 3]


@pytest.mark.parametrize(
    "heading", ["m from the font", "From stage edge", "From the back wall (m)"]
)
def test_a_heading_that_names_nothing_placed_is_asked_about(heading: str, tmp_path: Path) -> None:
    assert asked_in(tmp_path, HOUSE, [HEAD.replace("Place", heading), *_rows("3", "-1")])


@pytest.mark.parametrize(
    "line",
    [
        "Rails: metres upstage (+) or towards the nave (-) from the chancel step line (0).",
        "rail positions: metres from the chancel arch (= plaster line), minus = towards the west door",
        "rails measured from the proscenium arch, minus = into the house",
        "Stage edge = 0. Rails from there, minus is towards the seats",
        "Rails: from the step (zero), + east - west",
        "All from setting line, upstage +",
        "Galerien: Maße in m ab Portal, minus = Richtung Saal",
        "Passerelles: cotes depuis le cadre de scène, + vers le lointain",
        "gallerie: metri dal boccascena, + verso il fondo",
        "Rieles: metros desde la embocadura (0), + hacia el fondo",
        "Rails: 0 = arch",
        "Rails - tape hooked at pros, + upstage",
        "Tape hooked on the proscenium wall. Rails in metres, minus = house",
        "Rails measured up from the pros, - = in front",
        "Passerelles: distance au cadre de scène (m), moins = salle",
    ],
)
def test_a_line_says_what_is_zero(line: str, tmp_path: Path) -> None:
    scene = scene_in(tmp_path, HOUSE, [line, HEAD, *_rows("3", "-1")])
    assert [unit.at for unit in scene.units] == [2.0, -2.0]
    assert told(scene, "says how places are read", line[:40])
    assert told(scene, "of the plaster line")


@pytest.mark.parametrize("cells", [("3", "-1"), ("3 US", "1 US")])
@pytest.mark.parametrize(
    "line",
    [
        "Rails: metres from the font",
        "rails measured from the stage edge",
        "rails from the altar rail, + upstage",
        "Rails: from the front of the platform",
        "rails from the apron edge, minus toward the seats",
        "rails: m from back wall",
        "rails from the west door",
        "Galerie: m ab Bühnenkante",
        "passerelle: m depuis le nez de scène",
        "rails: distance from tape mark on floor",
        "tape starts at the stage edge",
        "tape zero is the font",
        "rails in metres from the back wall (0)",
        "rails: 0 is at the pit",
        "everything from the first pew",
        "Measured from the house wall",
        "hook tape on pulpit",
    ],
)
def test_a_line_that_counts_from_what_nobody_places_is_asked_about(
    line: str, cells: tuple[str, ...], tmp_path: Path
) -> None:
    report = asked_in(tmp_path, HOUSE, [line, HEAD, *_rows(*cells)])
    assert (
        "where the line or thing lies" in report
        or "from where it counts" in report
        or ("where it counts from" in report)
    )


@pytest.mark.parametrize(
    "line",
    [
        "metres from the centre line",
        "towers: heights in m from the stage floor",
        "Rig list from the lighting designer, 4 May",
        "rails: from the DS end",
        "distances from the middle of each rail",
        "m from the plaster line",
    ],
)
def test_what_is_heard_is_not_unplaced(line: str) -> None:
    assert unplaced(line) == ""


@pytest.mark.parametrize(
    "text",
    ["Portal Bridge", "from the pros end", "LX bar US of portal bridge", "0.5 m from the organ"],
)
def test_names_that_have_a_word_of_the_line_stay(text: str) -> None:
    assert lines_plain(text) == text


@pytest.mark.parametrize("heading", ["US/DS of plaster line (m)", "Place"])
def test_a_line_with_both_ways_needs_one_at_each_place(heading: str, tmp_path: Path) -> None:
    line = [] if heading != "Place" else ["Rails: metres upstage or downstage of the plaster line"]
    head = HEAD.replace("Place", heading)
    assert _upstage(tmp_path, *line, head, *_rows("2 US", "1 DS")) == [2.0, -1.0]
    assert asked_in(tmp_path, HOUSE, [*line, head, *_rows("2", "1")])


def test_a_line_of_one_way_says_it() -> None:
    said = said_by([(1, ["Rails: feet downstage of the curtain line"])])
    assert (said.plaster, said.upstage.plus) == (True, "DS")


@pytest.mark.parametrize(
    ("cells", "y"),
    [(("1.2 US", "7.8 US"), [1.2, 7.8]), (("-1", "7.8"), [-1.0, 7.8]), (("0", "3 US"), [0.0, 3.0])],
)
def test_where_the_plaster_line_alone_fits_it_is_taken_and_told(
    cells: tuple[str, ...], y: list[float], tmp_path: Path
) -> None:
    scene = scene_in(tmp_path, HOUSE, [HEAD, *_rows(*cells)])
    assert [round((unit.at or 0.0) + 1, 6) for unit in scene.units] == y
    assert told(scene, "read from the plaster line")


@pytest.mark.parametrize(
    "cells",
    [("-1.2", "2"), ("1.2", "7.8"), ("1.2 m", "7.8 m"), ("-7.5", "7.9"), ("1.2 US", "20 US")],
)
def test_where_several_fit_or_none_somebody_is_asked(
    cells: tuple[str, ...], tmp_path: Path
) -> None:
    assert asked_in(tmp_path, HOUSE, [HEAD, *_rows(*cells)])


def test_places_with_a_sign_that_fit_from_the_middle_alone_are_read_so(tmp_path: Path) -> None:
    scene = scene_in(tmp_path, HOUSE, [HEAD, *_rows("-6.9", "2")])
    assert [unit.at for unit in scene.units] == [-6.9, 2.0]
    assert told(scene, "count from the middle of their pipes")


def test_a_remark_that_says_the_middle_says_it_of_the_others(tmp_path: Path) -> None:
    rows = [
        "North Rail;1;-3;Spot;Altar;m from the middle of the rail",
        "North Rail;2;3;Spot;Altar;",
    ]
    scene = scene_in(tmp_path, HOUSE, [f"{HEAD};Remark", *rows])
    assert [unit.at for unit in scene.units] == [-3.0, 3.0]


def test_a_cell_beside_the_place_says_it_lies_upstage_of_the_line(tmp_path: Path) -> None:
    rows = [
        "North Rail;1;3;upstage of curtain line;Spot;Altar",
        "North Rail;2;2;DS of the arch;Spot;Altar",
    ]
    assert _upstage(tmp_path, "Position;No;Place;;Lamp;Focus", *rows) == [3.0, -2.0]


def test_signs_in_brackets_say_which_way_is_plus(tmp_path: Path) -> None:
    line = "Rails: m upstage (+) / downstage (-) of plaster line. Towers: m above floor"
    assert _upstage(tmp_path, line, HEAD, *_rows("-3", "2")) == [-3.0, 2.0]


@pytest.mark.parametrize(
    "line",
    [
        "zijbruggen in meters vanaf de nullijn",
        "Marks are painted on the rails: 0 at the plaster line and 8 at the back",
    ],
)
def test_zero_is_named_among_other_words(line: str, tmp_path: Path) -> None:
    assert _upstage(tmp_path, line, HEAD, *_rows("3", "2")) == [3.0, 2.0]


@pytest.mark.parametrize(
    ("lines", "heading", "cells", "y"),
    [
        (
            ["Stage edge = 0"],
            "Place",
            ("3 m US of stage edge", "1 m towards the seats from the edge"),
            [3, -1],
        ),
        (["The chancel step is zero."], "m from step", ("3", "-1"), [3, -1]),
        (["0 = chancel step"], "Metres upstage of the chancel step", ("3", "-1"), [3, -1]),
        (
            ["rails: metres from the stage edge", "(stage edge is y = 0)"],
            "Place",
            ("3", "-1"),
            [3, -1],
        ),
        (
            ["tape hooked on the back wall, which is 10 m upstage of the plaster line."],
            "Off back wall",
            ("3", "9"),
            [7, 1],
        ),
        (
            ["Rails: metres from the back wall", "back wall is 10 m US of plaster line"],
            "Place",
            ("3", "9"),
            [7, 1],
        ),
        (
            ["The back wall is 10 m upstage of the plaster line"],
            "Place",
            ("3 m from back wall",),
            [7],
        ),
        (
            ["Rails: metres from the stage edge (stage edge = 1 m DS of plaster line)"],
            "Place",
            ("3 US", "5 US"),
            [2, 4],
        ),
    ],
)
def test_a_line_places_what_places_count_from(
    lines: list[str], heading: str, cells: tuple[str, ...], y: list[float], tmp_path: Path
) -> None:
    assert _upstage(tmp_path, *lines, HEAD.replace("Place", heading), *_rows(*cells)) == y


@pytest.mark.parametrize(
    ("line", "heading"),
    [
        ("0 = chancel step", "m from pit edge"),
        ("Rails: metres from the font, which stands 2 m DS of plaster", "Place"),
        ("The back wall is 10 m US of the plaster line", "m from the font"),
        ("The front edge of the stage is the plaster line. Rails: metres from the apron", "Place"),
    ],
)
def test_of_what_else_a_line_says_nothing(line: str, heading: str, tmp_path: Path) -> None:
    assert asked_in(tmp_path, HOUSE, [line, HEAD.replace("Place", heading), *_rows("3", "5")])


@pytest.mark.parametrize(
    "line", ["All from the centre line = 0", "0 = centre line", "Door: 4 units"]
)
def test_the_centre_line_is_no_line_across_the_stage(line: str) -> None:
    said = said_by([(1, [line])])
    assert (said.plaster, said.things) == (False, ())


def test_a_cell_beside_the_place_that_names_what_nobody_places_is_asked_about(
    tmp_path: Path,
) -> None:
    head = "Position;No;Place;Lamp;Focus;Remark"
    rows = [
        "North Rail;1;3 US;Spot;Altar;from the stage edge",
        "Bar 1;1;3 SL;Spot;Altar;from the stage edge",
    ]
    report = asked_in(tmp_path, HOUSE, [head, *rows])
    assert "where it counts from" in report
    assert "row 3" not in report


def test_a_cell_beside_the_place_names_the_line(tmp_path: Path) -> None:
    head = "Position;No;Place;Lamp;Focus;Remark"
    rows = [
        "North Rail;1;3;Spot;Altar;from curtain line",
        "North Rail;2;-1;Spot;Altar;from the pros",
    ]
    assert _upstage(tmp_path, head, *rows) == [3.0, -1.0]


BOTH = HOUSE + '\n[[boom]]\nname = "Tower A"\nx = 5\ny = 2\nheight = 5\n'


@pytest.mark.parametrize(
    "heading",
    [
        "Höhe / Tiefe (m)",
        "Height / depth (m)",
        "Hauteur / profondeur (m)",
        "Altezza / profondità (m)",
        "Hoogte / diepte (m)",
        "Höjd / djup (m)",
        "Tiefe bzw. Höhe (m)",
    ],
)
def test_depths_beside_heights_count_from_the_plaster_line(heading: str, tmp_path: Path) -> None:
    head = HEAD.replace("Place", heading)
    rows = [*_rows("4.2", "0.4", position="Tower A"), *_rows("3.5")]
    scene = scene_in(tmp_path, BOTH, [head, *rows])
    # By hand: 3.5 m upstage of the line is 2.5 m upstage of the middle of the rail.
    assert [round(unit.at or 0.0, 6) for unit in scene.units] == [4.2, 0.4, 2.5]
    assert told(scene, "read from the plaster line")
    assert asked_in(tmp_path, BOTH, [head, *rows, *_rows("2", position="Bar 1")])
    assert asked_in(tmp_path, BOTH, [head, *rows, *_rows("8.9", position="South Rail")])


@pytest.mark.parametrize("line", ["Nullgasse", "Nulllinie"])
def test_the_zero_line_over_units_is_the_plaster_line(line: str, tmp_path: Path) -> None:
    rows = ["Nr;Abstand;Lamp;Focus", "1;1.5;Spot;Altar", "2;4.0;Spot;Altar"]
    scene = scene_in(tmp_path, HOUSE, [f"North Rail (Tiefe ab {line} in m);;;", *rows])
    assert [round((unit.at or 0.0) + 1, 6) for unit in scene.units] == [1.5, 4.0]
    assert told(scene, "US of the plaster line")
    assert asked_in(tmp_path, HOUSE, ["North Rail;;;", *rows])


def test_depths_under_a_line_that_says_from_where_are_places(tmp_path: Path) -> None:
    head = HEAD.replace("Place", "Tiefe")
    line = "Galerien: Tiefe in m ab Nullgasse"
    assert _upstage(tmp_path, line, head, *_rows("1.5", "4.0")) == [1.5, 4.0]
    assert asked_in(tmp_path, HOUSE, [head, *_rows("1.5", "4.0", "7.25")])


@pytest.mark.parametrize(
    "line",
    [
        "Wall pipes are measured from the front edge line (plaster line).",
        "All pipes are measured from the proscenium line",
        "Side rails: metres from the curtain line",
        "Maße der Galerien ab Portal",
        'Rails: metres from the proscenium line, "house" = out into the hall, "stage" = upstage of it',
    ],
)
@pytest.mark.parametrize(
    "cells",
    [
        ("1 m toward the seats", "4 m upstage"),
        ("1 m into the house", "4 m toward the stage"),
        ("1 m house", "4 m stage"),
        ("1 hall", "4 onstage"),
    ],
)
def test_a_way_from_the_line_that_a_line_names_is_no_way_from_the_middle(
    tmp_path: Path, line: str, cells: tuple[str, str]
) -> None:
    assert _upstage(tmp_path, line, "", HEAD, *_rows(*cells)) == [-1.0, 4.0]


@pytest.mark.parametrize(
    ("line", "cells", "read"),
    [
        ("Rails are measured from the US end", ("1 m toward the seats", "4 m DS"), [7, 4]),
        ("Rails are measured from the DS end", ("1 m upstage", "4 m toward the stage"), [-5, -2]),
    ],
)
def test_a_way_on_from_an_end_that_a_line_names_is_so_far_from_that_end(
    tmp_path: Path, line: str, cells: tuple[str, str], read: list[float]
) -> None:
    assert _upstage(tmp_path, line, "", HEAD, *_rows(*cells)) == read
    other = line.replace("US end", "XX").replace("DS end", "US end").replace("XX", "DS end")
    assert "end" in asked_in(tmp_path, HOUSE, [other, "", HEAD, *_rows(*cells)])


@pytest.mark.parametrize(
    "cells",
    [
        ("1 m toward the seats", "4 m upstage"),
        ("1", "4"),
        ("1 m house", "4 m stage"),
    ],
)
def test_a_way_from_what_nobody_places_is_asked(tmp_path: Path, cells: tuple[str, str]) -> None:
    line = "Rails are measured from the font step"
    assert "font step" in asked_in(tmp_path, HOUSE, [line, "", HEAD, *_rows(*cells)])


@pytest.mark.parametrize(
    "cell",
    [
        "level with the proscenium line",
        "on the pros line",
        "flush with the arch",
        "right above the plaster line",
        "auf Höhe Portal",
        "à l'aplomb du cadre",
        "a filo boccascena",
        "in line with the curtain line",
    ],
)
def test_a_place_on_the_plaster_line_is_nought_from_there(tmp_path: Path, cell: str) -> None:
    assert _upstage(tmp_path, HEAD, *_rows(cell, "4.5 m US of plaster line")) == [0.0, 4.5]


def test_minus_towards_a_door_is_downstage_where_the_line_says_upstage(tmp_path: Path) -> None:
    line = "rails: metres upstage of the plaster line, minus towards the door"
    assert _upstage(tmp_path, HEAD, *_rows("-4", "5"), "", line) == [-4.0, 5.0]
