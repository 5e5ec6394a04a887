"""How far a pipe may be off its trim: by hand, and by solving scenes with the pipe hung at the ends."""

from __future__ import annotations

import json
from math import acos, atan2, copysign, cos, degrees, floor, radians, sin, tan

import msgspec
import numpy as np
import pytest

from aimcalc.landings.trims import REACH, Trims, trims_of
from aimcalc.rig.rig import Rig
from aimcalc.scene.model import Pipe, Scene, Target, Unit
from aimcalc.sheets.hang_table import hang_json, trims_line
from aimcalc.show import Show
from aimcalc.solid.rig import SolidRig, solve_rig
from tests.rigs import a_kind, a_pipe, a_scene
from tests.shows import rig_of

FAR = 5.0  # m from the pipe to the face


def one(field: float = 20.0, **kind: float) -> Scene:
    """A unit 5 m over a face 5 m upstage of it: 45 degrees down, and square."""
    unit = Unit(position="p", number="1", kind="k", at=0.0, target="t")
    target = Target(name="t", x=0.0, y=FAR, face_height=1.5)
    kinds = [a_kind(field=field, **{"drop_under": 0.4, **kind})]
    return a_scene([unit], [target], pipes=[a_pipe(trim=6.9)], kinds=kinds)


def only(scene: Scene) -> Trims:
    (found,) = trims_of(Rig(scene))
    return found


@pytest.mark.parametrize("field", [8.0, 20.0])
def test_a_unit_at_45_degrees_by_hand(field: float) -> None:
    # Left at 45 degrees, lifted by e, its face is seen at atan((5 + e) / 5): the miss is that less 45
    # degrees, which may be a quarter of the field.
    found, may = only(one(field)), field / 4
    assert found.higher == pytest.approx(FAR * tan(radians(45 + may)) - FAR, abs=2e-4)
    assert found.lower == pytest.approx(FAR - FAR * tan(radians(45 - may)), abs=2e-4)
    assert found.first == ("p/1", "p/1")


def test_re_tilted_a_unit_under_a_level_pipe_hits_at_any_trim_its_yoke_turns_to() -> None:
    assert only(one()).lower_tipped == only(one()).higher_tipped == REACH
    # Hung under, the yoke is at 90 degrees straight down, so t = atan((5 + e) / 5): 50 degrees at 0.96 m up.
    found = only(one(yoke_range=(-90.0, 50.0)))
    assert found.higher_tipped == pytest.approx(FAR * tan(radians(50)) - FAR, abs=2e-4)
    assert found.lower_tipped == REACH


def test_the_json_of_hang_tells_the_same_in_metres() -> None:
    """By hand, as above: 5 m over a face 5 m off at 45 degrees, a quarter of 20 degrees either way."""
    show = Show(one(yoke_range=(-90.0, 50.0)))
    told = json.loads(hang_json(show.rig, show.hang, show.findings, show.trims))["trims"]
    assert (
        told
        == [
            {
                "pipe": "p",
                "lower": pytest.approx(5 - 5 * tan(radians(40)), abs=2e-4),  # 0.805 m
                "higher": pytest.approx(5 * tan(radians(50)) - 5, abs=2e-4),  # 0.959 m
                "lower_tipped": None,  # no limit within 2 m
                "higher_tipped": pytest.approx(
                    5 * tan(radians(50)) - 5, abs=2e-4
                ),  # its yoke's end
                "level": None,  # 2 m over 20 m tips the stem by 5.7 degrees, the axis aside by 5.7 sin 45
                "misses_first_lower": "p/1",
                "misses_first_higher": "p/1",
            }
        ]
    )


def hung_at(scene: Scene, name: str, up: float, apart: float = 0.0) -> Scene:
    """The scene with one level pipe hung `up` higher, its SL (US) end `apart` over the other."""
    pipes = []
    for pipe in scene.pipes:
        if pipe.name == name:
            axis = 0 if abs(pipe.end[0] - pipe.start[0]) >= abs(pipe.end[1] - pipe.start[1]) else 1
            sign = 1 if pipe.end[axis] > pipe.start[axis] else -1
            start, end = np.array(pipe.start), np.array(pipe.end)
            start[2] += up - sign * apart / 2
            end[2] += up + sign * apart / 2
            pipe = msgspec.structs.replace(
                pipe, start=tuple(start.tolist()), end=tuple(end.tolist())
            )
        pipes.append(pipe)
    return msgspec.structs.replace(scene, pipes=tuple(pipes))


