"""Hanging and plugging in words."""

from __future__ import annotations

from itertools import pairwise

import msgspec
import pytest

from aimcalc.hang.plan import hang_plan
from aimcalc.hang.records import CableRun, Connector
from aimcalc.scene.model import Boom, Circuit, Pipe, Stand, Unit
from aimcalc.sheets.counts import cable_rows
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import solve_rig
from aimcalc.text.cables import cable_words, connector_words, place_words
from aimcalc.text.hang_rows import hang_rows
from tests.rigs import a_kind, a_pipe, a_scene
from tests.shows import rig_of

NONE = CableRun(None, None, None, None, None, None, None, None, None, None, False)


def unit(number, at, **values):
    return Unit(position="p", number=number, kind="k", at=at, point=(at or 0.0, 5.0, 1.0), **values)


def rows(units, length="m", found=(), **scene):
    rig = solve_rig(a_scene(units, **scene))
    return hang_rows(rig, hang_plan(rig), found, length)["p"]


def test_marks_are_told_from_the_zero_mark_and_from_both_ends_with_the_spacing():
    # The pipe runs from 10 m SR to 10 m SL.
    first, second = rows([unit("1", 3.0, channel="7"), unit("2", -1.5)])
    assert (first.mark, first.ends) == ("3.00 m SL", ("SR 13.00 m", "SL 7.00 m"))
    assert (second.mark, second.ends) == ("1.50 m SR", ("SR 8.50 m", "SL 11.50 m"))
    assert (first.spacing, first.before) == ("", "")
    assert (second.spacing, second.before) == ("4.50 m", "from 1")
    assert (first.channel, second.channel) == ("ch 7", "")


def test_feet_are_told_to_the_quarter_inch():
    first, second = rows([unit("1", 3.0), unit("2", 2.5)], "ft")
    assert first.mark == "9'-10\" SL"  # 3 m = 118.11 in
    assert second.spacing == "1'-7 3/4\""  # 0.5 m = 19.685 in


def test_a_mark_past_the_end_says_so():
    pipe = Pipe(name="p", start=(-1.0, 0.0, 6.0), end=(1.0, 0.0, 6.0))
    (row,) = rows([unit("1", 1.25)], pipes=[pipe])
    assert row.ends == ("SR 2.25 m", "SL OFF BY 0.25 m")


def test_a_boom_counts_from_its_foot():
    boom = Boom(name="p", x=-6.0, y=0.0, height=5.0)
    (row,) = rows([unit("1", 3.2, mount="arm", arm=0.5, arm_to=90.0)], pipes=[], booms=[boom])
    assert (row.mark, row.ends, row.how) == (
        "3.20 m UP",
        ("FOOT 3.20 m", "TOP 1.80 m"),
        "ARM 0.50 m SL",
    )


def test_a_stand_has_no_mark():
    (row,) = rows(
        [unit("1", None, mount="stand")], pipes=[], stands=[Stand(name="p", x=0.0, y=-2.0)]
    )
    assert (row.mark, row.ends, row.spacing, row.how) == ("", (), "", "ON STAND")


def test_weights_loads_and_circuits_are_told_where_they_are_known():
    kinds = [a_kind(weight=7.0, watts=575.0)]
    (metric,) = rows([unit("1", 0.0, circuit="A1")], kinds=kinds)
    (feet,) = rows([unit("1", 0.0, circuit="A1")], "ft", kinds=kinds)
    (bare,) = rows([unit("1", 0.0)])
    assert (metric.weight, metric.load, metric.circuit) == ("7.0 kg", "575 W", "A1")
    assert feet.weight == "15.4 lb"  # 7 / 0.45359237
    assert (bare.weight, bare.load, bare.circuit, bare.cable) == ("", "", "", ("",))


