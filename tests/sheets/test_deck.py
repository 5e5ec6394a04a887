"""The deck sheet: what is read out, where to stand, where the light stops, how the cable runs."""

from __future__ import annotations

import io
from functools import cache

import pypdfium2
import pytest

from aimcalc.scene.model import Unit
from aimcalc.sheets.at_position import at_positions
from aimcalc.sheets.deck import deck, deck_acts
from aimcalc.sheets.pieces import SET
from aimcalc.solid.rig import solve_rig
from aimcalc.text.calls import length_said, number_said
from aimcalc.text.deck_rows import deck_rows
from aimcalc.text.ladder_rows import ladder_rows
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_scene
from tests.sheets import pdf_reading
from tests.shows import a_show, rig_of

SCENES = ["playhouse", "studio", "raked", "arena"]


@cache
def sheet(scene: str, length: str = "m", paper: str = "a4") -> bytes:
    stream = io.BytesIO()
    deck(a_show(rig_of(scene)), stream, PaperOptions(length=length, paper=paper))
    return stream.getvalue()


def told(scene: str, length: str, unit: str):
    show = a_show(rig_of(scene))
    facing = dict.fromkeys(show.rig.rows, "US")
    return deck_rows(show, length, facing)[show.rig.by_name[unit]]


# The figures are those worked by hand in tests/sheets/test_ladder.py; boom SL/5 is called as its row reads.
@pytest.mark.parametrize(
    ("scene", "length", "unit", "call"),
    [
        (
            *("playhouse", "ft", "house pipe/1"),
            "unit 1, swing stage right, tape 14-9 stage left, down thirty",
        ),
        (
            *("playhouse", "ft", "pipe 1/1"),
            "unit 1, at you, dial stage right seventy-five, down fifty-nine",
        ),
        (
            *("playhouse", "ft", "pipe 5/5"),
            "unit 5, at you, swing stage right, downstage tape at zero, down forty-seven",
        ),
        (
            *("playhouse", "ft", "boom SL/5"),
            "unit 5, heading upstage forty-two of straight stage right, sight the point, clock, up three",
        ),
        (
            *("raked", "m", "house bar/2"),
            "unit 2, over the pipe, swing stage left, tape 2 point 65 stage left, down twenty-seven",
        ),
        (*("studio", "m", "front pipe/2"), "unit 2, swing stage right, tape at zero, down forty"),
    ],
)
def test_a_call_is_said_in_the_order_in_which_hands_work(scene, length, unit, call):
    assert told(scene, length, unit).call == call


def test_a_leaning_stem_is_called_with_its_tilt_first():
    call = told("raked", "m", "roof bar/4").call
    assert call.endswith(
        "down forty-five, upstage tape 0 point 10 stage right, check dial stage left twenty-four"
    )
    # Swung out there is no tape: the dial, then the tip, then the eye, as its row says.
    call = told("raked", "m", "roof bar/2").call
    assert call.endswith("dial stage right thirty-eight, down forty-four, sight my hand")
    call = told("studio", "m", "boom SL/2").call
    assert call.startswith("unit 2, tip down fifteen at the clamp, heading upstage eight")
    assert call.endswith("sight my hand, down fifteen")


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (0, "zero"),
        (7, "seven"),
        (13, "thirteen"),
        (20, "twenty"),
        (33, "thirty-three"),
        (90, "ninety"),
    ],
)
def test_numbers_are_said_in_words(number, words):
    assert number_said(number) == words


@pytest.mark.parametrize(
    ("printed", "words"), [("2'-4\"", "2-4"), ("0'-9\"", "0-9"), ("4.60 m", "4 point 60")]
)
def test_lengths_are_said_as_crews_say_them(printed, words):
    assert length_said(printed) == words


def test_a_pole_s_height_is_told_above_what_and_at_which_place():
    # Steps (0, 11) of the playhouse lie on a tread; a face is 5'-6" above what it stands on.
    pole = told("playhouse", "ft", "floor SL/1").lands
    assert pole[0] == "POLE 5'-6\""
    assert pole[1].startswith("above the ")
    assert pole[2] == "at STAND"
    # On the rake there is no platform: mark 5 is stood on the deck.
    assert told("raked", "m", "gallery bar SL/2").lands == (
        "POLE 1.65 m",
        "above the deck",
        "at STAND",
    )


def test_a_miss_is_what_the_tolerance_moves_the_light_where_it_is_read():
    # 6 m up less 14 in, 2 m SL and 5 m US at 1 m: reach 5.385, down atan(4.644 / 5.385) = 40.77. Field 26:
    # 6.5. On the deck it is read 5.644 / sin 40.77 = 8.643 m from the lens; tan 6.5 = 0.1139 of that is
    # 0.985 m square to the axis, to 5 cm below: 0.95 m. (At the face, 7.11 m off, that is 0.81 m.)
    show = a_show(
        solve_rig(a_scene([Unit(position="p", number="1", kind="k", at=0.0, point=(2, 5, 1))])), []
    )
    (row,) = deck_rows(show, "m", {"p": "US"})
    assert row.miss == "0.95 m"


