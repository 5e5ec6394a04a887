"""Stages that a plain pipe across a plain deck does not describe, as a user writes them."""

from __future__ import annotations

import io
import json
from math import atan2, degrees
from pathlib import Path

import pytest

from aimcalc.coverage.angles import face_lights
from aimcalc.coverage.areas import areas_of
from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from aimcalc.sheets.aim_sheets import aim_sheets
from aimcalc.sheets.cards import unit_cards
from aimcalc.sheets.hang_sheets import hang_sheets
from aimcalc.sheets.strip.hang_strip import hang_strip
from aimcalc.show import Show
from aimcalc.text.lists import as_csv, as_json
from aimcalc.text.stamp import PaperOptions
from tests.rigs import thrown
from tests.sheets.pdf_reading import bare_sides, minus_signs, outside, overlaps, pages, runs, sizes
from tests.toml_rig import kind, level_pipe, table, unit, written

CHAIR = table("target", name="chair", x=1, y=3, plane="face")
STAGE = "[stage]\noutline = [[-6, -3], [6, -3], [6, 9], [-6, 9]]\n"


def a_show(folder: Path, *tables: str, kinds: str = "") -> Show:
    """The show of a scene with a deck and one target, chair."""
    return Show(load_scene(written(folder, STAGE, CHAIR, *tables, kinds=kinds)))


def sheet(make: object, show: Show) -> str:
    """All words of one sheet, however its lines are broken."""
    paper = io.BytesIO()
    make(show, paper, PaperOptions())  # type: ignore[operator]
    return " ".join(" ".join(pages(paper.getvalue())).split())


NOTE = "iris is in the case, fit it last"


@pytest.mark.parametrize("make", [aim_sheets, unit_cards, hang_sheets])
def test_a_units_note_and_edge_stand_on_its_row_and_card(tmp_path: Path, make: object) -> None:
    show = a_show(tmp_path, level_pipe(), unit(target="chair", note=NOTE, edge="soft"))
    said = sheet(make, show)
    assert NOTE in said
    assert "EDGE" in said
    assert "soft" in said


def test_a_units_note_and_edge_are_in_the_lists(tmp_path: Path) -> None:
    show = a_show(tmp_path, level_pipe(), unit(target="chair", note=f" {NOTE}\n", edge="Sharp"))
    (told,) = json.loads(as_json(show.rig, []))["units"]
    assert (told["edge"], told["note"]) == ("sharp", NOTE)
    head, row = as_csv(show.rig, []).decode().splitlines()
    assert head.split(",")[-4:] == ["edge", "note", "further", "findings"]
    assert NOTE in row


# --- a tube that starts above the deck ------------------------------------------------------------

LADDER = {"name": "ladder", "x": -5.0, "y": 2.0, "foot": 3.0, "height": 5.5}
ON_LADDER = {"position": "ladder", "arm": 0.4, "arm_to": "SL", "target": "chair"}


def test_heights_on_a_tube_with_a_foot_count_from_the_deck_at_the_plaster_line(
    tmp_path: Path,
) -> None:
    """On a platform of 0.5 m a boom's heights count from the platform, a hung tube's do not."""
    boom = {key: value for key, value in LADDER.items() if key != "foot"} | {"name": "boom"}
    under = table("solid", name="step", box=[-6, 1, 0, -4, 3, 0.5], stand_on=True)
    show = a_show(
        tmp_path,
        *(table("boom", **keys) for keys in (LADDER, boom)),
        under,
        unit(**ON_LADDER | {"at": 4}),
        unit(**ON_LADDER | {"at": 4, "position": "boom"}),
    )
    assert [answer.clamp for answer in show.rig.answers] == [(-4.6, 2.0, 4.0), (-4.6, 2.0, 4.5)]


def test_a_unit_on_a_tube_with_a_foot_hits_as_told(tmp_path: Path) -> None:
    show = a_show(tmp_path, table("boom", **LADDER), unit(**ON_LADDER | {"at": 4.2}))
    (answer,) = show.rig.answers
    lens, axis, _ = thrown(answer, show.scene)
    assert lens + axis * answer.throw == pytest.approx((1, 3, 1.65), abs=1e-9)
    said = sheet(hang_sheets, show)
    assert "its foot 3.00 m above the deck" in said
    assert "tube from 3.00 m up to 5.50 m" in sheet(aim_sheets, show)


