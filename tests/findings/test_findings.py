"""All rules together: a clean rig, the order of what is told, and how it is said."""

from __future__ import annotations

import re

import numpy as np
import pytest

from aimcalc.findings import RULES, findings
from aimcalc.solid.rig import solve_rig
from tests.findings.clean import (
    CLEAN,
    a_kind,
    changed,
    found,
    told,
    with_kind,
    with_pipe,
    with_settings,
    with_target,
    with_unit,
)
from tests.rigs import random_scene

MOUNTS = ("under", "over", "out", "arm", "direct", "stand")


def test_nothing_is_found_in_a_clean_rig() -> None:
    assert told(CLEAN) == []


def test_a_scene_without_units_is_told_so_and_nothing_else() -> None:
    assert told(changed(units=(), targets=())) == [
        ("warn", "no-units", None)
    ]  # silence reads as fine


def worst() -> object:
    """A rig with findings of every severity, on units, on a position and on the scene."""
    scene = with_unit("back/3", hung="tail up")
    scene = with_unit("front/2", scene, at=7.0)
    scene = with_pipe("back", scene, measured=False)
    scene = with_pipe("front", scene, measured=False)
    return with_kind(a_kind(typical=True), scene)


def test_stops_come_first_then_warns_then_notes_each_in_hang_order() -> None:
    scene = worst()
    assert told(scene)[:5] == [
        ("stop", "off-the-end", "front/2"),
        ("stop", "upside-down", "back/3"),
        ("warn", "trim-not-measured", "front"),
        ("warn", "numbers-out-of-order", "front"),
        ("warn", "trim-not-measured", "back"),
    ]
    assert told(scene)[-1] == ("note", "typical-kind", None)


def test_a_finding_names_a_unit_or_a_position_never_both() -> None:
    for finding in found(worst()):
        assert finding.unit is None or finding.position is None


@pytest.mark.parametrize("unit", ["m", "cm", "mm", "ft", "in"])
def test_no_sentence_has_a_minus_sign_or_a_bare_left_or_right(unit: str) -> None:
    scene = with_target("C", with_settings(worst(), unit=unit), x=-30.0, z=-0.4)
    for finding in found(scene):
        text = f"{finding.says} {finding.do}"
        assert not re.search(r"(?<![\w'])[-−]\d", text), text  # 5'-6" is no minus
        assert not re.search(r"\b(left|right|nan|inf|None)\b", text), text
        assert finding.says.endswith((".", "?"))
        assert finding.do.endswith(".")


@pytest.mark.parametrize("mount", MOUNTS)
def test_random_rigs_are_judged_without_a_warning_from_numpy(mount: str) -> None:
    rig = solve_rig(random_scene(mount, 60, seed=5))
    with np.errstate(all="raise"):
        assert isinstance(findings(rig), list)


def test_every_rule_stands_alone() -> None:
    rig = solve_rig(worst())
    apart = [finding for rule in RULES for finding in rule(rig)]
    assert sorted(map(repr, apart)) == sorted(map(repr, findings(rig)))
