"""Where a unit as set lands: thrown forward by other rotations and by hand."""

from __future__ import annotations

from math import cos, radians, sin, tan

import msgspec
import numpy as np
import pytest

from aimcalc.landings import forward as f
from aimcalc.landings.said import Said, said
from aimcalc.landings.where import Where, where
from aimcalc.rig.places import WORDS
from aimcalc.scene.mistakes import Wrong
from aimcalc.scene.model import Stand, Target, Unit
from aimcalc.solid.rig import SolidRig, solve_rig
from aimcalc.text.where_text import where_json, where_text
from tests.rigs import a_kind, a_pipe, a_scene, random_scene, thrown
from tests.shows import rig_of

MOUNTS = ["under", "over", "out", "arm", "direct", "stand"]
NO_TAPE = float("nan")


def one(mount: str = "under", **kind: float) -> SolidRig:
    """A unit 5 m over a face that is 5 m upstage of it on the centre line: 45 degrees down, square."""
    unit = Unit(position="p", number="1", kind="k", at=0.0, target="t", mount=mount)
    target = Target(name="t", x=0.0, y=5.0, face_height=1.5)
    kinds = [a_kind(field=20.0, **{"drop_under": 0.4, "drop_over": 0.4, **kind})]
    return solve_rig(a_scene([unit], [target], pipes=[a_pipe(trim=6.9)], kinds=kinds))


@pytest.mark.parametrize("mount", MOUNTS)
def test_a_dial_and_a_yoke_throw_the_ray_that_scipy_s_rotations_throw(mount: str) -> None:
    """The unit is taken from the shelf and turned by what is told, as `tests.rigs.thrown` has it."""
    scene = random_scene(mount, 40, 31)
    rig, rng = solve_rig(scene), np.random.default_rng(32)
    for k, answer in enumerate(rig.answers):
        plus = int(rig.words.swing[k])
        side = WORDS[plus if rng.random() < 0.5 else plus ^ 1]
        pan = float(rng.uniform(0, 90))
        assert answer.yoke is not None
        yoke = float(rng.uniform(-89, 89))
        yoke = yoke if abs(answer.yoke) < 90 else float(np.copysign(180 - abs(yoke), yoke))
        set_so = msgspec.structs.replace(answer, pan=pan, swing=side, yoke=yoke)
        lens, axis, _ = thrown(set_so, scene)
        found = where(rig, k, Said(pan=(pan, side), yoke=yoke), NO_TAPE)
        assert found.axis == pytest.approx(axis, abs=1e-9)
        assert found.lens == pytest.approx(lens, abs=1e-9)
        assert found.pan == pytest.approx(pan)
        assert found.yoke == pytest.approx(yoke)


@pytest.mark.parametrize("mount", MOUNTS)
def test_set_to_its_own_aim_it_hits(mount: str) -> None:
    scene = random_scene(mount, 40, 33)
    rig = solve_rig(scene)
    for k, answer in enumerate(rig.answers):
        assert answer.pan is not None
        found = where(rig, k, Said(pan=(answer.pan, answer.swing or ""), yoke=answer.yoke), NO_TAPE)
        assert found.miss < 1e-6
        assert found.will_do
        assert found.swing == pytest.approx(0.0, abs=1e-6)
        assert found.tip == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize("pan", [0, 20, 61])
@pytest.mark.parametrize("down", [12, 47, 80])
@pytest.mark.parametrize(("mount", "side"), [("under", "SL"), ("over", "SR")])
def test_a_dial_and_a_level_by_hand(pan: float, down: float, mount: str, side: str) -> None:
    """Square is US; a pan to SL is to +x. The level plane through the face is 1.5 m up."""
    rig = one(mount)
    found = where(rig, 0, Said(pan=(pan, side), down=down), NO_TAPE)
    east = 1 if side == "SL" else -1
    high = 6.9 + (0.4 if mount == "over" else -0.4) - 1.5
    far = high / tan(radians(down))
    assert found.heading == pytest.approx((east * pan) % 360)
    assert found.down == pytest.approx(down)
    if down > 15:
        past = (east * far * sin(radians(pan)), far * cos(radians(pan)) - 5.0, 0.0)
        assert found.past == pytest.approx(past, abs=1e-9)
        assert not found.upright
    else:  # on the upright plane square to its heading: out = 5 cos(pan), aside of the face 5 sin(pan)
        out = 5 * cos(radians(pan))
        past = (
            east * out * sin(radians(pan)),
            out * cos(radians(pan)) - 5,
            high - out * tan(radians(down)),
        )
        assert found.past == pytest.approx(past, abs=1e-9)
        assert found.upright


