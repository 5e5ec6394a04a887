"""The hang sheets, made from the worked scenes and read back."""

from __future__ import annotations

import io
import re
from functools import cache

import pytest

from aimcalc.rig.rig import Rig
from aimcalc.scene.model import Boom, Circuit, Pipe, Stand, Unit
from aimcalc.sheets.hang_sheets import hang_sheets
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_kind, a_pipe, a_scene
from tests.sheets import pdf_reading
from tests.shows import a_show, rig_of

CHOICES = [
    ("studio", "a4", "m"),
    ("studio", "letter", "ft"),
    ("playhouse", "letter", "ft"),
    ("playhouse", "a4", "m"),
    ("raked", "a4", "m"),
    ("raked", "letter", "ft"),
]
INCH = 0.0254
TITLES = {Pipe: "HANG", Boom: "HANG ON THE BOOM", Stand: "SET UP"}


def sheets(rig: Rig, found=(), **options) -> bytes:
    stream = io.BytesIO()
    told = hang_sheets(a_show(rig, found), stream, PaperOptions(**options))
    assert told == len(pdf_reading.sizes(stream.getvalue()))
    return stream.getvalue()


@cache
def made(scene: str, paper: str, length: str, draft: bool = False) -> bytes:
    return sheets(
        rig_of(scene), a_show(rig_of(scene)).findings, paper=paper, length=length, draft=draft
    )


def pages_of(data: bytes, rig: Rig, name: str) -> list[list[pdf_reading.Said]]:
    title = f"{name} {TITLES[type(rig.scene.positions[name])]}"
    return [page for page in pdf_reading.runs(data) if any(title == run.words for run in page)]


def row_words(page: list[pdf_reading.Said], number: str) -> list[str] | None:
    """Everything said beside a unit's number; None where the page does not have it."""
    first = min(run.left for run in page if run.size == 20)
    column = sorted(
        (run for run in page if run.size == 20 and run.left < first + 25), key=lambda run: -run.top
    )
    for k, run in enumerate(column):
        if run.words == number:
            low = column[k + 1].top + 3 if k + 1 < len(column) else run.top - 45
            return [other.words for other in page if low < other.top < run.top + 3]
    return None


# A second way to words: feet and inches by whole quarters of an inch, metres by whole half centimetres.
def as_printed(metres: float, length: str) -> str:
    if length == "m":
        text = f"{int(abs(metres) / 0.005 + 0.5 + 1e-9) * 0.005:.3f}"
        return f"{text[:-1] if text.endswith('0') else text} m"
    quarters = int(abs(metres) / INCH * 4 + 0.5 + 1e-9)
    inches, rest = divmod(quarters % 48, 4)
    return f"{quarters // 48}'-{inches}{('', ' 1/4', ' 1/2', ' 3/4')[rest]}\""


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_every_unit_s_mark_ends_circuit_and_kind_are_in_its_row(scene, paper, length):
    data, rig = made(scene, paper, length), rig_of(scene)
    for name, members in rig.rows.items():
        pages, position = pages_of(data, rig, name), rig.scene.positions[name]
        for k in members:
            unit = rig.units[k]
            found = [words for page in pages if (words := row_words(page, unit.number))]
            assert len(found) == 1, rig.names[k]
            told = {unit.kind, unit.circuit} - {None}
            if isinstance(position, Pipe):
                low, high = _ends_by_x_or_y(position)
                told |= {
                    f"{low[1]} {as_printed(unit.at - low[0], length)}",
                    f"{high[1]} {as_printed(high[0] - unit.at, length)}",
                }
                if abs(unit.at) > 0.003:
                    told.add(f"{as_printed(unit.at, length)} {(high if unit.at > 0 else low)[1]}")
            if isinstance(position, Boom):
                told.add(f"{as_printed(unit.at, length)} UP")
            assert told - set(found[0]) == set(), rig.names[k]


def _ends_by_x_or_y(pipe):
    """Ends of a pipe as `at`, worked out from the clamp-free geometry: distance from the zero point."""
    axis = 0 if abs(pipe.end[0] - pipe.start[0]) >= abs(pipe.end[1] - pipe.start[1]) else 1
    words = (("SR", "SL"), ("DS", "US"))[axis]
    long = sum((b - a) ** 2 for a, b in zip(pipe.start, pipe.end, strict=True)) ** 0.5
    low, high = sorted((pipe.start, pipe.end), key=lambda point: point[axis])
    if pipe.zero == "centre line":
        share = -low[0] / (high[0] - low[0])
    else:
        share = {
            "middle": 0.5,
            "start": float(pipe.start != low),
            "end": float(pipe.end != low),
        }[pipe.zero]
    return (-share * long, words[0]), ((1 - share) * long, words[1])


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_no_text_overlaps_or_leaves_the_page(scene, paper, length):
    data = made(scene, paper, length)
    pdf_reading.assert_apart(data)


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_there_is_no_minus_sign_and_no_bare_side(scene, paper, length):
    pdf_reading.assert_no_signs(made(scene, paper, length))


def test_every_page_has_stance_steps_ticks_initials_cautions_and_its_count():
    data = made("playhouse", "letter", "ft")
    texts = [" ".join(text.split()) for text in pdf_reading.pages(data)]
    for number, text in enumerate(texts, 1):
        assert f"page {number} of {len(texts)}" in text
        assert "GEOMETRY ONLY" in text
        assert "You stand " in text
        assert "through the yoke" in text or "stand on its mark" in text
        assert "upright: clip above, tail below" in text
        assert "initials" in text
    page = pages_of(data, rig_of("playhouse"), "pipe 1")[0]
    ticks = [run.words for run in sorted(page, key=lambda run: run.left) if run.words in STEPS]
    assert ticks == STEPS


