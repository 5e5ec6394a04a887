"""Labels, measured as ink and read back."""

from __future__ import annotations

import io
from functools import cache

import numpy as np
import pytest

from aimcalc import cli
from aimcalc.scene.model import Boom, Unit
from aimcalc.sheets.unit_labels import labels
from aimcalc.solid.rig import solve_rig
from aimcalc.text.label_sheet import LabelSheet
from aimcalc.text.stamp import PaperOptions, set_mark
from tests.rigs import a_pipe, a_scene
from tests.sheets import pdf_reading
from tests.sheets.ink import MM, ink
from tests.shows import SCENES, a_show, rig_of

CHOICES = [("playhouse", "letter", "ft"), ("studio", "a4", "m"), ("arena", "a4", "m")]
PAPER = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}


def made_of(rig, findings=(), **options) -> bytes:
    stream = io.BytesIO()
    told = labels(a_show(rig, findings), stream, PaperOptions(**options))
    assert told == len(pdf_reading.sizes(stream.getvalue()))
    return stream.getvalue()


@cache
def made(scene, paper, length) -> bytes:
    return made_of(rig_of(scene), paper=paper, length=length)


def one_unit(**values):
    unit = {"position": "p", "number": "7", "kind": "k", "at": 0.0, "point": (2.0, 5.0, 1.0)}
    return Unit(**{**unit, **values})


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_nothing_overlaps_leaves_the_page_or_reads_as_a_minus_sign(scene, paper, length):
    data = made(scene, paper, length)
    for runs, size in zip(pdf_reading.runs(data), pdf_reading.sizes(data), strict=True):
        assert pdf_reading.overlaps(runs) == []
        assert pdf_reading.outside(runs, size) == []
    text = " ".join(pdf_reading.pages(data))
    assert pdf_reading.minus_signs(text) == []
    assert pdf_reading.bare_sides(text) == []


@pytest.mark.parametrize(
    ("sheet", "paper"),
    [
        (LabelSheet(3, 8, 63.5, 33.9, gaps=(2.5, 0.0)), "a4"),
        (LabelSheet(2, 7, 99.1, 38.1, margins=(4.65, 15.15), gaps=(2.5, 0.0)), "a4"),
        (LabelSheet(3, 10, 66.675, 25.4, gaps=(3.175, 0.0)), "letter"),
        (LabelSheet(4, 11, 45.0, 24.0), "a4"),
    ],
)
def test_all_words_of_a_label_stand_on_it(sheet, paper):
    """Every run of the playhouse's labels lies inside one label, but for the page's own line."""
    rig = rig_of("playhouse")
    data = made_of(rig, paper=paper, length="ft", labels=sheet)
    left, top = sheet.begins(PAPER[paper])
    high = PAPER[paper][1]
    for runs in pdf_reading.runs(data)[1:]:
        for run in runs:
            if run.bottom < 24:  # the page's own line, whose letters stand on 16.5 pt
                continue
            x, y = run.left / MM - left, high - run.top / MM - top
            across = x % (sheet.width + sheet.gaps[0])
            down = y % (sheet.height + sheet.gaps[1])
            assert x > -0.01, run
            assert y > -0.01, run
            assert across + (run.right - run.left) / MM <= sheet.width + 0.01, run
            assert down + (run.top - run.bottom) / MM <= sheet.height + 0.01, run