def test_a_miss_its_tolerance_and_the_way_back_by_hand() -> None:
    # Six degrees too steep; a quarter of a field of 20 degrees may it be.
    found = where(one(), 0, Said(down=51.0), NO_TAPE)
    assert (found.miss, found.may) == (pytest.approx(6.0), pytest.approx(5.0))
    assert (found.tip, found.tip_to) == (pytest.approx(6.0), "UP")
    assert not found.will_do
    assert where(one(), 0, Said(down=41.0), NO_TAPE).will_do
    assert where(one(), 0, Said(down=41.0), NO_TAPE).tip_to == "DOWN"
    swung = where(one(), 0, Said(pan=(6.0, "SR")), NO_TAPE)
    assert (swung.swing, swung.swing_to) == (pytest.approx(6.0), "SL")
    assert swung.miss == pytest.approx(6.0 * cos(radians(45)), abs=0.01)  # cos(down) of a turn


@pytest.mark.parametrize("name", ["playhouse", "raked"])
def test_a_sighted_barrel_lies_over_its_mark_on_the_tape(name: str) -> None:
    """By hand, for level pipes across the stage: `sight` across from zero and `out` US or DS of the pipe."""
    rig, seen = rig_of(name), 0
    for k, (unit, answer) in enumerate(zip(rig.units, rig.answers, strict=True)):
        pipe, out = rig.positions[k], float(rig.tapes.out[k])
        if not np.isfinite(out) or unit.chord or pipe.start[1] != pipe.end[1]:  # type: ignore[union-attr]
            continue
        sight = float(answer.sight or 0.0) + 0.4
        found = where(rig, k, Said(sight=sight, down=answer.down), out)
        zero = float(rig.arrays.clamp[0, k]) - (unit.at or 0.0)
        mark = (zero + sight, pipe.start[1] + (out if answer.square == "US" else -out))  # type: ignore[union-attr]
        pivot = rig.aims.pivot[:2, k]
        way = np.array(mark) - pivot
        assert found.axis[0] * way[1] - found.axis[1] * way[0] == pytest.approx(0.0, abs=1e-9)
        assert found.axis[:2] @ way > 0
        assert found.axis[2] == pytest.approx(-sin(radians(answer.down or 0.0)))
        seen += 1
    assert seen > 3


@pytest.mark.parametrize("mount", MOUNTS)
def test_a_level_at_another_dial_is_as_the_forward_model_has_it(mount: str) -> None:
    """Two ways of ours: the model of landings, by its own formula, on the level plane through the face."""
    rig = solve_rig(random_scene(mount, 60, 35))
    units, given = f.held(rig), f.exact(rig)
    up = np.tile(np.array([[0.0], [0.0], [1.0]]), 60)
    turned = np.full(60, radians(2.0))
    off = np.zeros((9, 60))
    off[f.DOWN] = radians(1.0)
    dialled = given._replace(by=np.full(60, f.DIAL), turn=given.turn + turned)
    told = f.landed(units, dialled, f.plane_at(rig.arrays.point, up), off)
    seen = 0
    for k in range(60):
        aims = rig.aims
        plus = int(rig.words.swing[k])
        swung = float(np.degrees(aims.swing_sign[k] * aims.pan[k])) + 2.0 * float(
            aims.square_sign[k]
        )
        side = WORDS[plus if swung > 0 else plus ^ 1]
        down = float(np.degrees(aims.down[k])) + 1.0
        if abs(swung) > 90 or down > 89:
            continue
        try:
            found = where(rig, k, Said(pan=(abs(swung), side), down=down), NO_TAPE)
        except Wrong:
            continue
        if told.there[k] and not found.upright and not np.isnan(found.past[0]):
            assert rig.arrays.point[:, k] + found.past == pytest.approx(told.point[:, k], abs=1e-6)
            seen += 1
    assert seen > 7


# --- Words ------------------------------------------------------------------------------------


def read(**words: str) -> Said:
    return said(one().scene, "p", **words)


@pytest.mark.parametrize(
    ("key", "text", "value"),
    [
        ("pan", "22 SL", (22.0, "SL")),
        ("pan", "sr 22.5°", (22.5, "SR")),
        ("pan", "square", (0.0, "")),
        ("down", "47", 47.0),
        ("down", "DOWN 47°", 47.0),
        ("down", "up 5", -5.0),
        ("down", "plumb 43", 47.0),
        ("yoke", "40 away", 40.0),
        ("yoke", "40 towards", -40.0),
        ("sight", "2 m SL", 2.0),
        ("sight", "2 m SR", -2.0),
    ],
)
def test_what_is_read_off_a_unit_is_read_as_a_sheet_tells_it(
    key: str, text: str, value: object
) -> None:
    assert getattr(read(**{key: text}), key) == value


