"""The aim sheets, made from the worked scenes and read back."""

from __future__ import annotations

import io
import re
from functools import cache
from itertools import pairwise

import pytest

from aimcalc.findings import findings
from aimcalc.rig.rig import Rig
from aimcalc.scene.model import Boom, Pipe, Stage, Stand, Unit
from aimcalc.sheets.aim_sheets import aim_sheets
from aimcalc.solid.answers import Answer, Finding
from aimcalc.solid.rig import solve_rig
from aimcalc.text.facts import comes_in
from aimcalc.text.stamp import PaperOptions
from tests.rigs import FOOT, INCH, a_kind, a_pipe, a_scene
from tests.sheets import pdf_reading
from tests.shows import a_show, rig_of

SCENES = ("studio", "playhouse", "raked")
CHOICES = [
    ("studio", "a4", "m"),
    ("playhouse", "letter", "ft"),
    ("raked", "a4", "ft"),
    ("playhouse", "a4", "m"),
]


@cache
def made(scene: str, paper: str, length: str, draft: bool = False) -> bytes:
    rig = rig_of(scene)
    return sheets(rig, findings(rig), paper=paper, length=length, draft=draft)


def sheets(rig, found=(), **options) -> bytes:
    stream = io.BytesIO()
    told = aim_sheets(a_show(rig, found), stream, PaperOptions(**options))
    data = stream.getvalue()
    assert told == len(pdf_reading.sizes(data))
    return data


def pages_of(data: bytes, position: str, title: str) -> list[list[pdf_reading.Said]]:
    """The runs of a position's pages of one sort, by footer and header."""
    return [
        page
        for page in pdf_reading.runs(data)
        if any(f"| {position} |" in run.words for run in page)
        and any(run.words.endswith(title) for run in page)
    ]


def numbers_down(page: list[pdf_reading.Said]) -> list[pdf_reading.Said]:
    """The unit numbers of a page from the top down: the first column's large figures."""
    first_column = min(run.left for run in page if run.size == 20)
    column = [run for run in page if run.size == 20 and run.left < first_column + 25]
    return sorted(column, key=lambda run: -run.top)


def has_row(page: list[pdf_reading.Said], number: str) -> bool:
    return number in [run.words for run in numbers_down(page)]


def row_words(page: list[pdf_reading.Said], number: str) -> list[str]:
    """Everything said in one unit's row: from its number down to the next one."""
    column = numbers_down(page)
    (k,) = (k for k, run in enumerate(column) if run.words == number)
    low = column[k + 1].top + 3 if k + 1 < len(column) else column[k].top - 45
    return [run.words for run in page if low < run.top < column[k].top + 3]


# A second way to words: feet and inches by whole numbers of the step, metres by Python's own format.
def as_printed(metres: float, length: str) -> str:
    if length == "m":
        return f"{int(abs(metres) / 0.05 + 0.5 + 1e-9) * 0.05:.2f} m"
    inches = int(abs(metres) / INCH / 3 + 0.5 + 1e-9) * 3
    return f"{inches // 12}'-{inches % 12}\""


def side(value: float, length: str, sides: tuple[str, str], zero: str) -> str:
    told = as_printed(value, length)
    return zero if re.fullmatch(r"0(\.00 m|'-0\")", told) else f"{told} {sides[value < 0]}"


def whole(angle: float) -> int:
    return int(abs(angle) + 0.5 + 1e-9)


def expected_words(answer: Answer, length: str, faced: str) -> set[str]:
    """What a row at trim has to say to a reader who faces `faced`, straight from the answer's numbers."""
    assert answer.down is not None
    down = whole(answer.down)
    told = {answer.number, f"plumb {90 - down}°"}
    if down:
        told |= {"DOWN" if answer.down > 0 else "UP", f"{down}°"}
    point = answer.stand or answer.face
    told.add(side(point[0], length, ("SL", "SR"), "CENTRE LINE"))
    told.add(side(point[1], length, ("US", "DS"), "PLASTER LINE"))
    if answer.meets:
        told |= stop_words(answer, length)
    if answer.sight is not None and answer.square in ("US", "DS"):
        told.add(side(answer.sight, length, ("SL", "SR"), "AT ZERO"))
        told.add(
            f"{answer.swing} {whole(answer.pan or 0)}°" if whole(answer.pan or 0) else "SQUARE"
        )
        note = f"square {answer.square}" + (", at you" if answer.square != faced else "")
        if answer.position == "roof bar":  # it slopes: the dial is not the heading
            note = f"dial, {note.removeprefix('square ') if answer.square != faced else note}"
        told.add(note)
    return told


