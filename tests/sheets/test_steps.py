"""The steps card, read back: the order of the trade, one line a step, and what only some rigs need."""

from __future__ import annotations

import io
from functools import cache

import pytest

from aimcalc.scene.model import Boom, Chord, Pipe, Stand, Unit
from aimcalc.sheets.steps import openings, steps, steps_card, words_for
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_pipe, a_scene
from tests.sheets import pdf_reading
from tests.shows import a_show, rig_of

CHOICES = [("playhouse", "letter", "ft"), ("studio", "a4", "m"), ("arena", "a4", "m")]


def card(rig, **options) -> bytes:
    stream = io.BytesIO()
    told = steps_card(a_show(rig, []), stream, PaperOptions(**options))
    assert told == len(pdf_reading.sizes(stream.getvalue())) == 2  # front and back
    return stream.getvalue()


@cache
def made(scene, paper, length) -> bytes:
    return card(rig_of(scene), paper=paper, length=length)


def flat(data: bytes) -> str:
    return " ".join(" ".join(text.split()) for text in pdf_reading.pages(data))


def unit(number="1", y=5.0, **values):
    usual = {"position": "p", "kind": "k", "at": 0.0, "point": (0.0, y, 1.0)}
    return Unit(number=number, **{**usual, **values})


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_nothing_overlaps_leaves_the_page_or_reads_as_a_minus_sign(scene, paper, length):
    data = made(scene, paper, length)
    for runs, size in zip(pdf_reading.runs(data), pdf_reading.sizes(data), strict=True):
        assert pdf_reading.overlaps(runs) == []
        assert pdf_reading.outside(runs, size) == []
    assert pdf_reading.minus_signs(flat(data)) == []
    assert pdf_reading.bare_sides(flat(data)) == []


# The order of the trade (common practice, no source): a word of each step, in the order of the hands.
ORDER = (
    *(
        "Clamp",
        "Snug",
        "Wrench",
        "Safety cable",
        "Free the tail",
        "shutter",
        "Colour",
        "Point",
        "Lock",
    ),
    *("clip on top, tail below", "Plug", "double it back", "two turns and a bow", "Test"),
)


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_the_steps_come_in_the_order_of_the_hands(scene, paper, length):
    front = " ".join(pdf_reading.pages(made(scene, paper, length))[0].split())
    places = [front.index(word) for word in ORDER]
    assert places == sorted(places)
    assert front.index("Safety cable") < front.index("Point")


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_no_step_is_longer_than_a_line_in_its_full_size(scene, paper, length):
    """A run of text a step, none set smaller or squeezed below what the sheets allow (0.8)."""
    runs = pdf_reading.runs(made(scene, paper, length))[0]
    for step in steps(words_for(rig_of(scene))):
        assert any(run.words == step.words and run.size == 16 for run in runs), step.words


def test_a_clamp_opens_towards_whoever_hangs_it_or_as_named():
    # Facing US the reader stands DS of the pipe: a clamp that opens DS opens towards them.
    towards = solve_rig(a_scene([unit()], pipes=[a_pipe(clamp_opens="DS")]))
    assert openings(towards) == {"p": ("DS", True)}
    assert "opening towards you" in flat(card(towards))
    away = solve_rig(a_scene([unit()], pipes=[a_pipe(clamp_opens="US")]))
    assert openings(away) == {"p": ("US", False)}
    text = flat(card(away))
    assert "opening as named below" in text
    assert "CLAMPS OPEN p: US." in text
    nobody_says = solve_rig(a_scene([unit()]))
    assert openings(nobody_says) == {}
    assert "opening towards you" in flat(card(nobody_says))


def test_tubes_are_called_what_they_are():
    chords = (Chord(name="top", up=0.2), Chord(name="low", up=-0.2))
    truss = Pipe(name="p", start=(-5.0, 0.0, 6.0), end=(5.0, 0.0, 6.0), chords=chords)
    only = solve_rig(a_scene([unit(chord="low")], pipes=[truss]))
    assert "round truss, through yoke" in flat(card(only))
    boom = Boom(name="b", x=-6.0, y=0.0, height=5.0)
    arm = {"position": "b", "mount": "arm", "arm": 0.4, "arm_to": 90.0, "at": 3.0}
    both = solve_rig(a_scene([unit(), unit("2", **arm)], pipes=[a_pipe()], booms=[boom]))
    assert "round pipe or boom, through yoke" in flat(card(both))


def test_what_only_some_rigs_need_is_told_to_them_alone():
    plain = flat(card(solve_rig(a_scene([unit()]))))
    for word in ("STAND: legs", "DIRECT", "OVER:", "CLIP SL", "STEM LEANS"):
        assert word not in plain
    out = flat(card(solve_rig(a_scene([unit(mount="out", swing_out=30.0, out_to="US")]))))
    assert "STEM LEANS or SLOPE on the row: point it in the row's own order." in out
    stand = Stand(name="s", x=0.0, y=0.0)
    boom = Boom(name="b", x=-6.0, y=0.0, height=5.0)
    units = [
        unit(position="s", mount="stand", at=None),
        unit("2", position="b", mount="direct", arm_to=90.0, at=3.0),
    ]
    text = flat(card(solve_rig(a_scene(units, pipes=[], stands=[stand], booms=[boom]))))
    assert "STAND: legs out and weighted" in text
    assert "DIRECT on a boom: the clamp tips the nose" in text
    assert (
        "CLIP SL, SR, US or DS on the row" in text
    )  # a body clamped straight to a boom lies on its side


def test_the_back_says_which_tool_first_what_a_miss_is_and_whom_to_ask():
    back = " ".join(pdf_reading.pages(made("playhouse", "letter", "ft"))[1].split())
    order = (
        "1 WEDGE",
        "2 SIGHT TAPE",
        "3 LEVEL or plumb card",
        "4 Lock",
    )  # as over the ladder's rows
    places = [back.index(words) for words in order]
    assert places == sorted(places)
    for words in (
        "LEVEL HERE: top of the barrel",
        "not on the yoke",
        "The row's figure counts from that 0, to the side that it names",
        "Outside WITHIN: unlock, set it once more, lock, read again.",
        "Still out: ask the head electrician.",
        "head electrician:",
        "believe the light",
        "Local rules",
    ):
        assert words in back


def test_a_scene_without_units_has_its_card_all_the_same():
    assert "round pipe, through yoke" in flat(card(solve_rig(a_scene([]))))