@pytest.mark.parametrize(
    ("run", "words"),
    [
        (NONE, ("",)),
        (
            CableRun(1.0, 0.0, 0.0, None, None, None, None, None, 1, None, True),
            ("TAIL REACHES OUTLET",),
        ),
        (
            CableRun(1.0, 0.5, None, None, None, None, None, None, None, "p/3", False),
            ("TWOFER", "with unit 3"),
        ),
        (
            CableRun(4.5, 0.9, 1.2, 2.0, 1.35, 3.175, 1.3, True, 4, None, False),
            ("2 m cable", "back at 3.18 m SL", "4 ties"),
        ),
        (
            CableRun(4.5, 0.9, 1.2, 2.0, 1.35, -3.175, 1.3, True, 1, None, False),
            ("2 m cable", "back at 3.17 m SR", "1 tie"),  # towards the outlet
        ),
        (
            CableRun(4.5, 0.9, 1.2, 15.0, 1.35, 10.0, 1.3, False, 4, None, False),
            ("15 m cable", "fold back more than twice", "4 ties"),
        ),
        (  # both towards the outlet at 4.50: 10.004 to 10.00, 3.006 to 3.01 and the 0.004 of the first less
            CableRun(4.5, 0.9, 1.2, 15.0, 1.35, 10.004, 1.3, False, 4, None, False, 3.006),
            ("15 m cable", "first to 10.00 m SL, then 3.01 m SL", "4 ties"),
        ),
        (
            CableRun(4.5, 0.9, 1.2, None, None, None, 1.3, None, 4, None, False),
            ("NO CABLE", "needs 1.20 m", "4 ties"),
        ),
        (  # a cable of 1.20 m would not do
            CableRun(4.5, 0.9, 1.201, None, None, None, 1.3, None, 4, None, False),
            ("NO CABLE", "needs 1.21 m", "4 ties"),
        ),
    ],
)
def test_cable_in_words(run, words):
    rig = solve_rig(a_scene([unit("1", 3.6), unit("3", -3.6)]))
    assert cable_words(rig, 0, planned_with(rig, run), "m") == words


def planned_with(rig, run):
    """The first unit's plan with another cable."""
    return msgspec.structs.replace(hang_plan(rig).positions[0].units[0], cable=run)


def test_spare_cable_to_a_stand_lies_at_the_unit():
    stand = Stand(name="p", x=0.0, y=0.0)
    rig = solve_rig(a_scene([unit("1", None, mount="stand")], pipes=[], stands=[stand]))
    run = CableRun(0.0, 2.0, 2.3, 5.0, 2.7, 1.0, 4.0, True, 1, None, False)
    told = cable_words(rig, 0, planned_with(rig, run), "m")
    assert told == ("5 m cable", "spare at the unit", "1 tie")


@pytest.mark.parametrize(
    ("connector", "words"),
    [
        (Connector(None, None, None, None, False), ("",)),
        (Connector("SL", 0.51, 0.38, 0.25, False), ("SL SIDE", "0.25 m", "tie within 0.51 m")),
        (Connector("SL", 0.51, 0.38, -0.25, True), ("SR SIDE", "0.25 m", "tie within 0.38 m")),
        (Connector("SR", 0.51, 0.38, 0.0, False), ("AT CLAMP", "tie within 0.51 m SR")),
        (Connector(None, None, None, 0.25, True), ("SL SIDE", "0.25 m", "")),
    ],
)
def test_the_tail_s_tie_in_words(connector, words):
    rig = solve_rig(a_scene([unit("1", 0.0)]))
    assert connector_words(rig, 0, connector, "m") == words


def test_a_tie_on_an_arm_is_named_for_the_way_along_the_arm():
    boom = Boom(name="p", x=-6.0, y=0.0, height=5.0)
    one = unit("1", 3.2, mount="arm", arm=0.5, arm_to=90.0)
    rig = solve_rig(a_scene([one], pipes=[], booms=[boom]))
    told = connector_words(rig, 0, Connector("SR", 0.4, 0.0, 0.25, False), "m")
    assert told[0] == "SR SIDE"


def test_places_along_positions_in_words():
    assert place_words(a_pipe(), -1.5, "m") == "1.50 m SR"
    assert place_words(Boom(name="b", x=0, y=0, height=3), 1.2, "ft") == "3'-11\" UP"


def test_stops_and_warns_are_told_on_their_rows_only():
    found = [
        Finding("warn", "a", "Taut.", "Do.", unit="p/2"),
        Finding("note", "b", "Steep.", "Do.", unit="p/2"),
        Finding("stop", "c", "Heavy.", "Do.", position="p"),
    ]
    first, second = rows([unit("1", 1.0), unit("2", 0.0)], found=found)
    assert (first.findings, second.findings) == ((), ("WARN: Taut.",))


def test_a_unit_plugged_in_at_its_outlet_by_the_plan_itself():
    pipe = a_pipe(circuits=(Circuit(name="A1", at=0.1, limit_amps=20.0),))
    kinds = [a_kind(tail=0.9, tail_exit=(0.1, 0.1), length=0.5, width=0.2, nose=0.2)]
    (row,) = rows([unit("1", 0.0, circuit="A1")], pipes=[pipe], kinds=kinds)
    assert row.cable == ("TAIL REACHES OUTLET",)
    assert row.connector[:2] == ("SL SIDE", "0.10 m")


