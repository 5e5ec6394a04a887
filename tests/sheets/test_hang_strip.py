"""The hang strip, made from the worked scenes and measured with pixels and a reader of its own."""

from __future__ import annotations

import io
from functools import cache

import numpy as np
import pytest

from aimcalc.findings import findings
from aimcalc.rig.rig import Rig
from aimcalc.scene.model import Pipe, Unit
from aimcalc.sheets.strip.hang_strip import hang_strip
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_scene
from tests.sheets import pdf_reading
from tests.sheets.ink import MM, ink
from tests.shows import a_show, rig_of

CHOICES = [("studio", "a4", "m"), ("playhouse", "letter", "ft"), ("raked", "a4", "m")]
ALL_PAPERS = [("studio", "letter", "m"), ("studio", "a4", "ft"), *CHOICES]
WIDTH = {"a4": 297.0, "letter": 279.4}
TILE = {"m": 250.0, "ft": 254.0}


def strip(rig: Rig, **options) -> bytes:
    stream = io.BytesIO()
    told = hang_strip(a_show(rig, []), stream, PaperOptions(**options))
    assert told == len(pdf_reading.sizes(stream.getvalue()))
    return stream.getvalue()


@cache
def made(scene: str, paper: str, length: str, draft: bool = False) -> bytes:
    return strip(rig_of(scene), paper=paper, length=length, draft=draft)


def left_of(paper: str, length: str) -> float:
    """Where tiles begin: a tile with its 12 mm of overlap in the middle of the paper."""
    return (WIDTH[paper] - TILE[length] - 12.0) / 2


