"""What a unit's row says."""

from __future__ import annotations

import sys
from math import radians, tan
from pathlib import Path

import msgspec
import pytest

from aimcalc.findings import findings
from aimcalc.scene.model import Boom, Pipe, Seats, Solid, Stage, Stand, Target, Unit
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import solve_rig
from aimcalc.text.rows import rows_of, tape_zero, zero_words
from aimcalc.text.stops import Mark
from tests.rigs import FOOT, INCH, a_kind, a_pipe, a_scene
from tests.shows import rig_of

SCENES = Path(__file__).parents[2] / "scenes"
FACE = 5.5 * FOOT  # 5'-6"


def unit(**values):
    return Unit(**{"position": "p", "number": "1", "kind": "k", **values})


def rows(units, targets=(), *, findings=(), length="ft", **scene):
    scene.setdefault("sight_out", 10 * FOOT)
    scene.setdefault("face_height", FACE)
    made = a_scene(list(units), list(targets), **scene)
    return rows_of(solve_rig(made), findings, length)


def row(one, target=None, **scene):
    (only,) = rows([one], [target] if target else [], **scene)
    return only


def front(at_feet=6.0, x_feet=-2.0, y_feet=6.0, trim=20.0, y=-16.0, **scene):
    """A unit hung at `at_feet` on a pipe `y` feet upstage, on a face at (x, y) feet."""
    pipe = a_pipe(trim=trim * FOOT, y=y * FOOT)
    target = Target(name="a", x=x_feet * FOOT, y=y_feet * FOOT)
    return row(unit(at=at_feet * FOOT, target="a"), target, pipes=[pipe], **scene)


# Worked by hand. Pivot 20' less 14" = 18'-10"; face 5'-6"; 8' SR and 22' US of the unit:
# pan atan(8/22) = 19.98; reach 23.41'; down atan(13.333/23.41) = 29.66; the axis runs 5.5/tan(down) =
# 9.66' further, 3.30' SR and 9.08' US: 5'-4" SR, 15'-1" US, to 3 in 5'-3" SR, 15'-0" US.
# Tape at 6' - 10' tan(19.98) = 2.36' SL, to 3 in 2'-3".
def test_a_front_unit_reads_as_worked_by_hand():
    told = front()
    assert (told.turn, told.turn_note) == ("SR 20°", "square US")
    assert tuple(told.tip) == ("DOWN", "30°", "60°")
    assert told.sight == "2'-3\" SL"
    assert told.stand == ("a", "2'-0\" SR", "6'-0\" US")
    assert told.mark == Mark("LANDS", "5'-3\" SR", "15'-0\" US")
    assert told.hangs == ("6'-0\" SL", "")


def test_the_same_unit_in_metres():
    told = front(length="m")
    assert told.hangs == ("1.83 m SL", "")
    assert told.sight == "0.70 m SL"  # 2.36 ft = 0.719 m, to 5 cm
    assert told.stand == ("a", "0.60 m SR", "1.85 m US")  # 0.610 and 1.829
    assert told.mark == Mark("LANDS", "1.60 m SR", "4.60 m US")  # 1.61 and 4.60


# Pivot 16'-10", face 5'-6": 2' SL and 7' DS: pan atan(2/7) = 15.9, reach 7.28', down 57.3;
# lands 5.5/tan(57.3) = 3.53' past: 0.97' SR of it ... 1' SR + 0.97' SL = 0', 3' US - 3.39' = 0'-5" DS.
def test_a_back_unit_faces_downstage_and_never_pans_past_square():
    told = front(at_feet=-3, x_feet=-1, y_feet=3, trim=18, y=10)
    assert (told.turn, told.turn_note) == ("SL 16°", "square DS")
    assert tuple(told.tip) == ("DOWN", "57°", "33°")
    assert told.mark == Mark("LANDS", "CENTRE LINE", "0'-6\" DS")


# Face 30' off a pivot at 12': down atan(6.5/30) = 12.2, under 25: a pole at STAND as high as the face.
def test_a_low_down_gets_a_pole_as_high_as_the_face():
    told = front(at_feet=0, x_feet=0, y_feet=14, trim=12 + 14 / 12)
    assert tuple(told.tip) == ("DOWN", "12°", "78°")
    assert told.mark == Mark("POLE", "5'-6\"", "at STAND")