# Heights of the tops that the scene files give, in metres; all else that light meets there is upright.
PLATFORMS = {"platform": 4 * FOOT, "hilltop": 0.95}


def stop_words(answer: Answer, length: str) -> set[str]:
    """LANDS with both distances on deck and platforms, if not below 25 down; ON with a height and the
    distance along it on what faces US or DS (all that is met in these scenes)."""
    name, (x, y, z) = answer.meets.name, answer.meets.point
    across = side(x, length, ("SL", "SR"), "CENTRE LINE")
    top = name in PLATFORMS and abs(z - PLATFORMS[name]) < 1e-9
    foot = as_printed(answer.meets.height, length) in ("0.00 m", "0'-0\"")
    if name != "deck" and not top and not foot:
        return {f"ON {name}", across}
    if (answer.down or 0) < 25:
        return {"POLE"}
    word = {"LANDS", f"on {name}"} if top else {"LANDS"}
    return word | {across, side(y, length, ("US", "DS"), "PLASTER LINE")}


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_every_unit_s_numbers_are_in_its_row_on_its_position_s_page(scene, paper, length):
    data, rig = made(scene, paper, length), rig_of(scene)
    pages = {name: pages_of(data, name, _title(p)) for name, p in rig.scene.positions.items()}
    for answer in rig.answers:
        on = [
            page
            for page in pages[answer.position]
            if answer.number in [run.words for run in numbers_down(page)]
        ]
        assert len(on) == 1, answer.unit
        words = row_words(on[0], answer.number)
        (faced,) = {run.words[-2:] for run in on[0] if run.words.startswith("You stand")}
        assert expected_words(answer, length, faced) - set(words) == set(), answer.unit


def _title(position) -> str:
    if isinstance(position, Pipe):
        return "AT TRIM"
    return "ON THE BOOM" if isinstance(position, Boom) else "ON THE STAND"


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_no_text_overlaps_or_leaves_the_page(scene, paper, length):
    data = made(scene, paper, length)
    pdf_reading.assert_apart(data)


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_there_is_no_minus_sign_and_no_bare_side(scene, paper, length):
    pdf_reading.assert_no_signs(made(scene, paper, length))


NUMBERS_WITH_UNITS = r"\d+'-\d+(?: \d/\d)?\"|\d+\.\d{2,3} m\b|\d+°"
OTHER_FIGURES = "|".join(
    [
        r"\bch \S+",  # channels
        r"\bmatch \S+",
        r"\bpage \d+ of \d+",
        r"\S+ = (?:\w\w END|TOP)",
        r"\b(?:area|mark|pipe|drop) \d+",  # names in the scenes
        r"\b(?:ers|par|pc|fresnel|cyc|flood)-\S+",
    ]
)


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_every_number_of_a_table_has_its_unit(scene, paper, length):
    told = [found.says for found in findings(rig_of(scene))]
    tables = 0
    for page in pdf_reading.runs(made(scene, paper, length)):
        if "START END" not in [run.words for run in page]:
            continue  # the cover is prose
        tables += 1
        units = numbers_down(page)
        for run in page:
            if run not in units and not any(run.words in says for says in told):
                rest = re.sub(OTHER_FIGURES, "", re.sub(NUMBERS_WITH_UNITS, "", run.words))
                assert not re.search(r"\d", rest), run.words
    assert tables >= len(rig_of(scene).scene.pipes)


@pytest.mark.parametrize("scene", SCENES)
def test_the_same_rig_gives_the_same_bytes(scene):
    rig = rig_of(scene)
    again = sheets(solve_rig(rig.scene), findings(rig), paper="a4", length="m")
    assert again == made(scene, "a4", "m")


def test_every_page_is_counted_and_carries_cautions_title_and_revision():
    texts = pdf_reading.pages(made("playhouse", "letter", "ft"))
    for number, text in enumerate(texts, 1):
        flat = " ".join(text.split())
        assert f"page {number} of {len(texts)}" in flat
        assert "GEOMETRY ONLY: rates nothing, permits nothing." in flat
        assert "The Orchard Clock" in flat
        assert "| rev D |" in flat


