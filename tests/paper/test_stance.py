"""The stance: where the reader stands, in words and as a picture."""

from __future__ import annotations

import io

import pytest

from aimcalc.paper.page import Box, Page, write_pages
from aimcalc.paper.stance import draw_stance, stance_of, stance_words
from aimcalc.scene.model import Boom, Pipe, Stand, Unit
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_pipe, a_scene
from tests.sheets import pdf_reading


def unit(number, at, y, **values):
    return Unit(
        **{
            "position": "p",
            "number": number,
            "kind": "k",
            "at": at,
            "point": (0.0, y, 1.0),
            **values,
        }
    )


def stance(units, **scene):
    rig = solve_rig(a_scene(units, **scene))
    return stance_of(rig.positions[0], rig.units, rig.answers)


# A person who faces US (+y) has stage left (+x) at the right hand, so SR comes first on a line of text.
@pytest.mark.parametrize(
    ("ys", "words", "hands"),
    [
        ((5, 5, -5), "You stand DS of the pipe, facing US", ("SR", "SL")),
        ((5, -5, -5), "You stand US of the pipe, facing DS", ("SL", "SR")),
        ((5, -5), "You stand DS of the pipe, facing US", ("SR", "SL")),  # a draw
    ],
)
def test_the_reader_stands_behind_most_of_the_units(ys, words, hands):
    found = stance([unit(str(k), -float(k), y) for k, y in enumerate(ys)])
    assert stance_words(found) == words
    assert (found.first_hand, found.second_hand) == hands


def test_a_pipe_up_and_down_the_stage_is_read_from_its_side():
    pipe = Pipe(name="p", start=(5, -4, 6), end=(5, 4, 6), zero="middle")
    found = stance([unit("1", 0.0, 0.0)], pipes=[pipe])  # aimed at x = 0, SR of the pipe
    assert stance_words(found) == "You stand SL of the pipe, facing SR"
    assert (found.first_hand, found.second_hand) == ("DS", "US")


@pytest.mark.parametrize(("at_of_one", "start"), [(3.0, "SL END"), (-3.0, "SR END")])
def test_the_row_starts_where_the_numbers_start(at_of_one, start):
    units = [unit("1", at_of_one, 5.0), unit("2", 0.0, 5.0), unit("3", -at_of_one, 5.0)]
    assert stance(units).start == start


def test_booms_start_at_the_top_and_stands_nowhere():
    boom = Boom(name="p", x=-6.0, y=0.0, height=5.0)
    one = unit("1", 3.0, 1.0, mount="arm", arm=0.5, arm_to=90.0)
    found = stance([one], pipes=[], booms=[boom])
    assert stance_words(found) == "You stand SR of the boom, facing SL"
    assert found.start == "TOP"
    one = unit("1", None, 1.0, mount="stand")
    found = stance([one], pipes=[], stands=[Stand(name="p", x=6.0, y=0.0)])
    assert stance_words(found) == "You stand SL of the stand, facing SR"
    assert found.start == ""


@pytest.mark.parametrize(
    ("opens", "words"),
    [
        ("DS", "clamps open DS, toward you"),
        ("US", "clamps open US, away from you"),
        (None, ""),
    ],
)
def test_clamp_mouths_are_told_as_the_reader_sees_them(opens, words):
    assert stance([unit("1", 0.0, 5.0)], pipes=[a_pipe(clamp_opens=opens)]).mouths == words


def test_the_picture_has_the_hands_on_their_sides_the_reader_below_and_the_way_faced_above():
    found = stance([unit("1", 0.0, 5.0)])
    stream = io.BytesIO()
    page = Page(lambda sheet: draw_stance(sheet, Box(100, 500, 232, 540), found), "f")
    write_pages(stream, [page], PaperOptions(), title="t")
    said = {run.words: run for run in pdf_reading.runs(stream.getvalue())[0]}
    assert said["SR"].right < said["YOU"].left
    assert said["SL"].left > said["YOU"].right
    assert said["YOU"].top < said["SR"].bottom < said["US"].bottom
    assert all(said[w].left >= 100 and said[w].right <= 232 for w in ("SR", "SL", "US", "YOU"))
