"""Where places on pipes up and down the stage count from: an end, the middle, what of the scene lies there.

Readings by hand: the aisle pipes run from 10 m to 2 m downstage of the plaster line, their middle at 6 m, so
that a place 1 m from the upstage end is 3 m US of the middle.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.pagelines.titles import said_by
from aimcalc.scene.hanglist.places.origins import Ways
from aimcalc.scene.hanglist.rows.listrow import Around
from aimcalc.scene.hanglist.tongues.tongues import by_plaster
from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from aimcalc.scene.model import Scene
from tests.scene.hanglist.listed import asked_in, scene_in
from tests.scene.hanglist.places import HEADINGS, listed, read, units
from tests.scene.written import refused

CHURCH = """
[scene]
title = "Church"
hang = "list.csv"

[[pipe]]
name = "Gallery Bar"
trim = 5
y = -14
from = -4
to = 4

[[pipe]]
name = "North Aisle Pipe"
start = [-5, -10, 4]
end = [-5, -2, 4]

[[pipe]]
name = "South Aisle Pipe"
start = [5, -10, 4]
end = [5, -2, 4]

[[boom]]
name = "Pulpit Boom"
x = -4
y = -3
height = 3

[[target]]
name = "Altar"
x = 0
y = 2

[[target]]
name = "Font"
x = 1
y = -6

[[kind]]
name = "Spot"
family = "ers"
field = 26
"""
HEAD = "Position;No;Distance;Lamp;Focus"


def _scene(root: Path, *lines: str) -> Scene:
    return scene_in(root, CHURCH, lines)


def _asked(root: Path, *lines: str) -> str:
    return asked_in(root, CHURCH, lines)


def _rows(*places: str, position: str = "North Aisle Pipe") -> list[str]:
    return [f"{position};{n};{place};Spot;Altar" for n, place in enumerate(places, 1)]


def _places(scene: Scene) -> list[float]:
    return [round(unit.at or 0.0, 6) for unit in scene.units]


@pytest.mark.parametrize(
    ("cell", "at"),
    [
        ("1 m from US end", 3.0),
        ("1 m from upstage end", 3.0),
        ("1m DS of U.S. end", 3.0),
        ("60 cm upstage of DS end", -3.4),
        ("0.5m from altar end", 3.5),
        ("0.5m from the gallery end", -3.5),
        ("2 m from east end", 2.0),
        ("2 m from the west (downstage) end", -2.0),
        ("2.5 ds of mid", -2.5),
        ("1' 6\" US of mid pt", 0.4572),
        ("5' upstage of middle", 1.524),
        ("2 m US of centre of pipe", 2.0),
        ("2 m west of middle", -2.0),
        ("mid", 0.0),
        ("center of pipe", 0.0),
        ("in the middle", 0.0),
        ("3' up from DS end", -3.0856),
        ("1 m from D/S end", -3.0),
        ("1 m from the stage end", 3.0),
        ("1 m E of middle", 1.0),
        ("1,5 m DS of midpoint", -1.5),
        ("middle, 1 m US", 1.0),
        ("1 m towards the altar", 1.0),
        ("mid-pipe", 0.0),
        ("half way along", 0.0),
    ],
)
def test_a_place_says_where_on_the_pipe_it_counts_from(
    cell: str, at: float, tmp_path: Path
) -> None:
    scene = _scene(tmp_path, HEAD, *_rows(cell, "3 m from DS end"))
    assert _places(scene) == [at, -1.0]


def test_places_that_all_say_whence_are_not_read_from_the_plaster_line(tmp_path: Path) -> None:
    scene = _scene(tmp_path, HEAD, *_rows("1 m US of middle", "3.5 m DS of middle"))
    assert _places(scene) == [1.0, -3.5]
    assert "plaster" not in "".join(taken.says for taken in scene.taken)


@pytest.mark.parametrize(
    "cell",
    [
        "1 m from the organ end",
        "1 m from far end",
        "1 m from font end",
        "1 m N of mid",
        "1 m from back end",
    ],
)
def test_an_end_that_nothing_tells_is_asked_about(cell: str, tmp_path: Path) -> None:
    assert "length" in _asked(tmp_path, HEAD, *_rows(cell))


def test_points_of_the_compass_count_across_the_stage_too(tmp_path: Path) -> None:
    rows = _rows("2 m north of middle", "middle", "1 m south of middle", position="Gallery Bar")
    assert _places(_scene(tmp_path, HEAD, *rows)) == [-2.0, 0.0, 1.0]


def test_a_line_says_which_way_north_is_before_the_names(tmp_path: Path) -> None:
    rows = _rows("2 m north of middle", "1 m south of middle", position="Gallery Bar")
    scene = _scene(tmp_path, HEAD, *rows, "(North is stage left on the drawing.)")
    assert _places(scene) == [2.0, -1.0]


def test_two_pairs_of_names_that_do_not_agree_tell_no_way(tmp_path: Path) -> None:
    other = """
