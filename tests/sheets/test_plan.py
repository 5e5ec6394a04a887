"""The pool plan of the worked scenes: a page a system, every unit on it, nothing covered, no sign."""

import csv
import io
import math
import re
from collections import Counter
from functools import cache
from pathlib import Path

import msgspec
import pytest
from PIL import Image

from aimcalc.scene.model import Boom, Seats, Stage, Target, Unit
from aimcalc.sheets.plans.pool_plan import (
    MOST_BOOMS,
    MOST_LOOSE,
    MOST_UNITS,
    draw_plan,
    pool_plan,
    systems_of,
)
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_kind, a_scene
from tests.sheets import pdf_reading
from tests.shows import a_show, rig_of

SCENES = Path(__file__).parents[2] / "scenes"
FEET = PaperOptions(paper="letter", length="ft")
CASES = [("studio", PaperOptions()), ("playhouse", FEET), ("raked", PaperOptions())]


@cache
def plan_of(name, options):
    pdf, png = io.BytesIO(), io.BytesIO()
    pool_plan(a_show(rig_of(name), []), pdf, png, options)
    return pdf.getvalue(), png.getvalue()


def a_unit(number, system=None, at=None):
    place = number / 10 if at is None else at
    return Unit(position="p", number=str(number), kind="k", at=place, target="A", system=system)


@pytest.mark.parametrize(("name", "options"), CASES)
def test_no_text_covers_another_or_leaves_the_paper(name, options):
    data, _ = plan_of(name, options)
    pdf_reading.assert_apart(data)


@pytest.mark.parametrize(("name", "options"), CASES)
def test_every_page_says_what_it_was_worked_out_from(name, options):
    data, _ = plan_of(name, options)
    pages = pdf_reading.pages(data)
    settings = rig_of(name).scene.settings
    for number, text in enumerate(pages, 1):
        for said in (
            f"page {number} of {len(pages)}",
            settings.title,
            f"revision {settings.revision}",
            "GEOMETRY ONLY",
            "face height",
            "scale ",
        ):
            assert said in text
        assert re.search(r"\b(drop|pivot above stand) \d", text)
        assert pdf_reading.minus_signs(text) == []
        assert pdf_reading.bare_sides(text) == []


def test_playhouse_has_a_page_for_each_system_of_its_hang_list_with_all_its_units():
    with open(SCENES / "playhouse" / "hang.csv", newline="", encoding="utf-8-sig") as file:
        rows = list(csv.DictReader(file))
    listed = Counter(row["system"] for row in rows if row["system"])
    systems = systems_of(rig_of("playhouse"))
    named = {s.name: len(s.units) for s in systems if not s.name.startswith("no system")}
    assert named == listed
    assert sum(len(s.units) for s in systems) == len(rows)
    assert sorted(k for s in systems for k in s.units) == list(range(len(rows)))


@pytest.mark.parametrize(("name", "options"), CASES)
def test_every_unit_has_a_tag_at_its_symbol_and_nothing_is_left_out(name, options):
    data, _ = plan_of(name, options)
    rig = rig_of(name)
    pages = pdf_reading.runs(data)
    for system, page in zip(systems_of(rig), pages, strict=True):
        # Units over one another on a boom share a tag: "1, 3".
        tags = Counter(
            number
            for run in page
            if run.size == pytest.approx(14.0)
            for number in run.words.split(", ")
        )
        assert tags == Counter(rig.units[k].number for k in system.units)
    assert not [text for text in pdf_reading.pages(data) if "No room" in text]


@pytest.mark.parametrize(("name", "options"), CASES)
def test_the_picture_is_grey_and_the_same_input_gives_the_same_bytes(name, options):
    first = plan_of(name, options)
    pdf, png = io.BytesIO(), io.BytesIO()
    pool_plan(a_show(rig_of(name), []), pdf, png, options)
    assert (pdf.getvalue(), png.getvalue()) == first
    assert Image.open(png).mode == "L"


def test_draft_is_across_every_page_of_a_draft_only():
    options = PaperOptions(draft=True)
    assert all("DRAFT" in text for text in pdf_reading.pages(plan_of("studio", options)[0]))
    assert not any("DRAFT" in t for t in pdf_reading.pages(plan_of("studio", PaperOptions())[0]))


def test_units_of_no_system_go_by_position_few_to_a_page():
    loose = [s for s in systems_of(rig_of("playhouse")) if s.name.startswith("no system: ")]
    assert loose
    assert all(len(s.units) <= MOST_LOOSE for s in loose)


def test_a_system_of_very_many_units_is_split_into_parts():
    units = [a_unit(n, "wash") for n in range(2 * MOST_UNITS + 1)]
    systems = systems_of(solve_rig(a_scene(units, [Target(name="A", x=0, y=3)])))
    assert [s.name for s in systems] == [f"wash, part {n} of 3" for n in (1, 2, 3)]
    assert sum(len(s.units) for s in systems) == len(units)