def metres(words):
    """A printed length or place in metres, towards SL, US or up positive: plain arithmetic."""
    number, _, side = words.rpartition(" ")
    if side not in ("SL", "US", "UP", "SR", "DS"):
        number, side = words, ""
    if number in ("ZERO", "CENTRE", "MIDDLE", ""):
        return 0.0
    sign = -1.0 if side in ("SR", "DS") else 1.0
    if number.endswith(" m"):
        return sign * float(number.removesuffix(" m"))
    feet, inches = number.rstrip('"').split("'-")
    whole, _, part = inches.partition(" ")
    over, _, under = part.partition("/")
    return sign * 0.0254 * (12 * int(feet) + int(whole) + (int(over) / int(under) if part else 0))


@pytest.mark.parametrize("name", ["studio", "playhouse", "raked"])
@pytest.mark.parametrize("length", ["m", "ft"])
def test_printed_places_and_the_cable_laid_add_up(name, length):
    """Outlet to fold and fold to tie, as printed, leave what is kept at the unit, within rounding."""
    rig = rig_of(name)
    plan = hang_plan(rig)
    rows = {(p, r.number): r for p, some in hang_rows(rig, plan, (), length).items() for r in some}
    kept = 0.3  # metres, 12 in less a hair: the habit that HangOptions declares
    step = 0.01 if length == "m" else 0.0254
    folded = 0
    for position, _, numbers, cable, _, outlet, fold, _ in cable_rows(rig, plan, length):
        if fold in ("more than twice", "at the unit", ""):
            continue
        row = rows[position, numbers.split(":")[0].split(", ")[0]]
        side, far = row.connector[:2] if row.connector[0] != "AT CLAMP" else ("", "")
        way = -1.0 if side.removesuffix(" SIDE") in ("SR", "DS", "DOWN") else 1.0
        tie, out = metres(row.mark) + way * metres(far), 0.0
        if row.how.startswith("ARM"):
            tie, out = metres(row.mark), metres(row.how[4:].rpartition(" ")[0]) - metres(far)
        whole = float(cable.split()[0]) * (0.3048 if cable.endswith("ft") else 1.0)
        way_of = [metres(outlet), *map(metres, fold.split(", then ")), tie]
        laid = sum(abs(b - a) for a, b in pairwise(way_of)) + out
        assert laid + kept <= whole + 1e-4, (position, numbers)
        assert laid + kept >= whole - 2 * step - 1e-4, (position, numbers)
        folded += 1
    assert folded > (3 if name == "playhouse" else 0)


def test_every_row_says_where_its_outlet_is():
    pipe = a_pipe(circuits=(Circuit(name="A", at=-4.5),))
    (row,) = rows([unit("1", -3.0, circuit="A")], pipes=[pipe])
    assert row.outlet == "4.50 m SR"
    stand = Stand(name="p", x=0.0, y=-2.0, circuits=(Circuit(name="A", at=0.0),))
    (row,) = rows([unit("1", None, mount="stand", circuit="A")], pipes=[], stands=[stand])
    assert row.outlet == "at stand"


def test_a_body_on_its_side_says_where_its_clip_is():
    # The stem points DS from the boom and the body lies against it, body-up towards the boom: US.
    boom = Boom(name="p", x=-6.0, y=0.0, height=5.0)
    (row,) = rows([unit("1", 3.0, mount="direct", arm_to=180.0)], pipes=[], booms=[boom])
    assert row.how == "DIRECT, DS side, CLIP US"
    (hung,) = rows([unit("1", 3.0)])
    assert hung.how == ""


def test_twofers_are_named_on_the_rows_that_use_them():
    # As in tests/rig/hang/test_counts.py: 1 and 2 on one cable, 3 on its own from the same outlet.
    units = [unit(n, at, circuit="A") for n, at in (("1", 6.0), ("2", 5.7), ("3", 3.0))]
    kind = a_kind(tail=0.9, tail_exit=(0.2, 0.1))
    pipe = a_pipe(circuits=(Circuit(name="A", at=0.0),))
    rig = solve_rig(a_scene(units, pipes=[pipe], kinds=[kind]))
    plan = hang_plan(rig)
    one, two, three = hang_rows(rig, plan, (), "m")["p"]
    assert one.twofer == ("TWOFER with 2", "TWOFER at the outlet with 3")
    assert two.cable == ("TWOFER", "with unit 1")
    assert two.twofer == ("TWOFER at the outlet with 3",)
    assert three.twofer == ("TWOFERS at the outlet with 1, 2",)
    assert three.findings == ("TWOFERS: at the outlet with 1, 2",)  # the line under its row
    listed = {row[2] for row in cable_rows(rig, plan, "m")}
    assert listed == {
        "1, 2: TWOFER with 2, TWOFER at the outlet with 3",
        "3: TWOFERS at the outlet with 1, 2",
    }
