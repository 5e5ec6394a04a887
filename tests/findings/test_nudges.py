"""What will want a nudge is told from half a unit on, with the one measurement that saves the most."""

from __future__ import annotations

import msgspec
import pytest

from aimcalc.findings import landing_findings
from aimcalc.landings.budget import budget_of
from aimcalc.scene.model import Errors, Scene, Unit
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_kind, a_pipe, a_scene

NOTHING = dict.fromkeys(Errors.__struct_fields__, 0.0)


def rig_with(units: int, **errors: float) -> Scene:
    """Units of 10 degrees on one pipe 5 m over their faces, 45 degrees down, these errors alone."""
    rows = [
        Unit(position="p", number=str(n), kind="k", at=1.0 - n, point=(1.0 - n, 5.0, 1.0))
        for n in range(1, units + 1)
    ]
    kinds = [a_kind(field=10.0, drop_under=0.3)]
    scene = a_scene(rows, pipes=[a_pipe(trim=6.3)], kinds=kinds)
    return msgspec.structs.replace(scene, errors=Errors(**{**NOTHING, **errors}))


def told(scene: Scene) -> list[Finding]:
    rig = solve_rig(scene)
    return landing_findings(rig, budget_of(rig))


def test_a_trim_that_is_far_out_is_told_with_the_measurement_that_settles_it() -> None:
    # 0.4 m of trim, half of which is across an axis 45 degrees down: 0.2828 m at a throw of 7.07 m is 2.29
    # degrees. Each misses its quarter of 10 degrees, 2.5, with 2 (1 - Phi(2.5 / 2.29)) = 27.5 % (by a table
    # of the normal): 1.1 of four units.
    (found,) = told(rig_with(4, trim=0.4))
    assert (found.severity, found.rule, found.unit, found.position) == (
        "note",
        "expect-to-nudge",
        None,
        None,
    )
    assert "expect to nudge about 1.1 of 4 units" in found.says
    assert "p/1 (28 %; face in its field 97 %)" in found.says  # 5 / 2.29 widths: 97.1 %
    assert found.do == "Measure the trim of p: about 0.0 then."


@pytest.mark.parametrize(("units", "notes"), [(1, 0), (2, 1)])
def test_it_is_told_from_half_a_unit_on(units: int, notes: int) -> None:
    # 27.5 % each: 0.27 of one, 0.55 of two.
    assert len(told(rig_with(units, trim=0.4))) == notes


def test_where_only_hands_are_unsure_no_measurement_is_asked_for() -> None:
    (found,) = told(rig_with(4, set_down=2.5))
    assert (
        found.do == "No one measurement saves many; watch these units first when the light is on."
    )


@pytest.mark.parametrize(
    ("error", "size", "words"),
    [
        ("pipe", 0.5, "Measure how far p hangs from the plaster line"),
        ("marks", 0.5, "Measure the marks of p again from its zero"),
        ("drop", 0.5, "Measure the drop of one k"),
        ("dial", 5.0, "Check the pan dial on a clamp turned to a known angle"),
        ("level", 3.0, "Check the level on something known to be level"),
    ],
)
def test_each_measurement_has_its_words(error: str, size: float, words: str) -> None:
    (found,) = told(rig_with(4, **{error: size}))
    assert found.do.startswith(words + ": about ")


def test_with_usual_errors_it_says_that_they_are_estimates() -> None:
    usual = msgspec.structs.replace(rig_with(12), errors=Errors())
    (found,) = told(usual)
    assert "By typical errors, estimates: give yours in the scene's errors." in found.says
    (found,) = told(rig_with(12, set_down=2.5))
    assert "By the errors given; the others are estimates." in found.says


def test_a_rig_without_units_has_nothing_to_say() -> None:
    assert told(a_scene([], pipes=[a_pipe()])) == []
