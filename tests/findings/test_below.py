"""What is under the deck."""

from __future__ import annotations

import msgspec
import pytest

from aimcalc.scene.model import Stand
from tests.findings.clean import (
    CLEAN,
    a_kind,
    a_unit,
    changed,
    found,
    says,
    told,
    with_kind,
    with_pipe,
    with_units,
    without,
)


def under(scene) -> list[tuple[str, str | None, str | None]]:  # type: ignore[no-untyped-def]
    return [(f.severity, f.unit, f.position) for f in found(scene) if f.rule == "under-deck"]


@pytest.mark.parametrize(("z", "stops"), [(-0.0005, False), (-0.002, True), (-5.5, True)])
def test_a_pipe_under_the_deck_stops_once_and_its_pivots_are_not_told_again(
    z: float, stops: bool
) -> None:
    scene = with_pipe("back", start=(-6.0, 6.0, 5.5), end=(6.0, 6.0, z))
    assert ("stop", None, "back") in under(scene) if stops else not under(scene)
    assert len(under(scene)) <= 1


def test_a_pipe_in_the_pit_before_the_deck_is_nothing() -> None:
    low = with_pipe("front", start=(-6.0, -4.0, -1.0), end=(6.0, -4.0, -1.0))
    assert under(low) == []


def test_a_trap_that_is_left_out_of_the_outline_holds_units() -> None:
    """The deck with a hole 2 m square about x = 0, y = 6, joined to its upstage edge by a slit of 2 mm."""
    slit = (
        (0.001, 8.0),
        (0.001, 7.0),
        (1.0, 7.0),
        (1.0, 5.0),
        (-1.0, 5.0),
        (-1.0, 7.0),
        (-0.001, 7.0),
    )
    outline = ((-7.0, -1.0), (7.0, -1.0), (7.0, 8.0), *slit, (-0.001, 8.0), (-7.0, 8.0))
    one = without("back/1", "back/3")
    scene = with_pipe("back", one, start=(-0.9, 6.0, -1.0), end=(0.9, 6.0, -1.0))
    assert ("stop", None, "back") in under(scene)
    assert under(changed(scene, stage=msgspec.structs.replace(scene.stage, outline=outline))) == []


def test_without_an_outline_the_deck_lies_upstage_of_the_plaster_line() -> None:
    bare = changed(CLEAN, stage=msgspec.structs.replace(CLEAN.stage, outline=()))
    assert under(bare) == []
    low = with_pipe("back", bare, start=(-6.0, 6.0, -1.0), end=(6.0, 6.0, -1.0))
    assert ("stop", None, "back") in under(low)
    pit = with_pipe("front", bare, start=(-6.0, -4.0, -1.0), end=(6.0, -4.0, -1.0))
    assert under(pit) == []


def test_a_stand_below_a_rake_stops_and_one_that_gives_no_height_stands_on_it() -> None:
    stage = msgspec.structs.replace(CLEAN.stage, rake=0.1)  # 0.20 m high at y = 2
    for z, stops in ((0.0, True), (0.2, False), (None, False)):
        stand = Stand(name="floor", x=3.0, y=2.0, z=z)
        scene = changed(CLEAN, stage=stage, stands=(stand,))
        assert (("stop", None, "floor") in under(scene)) is stops
    low = changed(CLEAN, stage=stage, stands=(Stand(name="floor", x=3.0, y=2.0, z=0.0),))
    assert "It is 0.20 m under the deck." in says(low, "under-deck")


@pytest.mark.parametrize(
    ("drop", "typical", "severity"),
    [
        (0.499, False, None),
        (0.502, False, "stop"),
        (0.502, True, "warn"),
    ],
)
def test_a_pivot_under_the_deck_stops_by_a_typed_drop_and_warns_by_a_typical_one(
    drop: float, typical: bool, severity: str | None
) -> None:
    """A pipe 0.50 m up: the pivot hangs `drop` below it."""
    low = with_pipe("back", start=(-6.0, 6.0, 0.5), end=(6.0, 6.0, 0.5))
    low = changed(low, units=tuple(u for u in low.units if u.position != "back"))
    scene = with_kind(a_kind("low", drop_under=drop, typical=typical), low)
    scene = with_units(a_unit("back", 1, 0.0, "A", kind="low"), scene=scene)
    assert under(scene) == ([(severity, "back/1", None)] if severity else [])


def test_nothing_clean_is_under_the_deck() -> None:
    assert told(CLEAN) == []
