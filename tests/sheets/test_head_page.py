"""The head electrician's pages, read back."""

from __future__ import annotations

import io
from functools import cache

import pytest

from aimcalc.scene.model import Pipe, Stand, Unit
from aimcalc.sheets.head_page import MOST_TOLD, head_page
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_kind, a_pipe, a_scene
from tests.sheets import pdf_reading
from tests.shows import a_show, rig_of

CHOICES = [("playhouse", "letter", "ft"), ("studio", "a4", "m"), ("arena", "a4", "m")]


def page(rig, findings=None, **options) -> bytes:
    stream = io.BytesIO()
    told = head_page(a_show(rig, findings), stream, PaperOptions(**options))
    assert told == len(pdf_reading.sizes(stream.getvalue()))
    return stream.getvalue()


@cache
def made(scene, paper, length) -> bytes:
    return page(rig_of(scene), paper=paper, length=length)


def flat(data: bytes) -> str:
    return " ".join(" ".join(text.split()) for text in pdf_reading.pages(data))


def beside(data: bytes, number: int, name: str) -> list[str]:
    """What stands on the line of a name, on one page, in the order of reading."""
    (start,) = (run for run in pdf_reading.runs(data)[number] if run.words == name)
    line = [
        run
        for run in pdf_reading.runs(data)[number]
        if abs((run.top + run.bottom) - (start.top + start.bottom)) < 8 and run.left > start.left
    ]
    return [run.words for run in sorted(line, key=lambda run: run.left)]


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_nothing_overlaps_leaves_the_page_or_reads_as_a_minus_sign(scene, paper, length):
    data = made(scene, paper, length)
    pdf_reading.assert_apart(data)
    assert pdf_reading.minus_signs(flat(data)) == []
    assert pdf_reading.bare_sides(flat(data)) == []


def test_the_playhouse_s_head_holds_few_pages():
    assert len(pdf_reading.sizes(made("playhouse", "letter", "ft"))) <= 5


def test_stops_come_before_warnings_and_notes_are_left_to_check():
    rig = solve_rig(a_scene([Unit(position="p", number="1", kind="k", at=0.0, point=(0, 5, 1))]))
    found = [
        Finding("stop", "a", "It is off the end. More of it.", "Move it.", unit="p/1"),
        Finding("warn", "b", "Trim 6.00 m is as plotted.", "Measure it.", position="p"),
        Finding("note", "c", "Nobody needs this here.", "", position="p"),
    ]
    text = flat(page(rig, found))
    assert text.index("It is off the end.") < text.index("Trim 6.00 m is as plotted.")
    assert "More of it" not in text
    assert "Nobody needs this" not in text
    assert "STOPS: nothing goes up before these are fixed" in text


def test_many_findings_are_counted_past_the_most_that_are_told():
    rig = solve_rig(a_scene([Unit(position="p", number="1", kind="k", at=0.0, point=(0, 5, 1))]))
    found = [Finding("warn", "b", f"Number {k}.", "", position="p") for k in range(MOST_TOLD + 7)]
    text = flat(page(rig, found))
    assert f"Number {MOST_TOLD - 1}." in text
    assert f"Number {MOST_TOLD}." not in text
    assert "and 7 more: see aimcalc check" in text


def test_what_the_light_does_comes_last_and_the_whole_rig_first():
    rig = solve_rig(a_scene([Unit(position="p", number="1", kind="k", at=0.0, point=(0, 5, 1))]))
    found = [
        Finding("warn", "field-cut", "It loses 2 %.", "", unit="p/1"),
        Finding("warn", "touching", "It touches.", "", unit="p/1"),
        Finding("warn", "stock-short", "The store is short.", ""),
        Finding("stop", "a", "It is off the end.", "", unit="p/1"),
    ]
    text = flat(page(rig, found))
    said = ["It is off the end.", "The store is short.", "It touches.", "It loses 2 %."]
    places = [text.index(words) for words in said]
    assert places == sorted(places)


def test_what_is_left_out_of_the_sums_is_named_once():
    # scenes/arena: the truss has 4 led-wash with clamp and safety cable typed and 3 ers-20 without; the rails
    # and the bar have none typed, nor any frame; side arms on the ladders only.
    text = flat(made("arena", "a4", "m"))
    wanted = "Not counted: some clamps, colour frames, some safety cables, side arms and cable."
    assert wanted in text


def test_no_word_of_the_loads_is_broken():
    for choice in CHOICES:
        words = flat(made(*choice)).split()
        assert "measure" not in words
        assert "d," not in words


def test_nobody_more_is_wanted_for_the_cable_of_a_boom():
    data = made("playhouse", "letter", "ft")
    number = next(k for k, t in enumerate(pdf_reading.pages(data)) if "Who is where" in t)
    assert beside(data, number, "boom SL") == ["5", "3", "who is up"]