@pytest.mark.parametrize(
    ("scene", "unit", "miss"),
    [
        # Direct, the stem to DS: pivot 3.40 m SL, 0.34 US, 1.50 up; chair SR 1.60 SR, 0.80 US, its face 1.20:
        # 5.00, 0.46 and 0.30 m away, 5.030 m. Field 30: 7.5, tan 0.1317: 0.662 m at the pole.
        ("studio", "boom SL/3", "0.65 m"),
        # Pivot 2.10 up; chair centre 3.40, 0.46 and 0.90 m away: 3.547 m, 0.467 m.
        ("studio", "boom SL/2", "0.45 m"),
        # Worked in test_printed_by_hand: 4.8758, 6.8259 and 2.9570 m away: 8.894 m. Field 20: 5, tan 0.0875:
        # 0.778 m.
        ("raked", "gallery bar SL/2", "0.75 m"),
    ],
)
def test_a_miss_on_a_pole_is_measured_at_the_pole(scene, unit, miss):
    row = told(scene, "m", unit)
    assert row.lands[0].startswith("POLE")
    assert row.miss == miss


@pytest.mark.parametrize("scene", SCENES)
def test_the_helper_is_told_of_the_tool_that_the_ladder_has(scene):
    """A hand is raised where somebody sights at it, and nowhere else."""
    show = a_show(rig_of(scene))
    facing = dict.fromkeys(show.rig.rows, "US")
    for row, up in zip(deck_rows(show, "m", facing), ladder_rows(show, "m", facing), strict=True):
        leads = f"{up.sight} {up.told}"
        by_hand = "sight the hand" in leads or (up.way is not None and up.sighted == "face")
        assert ("sight my hand" in row.call) == by_hand, row.call
        assert ("dial" in row.call) == ("dial" in leads), row.call


def test_what_the_hands_sight_at_is_told_to_whoever_stands_there():
    for page in pdf_reading.pages(sheet("playhouse", "ft")):
        said = " ".join(page.split())
        assert ("raise a hand" in said) == ("sight my hand," in said)


@pytest.mark.parametrize("scene", SCENES)
def test_no_call_is_set_smaller_than_ten_points(scene):
    for page in pdf_reading.runs(sheet(scene, "ft", "letter")):
        heads = [run for run in page if run.words in ("CALL", "STAND") and run.size > 10.5]
        left, right = (next(r.left for r in heads if r.words == word) for word in ("CALL", "STAND"))
        calls = [r for r in page if left - 1 < r.left < right - 1 and r.top < heads[0].bottom - 12]
        assert [r.words for r in calls if r.size < 9.4 and "GEOMETRY" not in r.words] == []


def test_a_boom_says_where_it_stands():
    # From the scene file: 18'-6" SL, 5' US.
    page = next(p for p in pdf_reading.pages(sheet("playhouse", "ft")) if "| boom SL |" in p)
    assert "boom 16'-0\" high, at 18'-6\" SL, 5'-0\" US" in " ".join(page.split())


def test_a_further_spot_has_its_miss():
    # Truss 4, spot 2: 3.64 down at 1.209 away to the face, so 1.2 x 5.24 / 3.64 = 1.74 away to the deck, 5.24
    # down: 5.52 m; tan 5 = 0.0875: 0.483, in steps of 5 cm 0.45.
    (_, spot), _ = told("arena", "m", "truss/4").told
    assert spot.startswith("to check by: STAND 0.90 m SL 0.90 m DS, LANDS ")
    assert spot.endswith(", MISS over 0.45 m.")


def test_a_point_says_so_with_its_height_and_a_deck_mark_too():
    # From the scene files: drop 1 is a point 14' SL, 27'-6" US, 8' up; the floor of the arena is aimed at
    # itself, plane deck; pipe 2 lights faces of 4' and 5'-6", and area 11 alone is 5'-6" like its pipe.
    assert told("playhouse", "ft", "pipe 5/1").stand == (
        *("POINT drop 1", "14'-0\" SL", "27'-6\" US", "8'-0\" UP"),
    )
    assert told("arena", "m", "step SL/1").stand[-1] == "MARK on the deck"
    page = next(p for p in pdf_reading.pages(sheet("arena")) if "| step SL |" in p)
    said = " ".join(page.split())
    assert "keep clear" in said
    assert "raise a hand" not in said


