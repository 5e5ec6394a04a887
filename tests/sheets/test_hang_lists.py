"""Counts, cable and circuits, as pages and as a workbook."""

from __future__ import annotations

import io
from collections import Counter
from functools import cache

import pytest
from python_calamine import CalamineWorkbook

from aimcalc.hang.plan import Item, hang_plan
from aimcalc.hang.records import STORE
from aimcalc.rig.rig import Rig
from aimcalc.scene.model import Circuit, Unit
from aimcalc.sheets.counts import (
    CABLES,
    CIRCUITS,
    cable_rows,
    circuit_rows,
    counts,
    heads,
    pull_rows,
)
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_kind, a_pipe, a_scene
from tests.sheets import pdf_reading
from tests.shows import a_show, rig_of

CHOICES = [("studio", "a4", "m"), ("playhouse", "letter", "ft"), ("raked", "a4", "m")]


def both(rig: Rig, **options) -> tuple[bytes, bytes]:
    pdf, book = io.BytesIO(), io.BytesIO()
    told = counts(a_show(rig, []), pdf, book, PaperOptions(**options))
    assert told == len(pdf_reading.sizes(pdf.getvalue()))
    return pdf.getvalue(), book.getvalue()


@cache
def made(scene: str, paper: str, length: str) -> tuple[bytes, bytes]:
    return both(rig_of(scene), paper=paper, length=length)


