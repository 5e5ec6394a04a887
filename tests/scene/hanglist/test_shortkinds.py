"""Short forms of the house's own kinds: what one of them alone can be is it, what two can be is none."""

from __future__ import annotations

import pytest

from aimcalc.scene.hanglist.names.shortkinds import ShortKinds, parts_of

HOUSE = (
    *("Profile 19", "Profile 15-30", "Profile 25/50", "Fresnel 650", "Fresnel 1.2kW", "PC 1kW"),
    *("Parcan CP62", "LED Par", "Cyc Flood 500W", "LED Panel", "8in Fresnel", "Asym Flood"),
)
TOURING = ("Profile 2kW", "Profile 1kW", "PC 2kW", "Fresnel 5kW", "Horizon Flood", "HMI 2.5kW")


@pytest.mark.parametrize(
    ("came", "kind"),
    [
        ("P19", "Profile 19"),
        ("15/30", "Profile 15-30"),
        ("zoom 25-50", "Profile 25/50"),
        ("ZOOM 25° - 50°", "Profile 25/50"),
        ("Zm 15x30", "Profile 15-30"),
        ("Découpe 15/30", "Profile 15-30"),
        ("sagomatore 25-50", "Profile 25/50"),
        ("25/50 ELLIPSODAL", "Profile 25/50"),
        ("Fres 1.2", "Fresnel 1.2kW"),
        ("fresnel 1,2 kW", "Fresnel 1.2kW"),
        ("1200W FRESNAL", "Fresnel 1.2kW"),
        ("F650", "Fresnel 650"),
        ("Stufenl. 650 W", "Fresnel 650"),
        ("P.C. 1000", "PC 1kW"),
        ("1K plano-convex", "PC 1kW"),
        ("par", "Parcan CP62"),
        ("PARCAN", "Parcan CP62"),
        ("led par", "LED Par"),
        ("PNL", "LED Panel"),
        ("asimmetrico", "Asym Flood"),
        ('8" fresnel', "8in Fresnel"),
        ("new 8in fresnel", "8in Fresnel"),
    ],
)
def test_a_short_form_is_the_kind_that_has_all_of_it(came: str, kind: str) -> None:
    assert ShortKinds(HOUSE).find(came).name == kind


@pytest.mark.parametrize(
    "came",
    [
        "fresnel",  # three sizes
        "profile",
        "30",  # the end of one zoom
        "profile 30",
        "F500",
        "pc 650",
        "par 64",
        "profile 26",
        "X19",
        "1",
        "12",
        "",
        "-",
        "TOTAL",
        "DSL",
    ],
)
def test_what_fits_two_or_has_another_number_is_none(came: str) -> None:
    assert ShortKinds(HOUSE).find(came).name is None


@pytest.mark.parametrize(
    ("came", "kind"),
    [
        ("déc. 2 kW", "Profile 2kW"),
        ("Découpe 1 kW", "Profile 1kW"),
        ("Fresnel 5000", "Fresnel 5kW"),
        ("fres 5", "Fresnel 5kW"),
        ("horizont", "Horizon Flood"),
        ("PC", "PC 2kW"),
        ("Profile", None),
        ("5", None),
        ("P1", None),
        ("F2", None),
        ("par", None),
    ],
)
def test_watts_are_read_however_they_are_written(came: str, kind: str | None) -> None:
    assert ShortKinds(TOURING).find(came).name == kind


def test_two_letters_of_one_sort_do_not_stand_for_another() -> None:
    assert ShortKinds(["Parcan CP62", "Profile 19"]).find("pc").name is None
    assert ShortKinds(["Flood 500W"]).find("floor").name is None
    assert ShortKinds(["Profile 36", "PAR 36"]).find("P36").several == ("Profile 36", "PAR 36")


def test_the_two_ends_of_a_zoom_are_one_number() -> None:
    assert parts_of("Profile 25-50").numbers == ((25, 50),)
    assert parts_of("1.2kW Fresnel").numbers == ((1200,),)


def test_what_a_cell_explains_in_brackets_is_called_so_below() -> None:
    kinds = ShortKinds(["Profile 18-32", "Profile 25-50", "Fresnel 1k"])
    assert kinds.explained("profile long") is None  # nobody has said yet which are long
    assert kinds.explained("profile (the long ones 18-32)") == "Profile 18-32"
    assert kinds.explained("profile long") == kinds.explained("Long profiles") == "Profile 18-32"
    assert kinds.explained("profile") is kinds.explained("fresnel long") is None
    assert kinds.explained("profile (dimmer 25)") is None