@pytest.mark.parametrize(
    ("reach", "word"),
    # 13.333 / tan 25 = 28.59': a reach of 28' is 25.5 down, 29.5' is 24.3 down.
    [(28.0, "LANDS"), (29.5, "POLE")],
)
def test_the_pole_begins_below_twenty_five_degrees(reach, word):
    assert front(at_feet=0, x_feet=0, y_feet=reach - 16).mark.word == word


def test_a_deck_target_lands_where_it_is_however_low_the_down():
    pipe = a_pipe(trim=6.0)
    target = Target(name="mark", x=0, y=20.0, plane="deck")
    told = row(unit(at=0.0, target="mark"), target, pipes=[pipe], length="m")
    assert told.mark == Mark("LANDS", "CENTRE LINE", "20.00 m US")


def test_a_point_above_level_reads_up_and_has_a_pole_at_the_point():
    stand = Stand(name="s", x=-4.0, y=0.0)
    told = row(
        unit(position="s", mount="stand", point=(0.0, 0.0, 4.4)),
        pipes=[],
        stands=[stand],
        length="m",
    )
    # Pivot 14 in = 0.356 m up: atan(4.044 / 4) = 45.3 above level.
    assert tuple(told.tip) == ("UP", "45°", "45°")
    assert told.mark == Mark("POLE", "4.40 m", "at POINT")
    assert told.stand == ("POINT", "CENTRE LINE", "PLASTER LINE")
    assert told.within[0].startswith("up ")


def test_straight_down_leaves_the_pan_free_and_tells_the_tail():
    told = row(unit(at=0.0, point=(0.0, 0.05, 0.0)), length="m")
    assert told.turn == "PAN FREE"
    assert told.turn_note in ("tail US", "tail DS")
    assert told.sight == ""
    assert told.within[1] == "pan any"


def test_a_plumb_pattern_unit_keeps_its_pan():
    kinds = [a_kind(has_gobo=True)]
    told = row(unit(at=0.0, point=(0.0, 0.05, 0.0)), kinds=kinds, length="m")
    assert told.turn == "SQUARE"


# 3 m out and 9 m aside is pan 71.6, over 60.
def test_there_is_no_tape_past_sixty_degrees():
    told = row(unit(at=0.0, point=(9.0, 3.0, 1.0)), length="m")
    assert (told.sight, told.sight_note) == ("NO TAPE", "use the dial")
    assert told.turn == "SL 72°"


def test_a_tape_mark_under_the_zero_is_named():
    assert row(unit(at=0.0, point=(0.0, 5.0, 1.0)), length="m").sight == "AT ZERO"


def test_a_pipe_up_and_down_the_stage_counts_by_upstage_and_downstage():
    pipe = Pipe(name="p", start=(5, -4, 6), end=(5, 4, 6), zero="middle")
    told = row(unit(at=-1.0, point=(0.0, 1.0, 1.0)), pipes=[pipe], length="m")
    assert told.hangs == ("1.00 m DS", "")
    # 2 m US and 5 m SR of the clamp: pan atan(2/5) = 21.8 from square SR; tape -1 + 3 tan = 0.2 US
    assert (told.turn, told.turn_note) == ("US 22°", "square SR")
    told = row(unit(at=-1.0, point=(0.0, 1.0, 1.0)), pipes=[pipe], length="m", sight_out=3.0)
    assert told.sight == "0.20 m US"


@pytest.mark.parametrize(
    ("start", "end", "zero", "hung", "tape"),
    [
        ((-5, 2, 6), (5, 2, 6), "centre line", "centre line", "zero on centre line"),
        ((5, 2, 6), (-5, 2, 6), "start", "SL end", "zero opposite SL end"),
        ((-5, 2, 6), (5, 2, 6), "start", "SR end", "zero opposite SR end"),
        ((-5, 2, 6), (5, 2, 6), "end", "SL end", "zero opposite SL end"),
        ((5, 2, 6), (-5, 2, 6), "end", "SR end", "zero opposite SR end"),
        ((4, -1, 5), (4, -6, 5), "start", "US end", "zero opposite US end"),
        ((4, -6, 5), (4, -1, 5), "start", "DS end", "zero opposite DS end"),
        ((4, -6, 5), (4, -1, 5), "middle", "middle", "zero opposite middle"),
        # askew, the zero mark is on the centre line but the tape's 0, square off it, is not
        ((-5, 2, 6), (5, 3, 6), "centre line", "centre line", "zero opposite centre line"),
    ],
)
def test_marks_and_tape_are_counted_from_a_place_that_can_be_found(start, end, zero, hung, tape):
    pipe = Pipe(name="p", start=start, end=end, zero=zero)
    assert (zero_words(pipe), tape_zero(pipe)) == (hung, tape)