def test_a_unit_below_the_foot_is_a_stop(tmp_path: Path) -> None:
    for at, past in ((2.9, "0.10 m past the foot"), (3.0, ""), (5.6, "0.10 m past the top")):
        show = a_show(tmp_path, table("boom", **LADDER), unit(**ON_LADDER | {"at": at}))
        told = [f.says for f in show.findings if f.severity == "stop"]
        assert [past in says for says in told] == ([True] if past else [])


def test_a_foot_above_the_top_is_refused(tmp_path: Path) -> None:
    with pytest.raises(SceneError, match="a foot below the top of the boom"):
        a_show(tmp_path, table("boom", **LADDER | {"foot": 5.5}))


def test_a_tube_whose_foot_is_under_the_deck_is_a_stop(tmp_path: Path) -> None:
    show = a_show(tmp_path, table("boom", **LADDER | {"foot": -0.2}))
    assert [f.rule for f in show.findings if f.severity == "stop"] == ["under-deck"]


# --- a stand on a platform ------------------------------------------------------------------------


def test_a_stand_without_z_stands_on_the_platform_under_it(tmp_path: Path) -> None:
    platform = table("solid", name="step", box=[-2, 4, 0, 2, 6, 0.8], stand_on=True)
    stands = (
        table("stand", name="on it", x=0, y=5),
        table("stand", name="given", x=1, y=5, z=0.3),
        table("stand", name="beside", x=3, y=5),
    )
    units = (unit(position=n, at=None, target="chair") for n in ("on it", "given", "beside"))
    show = a_show(tmp_path, platform, *stands, *units)
    assert [answer.clamp[2] for answer in show.rig.answers] == [0.8, 0.3, 0.0]


# --- places where nothing can be clamped ----------------------------------------------------------


@pytest.mark.parametrize(
    ("at", "stops"), [(0.99, 0), (1.0, 0), (1.01, 1), (1.5, 1), (1.59, 1), (1.6, 0), (1.7, 0)]
)
def test_a_clamp_in_a_stretch_to_keep_clear_is_a_stop(
    tmp_path: Path, at: float, stops: int
) -> None:
    pipe = level_pipe(keep_clear=[["1.6 m SL", "1 m SL"], [-3, -2]])
    show = a_show(tmp_path, pipe, unit(at=at, target="chair"))
    told = [f for f in show.findings if f.severity == "stop"]
    assert [f.rule for f in told] == ["keep-clear"] * stops
    assert all(f.says.endswith("kept clear, 1.00 m SL to 1.60 m SL.") for f in told)


def test_the_hang_sheet_tells_what_is_to_be_kept_clear(tmp_path: Path) -> None:
    show = a_show(tmp_path, level_pipe(keep_clear=[[1, 1.6], [-3, -2]]), unit(at=2, target="chair"))
    assert "clamp nothing from 1.00 m SL to 1.60 m SL, nor from 3.00 m SR to 2.00 m SR." in sheet(
        hang_sheets, show
    )


# --- dead-hung pipes ------------------------------------------------------------------------------


@pytest.mark.parametrize(("lines", "comes_in"), [([], True), ([-3, 3], True)])
def test_a_dead_hung_pipe_has_no_pipe_in_pages(
    tmp_path: Path, lines: list[float], comes_in: bool
) -> None:
    for dead, said in ((False, comes_in), (True, False)):
        pipe = level_pipe(lines=lines, dead_hung=dead)
        words = sheet(aim_sheets, a_show(tmp_path, pipe, unit(at=1, target="chair")))
        assert ("p PIPE IN" in words) is said
        assert ("dead hung" in words) is dead


# --- circuits that only feed ----------------------------------------------------------------------


def _rules(folder: Path, first: dict[str, object], second: dict[str, object]) -> list[str]:
    on = {"circuit": "7", "target": "chair"}
    units = [
        unit(**on | {"number": n, "at": n, "channel": str(n)} | more)
        for n, more in ((1, first), (2, second))
    ]
    show = a_show(folder, level_pipe(), *units)
    names = ("circuit-twice", "circuit-fades", "twofer")
    return [f.rule for f in show.findings if f.rule in names]