def plain(rig: Rig, name: str) -> list[int]:
    """Its units that hang plumb under a straight level pipe."""
    pipe = rig.scene.positions[name]
    level = isinstance(pipe, Pipe) and pipe.start[2] == pipe.end[2] and pipe.through is None
    rows = [k for k in rig.rows[name] if np.isfinite(rig.aims.throw[k])]
    return rows if level and all(abs(rig.arrays.stem[2, k]) == 1 for k in rows) else []


@pytest.mark.parametrize("scene", ["studio", "playhouse", "raked"])
def test_solved_again_at_the_ends_of_the_range_the_printed_downs_just_serve(scene: str) -> None:
    """A second method: the scene is solved with its pipe there, the printed figures are thrown by hand."""
    rig, seen = rig_of(scene), 0
    for trims in trims_of(rig):
        rows = plain(rig, trims.pipe)
        for up in (-trims.lower, trims.higher) if rows else ():
            again = solve_rig(hung_at(rig.scene, trims.pipe, up))
            worst = max(_by_hand(rig, again, k) for k in rows)
            assert worst == pytest.approx(1.0, abs=0.01)
            seen += 1
    assert seen > 3


SQUARES = {"US": 0.0, "SL": 90.0, "DS": 180.0, "SR": 270.0}


def _by_hand(rig: SolidRig, again: SolidRig, k: int) -> float:
    """The miss of a plumb unit left at its printed pan and down, in shares of its tolerance of down."""
    then, now = rig.answers[k], again.answers[again.by_name[rig.names[k]]]
    pan, down, heading = then.pan or 0.0, then.down or 0.0, then.heading or 0.0
    off = (heading - SQUARES[then.square or "US"] + 180) % 360 - 180
    turn = radians(SQUARES[then.square or "US"] + copysign(floor(pan + 0.5), off))
    tip = radians(floor(down + 0.5)) if down >= 0 else -radians(floor(0.5 - down))
    axis = np.array([sin(turn) * cos(tip), cos(turn) * cos(tip), -sin(tip)])
    kind = rig.kinds[k]
    assert kind.rise == 0
    way = np.array(now.face) - (np.array(now.pivot) + kind.nose * axis)
    return degrees(acos(way @ axis / np.linalg.norm(way))) / now.down_tolerance


@pytest.mark.parametrize("scene", ["studio", "playhouse"])
def test_out_of_level_within_its_limit_the_printed_figures_still_serve(scene: str) -> None:
    """Solved with the pipe out of level: the spot of dial and level from there, thrown by its own aim."""
    rig, seen = rig_of(scene), 0
    for trims in trims_of(rig):
        rows = plain(rig, trims.pipe)
        if not rows or trims.level >= REACH:
            continue
        for share, hits in ((0.9, True), (1.15, False)):
            worst = max(
                _off(rig, hung_at(rig.scene, trims.pipe, 0.0, sign * share * trims.level), rows)
                for sign in (-1, 1)
            )
            assert (worst <= 1.0) == hits
        seen += 1
    assert seen > 1


def _off(rig: Rig, sloped: Scene, rows: list[int]) -> float:
    """The worst miss of units left at their printed dial and down, in shares of what they may be off."""
    from aimcalc.landings.said import Said
    from aimcalc.landings.where import where

    again, worst = solve_rig(sloped), 0.0
    for k in rows:
        then = rig.answers[k]
        said = Said(
            pan=(float(round(then.pan or 0.0)), then.swing or ""),
            down=float(round(then.down or 0.0)),
        )
        found = where(again, again.by_name[rig.names[k]], said, float("nan"))
        worst = max(worst, found.miss / found.may)
    return worst


def test_a_rig_without_pipes_has_no_trims() -> None:
    assert trims_of(Rig(a_scene([], pipes=[a_pipe()]))) == ()


def test_it_is_told_inwards() -> None:
    rig = solve_rig(one())
    (trims,) = trims_of(rig)
    # By hand: 0.806 m lower and 0.959 m higher than 6.90 m (tan of 40 and 50 degrees), told inwards.
    assert degrees(atan2(FAR + trims.higher, FAR)) == pytest.approx(50.0, abs=0.01)
    told = trims_line(rig, trims, "m")
    assert told == (
        "TRIM, by the light alone: units hit untouched from 6.10 m to 7.85 m (1 misses first); re-tilted, "
        "2.00 m or more, lower or higher; out of level, one end up to 0.50 m or more over the other."
    )
    assert "untouched, no other trim will do (1 misses first)" in trims_line(
        rig, trims._replace(lower=0.0), "m"
    )
