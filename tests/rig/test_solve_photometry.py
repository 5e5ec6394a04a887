"""Kinds that name a photometric file: what is read, what is filled in, what is refused."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from aimcalc.rig.solve import files_of, filled, photometry_of
from aimcalc.scene.mistakes import SceneError
from tests.lit import a_lamp, a_unit, a_wash

# 2000 cd to 20 degrees off the axis, falling straight to 1000 at 40 and to nothing at 60: half at 40, a tenth
# (200 cd) at 40 + 20 * 800 / 1000 = 56.
FILE = """IESNA:LM-63-2002
[TEST] invented
TILT=NONE
1 -1 1 5 1 1 2 0 0 0
1 1 500
0 20 40 60 90
0
2000 2000 1000 0 0
"""


def a_scene(tmp_path, *kinds, text=FILE):
    (tmp_path / "good.ies").write_text(text)
    (tmp_path / "bad.ies").write_text("nothing of use\n")
    units = [a_unit(k, 0.0, kind=kind.name) for k, kind in enumerate(kinds)]
    return replace(a_wash(units, kinds=kinds), folder=str(tmp_path))


def test_a_file_gives_field_and_beam_where_the_scene_does_not(tmp_path):
    scene = a_scene(tmp_path, a_lamp("a", field=None, photometry="good.ies"))
    kind = filled(scene.kinds["a"], photometry_of(scene)["a"])
    assert kind.field == pytest.approx(112.0)
    assert kind.beam == pytest.approx(80.0)


def test_what_the_scene_says_wins(tmp_path):
    scene = a_scene(tmp_path, a_lamp("a", field=50.0, photometry="good.ies"))
    kind = filled(scene.kinds["a"], photometry_of(scene)["a"])
    assert (kind.field, kind.beam) == (50.0, None)


def test_kinds_without_a_file_or_a_unit_are_not_read(tmp_path):
    scene = a_scene(tmp_path, a_lamp("a"))
    assert photometry_of(scene) == {}
    spare = a_lamp("spare", photometry="bad.ies")
    assert photometry_of(replace(scene, kinds={**scene.kinds, "spare": spare})) == {}
    assert files_of(scene, []) == {}
    assert filled(scene.kinds["a"], None) is scene.kinds["a"]


def test_every_bad_file_is_told_in_one_report(tmp_path):
    scene = a_scene(tmp_path, a_lamp("a", photometry="bad.ies"), a_lamp("b", photometry="gone.ies"))
    with pytest.raises(SceneError) as error:
        photometry_of(scene)
    report = error.value.report()
    assert "2 mistakes" in report
    assert '[[kind]] "a", photometry' in report
    assert "bad.ies, line 1: expected a line that begins TILT=" in report
    assert "gone.ies" in report
    assert str(tmp_path) not in report.replace("gone.ies", "")