def test_channels_share_a_circuit_that_does_not_dim_them(tmp_path: Path) -> None:
    data: dict[str, object] = {"dimmed_by": "data"}
    assert _rules(tmp_path, {}, {}) == ["circuit-twice"]
    assert _rules(tmp_path, data, data) == ["twofer"]
    assert _rules(tmp_path, data, {}) == ["circuit-fades"]
    assert _rules(tmp_path, data, {"channel": None}) == ["twofer"]


def test_a_unit_overrules_its_kind_about_dimming(tmp_path: Path) -> None:
    by_data = kind(dimmed_by="data")
    on: dict[str, object] = {"circuit": "7", "target": "chair"}
    for said, rule in ((None, "twofer"), ("circuit", "circuit-twice")):
        units = [
            unit(**on | {"number": n, "at": n, "channel": str(n), "dimmed_by": said})
            for n in (1, 2)
        ]
        show = a_show(tmp_path, level_pipe(), *units, kinds=by_data)
        assert rule in [f.rule for f in show.findings]


# --- trusses --------------------------------------------------------------------------------------

CHORDS = [{"name": "US bottom", "side": "0.25 m US"}, {"name": "DS top", "side": -0.25, "up": 0.5}]


def _tables(*pairs: dict[str, object]) -> str:
    return ", ".join(
        "{" + ", ".join(f"{key} = {json.dumps(value)}" for key, value in each.items()) + "}"
        for each in pairs
    )


def a_truss(*chords: dict[str, object], **keys: object) -> str:
    """The level pipe `p` at trim 6.4 as a truss."""
    return f"{level_pipe(**keys)}chords = [{_tables(*(chords or CHORDS))}]\n"


def test_units_hang_from_the_chord_that_they_name(tmp_path: Path) -> None:
    units = [
        unit(number=n, at=1, chord=c, target="chair") for n, c in ((1, "us bottom"), (2, "DS top"))
    ]
    units[0] = units[0].replace("us bottom", "US bottom")
    show = a_show(tmp_path, a_truss(), *units)
    assert [a.clamp for a in show.rig.answers] == [(1.0, 0.25, 6.4), (1.0, -0.25, 6.9)]
    assert [a.chord for a in show.rig.answers] == ["US bottom", "DS top"]
    for answer in show.rig.answers:
        lens, axis, _ = thrown(answer, show.scene)
        assert lens + axis * answer.throw == pytest.approx((1, 3, 1.65), abs=1e-9)
    assert not [f for f in show.findings if f.severity == "stop"]  # one place, two chords
    assert "CHORD US bottom" in sheet(aim_sheets, show)


def test_two_units_on_one_spot_of_one_chord_are_a_stop(tmp_path: Path) -> None:
    units = [unit(number=n, at=1, chord="DS top", target="chair") for n in (1, 2)]
    show = a_show(tmp_path, a_truss(), *units)
    assert "one-spot" in [f.rule for f in show.findings if f.severity == "stop"]


@pytest.mark.parametrize(("y", "side"), [(3.0, 1), (-2.5, -1)])
def test_the_sight_tape_of_a_truss_is_measured_from_its_own_line(
    tmp_path: Path, y: float, side: int
) -> None:
    """Where the plan line from clamp to target crosses the line 3 m US (or DS) of y = 0."""
    target = table("target", name="mark", x=2.2, y=y, plane="face")
    stage = "[stage]\noutline = [[-9, -9], [9, -9], [9, 9], [-9, 9]]\n"
    units = [
        unit(number=n, at=1, chord=c, target="mark") for n, c in ((1, "US bottom"), (2, "DS top"))
    ]
    path = written(tmp_path, stage, target, a_truss(), *units)
    for answer, from_y in zip(Show(load_scene(path)).rig.answers, (0.25, -0.25), strict=True):
        share = (3.0 * side - from_y) / (y - from_y)
        assert answer.sight == pytest.approx(1 + share * 1.2, abs=1e-9)
        assert answer.sight_out == 3.0


def test_the_load_of_a_truss_is_on_its_own_lines(tmp_path: Path) -> None:
    """10 kg in the middle of one chord and 20 kg 1 m SL on the other, on lines 2 m either side."""
    units = [
        unit(number=1, at=0, chord="US bottom", kind="k", target="chair"),
        unit(number=2, at=1, chord="DS top", kind="heavy", target="chair"),
    ]
    kinds = kind(weight="10 kg") + kind(name="heavy", weight="20 kg")
    show = a_show(tmp_path, a_truss(lines=[-2, 2]), *units, kinds=kinds)
    (plan,) = show.hang.positions
    assert [line.load for line in plan.lines] == pytest.approx([5 + 5, 5 + 15])


