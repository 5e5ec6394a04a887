"""Trims: measured, and level."""

from __future__ import annotations

import pytest

from tests.findings.clean import CLEAN, Scene, changed, says, told, with_pipe, without


def test_a_trim_not_marked_as_measured_warns_on_its_position() -> None:
    scene = with_pipe("front", measured=False)
    assert told(scene) == [("warn", "trim-not-measured", "front")]
    assert says(scene, "trim-not-measured").startswith("Trim 5.50 m is as plotted, not measured")


def test_a_pipe_without_units_needs_no_measuring() -> None:
    scene = without("back/1", "back/2", "back/3", scene=with_pipe("back", measured=False))
    assert told(scene) == []


def sloping(rise: float) -> Scene:
    """The back pipe, 12 m long, with its SL end higher by `rise`."""
    return with_pipe("back", start=(-6.0, 6.0, 5.5), end=(6.0, 6.0, 5.5 + rise))


@pytest.mark.parametrize(
    ("rise", "warns"),
    [(0.05, False), (0.051, True), (0.59, True), (0.61, False)],  # 12 m / 20 = 0.6 m
)
def test_ends_over_5_cm_apart_warn_unless_the_slope_is_meant(rise: float, warns: bool) -> None:
    assert told(sloping(rise)) == ([("warn", "out-of-level", "back")] if warns else [])


def test_the_low_end_is_named_whichever_end_was_written_first() -> None:
    assert "Its SR end is 0.10 m lower" in says(sloping(0.1), "out-of-level")
    assert "Its SL end is 0.10 m lower" in says(sloping(-0.1), "out-of-level")
    turned = with_pipe("back", start=(6.0, 6.0, 5.6), end=(-6.0, 6.0, 5.5))
    assert "Its SR end is 0.10 m lower" in says(turned, "out-of-level")


def test_booms_have_no_trim() -> None:
    assert told(changed(CLEAN, units=CLEAN.units[-1:], targets=CLEAN.targets[2:])) == []
