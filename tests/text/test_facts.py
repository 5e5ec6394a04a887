"""The facts in a footer."""

from __future__ import annotations

from aimcalc.scene.model import Boom, Pipe, Stand, Target, Unit
from aimcalc.solid.rig import solve_rig
from aimcalc.text import words as w
from aimcalc.text.facts import face_words, footer, position_facts, span, trim_words
from tests.rigs import a_kind, a_pipe, a_scene


def a_rig(**settings):
    kinds = [a_kind("short", drop_under=0.30), a_kind("long", drop_under=0.42)]
    targets = [
        Target(name="standing", x=0, y=4),
        Target(name="seated", x=0, y=4, face_height=1.2),
        Target(name="floor", x=0, y=4, plane="deck"),
    ]
    units = [
        Unit(position="p", number="1", kind="short", at=2.0, target="standing"),
        Unit(position="p", number="2", kind="long", at=1.0, target="seated"),
        Unit(position="p", number="3", kind="long", at=0.0, target="floor"),
        Unit(position="q", number="1", kind="short", at=0.0, target="floor"),
    ]
    pipes = [a_pipe(trim=6.1), a_pipe("q", measured=True)]
    return solve_rig(a_scene(units, targets, pipes=pipes, kinds=kinds, **settings))


def test_a_position_tells_trim_drops_and_face_heights_used():
    assert position_facts(a_rig(), "p", "m") == [
        "trim 6.10 m plotted",
        "drop 0.30 m to 0.42 m",
        "face height 1.20 m to 1.65 m",
    ]


def test_a_position_that_lights_no_face_says_so():
    assert position_facts(a_rig(), "q", "m") == [
        "trim 6.00 m measured",
        "drop 0.30 m",
        "no face height used",
    ]


def test_a_footer_names_show_position_and_revision():
    assert footer(a_rig(revision="C"), "p", ["x"]) == "Test rig | p | rev C | x"
    assert footer(a_rig(), "p") == "Test rig | p | no revision"


def test_a_sloping_pipe_tells_the_trim_of_each_end():
    pipe = Pipe(name="s", start=(0, 0, 6.096), end=(5, 0, 5.4864), measured=True)  # 20 ft and 18 ft
    assert trim_words(pipe, "ft") == "trim SL 18'-0\", SR 20'-0\" measured"
    along = Pipe(name="s", start=(4, 1, 5.2), end=(4, -5, 5.0))
    assert trim_words(along, "m") == "trim US 5.20 m, DS 5.00 m plotted"


def test_booms_tell_their_height_and_stands_none():
    assert trim_words(Boom(name="b", x=0, y=0, height=4.2), "m") == "boom 4.20 m high"
    assert trim_words(Stand(name="s", x=0, y=0), "m") == "stand"


def test_faces_of_no_units_are_none():
    assert face_words(a_rig(), [], "m") == "no face height used"


def test_lengths_that_print_alike_are_told_once():
    assert span([1.001, 1.002], "m", w.DECK) == "1.00 m"