@pytest.mark.parametrize(
    ("tables", "says"),
    [
        ((a_truss(), unit(target="chair")), "the chord it is clamped to: US bottom, DS top"),
        ((a_truss(), unit(target="chair", chord="top")), "the name of a chord of its truss"),
        ((level_pipe(), unit(target="chair", chord="DS top")), "its position has no chords"),
        ((a_truss({"name": "a"}, {"name": "a"}),), "a name of its own for each chord"),
        ((a_truss({"name": "a", "side": 3}),), "a length in metres from -2 to 2"),
        ((a_truss({"name": "a", "side": "1 m SL"}),), "Leave out SL"),
        ((a_truss({"up": 1}),), "name, which this entry needs"),
    ],
)
def test_what_is_wrong_with_a_truss_is_told(
    tmp_path: Path, tables: tuple[str, ...], says: str
) -> None:
    with pytest.raises(SceneError) as told:
        a_show(tmp_path, *tables)
    assert says in told.value.report()


# --- curved pipes ---------------------------------------------------------------------------------

BOW = {"name": "bow", "start": [-3, 0, 5], "through": [0, -1, 5], "end": [3, 0, 5]}


def test_a_curved_pipe_by_hand(tmp_path: Path) -> None:
    """Radius 5 round (0, 4). 2 m of arc to SL of the middle is 0.4 rad round: (5 sin 0.4, 4 - 5 cos 0.4).

    A unit there that lights the circle's middle stands square: its heading is that of the radius, 22.92
    to SR of US.
    """
    middle = table("target", name="middle", x=0, y=4, plane="face")
    show = a_show(
        tmp_path, table("pipe", **BOW), middle, unit(position="bow", at="2 m SL", target="middle")
    )
    (answer,) = show.rig.answers
    assert answer.clamp == pytest.approx((1.947092, -0.605305, 5.0), abs=1e-6)
    assert (answer.square, answer.swing) == ("US", None)
    assert answer.heading == pytest.approx(360 - 22.918312, abs=1e-6)
    assert answer.sight is None
    lens, axis, _ = thrown(answer, show.scene)
    assert lens + axis * answer.throw == pytest.approx((0, 4, 1.65), abs=1e-9)
    said = sheet(aim_sheets, show)
    assert "NO SIGHT TAPE curved pipe: the dial leads" in said
    assert "2.00 m SL" in said


def test_the_ends_of_a_curved_pipe_are_along_its_arc(tmp_path: Path) -> None:
    """Half of it is 5 asin(0.6) = 3.2175 m."""
    for at, stops in ((3.217, []), (3.219, ["off-the-end"])):
        units = unit(position="bow", at=at, target="chair")
        show = a_show(tmp_path, table("pipe", **BOW), units)
        assert [f.rule for f in show.findings if f.severity == "stop"] == stops


def test_loads_of_a_curved_pipe_are_not_worked_out(tmp_path: Path) -> None:
    pipe = table("pipe", **BOW, lines=[-2, 2])
    show = a_show(tmp_path, pipe, unit(position="bow", at=1, target="chair"))
    assert "curved-lines" in [f.rule for f in show.findings]
    assert "LINES not worked out, the pipe is curved" in sheet(hang_sheets, show)
    assert show.hang.positions[0].lines == []


@pytest.mark.parametrize(
    ("keys", "says"),
    [
        ({"through": [0, -1, 5.2]}, "three points at one height"),
        ({"through": [0, 0.001, 5]}, "a point well off the line"),
        ({"end": [-3, 0, 5]}, "two ends that are not in one place"),
        ({"sight_out": 3}, "a curved pipe has neither chords nor a sight tape"),
        ({"zero": "centre line", "end": [-1, 0, 5]}, "ends on either side of the centre line"),
    ],
)
def test_what_is_wrong_with_a_curved_pipe_is_told(
    tmp_path: Path, keys: dict[str, object], says: str
) -> None:
    with pytest.raises(SceneError) as told:
        a_show(tmp_path, table("pipe", **{**BOW, **keys}))
    assert says in told.value.report()


# --- pipes that move, targets with several spots --------------------------------------------------

ACTS = {"act 1": "6.4 m", "act 2": "5.4 m"}


