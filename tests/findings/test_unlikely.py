"""Figures that are seldom right, on either side of each limit, with the slip that is named."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest

from aimcalc.scene.model import Boom, Circuit, Pipe, Scene, Seats, Solid, Stage
from tests.findings.clean import (
    CLEAN,
    OUTLINE,
    a_kind,
    changed,
    found,
    says,
    with_kind,
    with_pipe,
    with_settings,
    with_target,
    with_unit,
)


def fires(scene: Scene, rule: str) -> bool:
    """Whether a rule warns of a scene, and of nothing else than it does of the clean one."""
    (severity,) = {f.severity for f in found(scene) if f.rule == rule} or {None}
    assert severity in (None, "warn")
    return severity == "warn"


@pytest.mark.parametrize(
    ("high", "warns"), [(0.49, True), (0.5, False), (2.2, False), (2.21, True)]
)
def test_faces(high: float, warns: bool) -> None:
    assert fires(with_settings(face_height=high), "face-height-unlikely") is warns
    assert fires(with_target("A", face_height=high), "face-height-unlikely") is warns


def test_a_face_in_feet_read_as_metres_is_named_by_that_slip() -> None:
    told = says(with_settings(face_height=5.5), "face-height-unlikely")
    assert told == ("face_height in [scene] is 5.50 m above what is stood on. Feet read as metres?")
    told = says(with_target("A", face_height=60 * 0.3048), "face-height-unlikely")
    assert "of target A" in told


def at_trims(front: float, back: float) -> Scene:
    scene = with_pipe("front", start=(-6.0, -4.0, front), end=(6.0, -4.0, front))
    return with_pipe("back", scene, start=(-6.0, 6.0, back), end=(6.0, 6.0, back))


@pytest.mark.parametrize(
    ("front", "back", "warns"), [(15.0, 18.0, False), (15.01, 18.0, True), (18.0, 5.5, False)]
)
def test_every_trim(front: float, back: float, warns: bool) -> None:
    assert fires(at_trims(front, back), "trims-unlikely") is warns


@pytest.mark.parametrize(("wide", "warns"), [(60.0, False), (60.1, True)])
@pytest.mark.parametrize("turned", [False, True])
def test_the_stage(wide: float, warns: bool, turned: bool) -> None:
    corners = ((-wide / 2, -1.0), (wide / 2, -1.0), (wide / 2, 8.0), (-wide / 2, 8.0))
    if turned:
        corners = tuple((y, x) for x, y in corners)  # type: ignore[assignment]
    scene = changed(CLEAN, stage=Stage(outline=corners, acting=corners))
    assert fires(scene, "stage-unlikely") is warns


@pytest.mark.parametrize(
    ("rake", "warns"), [(0.25, False), (0.26, True), (-0.25, False), (-0.26, True)]
)
def test_the_rake(rake: float, warns: bool) -> None:
    stage = msgspec.structs.replace(CLEAN.stage, rake=rake)
    assert fires(changed(CLEAN, stage=stage), "rake-unlikely") is warns


@pytest.mark.parametrize(("x", "warns"), [(7.0, False), (7.02, False), (7.03, True), (-7.5, True)])
def test_the_acting_area(x: float, warns: bool) -> None:
    acting = ((-1.0, 0.0), (x, 0.0), (x, 4.0), (-1.0, 4.0))
    scene = changed(CLEAN, stage=Stage(outline=OUTLINE, acting=acting))
    assert fires(scene, "acting-off-deck") is warns


def test_how_far_the_acting_area_reaches_off_the_deck_also_between_its_corners() -> None:
    """The deck has a notch 4 m wide and 2 m deep in its downstage edge; the area's edge crosses it."""
    outline = ((-7, -1), (-2, -1), (-2, 1), (2, 1), (2, -1), (7, -1), (7, 8), (-7, 8))
    acting = ((-4.0, 0.0), (4.0, 0.0), (4.0, 4.0), (-4.0, 4.0))
    scene = changed(CLEAN, stage=Stage(outline=outline, acting=acting))
    assert "reaches 1.00 m off the deck's outline" in says(scene, "acting-off-deck")


@pytest.mark.parametrize(("eye", "warns"), [(5.5, False), (5.51, True)])
def test_eyes_above_a_pipe_over_the_stage(eye: float, warns: bool) -> None:
    """The back pipe, 5.5 m up, is over the stage; the front one is over the house."""
    seats = (Seats(name="stalls", outline=CLEAN.seats[0].outline, eye=eye),)
    low = with_pipe("front", changed(CLEAN, seats=seats), start=(-6, -4, 4.5), end=(6, -4, 4.5))
    assert fires(low, "eyes-unlikely") is warns


@pytest.mark.parametrize(
    ("kilograms", "warns"), [(0.49, True), (0.5, False), (150.0, False), (150.1, True)]
)
def test_weights(kilograms: float, warns: bool) -> None:
    assert fires(with_kind(a_kind(weight=kilograms)), "weight-unlikely") is warns