[[target]]
name = "Choir north"
x = 3
y = 0

[[target]]
name = "Choir south"
x = -3
y = 0
"""
    (tmp_path / "list.csv").write_text("\n".join([HEAD, *_rows("2 m from east end")]), "utf-8")
    (tmp_path / "scene.toml").write_text(CHURCH + other, "utf-8")
    with pytest.raises(SceneError):
        load_scene(str(tmp_path))


@pytest.mark.parametrize(
    ("heading", "at"),
    [
        ("Distance US of pipe's DS end", -3.0),
        ("How far from east end (m)", 3.0),
        ("Metres from altar end", 3.0),
        ("Distance from downstage end", -3.0),
        ("Up from DS end", -3.0),
        ("Distance DS from US end", 3.0),
    ],
)
def test_a_heading_says_which_end_places_count_from(
    heading: str, at: float, tmp_path: Path
) -> None:
    scene = _scene(tmp_path, HEAD.replace("Distance", heading), *_rows("1", "4"))
    assert _places(scene) == [at, 0.0]


BOTH = ["Gallery Bar;1;-3;Spot;Altar", "North Aisle Pipe;1;-2,5;Spot;Altar"]


@pytest.mark.parametrize(
    ("lines", "at"),
    [
        (
            ["Cross bars: from centre, minus = stage right", "Aisles: from mid pipe, minus = DS"],
            -2.5,
        ),
        (["offset: across - is SR / + is SL. aisles from mid pipe: + toward altar"], -2.5),
        (
            [
                "across: + = SL",
                "Aisle pipes: middle of pipe is 0, measured from the middle, + = DS",
            ],
            2.5,
        ),
    ],
)
def test_lines_say_it_of_each_sort_of_pipe(lines: list[str], at: float, tmp_path: Path) -> None:
    assert _places(_scene(tmp_path, HEAD, *BOTH, *lines)) == [-3.0, at]


def test_a_line_of_two_ends_says_it_of_the_pipes_that_have_them(tmp_path: Path) -> None:
    line = "bars: metres in from SR END.  aisle pipes: from DS END."
    rows = ["Gallery Bar;1;1;Spot;Altar", "North Aisle Pipe;1;1;Spot;Altar"]
    assert _places(_scene(tmp_path, line, HEAD, *rows)) == [-3.0, -3.0]


def test_an_end_across_the_stage_in_the_heading_is_none_of_an_aisle_pipe(tmp_path: Path) -> None:
    report = _asked(tmp_path, HEAD.replace("Distance", "From SL end"), *_rows("1"))
    assert "an end or side SL" in report


def test_what_a_row_over_its_units_says_holds_for_these_alone(tmp_path: Path) -> None:
    scene = _scene(
        tmp_path,
        "all bars measured in metres from the SL end",
        "No;Distance;Lamp;Focus",
        "Gallery Bar;;;",
        "1;1;Spot;Altar",
        "North Aisle Pipe (measured from the gallery end);;;",
        "1;1;Spot;Altar",
        "South Aisle Pipe (metres from downstage end, pipe 8 m);;;",
        "1;3;Spot;Altar",
        "Gallery Bar (metres from centre);;;",
        "2;1 SL;Spot;Altar",
        "3;-1;Spot;Altar",
    )
    assert _places(scene) == [3.0, -3.0, -1.0, 1.0, -1.0]


@pytest.mark.parametrize(
    ("line", "at"),
    [
        ("Left and right as you stand on stage facing the congregation", [3.0, -3.0]),
        ("Left and right as you face the audience", [3.0, -3.0]),
        ("Left/right as the congregation sees it", [-3.0, 3.0]),
        ("left and right are looking at the stage", [-3.0, 3.0]),
    ],
)
def test_who_faces_whom_tells_whose_left_is_meant(
    line: str, at: list[float], tmp_path: Path
) -> None:
    rows = _rows("3 m left", "3 m right", position="Gallery Bar")
    assert _places(_scene(tmp_path, line, HEAD, *rows)) == at


def test_the_back_of_a_pipe_over_the_stage_is_upstage(tmp_path: Path) -> None:
    (tmp_path / "list.csv").write_text(
        "\n".join([HEAD, *_rows("1 m from back end", "1 m from the front end")]), "utf-8"
    )
    over = CHURCH.replace("-10, 4]", "-4, 4]").replace("-2, 4]", "4, 4]")
    (tmp_path / "scene.toml").write_text(over, "utf-8")
    assert _places(load_scene(str(tmp_path))) == [3.0, -3.0]


@pytest.mark.parametrize(
    ("line", "end"),
    [
        ("Side bars are measured from their upstage (chancel) end", "US"),
        ("All side bars from DS (house) end", "DS"),
        ("Measured from the DS/house end", "DS"),
        ("places from the US wall end", "US"),
    ],
)
def test_an_end_has_another_name_beside_its_side(line: str, end: str) -> None:
    assert said_by([(1, [line])]).upstage.end == end


@pytest.mark.parametrize("line", ["Side bars measured from downstage", "distances from the US"])
def test_from_downstage_of_a_side_pipe_is_an_end_or_not(line: str, tmp_path: Path) -> None:
    rows = [[line], HEADINGS, *units("side", 1, 2), *units("LX 1", "1 m SL")]
    mistakes = refused(listed(tmp_path, rows))
    assert [mistake.entry for mistake in mistakes] == ["row 3", "row 4"]
    assert "a place that tells where it counts from" in mistakes[0].expected
    assert mistakes[0].do.startswith("Write US or DS")


@pytest.mark.parametrize(
    "line", ["Units numbered from downstage", "Side bars listed from DS to US"]
)
def test_how_units_are_numbered_is_not_where_their_places_count_from(
    line: str, tmp_path: Path
) -> None:
    rows = [[line], HEADINGS, *units("side", "1 m US", "2 m US")]
    assert len(read(tmp_path, rows).units) == 2


@pytest.mark.parametrize(
    ("words", "plain"),
    [
        ("from the WEST (audience) end of the pipe", "ds end"),
        ("from the chancel (upstage) end", "us end"),
        ("from the vestry (nobody knows) end", "vestry end"),
        ("from the audience (upstage) end", "audience (upstage) end"),
    ],
)
def test_an_end_with_two_names_is_the_one_that_tells(words: str, plain: str) -> None:
    around = Around("m", {}, (), (), list)
    assert plain in Ways(around).plain(words)


@pytest.mark.parametrize(
    ("written", "plain"),
    [
        ("200 hinter Portallinie", "200 us of the plaster line"),
        ("2 m vor dem Portal", "2 m ds of the plaster line"),
        ("3 m derrière le cadre de scène", "3 m us of the plaster line"),
        ("2 m voor de portaallijn", "2 m ds of the plaster line"),
        ("1 m dietro il boccascena", "1 m us of the plaster line"),
        ("1 m vor Sofa", "1 m vor Sofa"),
    ],
)
def test_before_and_behind_the_plaster_line_in_other_languages(written: str, plain: str) -> None:
    assert by_plaster(written) == plain


def test_what_is_called_the_plaster_line_is_it() -> None:
    line = "Rails are feet from the chancel step (plaster line) towards the DS door. Bars: SL/SR of centre"
    said = said_by([(1, [line])])
    assert (said.plaster, said.upstage.plus) == (True, "DS")


@pytest.mark.parametrize("heading", ["Distance", "Where along", "Feet"])
def test_places_up_the_stage_that_count_from_nobody_knows_where_are_asked(
    heading: str, tmp_path: Path
) -> None:
    head = [HEADINGS[0], HEADINGS[1], heading, *HEADINGS[3:]]
    (mistake,) = refused(listed(tmp_path, [head, *units("side", "1 m", "2 m")]))
    assert "count from: its middle, an end or the plaster line" in mistake.expected


@pytest.mark.parametrize(
    ("heading", "cells"),
    [("From centre", ("1 m", "2 m")), ("at", (1, 2)), ("Distance", ("-1 m", "2 m"))],
)
def test_places_up_the_stage_from_the_middle(
    heading: str, cells: tuple[object, ...], tmp_path: Path
) -> None:
    head = [HEADINGS[0], HEADINGS[1], heading, *HEADINGS[3:]]
    assert len(read(tmp_path, [head, *units("side", *cells)]).units) == 2


NAVE = CHURCH[: CHURCH.index('[[pipe]]\nname = "North')] + CHURCH[CHURCH.index("[[target]]") :]


def _boom(name: str, x: float) -> str:
    return f'\n[[boom]]\nname = "{name}"\nx = {x}\ny = -3\nheight = 4\n'


def _rail(name: str, x: float) -> str:
    return f'\n[[pipe]]\nname = "{name}"\nstart = [{x}, -10, 4]\nend = [{x}, -2, 4]\n'


def _aim(name: str, x: float) -> str:
    return f'\n[[target]]\nname = "{name}"\nx = {x}\ny = -4\n'


@pytest.mark.parametrize(
    ("named", "cells"),
    [
        (_boom("Pillar North", -4.5) + _boom("Pillar South", 4.5), ("3 m N", "1 m S")),
        (_boom("Pillar North", -4.5) + _boom("Pillar South", 4.5), ("3 m north", "1 m south")),
        (_rail("North Aisle", -4), ("3 m N", "1 m S")),
        (_rail("South Rail", 4), ("3m N.", "1m S.")),
        (_aim("North Aisle", -4), ("3 m N of centre", "1 m S of centre")),
        (_boom("Turm Nord", -4.5) + _boom("Turm Süd", 4.5), ("3 m Nord", "1 m Süd")),
        (_rail("Galerie nord", -4) + _rail("Galerie sud", 4), ("3 m nord", "1 m sud")),
        (_boom("West Pillar", -4.5) + _boom("East Pillar", 4.5), ("3 m W", "1 m E")),
    ],
)
def test_points_of_the_compass_are_sides_where_the_house_names_some(
    named: str, cells: tuple[str, str], tmp_path: Path
) -> None:
    rows = _rows(*cells, position="Gallery Bar")
    assert _places(scene_in(tmp_path, NAVE + named, [HEAD, *rows])) == [-3.0, 1.0]


@pytest.mark.parametrize(
    "named",
    [
        "",
        _aim("North Choir", -4),  # of the choir, which may lie upstage
        _rail("North Aisle", -4) + _aim("North Wall", 0),
        _rail("North Aisle", -4) + _rail("South Rail", -3),
    ],
)
def test_points_of_the_compass_that_no_name_tells_are_asked(named: str, tmp_path: Path) -> None:
    rows = _rows("3 m N", "1 m S", position="Gallery Bar")
    assert "SL or SR" in asked_in(tmp_path, NAVE + named, [HEAD, *rows])


def test_a_column_of_sides_may_hold_points_of_the_compass(tmp_path: Path) -> None:
    named = _boom("Pillar North", -4.5) + _boom("Pillar South", 4.5)
    head = "Position;No;Distance (m);Side;Lamp;Focus"
    rows = ["Gallery Bar;1;3;N;Spot;Altar", "Gallery Bar;2;1;S;Spot;Altar"]
    assert _places(scene_in(tmp_path, NAVE + named, [head, *rows])) == [-3.0, 1.0]
    rows = ["Gallery Bar;1;3;north;Spot;Altar", "Gallery Bar;2;1;south;Spot;Altar"]
    assert _places(scene_in(tmp_path, NAVE + named, [head, *rows])) == [-3.0, 1.0]