def moving(**keys: object) -> str:
    """The level pipe `p` with a trim for each act."""
    acts = ", ".join(f"{json.dumps(act)} = {json.dumps(trim)}" for act, trim in ACTS.items())
    whole = level_pipe(**keys).replace("trim = 6.4\n", f"trims = {{ {acts} }}\n")
    assert "trims" in whole
    return whole


def test_a_pipe_that_moves_hangs_at_its_first_trim(tmp_path: Path) -> None:
    show = a_show(tmp_path, moving(), unit(at=1, target="chair"))
    (answer,) = show.rig.answers
    (later,) = answer.further or ()
    assert (answer.clamp[2], later.clamp[2], later.name) == (6.4, 5.4, "act 2")


def test_aims_at_a_later_trim_by_hand(tmp_path: Path) -> None:
    """Pivots at 6 and at 5, the face 1.65 up and 3 m US: atan(4.35 / 3) and atan(3.35 / 3)."""
    show = a_show(tmp_path, moving(), unit(at=1, target="chair"))
    (told,) = json.loads(as_json(show.rig, []))["units"]
    (later,) = told["further"]
    assert told["down"] == pytest.approx(degrees(atan2(4.35, 3)), abs=1e-9)
    assert later["down"] == pytest.approx(degrees(atan2(3.35, 3)), abs=1e-9)
    assert later["heading"] == told["heading"] == 0.0
    said = sheet(aim_sheets, show)
    assert "p AT TRIM, act 1" in said
    assert "p AT TRIM, act 2" in said
    assert "act 2: trim 5.40 m plotted" in said
    assert "p PIPE IN" in said
    assert "act 1 6.40 m, act 2 5.40 m" in sheet(hang_sheets, show)


def test_further_aims_are_those_of_a_scene_written_for_them(tmp_path: Path) -> None:
    units = [unit(number=n, at=n, target="walker") for n in (1, 2)]
    walk = [[1, 3], [2, 4], [-1.5, 2.5, 0.4]]

    def walker(x: float, y: float, *z: float, **keys: object) -> str:
        more = {"z": z[0]} if z else {}
        return table("target", name="walker", x=x, y=y, plane="face", **more, **keys)

    show = a_show(tmp_path, level_pipe(), walker(1, 3, also=walk[1:]), *units)
    for row, place in enumerate(walk[1:]):
        alone = a_show(tmp_path, level_pipe(), walker(*place), *units)
        for answer, there in zip(show.rig.answers, alone.rig.answers, strict=True):
            aim = (answer.further or ())[row]
            assert aim.name == f"spot {row + 2}"
            for key in ("heading", "down", "pan", "swing", "yoke", "throw", "stand", "sight"):
                assert getattr(aim, key) == getattr(there, key), key
            lens, axis, _ = thrown(there, alone.scene)
            assert lens + axis * (aim.throw or 0.0) == pytest.approx(aim.face, abs=1e-9)


def test_every_spot_has_a_card_and_a_line_on_the_row(tmp_path: Path) -> None:
    spots = table("target", name="walker", x=1, y=3, plane="face", also=[[2, 4], [-1.5, 2.5]])
    show = a_show(tmp_path, level_pipe(), spots, unit(at=1, target="walker"))
    rows, cards = sheet(aim_sheets, show), sheet(unit_cards, show)
    for spot, stand in (("SPOT 2", "2.00 m SL, 4.00 m US"), ("SPOT 3", "1.50 m SR, 2.50 m US")):
        assert spot in rows
        assert f"STAND {stand.replace(',', '')}" in rows
        assert f"p {spot}" in cards
        assert f"STAND walker: {stand}" in cards


def test_a_stop_at_a_later_trim_or_spot_is_told_with_its_time(tmp_path: Path) -> None:
    """A yoke that goes 50 degrees from the stem: 37 are needed at the first spot, 67 at the second."""
    spots = table("target", name="walker", x=0, y=3, plane="face", also=[[0, 12]])
    show = a_show(
        tmp_path,
        level_pipe(),
        spots,
        unit(at=0, target="walker"),
        kinds=kind(yoke_range=[30, 120]),
    )
    told = {f.rule: f.says for f in show.findings if f.rule == "yoke-travel"}
    assert list(told) == ["yoke-travel"]
    assert told["yoke-travel"].startswith("At spot 2: ")