def test_every_sheet_tells_trim_and_how_it_is_known_drop_and_face_height():
    data = made("playhouse", "letter", "ft")
    plotted = {pipe.name: not pipe.measured for pipe in rig_of("playhouse").scene.pipes}
    assert set(plotted.values()) == {True, False}
    for name, is_plotted in plotted.items():
        for page in pages_of(data, name, "AT TRIM"):
            (foot,) = [run.words for run in page if f"| {name} |" in run.words]
            assert re.search(rf"trim \d+'-\d+.* {'plotted' if is_plotted else 'measured'} \|", foot)
            assert re.search(r"\| drop \d+'-\d+", foot)
            assert "face height" in foot


def test_cautions_and_footer_are_ten_points_or_larger_and_key_numbers_twenty():
    for page in pdf_reading.runs(made("studio", "a4", "m")):
        for run in page:
            if "GEOMETRY" in run.words or "| rev" in run.words:
                assert run.size >= 9.99
    (page,) = pages_of(made("studio", "a4", "m"), "front pipe", "AT TRIM")
    sizes = {run.words: run.size for run in page}
    assert sizes["You stand DS of the pipe, facing US"] == 24
    assert sizes["1"] == 20
    assert sizes["40°"] == 20
    assert min(sizes[w] for w in sizes if re.search(r"\d", w)) >= 9.9


def test_draft_lies_across_every_page_of_a_draft_only():
    for draft in (True, False):
        data = made("studio", "a4", "m", draft)
        for text, level in zip(pdf_reading.pages(data), pdf_reading.runs(data), strict=True):
            aslant = text.count("DRAFT") - sum(run.words.count("DRAFT") for run in level)
            assert aslant == int(draft)


def test_the_start_end_and_the_stance_are_on_every_table():
    data = made("playhouse", "letter", "ft")
    for page in pages_of(data, "house pipe", "AT TRIM"):
        words = {run.words for run in page}
        assert {"START END", "1 = SL END", "You stand DS of the pipe, facing US"} <= words
    (page,) = pages_of(data, "boom SL", "ON THE BOOM")
    assert "1 = TOP" in {run.words for run in page}


def test_rows_run_the_way_the_ladder_travels():
    data = made("playhouse", "letter", "ft")
    pages = pages_of(data, "house pipe", "AT TRIM")
    numbers = [run.words for page in pages for run in numbers_down(page)]
    assert numbers == [str(k) for k in range(1, 21)]


def test_the_tick_boxes_are_named():
    (page,) = pages_of(made("studio", "a4", "m"), "front pipe", "AT TRIM")
    words = {run.words for run in page}
    assert {"hung", "locked", "safety", "tail", "pan", "down", "initials"} <= words


def test_a_pipe_in_page_keeps_tape_and_down_and_has_no_landing():
    data = made("playhouse", "letter", "ft")
    (page,) = pages_of(data, "pipe 1", "PIPE IN")
    (trim,) = pages_of(data, "pipe 1", "AT TRIM")
    words = [run.words for run in page]
    assert not {"LANDS", "POLE", "STAND"} & set(words)
    for answer in rig_of("playhouse").answers:
        if answer.position == "pipe 1":
            kept = expected_words(answer, "ft", "US") & set(row_words(trim, answer.number))
            both = {w for w in kept if "plumb" in w or w.endswith("°") or w == "AT ZERO"}
            assert both <= set(row_words(page, answer.number))


# The rule: lift lines, or level, over the stage and out of reach (3 m) of somebody standing.
@pytest.mark.parametrize(
    ("position", "expected"),
    [
        (a_pipe(trim=6.0, y=3.0), True),
        (a_pipe(trim=2.9, y=3.0), False),
        (a_pipe(trim=6.0, y=-5.0), False),
        (a_pipe(trim=6.0, y=-5.0, lines=(-4.0, 0.0, 4.0)), True),
        (a_pipe(trim=2.5, y=3.0, lines=(-4.0, 4.0)), True),
        (Pipe(name="p", start=(-5, 3, 5.6), end=(5, 3, 6.2)), False),
        (Pipe(name="p", start=(-5, 3, 5.6), end=(5, 3, 6.2), lines=(0.0,)), True),
        (Boom(name="b", x=0, y=0, height=6.0), False),
        (Stand(name="s", x=0, y=0), False),
    ],
)
def test_pipe_in_is_for_what_comes_in(position, expected):
    assert comes_in(position) is expected


