"""The test sheet, made from the worked scenes and read back."""

from __future__ import annotations

import io
from functools import cache

import msgspec
import pytest

from aimcalc.hang.plan import hang_plan
from aimcalc.rig.rig import Rig
from aimcalc.scene.model import Circuit, Unit
from aimcalc.sheets.test_sheet import COLUMNS, SPARE, check_out, reported, sections, to_do_words
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_kind, a_pipe, a_scene
from tests.sheets import pdf_reading
from tests.shows import a_show, rig_of

CHOICES = [("studio", "a4", "m"), ("playhouse", "letter", "ft"), ("raked", "a4", "m")]


def sheet(rig: Rig, **options) -> bytes:
    stream = io.BytesIO()
    told = check_out(a_show(rig, []), stream, PaperOptions(**options))
    assert told == len(pdf_reading.sizes(stream.getvalue()))
    return stream.getvalue()


@cache
def made(scene: str, paper: str, length: str) -> bytes:
    return sheet(rig_of(scene), paper=paper, length=length)


def unit(number, at=0.0, **values):
    return Unit(position="p", number=number, kind="k", at=at, point=(at, 5.0, 1.0), **values)


def rig_with(units, circuits=(), **scene):
    pipes = [a_pipe(circuits=tuple(circuits))]
    return solve_rig(a_scene(units, pipes=pipes, kinds=[a_kind(watts=500.0)], **scene))


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_every_unit_is_on_its_circuit_s_line(scene, paper, length):
    data, rig = made(scene, paper, length), rig_of(scene)
    lines = [line for page in pdf_reading.runs(data) for line in _lines(page)]
    for unit in rig.units:
        beside = [
            line
            for line in lines
            if [x for x in line if x != "none"][-2:] == [unit.channel, unit.kind]
        ]
        assert any(unit.number in line for line in beside), (unit.position, unit.number)
    circuits = [line[0] for line in lines if len(line) >= 4]
    for circuit in {unit.circuit for unit in rig.units}:
        assert circuits.count(circuit) == 1


def _lines(page):
    """The runs of a page as lines, each read along; a base line is shared to within 2 pt."""
    lines: list[list[pdf_reading.Said]] = []
    for run in sorted((r for r in page if r.size == 11), key=lambda r: -(r.bottom + r.top)):
        middle = (run.bottom + run.top) / 2
        if lines and abs((lines[-1][0].bottom + lines[-1][0].top) / 2 - middle) < 4:
            lines[-1].append(run)
        else:
            lines.append([run])
    return [[run.words for run in sorted(line, key=lambda r: r.left)] for line in lines]


def test_units_on_one_circuit_stand_under_it_and_idle_circuits_are_named():
    circuits = [Circuit(name=name, at=0.0, limit_amps=20.0) for name in ("A1", "A2", "A3")]
    rig = rig_with([unit("1", circuit="A2"), unit("2", -1.0, circuit="A2")], circuits)
    (pipe, spare) = sections(rig, hang_plan(rig))
    assert pipe.note.endswith("Not in use: A1, A3.")
    assert [row[:3] for row in pipe.rows] == [["A2", "1000 W of 20 A", "1"], ["", "", "2"]]
    assert (spare.title, spare.blank) == ("Spare lines", SPARE)


def test_a_circuit_on_two_positions_names_its_units_whole():
    pipes = [a_pipe(), a_pipe("q", y=2.0)]
    units = [
        unit("1", circuit="A"),
        Unit(position="q", number="1", kind="k", at=0.0, point=(0, 9, 1), circuit="A"),
    ]
    rig = solve_rig(a_scene(units, pipes=pipes))
    (first, *_) = sections(rig, hang_plan(rig))
    assert [row[2] for row in first.rows] == ["p/1", "q/1"]


def test_units_without_a_circuit_are_listed_by_themselves():
    rig = rig_with([unit("1", circuit="A"), unit("2", -1.0)])
    titles = [section.title for section in sections(rig, hang_plan(rig))]
    assert titles == ["p", "No circuit given", "Spare lines"]


@pytest.mark.parametrize(
    ("values", "words"),
    [
        ({}, ""),
        ({"hung": "tail down"}, "tail down"),
        ({"hung": "tail up", "works": True}, "tail up, works"),
        ({"works": False}, "NOT WORKING"),
    ],
)
def test_what_was_typed_back_is_told(values, words):
    assert reported(unit("1", **values)) == words


def test_a_long_report_goes_on_to_a_second_line_and_is_not_squeezed():
    # Small type and narrow letters are for names: whether a unit works is read at arm's length.
    (page,) = pdf_reading.runs(sheet(rig_with([unit("1", hung="tail down", works=False)])))
    (kind,) = [run for run in page if run.words == "k"]
    told = [
        run for run in page if (run.left >= 500 and "tail" in run.words) or "WORKING" in run.words
    ]
    assert " ".join(run.words for run in told).endswith("WORKING")
    assert {run.size for run in told} == {kind.size}


def test_what_is_still_to_do_is_counted():
    units = [
        unit("1", 3.0),
        unit("2", 2.0, hung="tail down"),
        unit("3", 1.0, hung="tail down", works=True),
        unit("4", 0.0, hung="tail down", works=False),
    ]
    told = to_do_words(hang_plan(rig_with(units)))
    assert told == "Still to hang: 1 unit. Still to test: 2 units. Did not come on: p/4."
    done = to_do_words(hang_plan(rig_with([unit("1", works=True)])))
    assert done == "Still to hang: none. Still to test: none."
    new = to_do_words(hang_plan(rig_with([unit("1", 1.0), unit("2", 0.0)])))
    assert new == "Still to hang: 2 units. Still to test: 2 units."


def test_only_kinds_that_have_shutters_have_a_box_for_them():
    kinds = [a_kind("k"), a_kind("wash", family="fresnel")]
    units = [unit("1", circuit="A"), msgspec.structs.replace(unit("2", -1.0), kind="wash")]
    rig = solve_rig(a_scene(units, kinds=kinds))
    rows = [row for section in sections(rig, hang_plan(rig)) for row in section.rows]
    heads = [col.head for col in COLUMNS]
    assert [row[heads.index("shutters\nout")] for row in rows] == ["", "none"]
    assert [row[heads.index("comes\non")] for row in rows] == ["", ""]


def test_the_sheet_says_what_to_tick_and_how_to_type_it_back():
    first = " ".join(pdf_reading.pages(made("playhouse", "letter", "ft"))[0].split())
    heads = [run.words for run in pdf_reading.runs(made("playhouse", "letter", "ft"))[0]]
    for upper, lower in (("comes", "on"), ("unit", "named"), ("shutters", "out"), ("tail", "up")):
        assert upper in heads
        assert lower in heads
    assert "hung = tail down (or tail up), works = yes (or no)" in first
    assert "Still to hang: 78 units. Still to test: 78 units." in first


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_no_text_overlaps_leaves_the_page_or_has_a_minus_sign(scene, paper, length):
    data = made(scene, paper, length)
    pdf_reading.assert_apart(data)
    pdf_reading.assert_no_signs(data)
    for text in pdf_reading.pages(data):
        assert "GEOMETRY ONLY" in text


def test_a_scene_without_units_has_spare_lines():
    data = sheet(solve_rig(a_scene([])))
    assert "Spare lines" in pdf_reading.pages(data)[0]


def test_the_same_rig_gives_the_same_bytes():
    rig = rig_of("raked")
    assert sheet(solve_rig(rig.scene), paper="a4", length="m") == made("raked", "a4", "m")