@pytest.mark.parametrize(
    ("tables", "says"),
    [
        ((moving() + "trim = 5\n",), "no trim here: trims gives the hang's first"),
        ((moving().replace('"5.4 m"', '"low"'),), "trims"),
        ((table("pipe", **BOW) + "trims = { a = 5 }\n",), "no trims here"),
        ((table("target", name="w", x=0, y=0, also=[[1]]),), "a spot [x, y], or [x, y, z]"),
        ((table("target", name="w", x=0, y=0, also=[]),), "a list of spots"),
    ],
)
def test_what_is_wrong_with_trims_and_spots_is_told(
    tmp_path: Path, tables: tuple[str, ...], says: str
) -> None:
    with pytest.raises(SceneError) as told:
        a_show(tmp_path, *tables)
    assert says in told.value.report()


# --- audience on other sides ----------------------------------------------------------------------

# A front pair, one of them flatter, and a back light, as x, y and height of stands round a face.
ROUND_A_FACE = {"1": (2.5, -4.0, 4.5), "2": (-2.0, -4.5, 2.6), "3": (0.5, 3.0, 5.0)}
AS_TURNED = {  # the plan turned clockwise by quarters: where its axes go, and what DS becomes
    "DS": ((1, 0), (0, 1)),
    "SR": ((0, -1), (1, 0)),
    "US": ((-1, 0), (0, -1)),
    "SL": ((0, 1), (-1, 0)),
}


def a_turned_stage(folder: Path, faces: str | float, turn: str) -> Show:
    """One face at the turned place of (1, 2), three stands round it, all turned with what it faces."""
    (xx, xy), (yx, yy) = AS_TURNED[turn]

    def turned(x: float, y: float) -> tuple[float, float]:
        return x * xx + y * yx, x * xy + y * yy

    x, y = turned(1, 2)
    tables = [table("target", name="face", x=x, y=y, plane="face", faces=faces)]
    for number, (dx, dy, z) in ROUND_A_FACE.items():
        px, py = turned(1 + dx, 2 + dy)
        tables += [
            table("stand", name=number, x=px, y=py, z=z),
            unit(position=number, number=number, at=None, target="face", system=number),
        ]
    wide = "[stage]\noutline = [[-9, -9], [9, -9], [9, 9], [-9, 9]]\n"
    folder.mkdir()
    path = written(folder, wide, *tables, kinds=kind(peak_cd=50_000))
    return Show(load_scene(path))


@pytest.mark.parametrize(("faces", "turn"), [("SR", "SR"), ("US", "US"), ("SL", "SL"), (90, "SL")])
def test_a_stage_turned_with_its_audience_is_lit_alike(
    tmp_path: Path, faces: str | float, turn: str
) -> None:
    """What is said of a face goes by the way it faces: the same stage turned round says the same."""
    plain, other = (
        a_turned_stage(tmp_path / name, *how)
        for name, how in (("a", ("DS", "DS")), ("b", (faces, turn)))
    )
    for light, there in zip(face_lights(plain.rig), face_lights(other.rig), strict=True):
        for key in ("elevation", "plan", "section"):
            assert getattr(there, key) == pytest.approx(getattr(light, key), abs=1e-9), key
        clockwise = ["US", "SL", "DS", "SR"]
        by = (clockwise.index(turn) - clockwise.index("DS")) % 4
        assert there.side == clockwise[(clockwise.index(light.side) + by) % 4]
    rules = ("flat", "steep", "pair-uneven", "front-angles")
    before, after = (
        sorted((f.rule, f.unit or "") for f in show.findings if f.rule in rules)
        for show in (plain, other)
    )
    assert before == after
    assert before
    points = [show.rig.arrays.point[:, :1] for show in (plain, other)]
    lux = [show.light.at(at) for show, at in zip((plain, other), points, strict=True)]
    assert lux[0].house[0] > 0
    assert lux[1].house == pytest.approx(lux[0].house, rel=1e-9)
    upright = [[c.upright for c in areas_of(show.light)[0].light] for show in (plain, other)]
    assert upright[1] == pytest.approx(upright[0], rel=1e-9)