@pytest.mark.parametrize(
    ("key", "text", "expected"),
    [
        ("pan", "22 left", "degrees from square"),
        ("pan", "122 SL", "degrees from square"),
        ("pan", "some", "degrees from square"),
        ("pan", "-3", "degrees from square"),
        ("down", "91", "degrees from level"),
        ("down", "-5", "degrees from level"),
        ("yoke", "40", "which way from the clamp"),
        ("yoke", "200 away", "which way from the clamp"),
        ("sight", "far", "a length"),
    ],
)
def test_what_cannot_be_read_is_refused_in_words(key: str, text: str, expected: str) -> None:
    with pytest.raises(Wrong, match=expected) as caught:
        read(**{key: text})
    assert caught.value.came == f"--{key} {text!r}"


def refused(rig: SolidRig, given: Said, expected: str, out: float = NO_TAPE) -> None:
    with pytest.raises(Wrong, match=expected):
        where(rig, 0, given, out)


def test_what_a_unit_cannot_be_set_to_is_refused_in_words() -> None:
    refused(one(), Said(pan=(20.0, "US")), "the side that it swings to, SL or SR")
    refused(one(), Said(pan=(20.0, "")), "a pan with its side")
    refused(one(), Said(sight=1.0), "a unit that has a sight tape")
    stand = Unit(position="s", number="1", kind="k", at=None, point=(0.0, 5.0, 1.0), mount="stand")
    scene = a_scene([stand], kinds=[a_kind()], stands=[Stand(name="s", x=0.0, y=0.0)])
    refused(solve_rig(scene), Said(sight=1.0), "a unit that has a sight tape", 3.0)


def test_a_stem_that_leans_too_far_for_its_down_says_how_far_it_comes() -> None:
    # Clamped straight to a boom and turned 10 degrees from level, the axis comes to 10 degrees at most.
    rig = rig_of("studio")
    k = rig.by_name["boom SL/2"]
    side = WORDS[int(rig.words.swing[k])]
    with pytest.raises(Wrong, match="at most 10 degrees"):
        where(rig, k, Said(pan=(10.0, side), down=30.0), NO_TAPE)


def text(rig: SolidRig, found: Where) -> str:
    return where_text(rig, found, "m")


def test_it_is_told_in_a_few_lines() -> None:
    rig = one()
    told = text(rig, where(rig, 0, Said(down=51.0), NO_TAPE)).split("\n")
    assert told[0] == "p/1: dial SQUARE, DOWN 51°, true heading US."
    # 6.5 m over the deck: 6.5 / tan(51) = 5.26 m out, told to 5 cm.
    assert told[1] == "Lands on deck at CENTRE LINE, 5.25 m US."
    # 5 / tan(51) = 4.05 m: 0.95 m short of the face.
    assert told[2] == (
        "Passes 0.95 m DS of its face, at face height: 6.0° off at the lens, may be 5.0°."
    )
    assert told[3] == "That will not do: tip 6° UP."
    assert text(rig, where(rig, 0, Said(down=47.0), NO_TAPE)).endswith(
        "That will do; dead on, tip 2° UP."
    )
    assert text(rig, where(rig, 0, Said(), NO_TAPE)).endswith("\nThat will do.")


def test_as_json_it_is_in_metres_and_degrees() -> None:
    rig = one()
    told = msgspec.json.decode(where_json(rig, where(rig, 0, Said(down=51.0), NO_TAPE)))
    assert told["unit"] == "p/1"
    assert told["set"]["down"] == pytest.approx(51.0)
    assert told["meets"]["name"] == "deck"
    assert told["meets"]["point"][1] == pytest.approx(6.5 / tan(radians(51)))
    assert told["past_face"] == pytest.approx([0, 5 / tan(radians(51)) - 5, 0], abs=1e-9)
    assert told["will_do"] is False
    assert told["change"] == {
        "swing": pytest.approx(0, abs=1e-9),
        "swing_to": None,
        "tip": pytest.approx(6.0),
        "tip_to": "UP",
    }


def test_a_yoke_past_its_travel_is_told() -> None:
    rig = one(yoke_range=(-60.0, 60.0))
    found = where(rig, 0, Said(yoke=70.0), NO_TAPE)
    assert not found.in_travel
    assert "Its yoke does not turn that far" in text(rig, found)