def test_the_cable_is_told_from_its_outlet_to_its_ties():
    # Pipe 1/3 of the playhouse: clamp 7'-0" SL, outlet A4 at 8'-9" SL.
    circuit, cable, fold = told("playhouse", "ft", "pipe 1/3").cable
    assert circuit == "A4 at 8'-9\" SL"
    assert cable == "5 ft cable"
    assert fold.startswith("back at ")
    assert fold.endswith(" ties")
    assert told("playhouse", "ft", "house pipe/1").cable == ("H1 at 19'-0\" SL", "tail reaches it")
    # Boom SL/1: outlet 1'-0" up, clamp 15'-6", an arm of 1'-3" and the connector 9 3/4" along it. Of 20 ft
    # 5 1/4" and what is kept, 0.3 m, go; 18.58 ft lie on the boom, which ends at 16 ft: 15 up, then 3.58
    # to come down and go up again to 15.5: 2.04 down, to 13'-11 1/2".
    _, _, *fold = told("playhouse", "ft", "boom SL/1").cable
    assert fold == ["back at 16'-0\" UP,", "then 14'-0\" UP, 9 ties"]


@pytest.mark.parametrize("scene", SCENES)
@pytest.mark.parametrize(("length", "paper"), [("m", "a4"), ("ft", "letter")])
def test_nothing_overlaps_runs_out_or_is_told_by_a_sign(scene, length, paper):
    data = sheet(scene, length, paper)
    pdf_reading.assert_apart(data)
    for page in pdf_reading.pages(data):
        assert pdf_reading.minus_signs(page) == []
        said = " ".join(page.split()).replace("stage left", "").replace("stage right", "")
        assert pdf_reading.bare_sides(said) == []


@pytest.mark.parametrize("scene", SCENES)
def test_every_position_is_told_how_to_tie_and_what_us_counts_from(scene):
    for page in pdf_reading.pages(sheet(scene)):
        said = " ".join(page.split())
        assert "They stand " in said
        assert "two turns and a bow" in said
        assert said.count("from the plaster line") == 1
        assert "ask the head electrician" in said
        assert "write it here" in said
        assert ("lay it " in said) == ("TAPE:" in said)


def test_no_units_is_a_page_that_says_so():
    stream = io.BytesIO()
    deck(a_show(solve_rig(a_scene([]))), stream, PaperOptions())
    assert "This scene has no units." in pdf_reading.pages(stream.getvalue())[0]


def test_the_whole_set_of_the_playhouse_is_under_seventy_pages(tmp_path):
    from aimcalc.sheets import prep

    show = a_show(rig_of("playhouse"))
    made = prep.prepare(show, str(tmp_path), prep.options_for(show.rig), SET)
    printed = sum(
        len(pypdfium2.PdfDocument(file.read_bytes())) for file in sorted(tmp_path.glob("*.pdf"))
    )
    assert printed == sum(each.pages or 0 for each in made)
    assert printed < 70  # 264 before the packs


def page_of(scene: str, length: str, position: str) -> str:
    pages = [" ".join(p.split()) for p in pdf_reading.pages(sheet(scene, length))]
    return next(page for page in pages if f"| {position} |" in page)


def test_a_tape_under_seats_is_laid_from_the_plaster_line():
    # From the scene files: the house pipe hangs 14' DS of the plaster line and its tape is 13' US of it; the
    # house bar of the raked stage 4.60 m DS, its tape 4 m US of it. The roof bar lies askew.
    house = page_of("playhouse", "ft", "house pipe")
    assert "13'-0\" US of the pipe (1'-0\" DS of the plaster line)" in house
    assert "It decides, not the degrees." in house
    assert "4.00 m US of the pipe (0.60 m DS of the plaster line)" in page_of(
        "raked", "m", "house bar"
    )
    assert "measured on the deck from under it" not in house


def test_a_second_fold_and_two_names_of_one_thing_are_told_where_they_occur():
    # The clock of the playhouse is a point of the solid "tall clock", the tree of "apple tree".
    boom = page_of("playhouse", "ft", "boom SL")
    assert 'doubled back, from "then" back to the unit once more;' in boom
    assert "; clock is on tall clock." in boom
    assert "; tree is on apple tree." in page_of("playhouse", "ft", "floor SR")
    assert "once more; each tie" not in page_of("playhouse", "ft", "house pipe")


def test_nobody_is_covered_in_another_act_where_nobody_stands():
    # Of the market bar unit 1 lights who stands at stall SL, unit 2 the floor itself.
    market = page_of("arena", "m", "market bar")
    assert "whether it still covers who stands there or its mark or point, turn nothing" in market
    show = a_show(rig_of("arena"))
    options = PaperOptions(length="m")
    at = next(at for at in at_positions(show.rig, options) if at.name == "market bar")
    ((_, said),) = deck_acts(show, at._replace(printed=at.printed[1:]), options)
    assert "whether it still covers its mark or point, turn nothing" in said