def test_a_leaning_stem_tells_heading_dial_and_yoke_apart_and_no_tape():
    told = row(
        unit(at=0.0, point=(2.0, 5.0, 1.0), mount="out", swing_out=30.0, out_to="US"), length="m"
    )
    # Plan direction from the pivot: 2 m SL and 5 - 0.356 sin 30 = 4.822 m US: 22.5 SL of US.
    assert (told.sight, told.sight_note) == ("23° SL of US", "true heading")
    assert told.turn.startswith("SL ")
    assert told.turn_note == "dial, square US"
    assert told.turn != "SL 23°"
    for part in (
        "STEM: not plumb. True heading 23° SL of US: ",
        "FIRST dial SL 48°, within 16°; ",  # a quarter of 26, by cos 67
        "THEN level DOWN ",
        "; LAST sight the POINT, yoke 67° away from clamp.",
    ):
        assert part in told.clamp
    assert told.within == ("down 6°", "heading 8°")  # a quarter of 26, by cos 42
    assert told.hangs == ("CENTRE", "OUT 30° US")
    assert told.tail == ""


def test_a_pipe_that_slopes_keeps_its_tape_and_level_and_tells_that_the_dial_differs():
    # Climbs 1 in 10 to SL: pivot 0.3556 x 0.0995 = 0.035 m SL of the zero mark. 2.5 - 0.035 aside in 4.6:
    # 3 m out the mark is 0.035 + 3 x 2.465 / 4.6 = 1.643 m SL. Along the pipe the point is
    # 0.995 x 2.5 - 0.0995 x 4.35 = 2.055 on: the dial reads atan(2.055 / 4.6) = 24, the heading 28.
    pipe = Pipe(name="p", start=(-5.0, 0.0, 5.5), end=(5.0, 0.0, 6.5), zero="middle")
    told = row(unit(at=0.0, point=(2.5, 4.6, 1.65)), pipes=[pipe], length="m")
    assert (told.sight, told.sight_note) == ("1.65 m SL", "")
    assert (told.turn, told.turn_note) == ("SL 24°", "dial, square US")
    assert told.clamp.startswith(
        "SLOPE: the dial differs. True heading 28° SL of US: FIRST level DOWN "
    )
    assert "; LAST check dial SL 24°, within 8°, yoke " in told.clamp
    far = row(unit(at=0.0, point=(9.0, 2.0, 1.65)), pipes=[pipe], length="m")
    assert (far.sight, far.sight_note) == ("77° SL of US", "true heading")
    assert far.clamp.startswith("SLOPE: no tape. True heading 77° SL of US: FIRST dial SL ")


def test_a_unit_clamped_straight_to_a_boom_tells_its_nose():
    boom = Boom(name="b", x=-6.0, y=0.0, height=5.0)
    aimed = unit(position="b", at=3.0, mount="direct", arm_to=180.0, point=(0.0, 2.0, 1.0))
    told = row(aimed, pipes=[], booms=[boom], length="m")
    # The stem goes 0.356 m DS: from there 6 m SL, 2.356 m US, 2 m down: heading 21.4 US of SL, and
    # the clamp tips the nose by atan(2 / 6) = 18.4 from level.
    assert (told.sight, told.sight_note) == ("US 21°", "off across to SL")
    assert (told.turn, told.turn_note) == ("NOSE DOWN 18°", "at the clamp")
    assert tuple(told.tip) == ("DOWN", "17°", "73°")  # atan(2 / hypot(6, 2.356)) = 17.2
    assert told.hangs == ("3.00 m UP", "DIRECT, DS side")


