"""The generic kinds: plausible, round, and never a limit of ours."""

from __future__ import annotations

from aimcalc.scene.loading import CATALOGUE, generic_kinds, generic_tables
from aimcalc.scene.tables import kind_readers

PIPE_AND_CLEARANCE = (
    0.08  # m: half a 48 mm tube, and a hand's width of air; common practice, no source
)


def test_every_generic_kind_can_be_read_and_is_marked_typical() -> None:
    kinds = generic_kinds()
    assert len(kinds) >= 16
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
    assert [n for n in kinds if n.startswith("ers")] == [
        f"ers-{a}" for a in (5, 10, 20, 30, 40, 50)
    ]
    assert {kind.family for kind in kinds.values()} == {
        "ers",
        "fresnel",
        "pc",
        "par",
        "flood",
        "cyc",
    }


def test_every_generic_angle_is_round() -> None:
    # No ladder of angles out of one catalogue. (An oval's `field` is worked out from its two.)
    for kind in generic_kinds().values():
        angles = kind.oval or (kind.field,)
        assert all(angle is not None and angle % 5 == 0 for angle in angles), kind.name


def test_an_ovals_field_is_the_round_one_of_the_same_area() -> None:
    ovals = [kind for kind in generic_kinds().values() if kind.oval]
    assert [kind.oval for kind in ovals] == [(15, 30), (25, 50), (35, 70)]
    for kind in ovals:  # sqrt(15 * 30) = 21.2, sqrt(25 * 50) = 35.4, sqrt(35 * 70) = 49.5
        assert kind.oval is not None
        assert kind.field == int((kind.oval[0] * kind.oval[1]) ** 0.5)


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