@pytest.mark.parametrize(("paper", "length"), [("a4", "m"), ("letter", "ft")])
def test_outlines_and_proof_bars_measure_true(paper, length):
    data = made_of(solve_rig(a_scene([one_unit()])), paper=paper, length=length)
    proof = ink(data, 0)
    wide, tall = {"a4": (63.5, 33.9), "letter": (66.675, 25.4)}[paper]
    gap = {"a4": 2.5, "letter": 3.175}[paper]
    left = (PAPER[paper][0] - 3 * wide - 2 * gap) / 2
    rows = {"a4": 8, "letter": 10}[paper]
    top = (PAPER[paper][1] - rows * tall) / 2
    y = PAPER[paper][1] - top - tall / 2
    found = [x for x in np.arange(left - 1, left + wide + 1, 0.02) if proof.at(x, y)]
    assert min(found) == pytest.approx(left, abs=0.25)
    assert max(found) == pytest.approx(left + wide, abs=0.25)
    true = 101.6 if length == "ft" else 100.0
    (words,) = (run for run in pdf_reading.runs(data)[0] if "both ways, or bin it" in run.words)
    x, y = words.left / MM, words.bottom / MM
    bars = [row for row in np.arange(y - 4, y, 0.05) if proof.at(x + 50, row)]
    start, end = proof.across(x + 50, bars[len(bars) // 2])
    assert end - start == pytest.approx(true, abs=0.2)


def test_every_unit_has_a_label_in_hang_order_with_what_its_row_says():
    rig = rig_of("playhouse")
    text = [" ".join(t.split()) for t in pdf_reading.pages(made("playhouse", "letter", "ft"))]
    text = " ".join(text[1:])
    assert text.count("SL END") == 0
    numbers = [
        (unit.number, unit.channel, unit.circuit, unit.colour or "no colour") for unit in rig.units
    ]
    place = 0
    for number, channel, circuit, colour in numbers:
        place = text.index(f"ch {channel}, {circuit} {colour}", place)
        assert number in text


def test_a_label_has_number_position_channel_circuit_colour_and_turn():
    # 5 m out and 2 m to SL: atan(2 / 5) = 21.8 degrees.
    unit = one_unit(channel="12", circuit="A3", colour="straw")
    words = [run.words for run in pdf_reading.runs(made_of(solve_rig(a_scene([unit]))))[1]]
    for wanted in ("7", "p", "ch 12, A3", "straw", "SL 22°", "SR", "SL", "US"):
        assert wanted in words


def test_the_arrow_goes_to_the_side_that_the_nose_swings_to():
    """Ink of the arrow's head: past the middle to SL (the reader's second hand), facing US."""
    for x, sense in ((3.0, 1), (-3.0, -1)):
        data = made_of(solve_rig(a_scene([one_unit(point=(x, 5.0, 1.0))])))
        (us,) = (run for run in pdf_reading.runs(data)[1] if run.words == "US")
        middle, top = (us.left + us.right) / 2 / MM, us.bottom / MM
        page = ink(data, 1)
        to_sr = page.part(middle - 7, top - 12, middle - 1, top - 0.5).sum()
        to_sl = page.part(middle + 1, top - 12, middle + 7, top - 0.5).sum()
        assert (to_sl - to_sr) * sense > 500


def test_either_end_of_every_cable_has_a_label_with_where_from_where_to_and_how_long():
    # scenes/playhouse: pipe 1 unit 3 at 7'-0" SL on outlet A4 at 8'-9" SL takes a 5 ft cable (hang sheet).
    text = " ".join(" ".join(pdf_reading.pages(made("playhouse", "letter", "ft"))).split())
    rig = rig_of("playhouse")
    cables = a_show(rig).hang.cables
    assert text.count("OUTLET END") == text.count("UNIT END") == len(cables)
    assert text.count("FROM A4, 8'-9\" SL, pipe 1 TO unit 3, pipe 1") == 2
    assert "5 ft" in text


def test_the_row_where_the_page_s_own_line_stands_stays_empty():
    # 8 rows of 37 mm fill 296 of 297 mm: the lowest is left to the page's line, 7 rows of 2 are filled.
    sheet = LabelSheet(2, 8, 105.0, 37.0)
    units = [one_unit(number=str(k), at=-9.0 + k) for k in range(15)]
    data = made_of(solve_rig(a_scene(units)), labels=sheet)
    assert len(pdf_reading.sizes(data)) == 3  # the proof, 14 labels, 1 label
    assert "labels stay empty" in pdf_reading.pages(data)[0]


def test_outlines_are_drawn_only_where_nobody_says_what_the_labels_measure():
    # 3 labels of 63.5 mm and 2 gaps of 2.5 mm on 210 mm: the first begins at 7.25 mm; 12.9 mm from the top.
    rig = solve_rig(a_scene([one_unit()]))
    typed = LabelSheet(3, 8, 63.5, 33.9, gaps=(2.5, 0.0))
    for options, drawn in (({}, True), ({"labels": typed}, False)):
        page = ink(made_of(rig, **options), 1)
        edge = page.part(7.25 - 0.3, 297.0 - 12.9 - 30.0, 7.25 + 0.3, 297.0 - 12.9 - 4.0)
        assert bool(edge.any(axis=1).all()) is drawn
        assert bool(edge.any()) is drawn


def test_some_units_alone_have_their_labels_and_cables():
    rig = rig_of("playhouse")
    data = made_of(rig, length="ft", part=frozenset(["pipe 1/3"]), part_name="pipe 1/3")
    text = " ".join(pdf_reading.pages(data)[1:])
    assert text.count("ch ") == 1
    assert text.count("OUTLET END") == 1


def test_the_set_s_mark_counts_label_sheets_that_were_asked_for():
    rig = rig_of("studio")
    plain = PaperOptions()
    other = PaperOptions(labels=LabelSheet(3, 8, 63.5, 33.9))
    assert set_mark(rig, plain) != set_mark(rig, other)


def test_wrong_measures_are_refused_on_the_command_line_and_nothing_is_made(tmp_path, capsys):
    folder = tmp_path / "out"
    call = ["prep", str(SCENES / "studio"), "-o", str(folder), "--only", "labels", "--labels"]
    assert cli.run([*call, "3x8 20x10 mm"]) == 2
    assert "at least 45 x 24 mm, came 20 x 10 mm" in " ".join(capsys.readouterr().err.split())
    assert not folder.exists()
    assert cli.run([*call, "2x7 99.1x38.1 mm"]) == 0
    assert (folder / "labels.pdf").exists()


def test_where_it_points_is_told_as_its_sheet_tells_it():
    units = [one_unit(), one_unit(number="8", at=1.0, point=(1.0, 5.0, 1.0))]
    boom = Boom(name="b", x=-6.0, y=0.0, height=5.0)
    arm = {"position": "b", "mount": "arm", "arm": 0.4, "arm_to": 180.0, "at": 3.0}
    units.append(one_unit(number="9", point=(0.0, -0.4, 1.0), **arm))
    data = made_of(solve_rig(a_scene(units, pipes=[a_pipe()], booms=[boom])))
    words = [run.words for run in pdf_reading.runs(data)[1]]
    assert "SL 22°" in words
    assert "square US" in words  # straight ahead: nothing to swing
    # From 6 m SR, hung 0.4 m DS, to the centre line 0.4 m DS: straight across.
    assert "STRAIGHT" in words