def test_a_side_arm_reads_by_heading_alone():
    boom = Boom(name="b", x=-6.0, y=0.0, height=5.0)
    aimed = unit(position="b", at=3.0, mount="arm", arm=0.5, arm_to=90.0, point=(0.0, -2.0, 1.0))
    told = row(aimed, pipes=[], booms=[boom], length="m")
    # From the arm's end 5.5 m SL and 2 m DS: atan(2 / 5.5) = 20.0.
    assert (told.sight, told.sight_note) == ("DS 20°", "off across to SL")
    assert (told.turn, told.turn_note) == ("", "as heading")
    assert told.hangs == ("3.00 m UP", "ARM 0.50 m SL")
    assert told.clamp == ""


def test_a_boom_unit_aimed_away_from_the_centre_line_counts_from_the_other_side():
    boom = Boom(name="b", x=-6.0, y=0.0, height=5.0)
    aimed = unit(position="b", at=3.0, mount="arm", arm=0.5, arm_to=270.0, point=(-12.0, 1.0, 1.0))
    told = row(aimed, pipes=[], booms=[boom], length="m")
    assert (told.sight, told.sight_note) == ("US 10°", "off across to SR")  # atan(1 / 5.5) = 10.3


# A quarter of a field of 26 is 6.5; in pan that over cos 29.66 is 7.48. Both are rounded down.
def test_tolerances_are_rounded_down():
    assert front().within == ("down 6°", "pan 7°")


def test_an_over_hung_unit_says_so():
    told = row(unit(at=0.0, point=(0.0, 5.0, 1.0), mount="over"), length="m")
    assert told.hangs[1] == "OVER PIPE"


@pytest.mark.parametrize(
    ("turn", "says"),
    [(0.0, "OVAL ACROSS"), (90.0, "OVAL UP AND DOWN"), (None, ""), (150.0, "OVAL 30° off level")],
)
def test_an_oval_tells_how_its_pool_lies(turn, says):
    kinds = [a_kind(oval=(24.0, 48.0), field=24.0)]
    told = row(unit(at=0.0, point=(0.0, 5.0, 1.0), turn=turn), kinds=kinds, length="m")
    assert (told.turned, told.field) == (says, "24° x 48°")


def test_stops_and_warns_of_a_unit_are_on_its_row_and_notes_are_not():
    findings = [
        Finding("stop", "a", "It hangs upside down.", "Turn it.", unit="p/1"),
        Finding("warn", "b", "It hits the border.", "Move it.", unit="p/1"),
        Finding("note", "c", "It is steep.", "Look.", unit="p/1"),
        Finding("warn", "d", "Another unit's.", "Move it.", unit="p/2"),
        Finding("warn", "e", "Trim is not measured.", "Measure.", position="p"),
    ]
    (told,) = rows([unit(at=0.0, point=(0.0, 5.0, 1.0))], findings=findings)
    assert told.findings == ("STOP: It hangs upside down.", "WARN: It hits the border.")


def test_a_follower_names_its_leader():
    units = [unit(number=str(k), at=at, point=(at, 5.0, 1.0)) for k, at in ((7, 2.0), (8, 0.0))]
    first, second = rows(units)
    assert (first.match, second.match) == ("", "match 7")


def test_a_unit_that_cannot_be_aimed_says_so():
    kinds = [a_kind(rise=0.5)]
    told = row(unit(at=0.0, point=(0.0, 0.1, 6.0 - 14 * INCH)), kinds=kinds, length="m")
    assert told.tip.word == "NO AIM"
    assert (told.turn, told.sight, told.within) == ("", "", ("", ""))


# A pivot 6 m up on the plaster line, a face 2 m up at 4 m US: the axis falls 1 m for each metre, 45 down.
def at_45(*solids, seats=(), stage=None, face_height=2.0, **target):
    made = a_scene(
        [unit(at=0.0, target="a")],
        [Target(**{"name": "a", "x": 0.0, "y": 4.0, "face_height": face_height, **target})],
        kinds=[a_kind(drop_under=0.0)],
        solids=list(solids),
        stage=stage or Stage(),
    )
    made = msgspec.structs.replace(made, seats=seats)
    return rows_of(solve_rig(made), [], "m")[0].mark


def square(y, z0, z1, *, x=2.0):
    return ((-x, y, z0), (x, y, z0), (x, y, z1), (-x, y, z1))


