"""The unit cards, made from the worked scenes and read back."""

from __future__ import annotations

import io
import math
import re
from functools import cache

import pytest

from aimcalc.findings import findings
from aimcalc.rig.rig import Rig
from aimcalc.scene.model import Boom, Stage, Target, Unit
from aimcalc.sheets.cards import unit_cards
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_kind, a_scene
from tests.sheets import pdf_reading
from tests.shows import a_show, rig_of

CHOICES = [("studio", "a4", "m"), ("playhouse", "letter", "ft"), ("raked", "a4", "m")]


def cards(rig: Rig, found=(), **options) -> bytes:
    stream = io.BytesIO()
    told = unit_cards(a_show(rig, found), stream, PaperOptions(**options))
    assert told == len(pdf_reading.sizes(stream.getvalue()))
    return stream.getvalue()


@cache
def made(scene: str, paper: str, length: str, draft: bool = False) -> bytes:
    return cards(rig_of(scene), findings(rig_of(scene)), paper=paper, length=length, draft=draft)


def card_of(data: bytes, k: int) -> list[pdf_reading.Said]:
    """The runs of the k-th card, eight to a page, across first."""
    page, (width, height) = pdf_reading.runs(data)[k // 8], pdf_reading.sizes(data)[k // 8]
    low = max(run.top for run in page if "GEOMETRY" in run.words)
    tall = (height - 14 - low - 3) / 4
    return [
        run
        for run in page
        if run.bottom > low
        and (run.left > width / 2) == k % 2
        and int((height - 14 - (run.bottom + run.top) / 2) / tall) == k % 8 // 2
    ]


def whole(angle: float) -> int:
    return int(abs(angle) + 0.5 + 1e-9)


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_every_card_has_its_unit_s_number_down_and_position(scene, paper, length):
    data, rig = made(scene, paper, length), rig_of(scene)
    assert len(pdf_reading.sizes(data)) == math.ceil(len(rig.units) / 8)
    for k, answer in enumerate(rig.answers):
        said = {run.words: run for run in card_of(data, k)}
        assert said[answer.number].size == 38
        assert answer.position in said
        assert any(run.endswith(f"plumb {90 - whole(answer.down)}°") for run in said)
        assert said[f"{whole(answer.down)}°"].size == 20
        assert any(run.startswith(("LANDS", "ON ", "POLE")) for run in said), answer.unit
        assert any(run.words.startswith(("STAND ", "POINT ")) for run in said.values())


def test_the_three_figures_of_one_card_are_large_and_right():
    # Worked by hand: pivot 6 m less 14 in = 5.644 m, aimed 2 m SL and 5 m US at 1 m. Pan
    # atan(2/5) = 21.8; tape 3 tan(21.8) = 1.2 SL; reach 5.385 m; down atan(4.644/5.385) = 40.8; it
    # runs 1 / tan(40.8) = 1.16 m on: 2.43 m SL, 6.08 m US.
    unit = Unit(position="p", number="7", kind="k", at=0.0, point=(2.0, 5.0, 1.0))
    data = cards(solve_rig(a_scene([unit])))
    said = {run.words: run for run in card_of(data, 0)}
    assert said["1.20 m SL"].size == said["41°"].size == 20
    assert said["2.45 m SL, 6.10 m US"].size >= 14
    assert "SL 22°, square US" in said
    assert "TAPE 3.00 m US" in said
    assert "DOWN" in said
    assert "WITHIN down 6°, pan 8°. plumb 49°" in said
    assert {"LANDS", "CLIP up", "tail"} <= set(said)


def test_a_card_carries_what_its_row_has():
    # As above; the field is 26: within 26 / 4 = 6.5 down, 6.5 / cos 40.8 = 8.6 pan.
    unit = Unit(
        position="p",
        number="7",
        kind="k",
        at=0.0,
        point=(2.0, 5.0, 1.0),
        channel="12",
        circuit="9",
        colour="L201",
        note="iris in the case",
    )
    said = [run.words for run in card_of(cards(solve_rig(a_scene([unit]))), 0)]
    assert "WITHIN down 6°, pan 8°. plumb 49°" in said
    assert "ch 12, circuit 9" in said
    assert "L201, tail SR" in said  # its back swings to SR
    assert any(words.startswith("You stand DS of the pipe, facing US") for words in said)
    assert "NOTE: iris in the case" in said


def test_every_card_of_a_row_is_drawn_from_where_its_hanger_stands():
    """Two face US and one DS, at whoever stands DS and faces US: SR is where lines begin on all three."""
    units = [
        Unit(position="p", number=str(k), kind="k", at=-k, point=(-k, y, 1.0))
        for k, y in enumerate((5.0, 5.0, -5.0))
    ]
    data = cards(solve_rig(a_scene(units)))
    for k in range(3):
        sides = {run.words: run.left for run in card_of(data, k) if run.words in ("SR", "SL")}
        assert sides["SR"] < sides["SL"]
    third = [run.words for run in card_of(data, 2)]
    assert {"SQUARE, square DS", "AT YOU"} <= set(third)
    assert "AT YOU" not in [run.words for k in (0, 1) for run in card_of(data, k)]


def test_a_card_without_a_tape_gives_the_pan_instead():
    units = [
        Unit(position="p", number="1", kind="k", at=0.0, point=(9.0, 3.0, 1.0)),  # pan 71.6
        Unit(position="p", number="2", kind="k", at=-1.0, point=(-1.0, 0.0, 0.0)),  # straight down
    ]
    data = cards(solve_rig(a_scene(units)))
    first, second = ({run.words: run.size for run in card_of(data, k)} for k in (0, 1))
    assert first["SL 72°"] == 20
    assert "DIAL, no tape" in first
    assert "SL 72°, square US" in first
    assert second["PAN FREE"] == 20


def test_a_card_of_a_leaning_stem_gives_the_dial_that_is_set_first():
    # Gallery bar SL/2 of the raked stage, worked in tests/sheets/test_printed_by_hand.py: dial US 44, from
    # square SR; its true heading is told where it is drawn.
    rig = rig_of("raked")
    said = {
        r.words: r.size for r in card_of(made("raked", "a4", "m"), rig.by_name["gallery bar SL/2"])
    }
    assert said["US 44°"] == 20
    assert "DIAL from square" in said  # of a bar that is askew: SR is 22 degrees off
    assert "true 54° US of SR" in said


def test_a_card_says_where_its_stand_is_put_and_how_high_a_point_is():
    # From the scene file: floor SR at 17'-11" SR, 3'-6" US; the tree 12'-6" SR, 11'-10" US (deck marks go by
    # 3 in), 8' up.
    rig = rig_of("playhouse")
    said = " | ".join(
        r.words for r in card_of(made("playhouse", "letter", "ft"), rig.by_name["floor SR/1"])
    )
    step = card_of(made("arena", "a4", "m"), rig_of("arena").by_name["step SL/1"] + 2)
    words = {run.words for run in step}  # after the two cards of the crier's further spots
    assert {"STAND AT 3.50 m SL, 3.50 m US", "on step, 0.45 m UP"} <= words
    assert "STAND AT 17'-11\" SR, 3'-6\" US" in said
    assert "POINT tree: 12'-6\" SR, 11'-9\" US, 8'-0\" UP" in said


def test_a_card_says_where_the_tape_begins_where_that_is_not_the_centre_line():
    # The house bar of the raked stage runs across, its zero on the centre line; the back bar's is its middle.
    rig = rig_of("raked")
    for name, zero in (("house bar", False), ("roof bar", True)):
        taped = next(a for a in rig.answers if a.position == name and a.sight is not None)
        card = card_of(made("raked", "a4", "m"), rig.by_name[f"{name}/{taped.number}"])
        assert any("zero opposite middle" in run.words for run in card) is zero


def test_a_boom_card_gives_the_heading():
    boom = Boom(name="b", x=-6.0, y=0.0, height=5.0)
    arm = Unit(
        position="b",
        number="1",
        kind="k",
        at=3.0,
        mount="arm",
        arm=0.5,
        arm_to=90.0,
        point=(0.0, -2.0, 1.0),
    )
    said = {
        r.words: r.size
        for r in card_of(cards(solve_rig(a_scene([arm], pipes=[], booms=[boom]))), 0)
    }
    assert said["DS 20°"] == 20  # atan(2 / 5.5) = 20.0
    assert "HEADING off across to SL" in said


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_no_text_overlaps_or_leaves_the_page_or_its_card(scene, paper, length):
    data = made(scene, paper, length)
    for page, size in zip(pdf_reading.runs(data), pdf_reading.sizes(data), strict=True):
        assert pdf_reading.overlaps(page) == []
        assert pdf_reading.outside(page, size) == []
        foot = max(run.top for run in page if "GEOMETRY" in run.words)
        for run in page:
            assert run.top <= foot or not run.left < size[0] / 2 < run.right, run.words


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_there_is_no_minus_sign_and_no_bare_side(scene, paper, length):
    pdf_reading.assert_no_signs(made(scene, paper, length))


def test_large_figures_have_units():
    for choice in CHOICES:
        for page in pdf_reading.runs(made(*choice)):
            for run in page:
                if 14 < run.size < 38 and re.search(r"\d", run.words):
                    assert re.search(r"\d°|\d m\b|\d\"", run.words), run.words


def test_every_page_is_counted_and_every_card_carries_a_caution_and_the_revision():
    data = made("playhouse", "letter", "ft")
    texts = pdf_reading.pages(data)
    for number, text in enumerate(texts, 1):
        assert f"page {number} of {len(texts)}" in " ".join(text.split())
        assert "GEOMETRY ONLY" in text
    for k in range(len(rig_of("playhouse").units)):
        foot = " ".join(run.words for run in card_of(data, k) if run.size < 10.5)
        assert foot.count("Lock, safety cable, THEN aim.") == 1
        assert foot.count("The Orchard Clock") == foot.count("rev D") == 1


def test_draft_lies_across_every_page_of_a_draft():
    data = made("studio", "a4", "m", True)
    for text, level in zip(pdf_reading.pages(data), pdf_reading.runs(data), strict=True):
        assert text.count("DRAFT") - sum(run.words.count("DRAFT") for run in level) == 1


def test_the_same_rig_gives_the_same_bytes():
    rig = rig_of("raked")
    again = cards(solve_rig(rig.scene), findings(rig), paper="a4", length="m")
    assert again == made("raked", "a4", "m")


def test_long_names_and_numbers_stay_within_their_card():
    kind = a_kind("profile spot with a very long name of its own 25/50", oval=(24.0, 48.0))
    units = [
        Unit(
            position="p",
            number=f"10{k}-spare",
            kind=kind.name,
            at=-k,
            channel="1001/1002",
            point=(9.0, 3.0, 0.5),
        )
        for k in range(4)
    ]
    data = cards(solve_rig(a_scene(units, kinds=[kind], revision="of many words")), length="ft")
    pdf_reading.assert_apart(data)


def test_a_scene_without_units_says_so():
    assert "This scene has no units." in pdf_reading.pages(cards(solve_rig(a_scene([]))))[0]


def test_a_card_names_its_own_tape_and_the_dial_leads_where_there_is_none():
    # Out to US the deck ends 2.4 m from the pipe, to DS a hand's breadth: one tape, one dial.
    units = [
        Unit(position="p", number="1", kind="k", at=0.0, point=(2.0, 2.0, 1.5)),
        Unit(position="p", number="2", kind="k", at=0.0, point=(0.0, -2.0, 1.5)),
    ]
    stage = Stage(outline=((-4, -0.1), (4, -0.1), (4, 2.4), (-4, 2.4)))
    data = cards(solve_rig(a_scene(units, stage=stage)))
    first, second = ([run.words for run in card_of(data, k)] for k in (0, 1))
    assert "TAPE 2.00 m US" in first
    assert "DIAL, no tape" in second
    assert "SQUARE, square DS" in second


def test_a_card_says_what_comes_first_at_its_unit():
    units = [
        Unit(position="p", number=n, kind="k", at=x, point=(x + 1, 5.0, 1.0))
        for n, x in (("1", 2.0), ("2", -2.0))
    ]
    found = [Finding("warn", "turn-first", "Turn unit 1 before it is tipped.", "Pan.", unit="p/1")]
    data = cards(solve_rig(a_scene(units)), found)
    first, second = ([run.words for run in card_of(data, k)] for k in (0, 1))
    assert "SET: TURN, THEN TIP" in first
    assert not any(words.startswith("SET:") for words in second)


def test_a_pole_s_height_is_told_above_what():
    # 5.644 m up, 20 m off, at 1.65 m: down atan(3.994 / 20) = 11.3, too flat for a mark on the floor.
    target = Target(name="t", x=0.0, y=20.0)
    unit = Unit(position="p", number="1", kind="k", at=0.0, target="t")
    said = [run.words for run in card_of(cards(solve_rig(a_scene([unit], [target]))), 0)]
    assert "POLE, above the deck" in said
    assert "1.65 m, at STAND" in said


def test_the_card_of_a_further_spot_says_that_nothing_is_locked_by_it():
    # Arena, truss 4: its crier has two further spots.
    data = cards(rig_of("arena"), (), length="m")
    said = [" ".join(run.words for run in card_of(data, k)) for k in range(22 + 2)]
    spots = [card for card in said if "truss SPOT" in card]
    assert len(spots) == 2
    assert [card for card in said if "CHECK ONLY: locked by its first card" in card] == spots