def test_a_rig_with_nothing_to_find_says_so():
    rig = solve_rig(a_scene([Unit(position="p", number="1", kind="k", at=0.0, point=(0, 5, 1))]))
    assert "Nothing to settle" in flat(page(rig, []))
    assert "Progress board" not in flat(page(solve_rig(a_scene([])), []))


def test_each_lift_line_has_what_a_beam_on_two_supports_puts_on_it():
    # A weightless pipe on two lines 4 m apart, one unit of 12 kg a quarter of the way along: 9 and 3 kg.
    pipe = Pipe(
        name="p",
        start=(-2.0, 0.0, 6.0),
        end=(2.0, 0.0, 6.0),
        lines=(-2.0, 2.0),
        pipe_weight=0.0,
        rating=200.0,
    )
    unit = Unit(position="p", number="1", kind="k", at=1.0, point=(0.0, 5.0, 1.0))
    rig = solve_rig(a_scene([unit], pipes=[pipe], kinds=[a_kind(weight=12.0)]))
    text = flat(page(rig, []))
    assert "2.00 m SR 3.0 kg, 2.00 m SL 9.0 kg" in text
    assert "200.0 kg" in text
    assert "Not counted: clamps, safety cables and cable" in text


def test_every_position_that_holds_units_has_a_crew_and_a_row_of_the_board():
    rig = rig_of("playhouse")
    data = made("playhouse", "letter", "ft")
    last = len(pdf_reading.sizes(data)) - 1
    used = {name: len(rows) for name, rows in rig.rows.items() if rows}
    for name, units in used.items():
        assert beside(data, last, name)[0] == str(units)
    text = pdf_reading.pages(data)[last]
    for step in ("hung", "safety", "upright", "tail", "circuit", "aimed", "tested"):
        assert step in text
    assert text.count("none") == sum(1 for p in used if p.startswith("floor"))


def test_a_stand_needs_nobody_up_and_a_pipe_needs_four():
    stand = Stand(name="floor 1", x=0.0, y=0.0)
    units = [
        Unit(position="p", number="1", kind="k", at=0.0, point=(0, 5, 1)),
        Unit(position="floor 1", number="1", kind="k", mount="stand", point=(0, 5, 1)),
    ]
    rig = solve_rig(a_scene(units, pipes=[a_pipe()], stands=[stand]))
    data = page(rig, [])
    number = next(k for k, t in enumerate(pdf_reading.pages(data)) if "Who is where" in t)
    assert beside(data, number, "floor 1") == ["1", "2", "none", "none"]
    runs = pdf_reading.runs(data)[number]
    (first, *_) = (run for run in runs if run.words == "p")
    line = sorted(
        (run for run in runs if abs(run.bottom - first.bottom) < 4 and run.left > first.left),
        key=lambda run: run.left,
    )
    assert [run.words for run in line] == ["1", "4"]


def test_one_wedge_is_cut_for_each_position_that_uses_its_angle():
    # Two pipes with a unit at 45 degrees (5 m out, 5 m aside), one of them with another at 45 the other way.
    pipes = [a_pipe("p"), a_pipe("q", y=0.0)]
    units = [
        Unit(position="p", number="1", kind="k", at=0.0, point=(5.0, 5.0, 1.0)),
        Unit(position="p", number="2", kind="k", at=1.0, point=(-4.0, 5.0, 1.0)),
        Unit(position="q", number="1", kind="k", at=0.0, point=(5.0, 5.0, 1.0)),
    ]
    data = page(solve_rig(a_scene(units, pipes=pipes)), [])
    number = next(k for k, t in enumerate(pdf_reading.pages(data)) if "Wedges to cut" in t)
    assert beside(data, number, "45°") == ["2", "300 mm out per 300 mm along", "p, q"]


def test_what_is_to_cut_and_to_take_is_there():
    text = flat(made("playhouse", "letter", "ft"))
    # scenes/playhouse: every ers-40 is lavender, 8 of them; one spare in ten, rounded up. 76 clamps: 8 spare.
    assert "ers-40 9 of lavender" in text
    assert "clamp 84 76 + 8" in text
    for words in ("wrench", "SPARE lamps", "Local rules", "stiff card"):
        assert words in text


def test_the_units_to_watch_first_are_those_of_the_budget():
    budget, rig = a_show(rig_of("playhouse")).budget, rig_of("playhouse")
    text = flat(made("playhouse", "letter", "ft"))
    told = text[text.index("Likeliest to want a nudge") :]
    worst = budget.ranked[0]
    assert f"about {budget.expected:.1f} of 78 units will want one" in told
    assert f"{rig.names[worst]} {round(100 * budget.nudge[worst])} %" in told
    assert "none is likely to land farther off" in flat(made("studio", "a4", "m"))
