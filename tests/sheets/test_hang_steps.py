"""The steps at a unit."""

from __future__ import annotations

import pytest

from aimcalc.sheets.hang_sheets import Bodies, sentence, steps

# The order of the trade: clamp, opening, snug, wrench, safety, tail, shutters, upright, point, lock, cable,
# tie, test (common practice, no source).
HANGING = ["clamp", "opening", "snug", "wrench", "safety"]
POINTING = ["tail", "shutters", "clip", "point", "lock", "cable", "tie", "test"]
ORDER = [*HANGING, *POINTING]


def test_a_pipe_s_steps_come_in_the_order_of_the_trade():
    every = steps("pipe", "DS")
    assert [step.word for step in every] == ORDER
    words = {step.word: step.words for step in every}
    assert words["opening"] == "clamp opening DS"
    assert words["safety"] == "safety cable round the pipe and through the yoke"
    assert words["clip"] == "upright: clip above, tail below"


def test_the_safety_cable_comes_before_anything_is_pointed():
    for sort in ("pipe", "boom"):
        words = [step.word for step in steps(sort, None)]
        assert words.index("wrench") < words.index("safety") < words.index("point")


@pytest.mark.parametrize("sort", ["pipe", "boom"])
def test_an_opening_that_is_not_told_is_one_way_along_the_row(sort):
    words = {step.word: step.words for step in steps(sort, None)}
    assert words["opening"] == "clamp opening one way along the row"


def test_a_boom_speaks_of_itself_and_a_stand_has_no_clamp():
    boom = sentence(steps("boom", None))
    assert "round the boom and through the yoke" in boom
    assert "pipe" not in boom
    stand = [step.word for step in steps("stand", None)]
    assert stand[:2] == ["stand", "spigot"]
    assert stand[2:] == POINTING


def test_the_sentence_numbers_every_step():
    told = sentence(steps("pipe", "US"))
    for k in range(1, 14):
        assert f"{k} " in told
    assert told.startswith(
        "1 clamp over the pipe, on its mark. 2 clamp opening US. 3 snug by hand."
    )
    assert told.endswith("13 test it.")


def test_bodies_on_their_side_are_not_told_to_stand_upright():
    def told(bodies):
        return {step.word: step.words for step in steps("boom", None, bodies)}

    lying = told(Bodies(upright=False, lying=True, direct=True))
    assert "upright" not in lying["clip"]
    assert "on its side: clip to the side its row names" in lying["clip"]
    assert "the clamp tips the nose, the yoke turns it" in lying["point"]
    mixed = told(Bodies(upright=True, lying=True, direct=True))
    assert mixed["clip"].startswith("upright: clip above, tail below; where the row says CLIP")
    assert told(Bodies())["point"] == "point it: wedge (rough), then its row"


def test_a_truss_is_called_a_truss():
    words = {step.word: step.words for step in steps("pipe", None, None, "truss")}
    assert words["clamp"] == "clamp over the truss, on its mark"
    assert words["safety"] == "safety cable round the truss and through the yoke"


def test_what_is_locked_while_it_hangs_is_not_set_again_at_trim():
    words = {step.word: step.words for step in steps("pipe", "DS")}
    assert words["lock"] == "lock pan and tilt for good"