def deck(front, back):
    return Stage(outline=((-5, front), (5, front), (5, back), (-5, back)))


def test_what_comes_down_on_a_platform_says_so():
    told = at_45(Solid(name="riser", box=(-2, 4.5, 0, 2, 9, 0.5), stand_on=True))
    assert told == Mark("LANDS", "CENTRE LINE", "5.50 m US", "riser")
    assert told.lines == ["LANDS", "on riser", "CENTRE LINE", "5.50 m US"]
    assert told.said == "LANDS CENTRE LINE, 5.50 m US on riser"


def test_what_an_upright_surface_stops_has_a_height_on_it_and_a_distance_along_it():
    told = at_45(Solid(name="flat", panel=square(5, 0, 3)))  # 1 m up
    assert told == Mark("ON", "1.00 m UP", "CENTRE LINE", "flat")
    assert told.said == "ON flat, 1.00 m UP, CENTRE LINE"
    assert told.lines == ["ON flat", "1.00 m UP", "CENTRE LINE"]


def test_a_surface_that_faces_across_the_stage_is_measured_upstage():
    leg = Solid(name="leg", panel=((1.5, 0, 0), (1.5, 9, 0), (1.5, 9, 5), (1.5, 0, 5)))
    one = unit(at=-4.0, target="a")
    pipe = a_pipe(trim=6.0)
    target = Target(name="a", x=0.0, y=3.0, face_height=2.0)
    # 4 m SL and 3 m US for 4 m down: 5.5 m SL is 4.125 m US and 5.5 m down.
    told = row(one, target, pipes=[pipe], kinds=[a_kind(drop_under=0.0)], solids=[leg], length="m")
    assert told.mark == Mark("ON", "0.50 m UP", "4.15 m US", "leg")


def test_the_front_of_a_platform_is_upright():
    told = at_45(Solid(name="riser", box=(-2, 5, 0, 2, 9, 1.5), stand_on=True))
    assert told == Mark("ON", "1.00 m UP", "CENTRE LINE", "riser")


def test_the_foot_of_a_drop_is_a_place_on_the_deck():
    told = at_45(Solid(name="drop", panel=square(5.98, 0, 6)))  # 2 cm up it
    assert told == Mark("LANDS", "CENTRE LINE", "6.00 m US")


def test_a_border_in_the_way_is_what_the_light_is_on():
    told = at_45(Solid(name="border", panel=square(2, 3, 5)))
    assert told == Mark("ON", "4.00 m UP", "CENTRE LINE", "border")


def test_a_table_in_the_way_is_where_a_low_axis_lands_as_no_pole_at_stand_is_lit():
    """Face 5.5 m up at 4 m US: 0.5 down in 4; a table top 5.75 m up is met at 2 m US."""
    gallery = Solid(name="gallery", box=(-2, 1, 5, 2, 3, 5.75))
    told = at_45(gallery, face_height=5.5)
    assert told == Mark("LANDS", "CENTRE LINE", "2.00 m US", "gallery")
    assert at_45(face_height=5.5).word == "POLE"


def test_there_is_no_floor_mark_where_there_is_no_deck():
    assert at_45(stage=deck(0, 8)) == Mark("LANDS", "CENTRE LINE", "6.00 m US")
    assert at_45(stage=deck(0, 5.5)) == Mark("POLE", "2.00 m", "at STAND")
    assert at_45(stage=deck(0, 5.5), z=2.0, plane="point") == Mark("POLE", "2.00 m", "at POINT")


def test_a_drop_at_the_edge_of_the_deck_stops_what_would_leave_it():
    told = at_45(Solid(name="drop", panel=square(5.4, 0, 6)), stage=deck(0, 5.5))
    assert told == Mark("ON", "0.60 m UP", "CENTRE LINE", "drop")


def test_a_seat_is_no_place_for_a_mark():
    seats = Seats(name="bank", outline=((-2, 5.5), (2, 5.5), (2, 9), (-2, 9)), eye=1.0)
    assert at_45(seats=(seats,)) == Mark("POLE", "2.00 m", "at STAND")