def test_units_in_one_spot_go_on_from_page_to_page_till_each_is_told():
    """A page takes them, but about one spot there is no room for 48 tags and 48 names of landings."""
    units = [a_unit(n, "wash", at=0.0) for n in range(1, MOST_UNITS + 1)]
    rig = solve_rig(a_scene(units, [Target(name="A", x=0, y=3)]))
    pages = draw_plan(rig, PaperOptions())
    assert len(pages) > 1
    texts = [[words.text for words in page.words] for page in pages]
    headings = [text for page in texts for text in page if text.startswith("wash, part ")]
    assert headings == [f"wash, part {n} of {len(pages)}" for n in range(1, len(pages) + 1)]
    tags = [w.text for page in pages for w in page.words if w.size == 14.0]
    assert sorted(tags, key=int) == [str(n) for n in range(1, MOST_UNITS + 1)]
    assert not [text for page in texts for text in page if "No room" in text]


def test_an_empty_rig_gives_its_empty_stage():
    stage = Stage(outline=((-4, -1), (4, -1), (4, 5), (-4, 5)))
    (page,) = draw_plan(solve_rig(a_scene([], stage=stage)), PaperOptions())
    assert "no units" in [words.text for words in page.words]
    assert [line for line in page.lines if line.weight == 2.0]


def test_a_scene_without_a_stage_is_drawn_round_its_units():
    rig = solve_rig(a_scene([a_unit(1)], [Target(name="A", x=0, y=3)]))
    (page,) = draw_plan(rig, PaperOptions())
    assert [words.text for words in page.words].count("1") == 2


def test_names_of_any_length_leave_the_page_readable():
    long = "an extremely long name that nobody could ever want to read " * 3
    units = [Unit(position="p", number="1", kind="k", at=0.0, target=long, system=long)]
    scene = a_scene(units, [Target(name=long, x=0, y=3)])
    pdf, png = io.BytesIO(), io.BytesIO()
    pool_plan(a_show(solve_rig(scene), []), pdf, png, PaperOptions())
    (page,), (size,) = pdf_reading.runs(pdf.getvalue()), pdf_reading.sizes(pdf.getvalue())
    assert pdf_reading.overlaps(page) == []
    assert pdf_reading.outside(page, size) == []


def a_pool_beyond_the_stage(down):
    """A field of 30 degrees that goes down by `down` from 4.35 m over the faces; the stage is 8 m deep."""
    stage = Stage(outline=((-5, 0), (5, 0), (5, 8), (-5, 8)))
    depth = 4.35 / math.tan(math.radians(down))
    kind = a_kind(field=30.0, beam=16.0, drop_under=0.0, drop_over=0.0)
    target = Target(name="A", x=0.0, y=depth)
    scene = a_scene([a_unit(1, "wash")], [target], stage=stage, kinds=[kind])
    (page,) = draw_plan(solve_rig(scene), PaperOptions())
    heads = [s for s in page.shapes if s.fill == "black" and len(s.points) == 3]
    return page, heads


def test_a_pool_that_closes_is_shown_whole_and_has_no_arrow():
    """Down 40: its far edge is 4.35 / tan(25) = 9.3 m upstage, 1.3 m beyond the stage."""
    page, heads = a_pool_beyond_the_stage(40.0)
    assert heads == []
    (field,) = [ln.points for ln in page.lines if ln.weight == 1.0 and len(ln.points) > 100]
    assert field[0] == pytest.approx(field[-1])


def test_a_pool_that_closes_too_far_off_ends_in_arrows_and_the_page_says_so():
    """Down 17: its far edge is 4.35 / tan(2) = 125 m upstage."""
    page, heads = a_pool_beyond_the_stage(17.0)
    assert len(heads) >= 2
    assert any("Arrow: goes on, off the page or the deck." in word.text for word in page.words)


@pytest.mark.parametrize(
    ("block", "side"),
    [
        ([(-5, -9), (5, -9), (5, -3)], "DS"),
        ([(-5, 12), (5, 12), (5, 15)], "US"),
        ([(8, 0), (12, 0), (12, 5)], "SL"),
        ([(-8, 0), (-12, 0), (-12, 5)], "SR"),
        (None, "DS"),
    ],
)
def test_the_sides_where_the_audience_sits_are_named(block, side):
    stage = Stage(outline=((-4, -1), (4, -1), (4, 8), (-4, 8)))
    scene = a_scene([a_unit(1, "wash")], [Target(name="A", x=0, y=3)], stage=stage)
    if block:
        seats = Seats(name="s", outline=tuple(map(tuple, block)), eye=1.2)
        scene = msgspec.structs.replace(scene, seats=(seats,))
    (page,) = draw_plan(solve_rig(scene), PaperOptions())
    named = [word.text for word in page.words if "AUDIENCE" in word.text]
    assert named == [f"{side}, AUDIENCE"]


def test_a_system_of_many_booms_comes_in_parts_with_each_boom_from_the_side():
    booms = [Boom(name=f"b{n}", x=-6.0, y=1.0 * n, height=4.0) for n in range(MOST_BOOMS + 1)]
    units = [
        Unit(
            position=b.name,
            number="1",
            kind="k",
            at=3.0,
            target="A",
            mount="arm",
            arm=0.3,
            arm_to=90.0,
            system="side",
        )
        for b in booms
    ]
    scene = a_scene(units, [Target(name="A", x=0, y=3)], booms=booms, pipes=[])
    pages = draw_plan(solve_rig(scene), PaperOptions())
    assert len(pages) == 2
    for boom in booms:
        titles = [w.text for page in pages for w in page.words if w.text.startswith(boom.name)]
        assert len(titles) >= 2  # by its ring on the plan, and over its side view
    high = [w.text for page in pages for w in page.words if "4.00 m high, seen from DS" in w.text]
    assert len(high) == len(booms)