def test_light_that_lands_in_seats_beside_the_stage_is_told(tmp_path: Path) -> None:
    """From 4 m up over SR, down 45 through a face at x = 5: it lands at x = 6.65, past the edge at 6."""
    edge = table("target", name="edge", x=5, y=3, plane="face", faces="SL")
    for outline, told in (([[6.2, 0], [9, 0], [9, 6], [6.2, 6]], 1), ([[7, 0], [9, 0], [8, 6]], 0)):
        seats = table("seats", name="SL bank", outline=outline, eye=1.2)
        stand = table("stand", name="s", x=1, y=3, z=1.65 + 4 - 0.3)
        show = a_show(tmp_path, edge, seats, stand, unit(position="s", at=None, target="edge"))
        found = [f for f in show.findings if f.rule == "lands-in-house"]
        assert ["seats (SL bank)" in f.says for f in found] == [True] * told


def test_faces_has_to_be_a_way(tmp_path: Path) -> None:
    with pytest.raises(SceneError, match="faces"):
        a_show(tmp_path, table("target", name="w", x=0, y=0, faces="out"))


def test_the_hang_strips_say_how_they_lie_on_a_truss_and_on_a_bend(tmp_path: Path) -> None:
    plain = a_show(tmp_path, level_pipe(), unit(at=1, target="chair"))
    odd = a_show(
        tmp_path,
        a_truss(),
        table("pipe", **BOW),
        unit(at=1, chord="DS top", target="chair"),
        unit(position="bow", at=1, target="chair"),
    )
    for show, told in ((plain, False), (odd, True)):
        said = sheet(hang_strip, show)
        assert ("lay it on each chord in turn" in said) is told
        assert ("goes along its bend" in said) is told
        assert ("k ON DS top" in said) is told


def test_a_truss_is_called_a_truss_on_the_sheets_of_its_crew(tmp_path: Path) -> None:
    show = a_show(tmp_path, a_truss(), unit(at=1, chord="DS top", target="chair"))
    hung, aimed, card = (sheet(make, show) for make in (hang_sheets, aim_sheets, unit_cards))
    for said in (hung, aimed, card):
        assert "of the truss, facing" in said
        assert "of the pipe, facing" not in said
    assert "safety cable round the truss and through the yoke" in hung
    assert "of the truss" in hung  # the head of FROM ENDS
    assert "of truss" in aimed  # where the sight tape lies


def test_the_strip_of_a_tube_with_a_foot_begins_at_its_foot(tmp_path: Path) -> None:
    """Its unit is at 4.2 m, its foot at 3 m: CHECK 1.00 m is below the mark, 0.20 m lower."""
    show = a_show(tmp_path, table("boom", **LADDER), unit(**ON_LADDER | {"at": 4.2}))
    said = sheet(hang_strip, show)
    assert "CHECK 1.00 m from FOOT" in said
    assert "CHECK 4.00 m" not in said
    assert "1.20 m below unit 1" in said


# --- the worked scene in the round ----------------------------------------------------------------

ARENA = Path(__file__).parents[2] / "scenes" / "arena"


@pytest.fixture(scope="module")
def arena() -> Show:
    return Show(load_scene(str(ARENA)))


@pytest.mark.parametrize("length", ["m", "ft"])
@pytest.mark.parametrize("make", [aim_sheets, unit_cards, hang_sheets])
def test_the_sheets_of_the_arena_can_be_read(arena: Show, make: object, length: str) -> None:
    paper = io.BytesIO()
    make(arena, paper, PaperOptions(length=length))  # type: ignore[operator]
    data = paper.getvalue()
    for page, size in zip(runs(data), sizes(data), strict=True):
        assert overlaps(page) == []
        assert outside(page, size) == []
        assert min(said.size for said in page) > 6.0
    said = "\n".join(pages(data))
    assert minus_signs(said) == []
    assert bare_sides(said) == []


def test_the_cover_says_how_to_read_what_only_some_stages_have(arena: Show, tmp_path: Path) -> None:
    plain = a_show(tmp_path, level_pipe(), unit(at=1, target="chair"))
    for show, told in ((plain, False), (arena, True)):
        said = sheet(aim_sheets, show)
        for words in (
            "names the tube of a truss",
            "with an act's name",
            "where the target is later",
        ):
            assert (words in said) is told


def test_every_aim_of_the_arena_is_hit_from_what_is_told(arena: Show) -> None:
    for answer in arena.rig.answers:
        lens, axis, _ = thrown(answer, arena.scene)
        assert lens + axis * answer.throw == pytest.approx(answer.face, abs=1e-9), answer.unit
