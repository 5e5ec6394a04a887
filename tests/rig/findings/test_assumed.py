"""What nobody has measured."""

from __future__ import annotations

from tests.rig.findings.clean import a_kind, says, told, with_kind, with_unit


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