def facing_both_ways() -> bytes:
    """Two units that face upstage and one between them that faces downstage, on a pipe without lines."""
    aims = [(2.0, 6.0), (0.0, -6.0), (-2.0, 6.0)]
    units = [
        Unit(position="p", number=str(k), kind="k", at=x, point=(x, y, 1.5))
        for k, (x, y) in enumerate(aims, 1)
    ]
    return sheets(solve_rig(a_scene(units, sight_out=3.0)))


def test_a_unit_that_faces_the_reader_says_so_and_both_tapes_are_told_apart():
    for page in pages_of(facing_both_ways(), "p", "AT TRIM"):
        assert "You stand DS of the pipe, facing US" in [run.words for run in page]
        assert {"square US", "tape US of pipe"} <= set(row_words(page, "1"))
        assert {"square DS, at you", "tape DS of pipe"} <= set(row_words(page, "2"))
        assert "3.00 m US and DS of pipe" in [run.words for run in page]


def test_one_tape_has_its_side_and_its_zero_in_the_head():
    (page,) = pages_of(made("studio", "a4", "m"), "back pipe", "AT TRIM")
    words = [run.words for run in page]
    assert {"2.00 m DS of pipe", "zero on centre line", "from centre line"} <= set(words)
    (page,) = pages_of(made("raked", "a4", "ft"), "gallery bar SL", "AT TRIM")
    assert {"zero opposite US end", "from US end"} <= {run.words for run in page}


def test_a_pipe_without_clear_deck_says_in_its_head_that_the_dial_leads():
    units = [Unit(position="p", number="1", kind="k", at=0.0, point=(2.0, 2.0, 1.5))]
    stage = Stage(outline=((-4, -0.5), (4, -0.5), (4, 0.5), (-4, 0.5)))
    (page,) = pages_of(sheets(solve_rig(a_scene(units, stage=stage))), "p", "AT TRIM")
    words = [run.words for run in page]
    assert {"NO SIGHT TAPE", "no clear deck for it:", "the dial leads"} <= set(words)
    assert "SIGHT TAPE" not in words
    assert "NO TAPE" not in words


def test_a_pipe_whose_units_all_turn_too_far_does_not_blame_the_deck():
    units = [Unit(position="p", number="1", kind="k", at=0.0, point=(5.0, 1.0, 1.5))]
    (page,) = pages_of(sheets(solve_rig(a_scene(units))), "p", "AT TRIM")
    words = [run.words for run in page]
    assert {"SIGHT TAPE", "none here:", "the dial leads", "NO TAPE", "use the dial"} <= set(words)


def test_a_pipe_that_may_not_fly_is_not_said_to():
    (page,) = pages_of(facing_both_ways(), "p", "PIPE IN")
    assert any(run.words.startswith("if this pipe comes in") for run in page)
    (page,) = pages_of(made("playhouse", "letter", "ft"), "pipe 1", "PIPE IN")
    assert any(run.words.startswith("set before it flies") for run in page)


def test_booms_and_stands_say_where_they_are():
    (page,) = pages_of(made("playhouse", "letter", "ft"), "boom SL", "ON THE BOOM")
    assert "boom 16'-0\" high, at 18'-6\" SL, 5'-0\" US" in [run.words for run in page]
    (page,) = pages_of(made("playhouse", "letter", "ft"), "floor SR", "ON THE STAND")
    # To the inch: a stand put up an inch off turns every heading told for it.
    assert "at 17'-11\" SR, 3'-6\" US" in [run.words for run in page]


def row_of_units(count: int) -> Rig:
    """`count` units half a metre apart on one pipe over the house, each aimed straight ahead."""
    places = [6 - 0.5 * k for k in range(count)]
    units = [
        Unit(position="p", number=str(k), kind="k", at=at, point=(at, 5.0, 1.5))
        for k, at in enumerate(places, 1)
    ]
    return solve_rig(a_scene(units, pipes=[a_pipe(y=-5.0)]))


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize(
    ("count", "pages"), [(12, [12]), (13, [8, 5]), (16, [8, 8]), (25, [12, 12, 1])]
)
def test_a_page_holds_twelve_units_at_most(paper, count, pages):
    data = sheets(row_of_units(count), paper=paper)
    tables = pages_of(data, "p", "AT TRIM")
    assert [sum(run.words.startswith("plumb") for run in page) for page in tables] == pages