def table(book: bytes, name: str) -> list[list[object]]:
    return CalamineWorkbook.from_filelike(io.BytesIO(book)).get_sheet_by_name(name).to_python()


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_the_workbook_counts_what_hangs(scene, paper, length):
    """Counted a second way, straight from the scene's units."""
    rig = rig_of(scene)
    head, *rows = table(made(scene, paper, length)[1], "counts")
    found = {row[0]: dict(zip(head, row, strict=True)) for row in rows}
    kinds = Counter((unit.position, unit.kind) for unit in rig.scene.units)
    for (position, kind), number in kinds.items():
        assert found[f"unit {kind}"][position] == number
    clamped = Counter(unit.position for unit in rig.scene.units if unit.mount != "stand")
    for position, number in clamped.items():
        assert found["clamp"][position] == found["safety cable"][position] == number
    owned = {f"unit {stock.kind}": stock.count for stock in rig.scene.stock}
    for item, row in found.items():
        parts = [row[name] for name in rig.rows if name in row and row[name] != ""]
        assert sum(parts) == row["needed"]
        tenth = -(-row["needed"] // 10)  # rounded up
        if row["in store"] == "":
            assert item not in owned
            assert row["spare"] == tenth
        else:  # a tenth, but no more than there are
            assert row["spare"] == min(tenth, max(0, row["in store"] - row["needed"]))
            assert row["in store"] == owned.get(item, row["in store"])
        wanted = row["needed"] + row["spare"]
        assert row["take"] == (wanted if row["in store"] == "" else min(wanted, row["in store"]))


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_the_pages_have_the_same_counts_as_the_workbook(scene, paper, length):
    pdf, book = made(scene, paper, length)
    page = pdf_reading.runs(pdf)[0]
    for item, *_, needed, spare, take, owned, note in table(book, "counts")[1:]:
        if item.startswith("colour ") and not item.startswith("colour frame"):
            continue  # in the cut list
        (run,) = (r for r in page if r.words == item and _is_bold_row(page, r))
        beside = [r for r in page if abs(r.top + r.bottom - run.top - run.bottom) < 6]
        cells = [r.words for r in sorted(beside, key=lambda r: r.left)][1:]
        numbers = [f"{int(n)}" for n in (needed, spare, take, owned) if n != ""]
        assert cells == [*numbers, *([note] if note else [])]


def _is_bold_row(page, run):
    """A row of the whole show: three numbers beside it or more, not one."""
    beside = [r for r in page if abs(r.top + r.bottom - run.top - run.bottom) < 6]
    return len(beside) >= 4


def test_a_store_is_walked_units_first_and_cables_by_length():
    items = [
        Item("tie"),
        Item("cable", "20 ft", 20.0),
        Item("cable", "5 ft", 5.0),
        Item("colour", "amber"),
        Item("clamp"),
        Item("unit", "b"),
        Item("unit", "a"),
    ]
    assert [item.words for item in sorted(items, key=lambda item: item.walk)] == [
        *("unit a", "unit b", "clamp", "colour amber", "cable 5 ft", "cable 20 ft", "tie")
    ]
    plan = hang_plan(rig_of("raked"))
    for position in {pull.position for pull in plan.counts}:
        sorts = [STORE.index(pull.sort) for pull in plan.counts if pull.position == position]
        assert sorts == sorted(sorts)


def test_cables_are_told_with_their_laying():
    # As in tests/rig/hang: house bar H1 of the raked stage, outlet at 4.5 m SL, unit at 3.6 m SL, its tail
    # tied 0.25 m SL. The clamp is 0.9 m off and 0.3 m are kept: 1.2 m, so a 2 m cable. 0.65 m lie straight
    # to the connector, 1.35 m are over, 0.30 m of them kept: it turns 0.525 m past the connector, at
    # 3.325 m SL, told to the centimetre on the outlet's side.
    rig = rig_of("raked")
    first = cable_rows(rig, hang_plan(rig), "m")[0]
    assert first == ["house bar", "H1", "1", "2 m", "1.20 m", "4.50 m SL", "3.33 m SL", "3"]
    assert heads(CABLES)[:2] == ("position", "circuit")


def test_circuits_are_told_with_their_load_limit_and_share():
    # 2 x 575 W of 20 A at 115 V: 10 A of 20 A. (A code's 1.25 times is no part of the share.)
    circuits = (Circuit(name="A", at=0.0, limit_amps=20.0), Circuit(name="B", at=1.0))
    units = [
        Unit(position="p", number=n, kind="k", at=at, point=(0, 5, 1), circuit="A")
        for n, at in (("1", 1.0), ("2", 0.0))
    ]
    rig = solve_rig(
        a_scene(units, pipes=[a_pipe(circuits=circuits)], kinds=[a_kind(watts=575.0)], volts=115.0)
    )
    (row,) = circuit_rows(rig, hang_plan(rig))
    assert row[:6] == ["A", "p", "1, 2", "1150 W of 20 A", "10.0 A", "50 %"]
    assert len(row) == len(CIRCUITS)


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_no_text_overlaps_leaves_the_page_or_has_a_minus_sign(scene, paper, length):
    data, _ = made(scene, paper, length)
    pdf_reading.assert_apart(data)
    pdf_reading.assert_no_signs(data)
    for text in pdf_reading.pages(data):
        assert "GEOMETRY ONLY" in text


@pytest.mark.parametrize("evil", ["=1+1", "+SUM(A1)", "-2", "@cmd", '=HYPERLINK("x")'])
def test_names_that_look_like_formulas_stay_text(evil):
    pipe = a_pipe(evil)
    unit = Unit(
        position=evil, number="1", kind=evil, at=0.0, point=(0, 5, 1), colour=evil, circuit=evil
    )
    _, book = both(solve_rig(a_scene([unit], pipes=[pipe], kinds=[a_kind(evil)])))
    import zipfile

    with zipfile.ZipFile(io.BytesIO(book)) as parts:
        for name in parts.namelist():
            if name.startswith("xl/worksheets/"):
                assert b"<f>" not in parts.read(name), name
    told = [cell for row in table(book, "marks") for cell in row]
    assert evil in told
    assert evil in table(book, "counts")[0]


def test_the_workbook_has_a_sheet_for_every_list():
    book = CalamineWorkbook.from_filelike(io.BytesIO(made("playhouse", "letter", "ft")[1]))
    assert book.sheet_names == ["counts", "colours", "marks", "cable", "circuits", "wedges"]
    rig = rig_of("playhouse")
    marks = table(made("playhouse", "letter", "ft")[1], "marks")
    assert len(marks) - 1 == len(rig.units)
    assert marks[1][:4] == ["house pipe", "1", "ers-24 house", "19'-0\" SL"]


def test_a_scene_without_units_makes_empty_lists():
    pdf, book = both(solve_rig(a_scene([])))
    assert "The whole show" in pdf_reading.pages(pdf)[0]
    assert table(book, "counts")[0] == ["item", "needed", "spare", "take", "in store", "note"]


def test_the_same_rig_gives_the_same_bytes():
    rig = rig_of("raked")
    assert both(solve_rig(rig.scene), paper="a4", length="m") == made("raked", "a4", "m")


def test_the_cut_list_counts_every_colour_that_hangs():
    """Counted a second way, straight from the playhouse's list; two of its kinds have one frame size."""
    rig = rig_of("playhouse")
    head, *rows = table(made("playhouse", "letter", "ft")[1], "colours")
    assert head == ["frame", "colour", "needed", "spare", "cut"]
    got = {(frame, colour): needed for frame, colour, needed, _, _ in rows}
    size = dict.fromkeys(("ers-24 house", "ers-30 pattern"), "7 1/2 in")
    coloured = [unit for unit in rig.scene.units if unit.colour]
    assert got == Counter((size.get(unit.kind, unit.kind), unit.colour) for unit in coloured)
    for _, _, needed, spare, cut in rows:
        assert (spare, cut) == (-(-needed // 10), needed + spare)


def test_the_pull_list_says_what_the_store_cannot_give():
    # 9 of ers-20 hang in the raked scene and its store has 6; 8 fresnels of 8 leave no spare.
    rows = {row[0]: row[1:] for row in pull_rows(hang_plan(rig_of("raked")))}
    assert rows["unit ers-20"] == ["9", "0", "6", "6", "SHORT 3"]
