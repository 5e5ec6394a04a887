"""The generic kinds: plausible, round, and never a limit of ours."""

from __future__ import annotations

from aimcalc.scene.kinds import CATALOGUE, generic_kinds, generic_tables
from aimcalc.scene.tables import kind_readers

PIPE_AND_CLEARANCE = (
    0.08  # m: half a 48 mm tube, and a hand's width of air; common practice, no source
)


def test_every_generic_kind_can_be_read_and_is_marked_typical() -> None:
    kinds = generic_kinds()
    assert len(kinds) >= 20
    assert all(kind.typical for kind in kinds.values())
    with open(CATALOGUE, encoding="utf-8") as file:
        text = file.read()
    assert text.count("[[kind]]  # typical: replace by your maker's sheet") == len(kinds)


def test_a_generic_kind_is_named_by_its_family_and_field() -> None:
    for kind in generic_kinds().values():
        family, angle = kind.name.split("-")
        assert family == kind.family
        wide = "x".join(f"{a:g}" for a in kind.oval) if kind.oval else f"{kind.field:g}"
        assert angle == wide


def test_the_families_that_people_ask_for_are_there() -> None:
    kinds = generic_kinds()
    for field in (5, 10, 14, 19, 20, 26, 30, 36, 40, 50):
        assert kinds[f"ers-{field}"].field == field
    assert {kind.family for kind in kinds.values()} == {
        "ers",
        "fresnel",
        "pc",
        "par",
        "flood",
        "cyc",
    }


def test_a_generic_unit_that_points_straight_down_clears_its_own_pipe() -> None:
    for kind in generic_kinds().values():
        assert kind.length is not None
        behind = kind.length - kind.nose
        assert behind <= min(kind.drop_under, kind.drop_over) - PIPE_AND_CLEARANCE, kind.name


def test_a_generic_kind_has_what_the_sheets_need_and_no_yoke_travel() -> None:
    for kind in generic_kinds().values():
        assert kind.beam is not None
        assert kind.field is not None
        assert kind.beam < kind.field
        assert None not in (kind.peak_cd, kind.width, kind.weight, kind.watts, kind.tail)
        assert kind.tail_exit is not None
        assert kind.yoke_range is None
        assert kind.label_distance is None


def test_a_generic_entry_copied_into_a_scene_in_feet_means_the_same() -> None:
    metres, feet = kind_readers("m"), kind_readers("ft")
    for table in generic_tables().values():
        for key, raw in table.items():
            assert feet[key](raw) == metres[key](raw), key