STEPS = [
    *("clamp", "opening", "snug", "wrench", "safety", "tail", "shutters", "clip"),
    *("point", "lock", "cable", "tie", "test"),
]


def test_weight_lines_and_rating_stand_at_the_head_of_the_first_page():
    # House pipe: 42 ft at 2.72 lb/ft is 114.2 lb; ten units of 18 lb and ten of 7 kg (15.43 lb): 448.6 lb.
    first, second = pages_of(made("playhouse", "letter", "ft"), rig_of("playhouse"), "house pipe")
    told = " ".join(run.words for run in first)
    assert "448.6 lb: pipe 114.2 lb and 20 units." in told
    assert "Posted rating 1000.0 lb" in told
    assert "WEIGHT" not in [run.words for run in second]
    (pipe,) = pages_of(made("playhouse", "letter", "ft"), rig_of("playhouse"), "pipe 1")
    assert "LINES" in [run.words for run in pipe]


def test_findings_about_hanging_are_in_the_row_they_are_about_and_aims_are_left_out():
    rig = solve_rig(
        a_scene(
            [Unit(position="p", number=str(k), kind="k", at=-k, point=(-k, 5, 1)) for k in (1, 2)]
        )
    )
    found = [
        Finding("stop", "off-the-end", "It is off the end.", "Move it.", unit="p/2"),
        Finding("warn", "open-pool", "Its pool is open.", "Look.", unit="p/1"),
        Finding("warn", "too-close", "They are close.", "Move.", position="p"),
        Finding("warn", "turn-first", "Turn it first.", "Pan, then tip.", unit="p/2"),
    ]
    (page,) = pdf_reading.runs(sheets(rig, found))
    tops = {run.words: run.top for run in page}
    assert tops["It is off the end."] < tops["2"] < tops["1"] < tops["They are close."]
    assert "Its pool is open." not in tops
    assert tops["Turn it first."] < tops["2"]


def test_circuits_over_their_limit_are_told_at_the_head():
    pipe = a_pipe(circuits=(Circuit(name="A1", at=0.0, limit_watts=500.0),))
    unit = Unit(position="p", number="1", kind="k", at=0.0, point=(0, 5, 1), circuit="A1")
    rig = solve_rig(a_scene([unit], pipes=[pipe], kinds=[a_kind(watts=750.0)]))
    text = " ".join(pdf_reading.pages(sheets(rig))[0].split())
    assert "STOP Circuit A1 carries 750 W, over its entered limit of 500 W" in text


@pytest.mark.parametrize(("paper", "length"), [("a4", "m"), ("letter", "ft")])
def test_cells_keep_inside_their_lines(paper, length):
    from aimcalc.paper.page import body_of
    from aimcalc.paper.table import grid
    from aimcalc.sheets.hang_sheets import hang_columns

    body = body_of(PaperOptions(length=length, paper=paper), True)
    edges = grid(hang_columns("pipe", "CENTRE"), body.left, body.right, STEPS).edges[1:-1]
    for page in pages_of(made("playhouse", paper, length), rig_of("playhouse"), "pipe 1"):
        low = min(run.bottom for run in page if re.fullmatch(r"ch \d+", run.words))
        high = max(run.top for run in page if run.words == "1")
        cells = [run for run in page if low - 8 <= run.bottom and run.top <= high + 1]
        assert len(cells) > 80
        for run in cells:
            assert [edge for edge in edges if run.left < edge < run.right] == [], run.words


def test_a_long_row_of_long_names_still_fits():
    kind = a_kind("profile spot with a very long name of its own 25/50", weight=17.25, watts=1200)
    circuits = tuple(Circuit(name=f"DIM 1{k}0-FAR", at=k - 6.0, limit_amps=20.0) for k in range(12))
    units = [
        Unit(
            position="p",
            number=f"10{k}-spare",
            kind=kind.name,
            at=-k - 1 / 3,
            channel="1001/1002",
            point=(9.0, 3.0, 0.5),
            mount="out",
            swing_out=33.0,
            circuit=f"DIM 1{k}0-FAR",
        )
        for k in range(9)
    ]
    pipe = a_pipe(circuits=circuits)
    rig = solve_rig(a_scene(units, kinds=[kind], pipes=[pipe]))
    data = sheets(rig, a_show(rig).findings, length="ft", paper="letter")
    pdf_reading.assert_apart(data)


def test_draft_lies_across_every_page_of_a_draft():
    data = made("studio", "a4", "m", True)
    for text, level in zip(pdf_reading.pages(data), pdf_reading.runs(data), strict=True):
        assert text.count("DRAFT") - sum(run.words.count("DRAFT") for run in level) == 1


def test_the_same_rig_gives_the_same_bytes():
    rig = rig_of("raked")
    again = solve_rig(rig.scene)
    assert sheets(again, a_show(again).findings, paper="a4", length="m") == made("raked", "a4", "m")


def test_a_scene_without_units_says_so():
    assert "This scene has no units." in pdf_reading.pages(sheets(solve_rig(a_scene([]))))[0]


def test_a_twofer_stands_under_its_row():
    # E2 serves both outermost cyc units of pipe 5, each with a cable of its own.
    words = " ".join(" ".join(pdf_reading.pages(made("playhouse", "letter", "ft"))).split())
    assert "TWOFER at the outlet with 2" in words
