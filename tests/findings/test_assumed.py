"""What nobody has measured."""

from __future__ import annotations

import re

import pytest
from msgspec.structs import replace

from aimcalc.findings.pose import candela_and_lumens
from aimcalc.scene.model import Unit
from aimcalc.solid.rig import solve_rig
from tests.findings.clean import CLEAN, a_kind, found, says, told, with_kind, with_unit
from tests.rigs import a_scene


def test_typical_kinds_are_noted_once_for_the_scene() -> None:
    scene = with_kind(a_kind("par", typical=True), with_kind(a_kind(typical=True)))
    assert told(scene) == [("note", "typical-kind", None)]
    # `par` is in the scene but no unit uses it.
    assert (
        says(scene, "typical-kind")
        == "Figures of kind house ers are typical; yours are not measured."
    )


def test_a_kind_hung_without_a_drop_warns_once() -> None:
    scene = with_kind(a_kind("bare", drop_under=0.0))
    assert told(scene) == []
    used = with_unit("back/1", with_unit("back/2", scene, kind="bare"), kind="bare")
    assert told(used) == [("warn", "no-drop", None)]
    assert "for kind bare as hung" in says(used, "no-drop")


def test_a_drop_that_is_not_needed_is_not_asked_for() -> None:
    assert told(with_kind(a_kind(drop_over=0.0))) == []


# A Gaussian of field 26 (full): w = 13 / sqrt(ln 10) = 8.567 degrees, lumens per candela pi w^2 = 0.0702 sr
# (for small angles): 100,000 cd make about 7,000 lm. With no beam given a flat field of twice that may be
# meant.
GAUSSIAN = 26.0 / 1.8226157


@pytest.mark.parametrize(
    ("beam", "lumens", "told"),
    [
        (GAUSSIAN, 7000.0, False),
        (GAUSSIAN, 10_000.0, False),
        (GAUSSIAN, 11_000.0, True),
        (GAUSSIAN, 4900.0, False),
        (GAUSSIAN, 4400.0, True),
        (None, 11_000.0, False),
        (None, 21_000.0, False),
        (None, 22_500.0, True),
        (None, 3800.0, True),
    ],
)
def test_candela_and_lumens_that_cannot_both_be_right(beam, lumens, told):
    kind = a_kind("k", field=26.0, beam=beam, peak_cd=100_000.0, lumens=lumens)
    found = list(candela_and_lumens(a_rig_of(kind)))
    assert bool(found) == told
    if told:
        assert (found[0].severity, found[0].rule) == ("warn", "candela-lumens-disagree")
        assert f"is given 100000 cd and {lumens:.0f} lm" in found[0].says
        assert re.search(r"make about 69[0-9]0 lm|make about 70[0-9]0 lm", found[0].says)


@pytest.mark.parametrize("given", [{"peak_cd": 1e5}, {"lumens": 1e5}, {}])
def test_one_of_the_two_alone_says_nothing_against_itself(given):
    assert not list(candela_and_lumens(a_rig_of(a_kind("k", **given))))


# 1000 cd to 90 degrees all round and nothing above: 2 pi 1000 = 6283 lm; scaled to 2000 cd, 12,566 lm.
@pytest.mark.parametrize(("lumens", "told"), [(12_600.0, False), (6283.0, True), (14_500.0, True)])
def test_a_files_own_shape_is_known_to_a_tenth(tmp_path, lumens, told):
    text = "IESNA91\nTILT=NONE\n1 -1 1 2 1 1 2 0 0 0\n1 1 9\n0 90\n0\n1000 1000\n"
    (tmp_path / "half.ies").write_text(text)
    kind = a_kind("k", field=None, photometry="half.ies", peak_cd=2000.0, lumens=lumens)
    found = list(candela_and_lumens(a_rig_of(kind, folder=str(tmp_path))))
    assert bool(found) == told
    if told:
        assert "make about 12600 lm" in found[0].says


def a_rig_of(kind, folder="."):
    unit = Unit(position="p", number="1", kind="k", at=0.0, point=(0.0, 4.0, 1.65))
    return solve_rig(replace(a_scene([unit], kinds=[kind]), folder=folder))


@pytest.mark.parametrize(
    ("lacks", "keys"),
    [
        ({"length": None}, "length"),
        ({"width": None}, "width"),
        ({"length": None, "width": None}, "length and width"),
    ],
)
def test_a_kind_without_a_body_is_told_once_with_the_keys_to_add(lacks, keys):
    scene = with_unit("front/1", with_kind(a_kind("bare", **lacks)), kind="bare")
    scene = with_unit("front/2", scene, kind="bare")
    (found_,) = [f for f in found(scene) if f.rule == "body-not-known"]
    assert (found_.severity, found_.unit, found_.position) == ("warn", None, None)
    assert found_.says.startswith(f"Kind bare has no {keys.replace(' and ', ' and no ')}: ")
    assert found_.do == f"Measure one and add {keys} to its [[kind]]."


def test_a_kind_with_a_body_is_not_told():
    assert told(CLEAN) == []
