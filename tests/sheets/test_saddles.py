"""Saddle labels and the running tape list, measured as ink and read back."""

from __future__ import annotations

import io
from functools import cache

import numpy as np
import pytest

from aimcalc.paper.true_scale import TALL
from aimcalc.scene.model import Boom, Chord, Pipe, Unit
from aimcalc.sheets.strip.saddles import WIDE, saddle_labels
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_scene
from tests.sheets import pdf_reading
from tests.sheets.ink import MM, ink
from tests.shows import a_show, rig_of

CHOICES = [("playhouse", "letter", "ft"), ("raked", "a4", "m"), ("arena", "a4", "m")]


def saddles(rig, **options) -> bytes:
    stream = io.BytesIO()
    told = saddle_labels(a_show(rig, []), stream, PaperOptions(**options))
    assert told == len(pdf_reading.sizes(stream.getvalue()))
    return stream.getvalue()


@cache
def made(scene, paper, length) -> bytes:
    return saddles(rig_of(scene), paper=paper, length=length)


def labels(data: bytes) -> list[tuple[int, float, float]]:
    """Page, and the lower corner (mm) of every label in the order of the pages: found by its THIS EDGE."""
    found = []
    for k, runs in enumerate(pdf_reading.runs(data)):
        for run in sorted(
            (run for run in runs if run.words.startswith("THIS EDGE")),
            key=lambda run: (-run.top, run.left),
        ):
            middle = (run.left + run.right) / 2 / MM
            top = (run.bottom + 0.2) / MM + 7.0 - 5 / MM  # S and G hang 0.2 pt under their line
            found.append((k, middle - WIDE / 2, top - TALL))
    return found


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_nothing_overlaps_leaves_the_page_or_reads_as_a_minus_sign(scene, paper, length):
    data = made(scene, paper, length)
    pdf_reading.assert_apart(data)
    text = " ".join(pdf_reading.pages(data))
    assert pdf_reading.minus_signs(text) == []
    assert pdf_reading.bare_sides(text) == []


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_every_unit_on_a_pipe_has_a_label_four_a_page_in_the_order_of_the_rows(
    scene, paper, length
):
    data, rig = made(scene, paper, length), rig_of(scene)
    numbers = [
        run.words
        for runs in pdf_reading.runs(data)
        for run in sorted(runs, key=lambda run: (-round(run.bottom / 50), run.left))
        if run.size == 48
    ]
    wanted = [
        rig.units[k].number
        for name, rows in rig.rows.items()
        if isinstance(rig.scene.positions[name], Pipe)
        for k in rows
        if rig.units[k].mount != "out"  # its bar is read along its stem, not from above
    ]
    assert numbers == wanted
    pages = {k for k, _, _ in labels(data)}
    assert len(pages) == -(-len(wanted) // 4)


# As in tests/sheets/test_hang_strip.py: pan by plain trigonometry, clockwise negative, seen from above with
# the facing side up the page. The unit is the only one, so the page faces as it faces.
@pytest.mark.parametrize("mount", ["under", "over"])
@pytest.mark.parametrize(
    ("point", "pan", "sense"),
    [
        ((2.0, 5.0, 1.0), np.degrees(np.arctan2(2, 5)), -1),
        ((-2.0, 5.0, 1.0), np.degrees(np.arctan2(2, 5)), 1),
        ((2.0, -5.0, 1.0), np.degrees(np.arctan2(2, 5)), 1),
        ((-2.0, -5.0, 1.0), np.degrees(np.arctan2(2, 5)), -1),
        ((6.0, 2.0, 1.0), np.degrees(np.arctan2(6, 2)), -1),
    ],
)
@pytest.mark.parametrize(("paper", "length"), [("a4", "m"), ("letter", "ft")])
def test_the_yoke_bar_line_lies_at_its_true_angle(mount, point, pan, sense, paper, length):
    unit = Unit(position="p", number="1", kind="k", at=0.0, mount=mount, point=point)
    data = saddles(solve_rig(a_scene([unit])), paper=paper, length=length)
    ((k, left, low),) = labels(data)
    x, y = left + WIDE / 2, low + TALL / 2
    found = _direction(ink(data, k, 300), x, y, sense)
    assert found == pytest.approx(sense * pan, abs=0.2)


def _direction(page, x: float, y: float, sense: int) -> float:
    """The direction of the ink in the quarter after (x, y), 14 to 31 mm away, by its greatest spread."""
    rows, columns = np.nonzero(page.dark)
    dx, dy = (columns + 0.5) / page.per_mm - x, (rows + 0.5) / page.per_mm - y
    r, angle = np.hypot(dx, dy), np.degrees(np.arctan2(dy, dx)) * sense
    inside = (r > 14.0) & (r < 31.0) & (angle > 3.0) & (angle < 87.0)
    assert inside.sum() > 500
    assert np.ptp(angle[inside]) < 8.0  # one line and nothing else
    _, ways = np.linalg.eigh(np.cov(np.stack((dx[inside], dy[inside]))))
    along = ways[:, 1] * np.sign(ways[0, 1])
    return float(np.degrees(np.arctan2(along[1], along[0])))


@pytest.mark.parametrize(("paper", "length"), [("a4", "m"), ("letter", "ft"), ("letter", "m")])
def test_proof_bars_measure_true_both_ways(paper, length):
    unit = Unit(position="p", number="1", kind="k", at=0.0, point=(0.0, 5.0, 1.0))
    data = saddles(solve_rig(a_scene([unit])), paper=paper, length=length)
    page, true = ink(data, 1), 101.6 if length == "ft" else 100.0
    (words,) = (run for run in pdf_reading.runs(data)[1] if "measure me" in run.words)
    x, y = words.left / MM, words.bottom / MM
    bars = [row for row in np.arange(y - 4, y, 0.05) if page.at(x + 50, row)]
    start, end = page.across(x + 50, bars[len(bars) // 2])
    assert end - start == pytest.approx(true, abs=0.2)
    middle = {"a4": 297.0, "letter": 279.4}[paper] / 2
    upright = [col for col in np.arange(middle - 4, middle + 4, 0.05) if page.at(col, y + 20)]
    low, high = page.upright(upright[len(upright) // 2], y + 20)
    assert high - low == pytest.approx(true, abs=0.2)


def test_the_list_runs_from_the_end_where_the_rows_begin():
    # A pipe from 4 m SR to 6 m SL; units at 5.5, 3.0 and 1.0 SR: from the SL end 0.50, 3.00 and 7.00 m.
    pipe = Pipe(name="p", start=(-4.0, 0.0, 6.0), end=(6.0, 0.0, 6.0))
    units = [
        Unit(position="p", number=n, kind="k", at=at, point=(at, 5.0, 1.0))
        for n, at in (("1", 5.5), ("2", 3.0), ("3", -1.0))
    ]
    data = saddles(solve_rig(a_scene(units, pipes=[pipe])))
    text = " ".join(pdf_reading.pages(data)[0].split())
    assert "p: tape from SL END" in text
    assert "1 0.50 m 5.50 m SL" in text
    assert "2 3.00 m 3.00 m SL 2.50 m" in text
    assert "3 7.00 m 1.00 m SR 4.00 m" in text
    assert "7.00 m from SL END" in " ".join(pdf_reading.pages(data)[1].split())


def test_a_boom_is_in_the_list_from_its_top_and_has_no_label():
    boom = Boom(name="b", x=-6.0, y=0.0, height=5.0)
    arm = {"mount": "arm", "arm": 0.4, "arm_to": 90.0, "point": (0.0, 5.0, 1.0)}
    units = [
        Unit(position="b", number=n, kind="k", at=at, **arm) for n, at in (("1", 3.4), ("2", 2.6))
    ]
    data = saddles(solve_rig(a_scene(units, pipes=[], booms=[boom])))
    text = " ".join(pdf_reading.pages(data)[0].split())
    assert "b: tape from TOP, down" in text
    assert "2 2.40 m 2.60 m UP 0.80 m" in text
    assert len(pdf_reading.sizes(data)) == 1


def test_a_truss_is_called_a_truss_and_its_label_names_the_chord():
    chords = (Chord(name="DS top", side=-0.25, up=0.25), Chord(name="US top", side=0.25, up=0.25))
    truss = Pipe(name="t", start=(-5.0, 0.0, 6.0), end=(5.0, 0.0, 6.0), chords=chords)
    unit = Unit(position="t", number="1", kind="k", at=0.0, chord="DS top", point=(0.0, 5.0, 1.0))
    text = " ".join(pdf_reading.pages(saddles(solve_rig(a_scene([unit], pipes=[truss]))))[1:])
    assert "YOKE BAR along the truss" in text
    assert "k ON DS top" in text


def test_a_curved_pipe_and_a_unit_swung_out_are_told_of_where_there_are_any():
    said = [
        "A CURVED pipe: tape along its bend, the label's dashed line along the tube at the mark.",
        "A unit swung OUT round its pipe has no label: its yoke bar is set by the dial.",
    ]
    arena, playhouse = (pdf_reading.pages(made(*choice)) for choice in (CHOICES[2], CHOICES[0]))
    assert all(words in " ".join(arena[0].split()) for words in said)
    assert not any(words in " ".join(playhouse[0].split()) for words in said)
    labels = " ".join(" ".join(arena[1:]).split())
    assert labels.count("rail DS, curved: stand DS") == 4
    assert "truss: stand DS" in labels


def test_the_figures_of_the_list_keep_off_its_rules():
    data = made("playhouse", "letter", "ft")
    page = ink(data, 0, 300)
    for run in pdf_reading.runs(data)[0]:
        if run.size == 13:
            x, top = (run.left + run.right) / 2 / MM, run.top / MM
            over = [page.at(x, top + up) for up in np.arange(0.1, 0.5, 0.1)]
            assert not any(over), run.words


def test_some_units_alone_can_be_made():
    rig = rig_of("studio")
    data = saddles(rig, part=frozenset(["front pipe/2"]), part_name="front pipe/2")
    numbers = [run.words for runs in pdf_reading.runs(data) for run in runs if run.size == 48]
    assert numbers == ["2"]
    assert "back pipe" not in " ".join(pdf_reading.pages(data))


def test_a_scene_without_units_says_so():
    assert (
        "Nothing hangs on a pipe or a boom" in pdf_reading.pages(saddles(solve_rig(a_scene([]))))[0]
    )