def test_a_thing_is_met_at_the_point_aimed_at():
    told = at_45(Solid(name="clock", box=(-1, 4, 1.5, 1, 4.5, 3)), z=2.0, plane="point")
    assert told == Mark("ON", "2.00 m UP", "CENTRE LINE", "clock")


def test_neighbours_under_one_heading_are_told_from_one_side():
    # A boom at 6 m SR; straight across is SL. One unit looks 2 degrees US of it, one 2 degrees past straight
    # US, one 2 short of it: the two neighbours at US are told from US, not one from SL and one from SR.
    boom = Boom(name="b", x=-6.0, y=0.0, height=5.0)
    arm = {"position": "b", "mount": "arm", "arm": 0.5, "arm_to": 90.0}
    off = 8 * tan(radians(2))
    points = [(-5.5 + 8.0, off, 1.0), (-5.5 - off, 8.0, 1.0), (-5.5 + off, 8.0, 1.0)]
    units = [unit(number=str(k), at=4.0 - k, point=p, **arm) for k, p in enumerate(points, 1)]
    rig = solve_rig(a_scene(units, pipes=[], booms=[boom]))
    told = [(r.sight, r.sight_note) for r in rows_of(rig, [], "m")]
    assert told == [("US 2°", "off across to SL"), ("SR 2°", "off US"), ("SL 2°", "off US")]


def test_a_heading_is_told_from_the_row_s_square_though_another_side_is_nearer():
    rig = rig_of("raked")
    told = [
        row.sight for row in rows_of(rig, [], "m") if rig.units[row.k].position.startswith("gall")
    ]
    assert sum(" of SR" in one for one in told) == sum(" of SL" in one for one in told) == 2
    assert not any(one.endswith(" of US") for one in told)


def test_a_unit_reported_tail_up_has_stop_in_place_of_its_figures_and_no_other_has():
    pair = [unit(number=n, at=at, point=(at, 4.0, 1.5)) for n, at in (("1", 1.0), ("2", 2.0))]
    first, second = made_rows([pair[0], msgspec.structs.replace(pair[1], hung="tail up")])
    assert (second.turn, second.sight, second.tip.word, second.mark.word) == (
        "STOP",
        "",
        "STOP",
        "STOP",
    )
    set_by = (second.turn, second.sight, *second.tip, *second.within, *second.mark, second.clamp)
    assert not any(letter.isdigit() for letter in "".join(set_by))
    assert second.findings[0].startswith("STOP: Unit 2 is reported tail up")
    assert (first.turn, first.tip.word, first.findings) == ("SQUARE", "DOWN", ())


def made_rows(units):
    rig = solve_rig(a_scene(list(units)))
    return rows_of(rig, findings(rig), "m")


# Units of the playhouse whose light never gets to the floor: aimed across the front of the 4' platform at
# 12'-0" US, at points 8'-0" up the painted drop, at somebody before the door flat, and over the platform.
STOPPED = {
    **{f"house pipe/{n}": ("ON platform, 3'-1\" UP, ", "") for n in (3, 5, 7, 14, 16, 18)},
    **{f"pipe 5/{n}": ("ON painted drop, 8'-0\" UP, ", "") for n in (1, 2, 4, 6, 8, 9)},
    **dict.fromkeys(("house pipe/1", "house pipe/10", "pipe 1/4"), ("ON door flat, ", "")),
    **{f"pipe {name}": ("LANDS ", " on platform") for name in ("3/1", "3/7", "4/1", "4/6")},
}


@pytest.mark.parametrize("engine", [True, False])
def test_no_unit_of_the_playhouse_is_sent_to_a_floor_mark_that_it_cannot_light(engine, monkeypatch):
    if not engine:
        for name in ("embreex", "embreex.mesh_construction", "embreex.rtcore_scene"):
            monkeypatch.setitem(sys.modules, name, None)
    rig = rig_of("playhouse")
    said = {rig.names[r.k]: r.mark.said for r in rows_of(rig, [], "ft")}
    wrong = {
        unit: said[unit]
        for unit, (start, end) in STOPPED.items()
        if not (said[unit].startswith(start) and said[unit].endswith(end))
    }
    assert wrong == {}
    # The painted drop is at 27'-6" US and the deck ends at 29'-0": no mark lies between them.
    assert not [
        words for words in said.values() if "28'" in words or "29'" in words or "30'" in words
    ]