def test_the_slip_behind_a_weight() -> None:
    heavy = says(with_kind(a_kind(weight=7000.0)), "weight-unlikely")
    assert "7000.0 kg a unit. Grams read as kilograms" in heavy


@pytest.mark.parametrize(("watts", "warns"), [(4.9, True), (5.0, False), (0.575, True)])
def test_watts(watts: float, warns: bool) -> None:
    assert fires(with_kind(a_kind(watts=watts)), "watts-unlikely") is warns


@pytest.mark.parametrize(
    "volts", [100.0, 110.0, 115.0, 120.0, 127.0, 200.0, 208.0, 220.0, 230.0, 240.0, 277.0]
)
def test_ordinary_volts(volts: float) -> None:
    assert not fires(with_settings(volts=volts), "volts-unlikely")


@pytest.mark.parametrize(
    "volts", [12.0, 24.0, 99.0, 101.0, 109.0, 128.0, 199.0, 209.0, 219.0, 241.0, 400.0]
)
def test_other_volts(volts: float) -> None:
    assert fires(with_settings(volts=volts), "volts-unlikely")
    between = "between phases" in says(with_settings(volts=volts), "volts-unlikely")
    assert between is (volts == 400.0)


@pytest.mark.parametrize(
    ("at", "past"), [(6.0, None), (6.0005, None), (6.002, "SL"), (-6.002, "SR"), (-6.0, None)]
)
def test_outlets_of_a_pipe(at: float, past: str | None) -> None:
    scene = with_pipe("back", circuits=(Circuit(name="7", at=at),))
    assert fires(scene, "outlet-unlikely") is (past is not None)
    if past:
        assert f"circuit 7, at 6.00 m {past}" in says(scene, "outlet-unlikely")


@pytest.mark.parametrize(("at", "warns"), [(6.0, False), (6.1, True), (-0.1, True), (0.0, False)])
def test_outlets_of_a_boom(at: float, warns: bool) -> None:
    boom = Boom(name="boom", x=5.0, y=2.0, height=6.0, circuits=(Circuit(name="7", at=at),))
    assert fires(changed(CLEAN, booms=(boom,)), "outlet-unlikely") is warns


@pytest.mark.parametrize(("arm", "warns"), [(2.0, False), (2.01, True)])
def test_arms(arm: float, warns: bool) -> None:
    assert fires(with_unit("boom/1", arm=arm), "arm-unlikely") is warns


@pytest.mark.parametrize(("long", "warns"), [(0.001, True), (0.199, True), (0.2, False)])
def test_pipes(long: float, warns: bool) -> None:
    short = Pipe(name="short", start=(0.0, 7.0, 5.0), end=(long + 1e-12, 7.0, 5.0), measured=True)
    scene = changed(CLEAN, pipes=(*CLEAN.pipes, short))
    assert fires(scene, "pipe-unlikely") is warns


def box(size: float, far: float = 30.0) -> Scene:
    low = size / 2
    solid = Solid(name="wall", box=(far, far, 0.0, far + size, far + low, low))
    return changed(CLEAN, solids=(solid,))


@pytest.mark.parametrize(
    ("size", "warns"), [(140.0, False), (140.2, True), (0.0141, False), (0.0139, True)]
)
def test_solids(size: float, warns: bool) -> None:
    """The clean stage is 14 m wide: ten times that is 140 m, a thousandth 14 mm."""
    assert fires(box(size), "solid-unlikely") is warns


def test_solids_are_measured_against_nothing_where_there_is_no_outline() -> None:
    bare = changed(box(900.0), stage=Stage())
    assert not fires(bare, "solid-unlikely")


def test_a_thin_panel_is_measured_by_its_longest_side() -> None:
    panel = ((30.0, 1.0, 0.0), (34.0, 1.0, 0.0), (34.0, 1.0, 0.002), (30.0, 1.0, 0.002))
    scene = changed(CLEAN, solids=(Solid(name="line", panel=panel),))
    assert not fires(scene, "solid-unlikely")


@pytest.mark.parametrize(
    ("unit", "slip"),
    [
        ("m", "Feet read as metres?"),
        ("ft", "Inches read as feet?"),
        ("cm", "Millimetres read as centimetres?"),
        ("in", "Millimetres read as inches?"),
    ],
)
def test_the_slip_is_named_by_the_scenes_own_unit(unit: Any, slip: str) -> None:
    told = says(with_settings(face_height=9.0, unit=unit), "face-height-unlikely")
    assert told.endswith(slip)


def test_the_clean_rig_has_nothing_unlikely() -> None:
    assert not [f for f in found(CLEAN) if f.rule.endswith("unlikely")]


def test_a_stage_without_an_acting_area_is_nothing() -> None:
    assert not fires(changed(CLEAN, stage=Stage(outline=OUTLINE)), "acting-off-deck")
