"""A letter and a slash for a word, "M/S Cross" of Midstage Cross and "B/cloth" of Backcloth."""

from __future__ import annotations

import pytest

from aimcalc.scene.hanglist.names.meant import Names

CROSSES = Names(("Downstage Cross", "Midstage Cross", "Upstage Cross", "Centre Special", "Cyc"))


@pytest.mark.parametrize(
    ("cell", "name"),
    [
        *(
            (way, "Midstage Cross")
            for way in ("M/S Cross", "MS Cross", "m/stage cross", "Cross M/S")
        ),
        *(
            (way, "Downstage Cross")
            for way in ("D/S Cross", "DS cross", "Cross (D/S)", "D/stage Cross")
        ),
        *((way, "Upstage Cross") for way in ("U/S Cross", "US Cross", "U/Stage cross")),
        *((way, "Midstage Cross") for way in ("Mid Cross", "Mid-stage cross", "Mid stage Cross")),
        ("C/S Special", "Centre Special"),
        ("C/stage special", "Centre Special"),
        ("S/S Cross", None),
    ],
)
def test_parts_of_the_stage(cell: str, name: str | None) -> None:
    assert CROSSES.find(cell).name == name


def test_a_mid_cross_is_a_midstage_one() -> None:
    assert Names(("Mid Cross", "Down Cross")).find("M/S Cross").name == "Mid Cross"


@pytest.mark.parametrize(
    ("names", "cell", "name"),
    [
        (("Backcloth", "Steps"), "B/cloth", "Backcloth"),
        (("Backdrop", "Steps"), "b/drop", "Backdrop"),
        (("Painted Backcloth", "Steps"), "B/cloth", "Painted Backcloth"),
        (("Backcloth Left", "Backcloth Right"), "B/cloth left", "Backcloth Left"),
        (("Frontcloth", "Backcloth"), "F/cloth", "Frontcloth"),
        (("Followspot", "Profile 26"), "F/spot", "Followspot"),
        (("Backcloth Left", "Backcloth Right"), "B/cloth", None),
        (("Backcloth", "Blackcloth"), "B/cloth", None),
        (("Backcloth", "Blue Cloth"), "B/cloth", None),
        (("Frontcloth", "Steps"), "B/cloth", None),
        (("Cloth", "Steps"), "B/cloth", None),
    ],
)
def test_a_word_that_a_slash_cuts(names: tuple[str, ...], cell: str, name: str | None) -> None:
    assert Names(names).find(cell).name == name


def test_two_that_fit_are_told() -> None:
    assert Names(("Backcloth", "Blackcloth")).find("B/cloth").several == ("Backcloth", "Blackcloth")


def test_two_such_words_are_not_tried_each_with_each() -> None:
    names = Names(("Backlight", "Bluelight", "B/light 2"))
    assert names.find(" ".join(["b/light"] * 7)).name is None
    assert names.find("b/light wash").name is None  # a name that has such a word itself
    assert names.find("Bl/light").name is None
    assert names.find("b/light").several == ("Backlight", "Bluelight")