def test_rows_are_thirteen_millimetres_at_least_with_a_gap_after_each_four():
    (page,) = pages_of(sheets(row_of_units(12)), "p", "AT TRIM")
    steps = [above.top - below.top for above, below in pairwise(numbers_down(page))]
    least = 13 / 25.4 * 72
    assert min(steps) >= least
    assert [k for k, step in enumerate(steps, 1) if step > min(steps) + 2] == [4, 8]


def test_findings_are_printed_in_the_row_they_are_about():
    found = [
        Finding("warn", "a", "The field is cut by border 2.", "Move it.", unit="p/2"),
        Finding("stop", "b", "It points past its yoke.", "Turn it.", unit="p/2"),
        Finding("note", "c", "It is rather steep.", "Look.", unit="p/1"),
        Finding("warn", "d", "The trim is not measured.", "Measure.", position="p"),
    ]
    (page,) = pages_of(sheets(row_of_units(3), found), "p", "AT TRIM")
    tops = {run.words: run.top for run in page}
    second, third = tops["2"], tops["3"]
    for words in ("The field is cut by border 2.", "It points past its yoke."):
        assert third < tops[words] < second
    assert tops["The trim is not measured."] > tops["1"]
    assert "It is rather steep." not in tops
    assert {"WARN", "STOP"} <= set(tops)


def test_a_row_with_many_findings_points_to_the_cover_which_has_them_all():
    found = [Finding("warn", "a", f"Trouble {k}.", "Mend it.", unit="p/1") for k in range(9)]
    data = sheets(row_of_units(1), found)
    (page,) = pages_of(data, "p", "AT TRIM")
    words = [run.words for run in page]
    assert "Trouble 3." in words
    assert "Trouble 4." not in words
    assert "and 5 more: see the cover" in words
    cover = " ".join(pdf_reading.pages(data)[0].split())
    assert all(f"Trouble {k}. Mend it." in cover for k in range(9))


def test_a_long_table_of_long_names_still_fits():
    name = "the second electric pipe upstage of the false proscenium"
    kind = a_kind("profile spot with a very long name of its own 25/50", has_gobo=True)
    units = [
        Unit(
            position=name,
            number=f"{k}-spare",
            kind=kind.name,
            at=5.00625 - k,
            point=(0.3, 12.0, 1.0),
            channel="1001/1002",
            mount="out",
            swing_out=30.0,
            turn=33.0,
        )
        for k in range(10)
    ]
    pipe = Pipe(name=name, start=(-100 * FOOT, 0, 6), end=(100 * FOOT, 1, 7), zero="middle")
    scene = a_scene(units, pipes=[pipe], kinds=[kind], revision="a revision of many words")
    found = [Finding("warn", "a", "x" * 400, "y" * 400, unit=f"{name}/3-spare")]
    for paper, length in (("a4", "ft"), ("letter", "m")):
        data = sheets(solve_rig(scene), found, paper=paper, length=length)
        pdf_reading.assert_apart(data)


def test_a_scene_without_units_gives_a_cover_alone():
    data = sheets(solve_rig(a_scene([])))
    assert len(pdf_reading.sizes(data)) <= 2
    assert "0 units on 0 positions" in pdf_reading.pages(data)[0]


def test_cells_keep_inside_their_lines():
    from aimcalc.paper.page import body_of
    from aimcalc.paper.table import Marks, at_trim, grid

    body = body_of(PaperOptions(length="ft", paper="letter"), True)
    edges = grid(at_trim(Marks("", ("", ""))), body.left, body.right).edges[1:-1]
    for page in pages_of(made("playhouse", "letter", "ft"), "house pipe", "AT TRIM"):
        low = min(run.bottom for run in page if run.words.startswith("plumb"))
        high = max(run.top for run in page if run.words == "1" or run.words == "13")
        for run in page:
            if low - 8 <= run.bottom and run.top <= high + 1:
                assert [edge for edge in edges if run.left < edge < run.right] == [], run.words