@pytest.mark.parametrize(("scene", "paper", "length"), ALL_PAPERS)
def test_proof_bars_measure_true_both_ways(scene, paper, length):
    true = 101.6 if length == "ft" else 100.0
    page = ink(made(scene, paper, length), 1)
    (words,) = (
        run
        for run in pdf_reading.runs(made(scene, paper, length))[1]
        if "measure me or bin me" in run.words
    )
    x, y = words.left / MM, (words.bottom + words.top) / 2 / MM - 4.5
    bars = [row for row in np.arange(y - 3, y + 3, 0.05) if page.at(x + 50, row)]
    start, end = page.across(x + 50, bars[len(bars) // 2])
    assert end - start == pytest.approx(true, abs=0.2)
    along = left_of(paper, length) + TILE[length] + 8.5
    low, high = page.upright(along, bars[len(bars) // 2])
    assert high - low == pytest.approx(true, abs=0.2)


@pytest.mark.parametrize("facing", [1, -1], ids=["US", "DS"])
@pytest.mark.parametrize(("paper", "length"), [("a4", "m"), ("letter", "ft"), ("letter", "m")])
def test_clamp_marks_are_as_far_apart_as_the_clamps(paper, length, facing):
    """Two units 100 mm apart on one tile, a third 0.4 m on upon the next tile of the same piece.

    Facing US, the SL end, where the sheets begin, is at the end of the strip's lines: its tiles come in
    the other order.
    """
    places = {"1": 0.05, "2": -0.05, "3": -0.35}
    units = [
        Unit(position="p", number=n, kind="k", at=at, point=(at, 5.0 * facing, 1.0))
        for n, at in places.items()
    ]
    data = strip(solve_rig(a_scene(units)), paper=paper, length=length)
    found = {n: _mark_place(data, n, paper, length, -facing) for n in places}
    assert facing * (found["1"] - found["2"]) == pytest.approx(100.0, abs=0.2)
    assert facing * (found["1"] - found["3"]) == pytest.approx(400.0, abs=0.2)


def _mark_place(data: bytes, number: str, paper: str, length: str, step: int) -> float:
    """Millimetres along the strip from its first tile to a unit's mark, found as ink by its number.

    `step` is 1 where each tile follows the one before along the lines, -1 where it comes before it.
    """
    left = left_of(paper, length)
    for k, runs in enumerate(pdf_reading.runs(data)):
        said = [run for run in runs if run.words == number and run.size == 48]
        if k and said:
            (run,) = said
            upper = (run.top + run.bottom) / 2 / MM > 105
            page = ink(data, k)
            # The mark is the upright line beside the number, thicker than anything else that is upright.
            y = page_middle(data, k, upper) + 15.0
            near = np.arange(run.left / MM - 110, run.right / MM + 110, 0.03)
            near = near[(near > left + 1) & (near < left + TILE[length])]
            xs = near[_is_mark(page, near, y)]
            tile = step * (2 * (k - 1) + (0 if upper else 1))
            return tile * TILE[length] + _nearest(xs, run.left / MM, run.right / MM) - left
    raise AssertionError(f"no number {number}")


def _nearest(xs: np.ndarray, first: float, last: float) -> float:
    """The middle of the line, of those at `xs`, that is nearest to words from `first` to `last`."""
    lines = np.split(xs, np.flatnonzero(np.diff(xs) > 0.2) + 1)
    return min((float(np.mean(line)) for line in lines), key=lambda x: max(first - x, x - last))


def _is_mark(page, x: np.ndarray, y: float) -> np.ndarray:
    """Where ink goes from 10 mm below to 15 mm above: longer than any letter."""
    return page.at(x[:, None], np.linspace(y - 10, y + 15, 60)).all(axis=1)


def page_middle(data: bytes, k: int, upper: bool) -> float:
    """The y of a tile's pipe line, from its words: the tile's name stands 5 pt above its lower edge."""
    names = [run for run in pdf_reading.runs(data)[k] if ", tile " in run.words]
    run = max(names, key=lambda r: r.bottom) if upper else min(names, key=lambda r: r.bottom)
    base = run.top - 0.76 * 12  # capitals and ascenders of 12 pt
    return (base - 5) / MM + 85.0 / 2


# Pan by plain trigonometry; clockwise is negative, seen from above with the facing side up the page. The
# unit is the only one, so the page faces as it faces and the swing side tells the sense: to the reader's
# second hand (SL facing US, SR facing DS) is clockwise.
@pytest.mark.parametrize("mount", ["under", "over"])
@pytest.mark.parametrize(
    ("point", "pan", "sense"),
    [
        ((2.0, 5.0, 1.0), np.degrees(np.arctan2(2, 5)), -1),
        ((-2.0, 5.0, 1.0), np.degrees(np.arctan2(2, 5)), 1),
        ((2.0, -5.0, 1.0), np.degrees(np.arctan2(2, 5)), 1),
        ((-2.0, -5.0, 1.0), np.degrees(np.arctan2(2, 5)), -1),
        ((6.0, 2.0, 1.0), np.degrees(np.arctan2(6, 2)), -1),
        ((0.5, 5.0, 1.0), np.degrees(np.arctan2(0.5, 5)), -1),
    ],
)
@pytest.mark.parametrize(("paper", "length"), [("a4", "m"), ("letter", "ft")])
def test_the_yoke_bar_line_lies_at_its_true_angle(mount, point, pan, sense, paper, length):
    unit = Unit(position="p", number="1", kind="k", at=0.0, mount=mount, point=point)
    data = strip(solve_rig(a_scene([unit])), paper=paper, length=length)
    page = ink(data, 1, 300)
    # Zero is in the middle of the only tile; the line's second half is in one of its two quarters.
    x, y = left_of(paper, length) + TILE[length] / 2, page_middle(data, 1, True)
    sector = (3.0, 87.0) if sense > 0 else (-87.0, -3.0)
    found = page.angles(x, y, 15.0, 32.0, sector)
    assert found.size > 500
    assert np.mean(found) == pytest.approx(sense * pan, abs=0.2)
    assert np.ptp(found) < 8.0  # one line and nothing else


def test_a_bar_along_the_pipe_lies_on_the_pipe_s_line():
    unit = Unit(position="p", number="1", kind="k", at=0.0, point=(0.0, 5.0, 1.0))
    data = strip(solve_rig(a_scene([unit])))
    page = ink(data, 1, 300)
    x, y = left_of("a4", "m") + 125.0, page_middle(data, 1, True)
    for sector in ((-8.0, 8.0),):
        found = page.angles(x, y, 20.0, 50.0, sector)
        assert np.mean(found) == pytest.approx(0.0, abs=0.3)
        assert found.size > 2000


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_every_unit_has_its_number_circuit_and_kind_on_a_tile_of_its_position(scene, paper, length):
    data, rig = made(scene, paper, length), rig_of(scene)
    pages = list(zip(pdf_reading.pages(data), pdf_reading.runs(data), strict=True))[1:]
    for name, rows in rig.rows.items():
        if name.startswith("floor"):
            continue
        mine = [(t, runs) for t, runs in pages if f"{name}, tile " in t]
        numbers = [run.words for _, runs in mine for run in runs if run.size == 48]
        assert sorted(numbers) == sorted(rig.units[k].number for k in rows)
        circuits = [run.words for _, runs in mine for run in runs if run.size == 24]
        assert sorted(circuits) == sorted(rig.units[k].circuit for k in rows)


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_tiles_are_counted_in_order_and_named(scene, paper, length):
    data = made(scene, paper, length)
    named: dict[str, list[str]] = {}
    for runs in pdf_reading.runs(data)[1:]:
        tiles = sorted((run for run in runs if ", tile " in run.words), key=lambda r: -r.bottom)
        for run in tiles:
            name, _, rest = run.words.partition(", tile ")
            named.setdefault(name, []).append(rest.split(",")[0])
    for name, told in named.items():
        assert told == [f"{k} of {len(told)}" for k in range(1, len(told) + 1)], name


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_no_text_overlaps_or_leaves_the_page(scene, paper, length):
    data = made(scene, paper, length)
    pdf_reading.assert_apart(data)


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_there_is_no_minus_sign_and_no_bare_side(scene, paper, length):
    pdf_reading.assert_no_signs(made(scene, paper, length))


def test_every_page_says_where_to_stand_how_to_print_and_the_cautions():
    data = made("studio", "a4", "m")
    texts = [" ".join(text.split()) for text in pdf_reading.pages(data)]
    for number, text in enumerate(texts, 1):
        assert f"page {number} of {len(texts)}" in text
        assert "GEOMETRY ONLY" in text
    for text in texts[1:]:
        assert "Uniform scaling keeps angles, ruins lengths" in text
        assert "You stand " in text or "tape it upright" in text
    assert "NOT the beam" in texts[0]


def test_both_ends_and_the_total_length_checks_are_on_the_strip():
    texts = " ".join(" ".join(t.split()) for t in pdf_reading.pages(made("studio", "a4", "m"))[1:])
    for words in (
        "SR END",
        "SL END",
        "CENTRE LINE",
        "CHECK 1.00 m from CENTRE LINE",
        "FOOT",
        "TOP",
    ):
        assert words in texts
    feet = " ".join(" ".join(t.split()) for t in pdf_reading.pages(made("studio", "a4", "ft"))[1:])
    assert "CHECK 3'-0\" from CENTRE LINE" in feet


def test_check_lines_stand_at_their_distance_from_the_mark_beside_them():
    """Marks at 0.95 m SL and 0.05 m SR: CHECK 1.00 m is 50 mm on from one, zero 50 mm from the other."""
    units = [
        Unit(position="p", number=n, kind="k", at=at, point=(at, 5.0, 1.0))
        for n, at in (("1", 0.95), ("2", -0.05))
    ]
    data = strip(solve_rig(a_scene(units)))
    for number, words in (("1", "CHECK 1.00 m from CENTRE LINE"), ("2", "CENTRE LINE")):
        ((k, run),) = (
            (k, run)
            for k, runs in enumerate(pdf_reading.runs(data))
            for run in runs
            if k and run.words == words
        )
        page, upper = ink(data, k), run.bottom / MM > 105
        y = page_middle(data, k, upper)
        near = np.arange(run.left / MM - 6, run.left / MM, 0.05)  # its words begin after it
        x = _nearest(near[_dotted(page, near, y)], run.left / MM, run.right / MM)
        tile = -(2 * (k - 1) + (0 if upper else 1))
        check = tile * 250.0 + x - left_of("a4", "m")
        assert check - _mark_place(data, number, "a4", "m", -1) == pytest.approx(50.0, abs=0.2)


def _dotted(page, x: np.ndarray, y: float) -> np.ndarray:
    """Where there is ink half of the way, just under the pipe's line, where no words are."""
    share = page.at(x[:, None], np.linspace(y - 3.5, y - 0.7, 200)).mean(axis=1)
    return (share > 0.3) & (share < 0.75)


def test_a_unit_off_the_end_is_told_so():
    pipe = Pipe(name="p", start=(-1.0, 0.0, 6.0), end=(1.0, 0.0, 6.0))
    unit = Unit(position="p", number="1", kind="k", at=1.2, point=(0.0, 5.0, 1.0))
    text = " ".join(pdf_reading.pages(strip(solve_rig(a_scene([unit], pipes=[pipe]))))[1:])
    assert "unit 1 is" in text
    assert "0.20 m OFF IT" in text


def test_units_at_one_place_share_a_label_that_fits():
    units = [
        Unit(position="p", number="101-spare", kind="k", at=0.0, point=(2, 5, 1), circuit="long 1"),
        Unit(position="p", number="102", kind="k", at=0.0, mount="over", point=(2, 5, 1)),
        Unit(position="p", number="103", kind="k", at=0.06, point=(2, 5, 1), circuit="C3"),
    ]
    data = strip(solve_rig(a_scene(units)))
    (page,) = (p for p in pdf_reading.runs(data)[1:] if any("101" in r.words for r in p))
    assert any(run.words == "101-spare + 102" for run in page)
    assert pdf_reading.outside(page, pdf_reading.sizes(data)[1]) == []


def test_draft_lies_across_every_page_of_a_draft():
    data = made("studio", "a4", "m", True)
    for text, level in zip(pdf_reading.pages(data), pdf_reading.runs(data), strict=True):
        assert text.count("DRAFT") - sum(run.words.count("DRAFT") for run in level) == 1


def test_the_same_rig_gives_the_same_bytes():
    rig = rig_of("raked")
    assert strip(solve_rig(rig.scene), paper="a4", length="m") == made("raked", "a4", "m")


def test_however_long_a_pipe_is_its_strip_holds_no_empty_tile():
    # Six pipes of 2 km with a unit at either end: at each end its END, its mark and a bar's reach, 0.12 m +
    # 0.06 m, so at most two tiles, and one for the zero mark: at most five tiles, three pages a pipe.
    pipes = [Pipe(name=f"long {n}", start=(-999.0, n, 5.0), end=(999.0, n, 5.0)) for n in range(6)]
    units = [
        Unit(position=pipe.name, number=str(n), at=at, kind="k", point=(0.0, 9.0, 1.0))
        for pipe in pipes
        for n, at in ((1, -990.0), (2, 990.0))
    ]
    data = strip(solve_rig(a_scene(units, pipes=pipes)))
    assert len(pdf_reading.sizes(data)) <= 1 + 6 * 3


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_every_tile_holds_a_mark_a_bar_an_end_or_the_zero_mark(scene, paper, length):
    """Looked at as ink: within the bands of a tile there is more than its pipe's line."""
    data = made(scene, paper, length)
    left = left_of(paper, length)
    for k, runs in enumerate(pdf_reading.runs(data)[1:], 1):
        page = ink(data, k, 100)
        for run in (run for run in runs if ", tile " in run.words):
            low = run.bottom / MM + 6.0
            part = page.part(left + 1, low, left + TILE[length] - 3, low + 70.0)
            middle = part.shape[0] // 2
            tall = part.any(axis=1)
            tall[middle - 8 : middle + 8] = False  # the pipe's line, and a little about it
            thick = part.sum(axis=0).max() / 100 * 25.4  # mm: the pipe's line is 0.3, a bar's 1.4
            assert tall.any() or thick > 1.0, run.words


def test_the_first_tile_is_at_the_end_where_the_sheets_begin():
    # Numbers rise from SL to SR, so the rows begin at the SL end whichever way the units face.
    for y in (5.0, -5.0):
        units = [
            Unit(position="p", number=n, kind="k", at=at, point=(at, y, 1.0))
            for n, at in (("1", 4.0), ("2", 0.0), ("3", -4.0))
        ]
        data = strip(solve_rig(a_scene(units)))
        numbers = [
            run.words
            for runs in pdf_reading.runs(data)[1:]
            for run in sorted(runs, key=lambda run: -run.top)
            if run.size == 48
        ]
        assert numbers == ["1", "2", "3"]
        assert any(run.words == "SL END" for run in pdf_reading.runs(data)[1])


def test_a_mark_tells_its_place_since_pieces_are_laid_by_it():
    unit = Unit(position="p", number="1", kind="k", at=-1.2, point=(0.0, 5.0, 1.0))
    text = " ".join(pdf_reading.pages(strip(solve_rig(a_scene([unit])))))
    assert "1.20 m SR: k" in text


def test_a_scene_without_units_says_so():
    data = strip(solve_rig(a_scene([])))
    assert "Nothing hangs on a pipe or a boom" in pdf_reading.pages(data)[0]
    assert [found.rule for found in findings(solve_rig(a_scene([])))] == ["no-units"]


def test_a_boom_s_ends_are_told_from_its_own_units():
    # Boom of 3 m: units at 2.8, 2.1 and 1.5 m.
    texts = [" ".join(t.split()) for t in pdf_reading.pages(made("studio", "a4", "m"))]
    boom = " ".join(text for text in texts[1:] if "boom SL, tile " in text)
    assert "1.50 m below unit 3" in boom
    assert "0.20 m above unit 1" in boom
