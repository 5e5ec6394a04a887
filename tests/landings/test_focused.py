"""As-focused lists: what was read off a unit is what the scene as focused is solved to."""

from __future__ import annotations

from math import atan2, degrees
from pathlib import Path

import numpy as np
import pytest

from aimcalc.landings.focused import Focused, as_focused, read_focused
from aimcalc.landings.said import Said
from aimcalc.landings.where import where
from aimcalc.scene.mistakes import SceneError, Wrong
from aimcalc.scene.model import Target, Unit
from aimcalc.solid.answers import Answer
from aimcalc.solid.rig import SolidRig, solve_rig
from tests.rigs import a_kind, a_pipe, a_scene, random_scene

DROP, FACE, TRIM = 0.35, 1.65, 6.0


def rig() -> SolidRig:
    """Unit 1 on the centre line is plotted square at 45 degrees: 4.00 m over the face, 4 m upstage."""
    units = [
        Unit(position="p", number="1", kind="k", at=0.0, target="t", note="iris"),
        Unit(position="p", number="2", kind="k", at=2.0, target="t"),
    ]
    return solve_rig(
        a_scene(
            units,
            [Target(name="t", x=0.0, y=4.0)],
            pipes=[a_pipe(trim=TRIM)],
            kinds=[a_kind(drop_under=DROP)],
            sight_out=3.0,
        )
    )


def solved(tmp_path: Path, text: str) -> dict[str, Answer]:
    """The answers of the scene as a list has it focused."""
    plotted, file = rig(), tmp_path / "focused.csv"
    file.write_text(text)
    found = read_focused(str(file), plotted, plotted.tapes.out)
    return {a.unit: a for a in solve_rig(as_focused(plotted.scene, plotted, found)).answers}


@pytest.mark.parametrize(
    ("row", "pan", "swing", "down"),
    [
        ("p/1,30 SL,,40,", 30.0, "SL", 40.0),
        ("p/1,SR 12.5,,DOWN 51.5,", 12.5, "SR", 51.5),
        ("p/1,,3 m SL,40,", 45.0, "SL", 40.0),  # 3 m along a tape that lies 3 m out
        ("p/1,20 SR,,,", 20.0, "SR", 45.0),  # the down as printed: 4.00 m under at 4 m
        ("p/1,,,30,", 0.0, None, 30.0),
        ("p/1,10 SL,,,25 away", 10.0, "SL", 25.0),  # under a level pipe the yoke is 90 less plumb
    ],
)
def test_what_was_read_off_a_unit_is_what_it_is_solved_to(
    tmp_path: Path, row: str, pan: float, swing: str | None, down: float
):
    assert round(degrees(atan2(TRIM - DROP - FACE, 4.0))) == 45
    told = solved(tmp_path, f"unit,pan,sight,down,yoke\n{row}\n")
    one = told["p/1"]
    assert one.swing == swing
    assert (one.pan, one.down) == pytest.approx((pan, down), abs=1e-6)
    plotted = {a.unit: a for a in rig().answers}
    assert told["p/2"] == plotted["p/2"]


@pytest.mark.parametrize("mount", ["under", "over", "out", "arm", "direct", "stand"])
def test_every_mount_is_solved_to_the_axis_and_the_yoke_that_were_read(mount: str):
    """Read back forward from turn and down; solved backward from the point that this hits."""
    scene, rng = random_scene(mount, 40, 5), np.random.default_rng(5)
    plotted, tapes = solve_rig(scene), solve_rig(scene).tapes.out
    found, there = {}, {}
    for k, answer in enumerate(plotted.answers):
        if answer.pan is None or answer.swing is None or answer.down is None:
            continue
        pan = float(np.clip(answer.pan + rng.normal(0, 5), 0.5, 90))
        read = Said(pan=(pan, answer.swing), down=answer.down + rng.normal(0, 3))
        try:
            there[k] = where(plotted, k, read, float(tapes[k]))
        except Wrong:  # a down that a leaning stem does not come to
            continue
        hit = there[k].lens + plotted.aims.throw[k] * there[k].axis
        found[plotted.names[k]] = Focused(k, read, "", tuple(hit.tolist()))
    solved_so = solve_rig(as_focused(scene, plotted, found))
    assert len(there) > 20
    for k, one in there.items():
        assert solved_so.aims.axis[:, k] == pytest.approx(one.axis, abs=1e-9)
        assert degrees(solved_so.aims.yoke[k]) == pytest.approx(one.yoke, abs=1e-6)


def test_its_remarks_go_before_those_of_the_plot(tmp_path: Path):
    text = "unit,pan,down,note,edge,cut\np/1,30 SL,40,touch up,soft,top off the border\n"
    assert solved(tmp_path, text)["p/1"].note == (
        "touch up, edge soft, cut top off the border; iris"
    )


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("unit,pan,down\np/9,22 SL,40\n", "a unit of the scene"),
        ("unit,pan,down\np/1,22,40\n", "SL or SR"),
        ("unit,pan,down\np/1,left 22,40\n", "Say SL or SR"),
        ("unit,pan,down\np/1,22 SL,140\n", "degrees from level, 0 to 90"),
        ("unit,pan,sight,down\np/1,22 SL,3 m SL,40\n", "pan or sight, not both"),
        ("unit,down,yoke\np/1,40,40 away\n", "down or yoke, not both"),
        ("unit,pan,down,note\np/1,,,mine\n", "what was read off it"),
        ("unit,pan,note,x\np/1,,mine,2 m SL\n", "what was read off it"),
        ("unit,pan,down\np/1,22 SL,40\np/1,23 SL,40\n", "each unit once"),
        ("unit,pan,down\n", "at least one focused unit"),
        ("", "a row of headings: unit, pan, down"),
    ],
)
def test_a_list_that_cannot_be_used_is_told_in_a_sentence(tmp_path: Path, text: str, says: str):
    with pytest.raises(SceneError) as refused:
        solved(tmp_path, text)
    assert says in refused.value.report()
    assert "focused.csv" in refused.value.report()


def test_another_sort_of_file_and_none_at_all_are_refused(tmp_path: Path):
    there = rig()
    for name, says in (
        ("focused.toml", "CSV or a workbook"),
        ("none", "CSV or a workbook"),
        ("none.csv", "none.csv"),
    ):
        with pytest.raises(SceneError) as refused:
            read_focused(str(tmp_path / name), there, np.full(2, 3.0))
        assert says in refused.value.report()
