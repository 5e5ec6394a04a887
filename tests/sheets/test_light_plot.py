"""The light plot on paper: true to scale, every unit told, nothing over anything else."""

from __future__ import annotations

import ctypes
import io
import xml.etree.ElementTree as ET
from pathlib import Path

import msgspec
import numpy as np
import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from aimcalc import cli
from aimcalc.paper.drawpdf import Book
from aimcalc.paper.tiles import scale_named, sheet_named
from aimcalc.scene.model import Stage, Target, Unit
from aimcalc.sheets.pieces import PieceError
from aimcalc.sheets.plot.elevations import elevation_tags
from aimcalc.sheets.plot.light_plot import MOST_SHEETS, board_of, choose, light_plot
from aimcalc.sheets.plot.plan import placed_units
from aimcalc.sheets.plot.symbols import Look, symbol
from aimcalc.sheets.plot.tags import kind_letters
from aimcalc.sheets.prep import options_for
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stamp import PaperOptions, Stamp
from tests.findings.clean import changed
from tests.rigs import a_kind, a_pipe, a_scene
from tests.sheets import pdf_reading
from tests.shows import a_show, rig_of

MM = 25.4 / 72
RULED = 0.2  # mm, as a steel rule is read
SCENES = ("playhouse", "studio", "raked", "arena")
SVG = {"s": "http://www.w3.org/2000/svg"}


def options(name: str, **more: object) -> PaperOptions:
    """As `prep` has them for a worked scene."""
    feet = {"paper": "letter", "length": "ft"} if name == "playhouse" else {}
    return PaperOptions(**{**feet, "stamp": Stamp("K7MP4"), **more})  # type: ignore[arg-type]


def made(rig, asked: PaperOptions) -> tuple[bytes, bytes, bytes]:
    streams = [io.BytesIO() for _ in range(3)]
    light_plot(a_show(rig), *streams, asked)
    return tuple(stream.getvalue() for stream in streams)  # type: ignore[return-value]


@pytest.fixture(scope="module")
def sets() -> dict[str, tuple[bytes, bytes, bytes]]:
    return {name: made(rig_of(name), options(name)) for name in SCENES}


def drawn(page: pypdfium2.PdfPage) -> list[np.ndarray]:
    """Every run of straight pieces of a page, (n, 2) mm from its lower left corner, as pdfium reads it."""
    runs: list[list[tuple[float, float]]] = []
    for item in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH]):
        matrix = item.get_matrix()
        for k in range(pdfium.FPDFPath_CountSegments(item.raw)):
            segment = pdfium.FPDFPath_GetPathSegment(item.raw, k)
            x, y = ctypes.c_float(), ctypes.c_float()
            pdfium.FPDFPathSegment_GetPoint(segment, x, y)
            if pdfium.FPDFPathSegment_GetType(segment) == pdfium.FPDF_SEGMENT_MOVETO:
                runs.append([])
            px = matrix.a * x.value + matrix.c * y.value + matrix.e
            py = matrix.b * x.value + matrix.d * y.value + matrix.f
            runs[-1].append((px * MM, py * MM))
    return [np.array(run) for run in runs]


def boxes(runs: list[np.ndarray]) -> np.ndarray:
    """Left, bottom, right, top of every run, (n, 4)."""
    return np.array([[*run.min(axis=0), *run.max(axis=0)] for run in runs])


def dots(runs: list[np.ndarray]) -> np.ndarray:
    """Middles of the black dots at the clamps, (n, 2): circles 0.9 mm across."""
    found = boxes([run for run in runs if len(run) >= 17]).reshape(-1, 4)
    wide = found[:, 2:] - found[:, :2]
    small = (np.abs(wide - 0.9) < 0.05).all(axis=1)
    return (found[small, :2] + found[small, 2:]) / 2


def test_the_studio_is_ruled_on_its_sheet(sets):
    """1:50: the deck of 8.4 m by 5.4 m is 168 mm by 108 mm; clamps as typed in the scene, in 50ths."""
    (page,) = pypdfium2.PdfDocument(sets["studio"][0])
    runs = drawn(page)
    box = boxes(runs)
    size = box[:, 2:] - box[:, :2]
    (deck,) = box[(np.abs(size - (168.0, 108.0)) < RULED).all(axis=1)]
    middle = np.array([(deck[0] + deck[2]) / 2, deck[1] + 1.8 * 20])  # deck from 1.8 m DS
    clamps = [
        *((x, -1.2) for x in (2.70, 1.10, 0.55, -0.55, -1.10, -2.70)),
        *((x, 2.8) for x in (1.60, 0.25, -1.60)),
        (3.4 - 0.45, 0.7),  # on the arm of boom SL, which goes 0.45 m to SR
        (3.4, 0.7),
    ]
    here = dots(runs)
    for clamp in clamps:
        wanted = middle + np.array(clamp) * 20
        assert np.abs(here - wanted).max(axis=1).min() < RULED, clamp
    long = [r for r in runs if len(r) == 2 and abs(np.hypot(*(r[1] - r[0])) - 100.0) < RULED]
    assert len(long) == 1, "the bar to prove the printer with"
    assert pdf_reading.sizes(sets["studio"][0]) == [pytest.approx((420 / MM, 297 / MM), abs=0.01)]


def test_the_elevation_is_ruled_at_the_scale_of_the_plan(sets):
    """Boom SL of the studio, 1:50: a tube of 3.00 m is 60 mm; clamps at 2.80, 2.10 and 1.50 m."""
    (page,) = pypdfium2.PdfDocument(sets["studio"][0])
    runs = drawn(page)
    tubes = [
        run
        for run in runs
        if len(run) == 2
        and abs(run[0, 0] - run[1, 0]) < 0.01
        and abs(np.ptp(run[:, 1]) - 60) < RULED
    ]
    box = boxes([run for run in runs if len(run) >= 17])
    wide = box[:, 2:] - box[:, :2]
    grips = (box[(np.abs(wide - 1.6) < 0.05).all(axis=1)][:, :2] + 0.8).tolist()
    (tube,) = [t for t in tubes if any(abs(x - t[0, 0]) < RULED for x, _ in grips)]
    foot = tube[:, 1].min()
    heights = sorted(y - foot for x, y in grips if abs(x - tube[0, 0]) < RULED)
    assert heights == pytest.approx([1.50 * 20, 2.10 * 20, 2.80 * 20], abs=RULED)


def test_the_playhouse_is_ruled_at_a_quarter_inch_to_the_foot():
    """1/4" = 1'-0": 44 ft of deck are 11 in; units of the house pipe are 2 ft apart: half an inch."""
    asked = options("playhouse", scale=scale_named('1/4"'), sheet=sheet_named("arch-d"))
    pdf, _, _ = made(rig_of("playhouse"), asked)
    (page,) = pypdfium2.PdfDocument(pdf)
    runs = drawn(page)
    box = boxes(runs)
    size = box[:, 2:] - box[:, :2]
    (deck,) = box[(np.abs(size - (11 * 25.4, 33 / 4 * 25.4)) < RULED).all(axis=1)]
    centre, plaster = (deck[0] + deck[2]) / 2, deck[1] + 25.4  # the apron is 4 ft deep
    here = dots(runs)
    for feet in range(-19, 20, 2):
        wanted = (centre + feet / 4 * 25.4, plaster - 14 / 4 * 25.4)
        assert np.abs(here - wanted).max(axis=1).min() < RULED, feet


def test_on_tiles_the_distance_from_clamp_to_clamp_is_the_same(sets):
    """House pipe: 2 ft apart, at 1/4" half an inch; on every sheet that shows two of them."""
    seen = 0
    for page in pypdfium2.PdfDocument(sets["playhouse"][0]):
        here = dots(drawn(page))
        for y in {round(y, 1) for y in here[:, 1].tolist()}:
            row = np.sort(here[np.abs(here[:, 1] - y) < 0.06, 0])
            if row.size > 10:  # no other pipe has so many
                assert np.abs(np.diff(row) - 12.7).max() < RULED
                seen += 1
    assert seen >= 1


@pytest.mark.parametrize("name", SCENES)
def test_every_unit_is_told_with_all_that_it_has(sets, name):
    rig = rig_of(name)
    said = " ".join(" ".join(pdf_reading.pages(sets[name][0])).split())
    for unit in rig.units:
        told = [unit.circuit, unit.channel and f"ch {unit.channel}", unit.system, unit.colour]
        for words in filter(None, told):
            assert words in said, unit
    for kind in {unit.kind for unit in rig.units}:
        count = sum(unit.kind == kind for unit in rig.units)
        assert f"{kind}: {count} unit" in said


@pytest.mark.parametrize("name", SCENES)
def test_no_word_lies_on_another_and_none_leaves_the_paper(name):
    """On one large sheet: a sheet of several cuts words at its edge, and its neighbour has them whole."""
    asked = options(name, scale=50, sheet=sheet_named("A1"))
    pdf, _, _ = made(rig_of(name), asked)
    (size,) = pdf_reading.sizes(pdf)
    (page,) = pdf_reading.runs(pdf)
    assert pdf_reading.overlaps(page) == []
    assert pdf_reading.outside(page, size) == []
    (text,) = pdf_reading.pages(pdf)
    assert pdf_reading.minus_signs(text) == []
    assert pdf_reading.bare_sides(text) == []


@pytest.mark.parametrize("name", SCENES)
def test_every_sheet_tells_set_page_scale_and_cautions(sets, name):
    pages = pdf_reading.pages(sets[name][0])
    for number, page in enumerate(pages, 1):
        assert f"set K7MP4 | page {number} of {len(pages)}" in page
        assert "GEOMETRY ONLY: rates nothing" in " ".join(page.split())
        assert "light plot | revision" in page
    said = " ".join(" ".join(pages).split())
    assert "Frame: across from the centre line" in said
    assert "Nothing here is rated" in said
    assert "seen from DS" in said or "seen from SL" in said or name == "raked"


@pytest.mark.parametrize("name", SCENES)
def test_the_svg_is_one_sheet_in_true_millimetres(sets, name):
    root = ET.fromstring(sets[name][1])
    wide, high = (float(root.get(side).removesuffix("mm")) for side in ("width", "height"))
    assert root.get("viewBox") == root.get("viewBox").strip()
    assert [float(n) for n in root.get("viewBox").split()] == [0, 0, wide, high]
    said = {text.text for text in root.iterfind(".//s:text", SVG)}
    assert {"LIGHT PLOT", "US"} <= said or {"LIGHT PLOT", "US, AUDIENCE"} <= said
    assert root.find("s:desc", SVG).text == "set K7MP4"
    # The deck's outline has the drawn size: studio 168 mm by 108 mm.
    if name == "studio":
        paths = [e.get("d") for e in root.iterfind(".//s:path", SVG)]
        runs = [run for path in paths for run in path.removesuffix("Z").split("M") if run]
        sizes = [
            np.ptp([[float(v) for v in at.split()] for at in run.split("L")], axis=0)
            for run in runs
        ]
        assert sum(np.allclose(size, (168.0, 108.0), atol=0.01) for size in sizes) == 1


def test_the_same_call_gives_the_same_bytes(sets):
    assert made(solve_rig(rig_of("studio").scene), options("studio")) == sets["studio"]


def test_a_default_is_the_largest_usual_scale_that_one_sheet_holds_else_the_papers_sheets():
    studio = choose(rig_of("studio"), options("studio"))
    assert (studio.scale, sorted(studio.sheet)) == (50, [297.0, 420.0])
    playhouse = choose(rig_of("playhouse"), options("playhouse"))
    assert (playhouse.scale, sorted(playhouse.sheet)) == (48, [215.9, 279.4])


def test_a_scale_that_takes_too_much_paper_is_refused_and_names_both_ways_out():
    with pytest.raises(
        PieceError, match=r"At 1:10 .* sheets of A4\. Give a smaller --scale or"
    ) as no:
        choose(rig_of("playhouse"), options("playhouse", scale=10, sheet=sheet_named("A4")))
    assert "larger --sheet" in str(no.value)


def far_away():
    """A unit half a kilometre off: nobody asked for that drawing."""
    pipes = [a_pipe(), a_pipe("far", y=500.0)]
    units = [Unit(position=name, number="1", kind="k", at=0.0, target="A") for name in ("p", "far")]
    kinds = [a_kind(length=0.6, width=0.2)]
    return a_scene(units, [Target(name="A", x=0.0, y=4.0)], pipes=pipes, kinds=kinds)


def test_a_rig_of_any_size_has_a_plot_without_being_asked_about_scale():
    rig = solve_rig(far_away())
    chosen = choose(rig, PaperOptions())
    assert chosen.scale > 50
    pdf, _, _ = made(rig, PaperOptions())
    assert len(pdf_reading.pages(pdf)) <= MOST_SHEETS


def crowded(count: int):
    """Units every 4 cm of one pipe: 0.8 mm at 1:50, where no number has room."""
    units = [
        Unit(
            position="p",
            number=str(k + 1),
            kind="k",
            at=0.04 * k - 9.0,
            target="A",
            channel=str(k + 501),
        )
        for k in range(count)
    ]
    kinds = [a_kind(length=0.6, width=0.2)]
    stage = Stage(outline=((-10, -2), (10, -2), (10, 8), (-10, 8)))
    return a_scene(units, [Target(name="A", x=0.0, y=4.0)], kinds=kinds, stage=stage)


def test_what_has_no_room_on_the_plan_is_told_beside_it():
    rig = solve_rig(crowded(300))
    board = board_of(rig, PaperOptions())
    told = " ".join(words.text for words in board.drawing.words)
    assert len(board.inside.elsewhere) > 100
    for unit in rig.units:
        assert f"ch {unit.channel}" in told
    assert "No room beside these units" in told


def test_a_body_is_as_long_and_wide_as_its_kind_with_its_pivot_at_the_clamp():
    """0.6 m long, 0.22 m wide, lens 0.34 m ahead of the pivot: from 0.26 m behind to 0.34 m ahead."""
    for family in ("ers", "fresnel", "pc", "par", "flood", "cyc"):
        kind = a_kind(family=family, length=0.6, width=0.22, nose=0.34)
        body = symbol(kind, Look("k", False, 0.0, 0.0)).outlines[0]
        assert body[:, 1].min() == pytest.approx(-0.26)
        assert body[:, 1].max() == pytest.approx(0.34)
        assert np.abs(body[:, 0]).max() == pytest.approx(0.11)


def test_a_symbol_turned_to_a_heading_points_there():
    """Heading 90 is stage left, +x."""
    kind = a_kind(length=0.6, width=0.22, nose=0.34)
    east = symbol(kind, Look("k", False, 0.0, 0.0)).placed(np.array([1.0, 2.0]), np.pi / 2)
    body = east.outlines[0]
    assert body[:, 0].max() == pytest.approx(1.34)
    assert body[:, 0].min() == pytest.approx(0.74)
    assert body[:, 1].mean() == pytest.approx(2.0)


def test_bodies_point_as_their_units_are_aimed():
    rig = rig_of("studio")
    for k, each in enumerate(placed_units(rig)):
        pivot, lens = rig.aims.pivot[:2, k], rig.aims.lens[:2, k]
        ahead = (lens - pivot) / np.hypot(*(lens - pivot))
        reach = (each.outlines[0] - pivot) @ ahead
        assert reach.max() == pytest.approx(rig.kinds[k].nose, abs=0.02)  # offsets in whole cm


def test_kinds_have_letters_that_differ_the_commonest_first():
    rig = rig_of("playhouse")
    letters = kind_letters(rig)
    counts = [sum(unit.kind == kind for unit in rig.units) for kind in letters]
    assert counts == sorted(counts, reverse=True)
    assert len(set(letters.values())) == len(letters)
    assert not {"I", "O"} & set("".join(letters.values()))


def test_a_tag_is_framed_so_that_no_line_makes_a_figure_negative():
    """Left of every row that begins with a figure stands the tag's own bar, nearer than any line."""
    rig = rig_of("playhouse")
    board = board_of(rig, options("playhouse"))
    frames = [
        shape.points
        for shape in board.inside.inside.shapes
        if shape.fill == "none" and len(shape.points) == 5
    ]
    bars = [frame[[2, 4]] for frame in frames if frame[0, 0] == frame[4, 0]]
    assert len(bars) >= len(board.inside.tags)
    for _, corner in board.inside.tags.values():
        near = [bar for bar in bars if abs(bar[1, 0] - corner[0]) < 1.0]
        assert near


WRONG = {
    ("--scale", "1:51"): "expected a scale that a scale rule has, 1:10",
    ("--sheet", "A33"): 'Did you mean "A3"?',
    ("--only", "plan", "--scale", "1:50"): "--scale: for the light plot, which is not made here.",
    ("--since", "scenes/studio", "--sheet", "A3"): "Add light-plot to --only, or leave it out.",
    ("--only", "light-plot", "--scale", "1:10", "--sheet", "A4"): "Give a smaller --scale",
}


@pytest.mark.parametrize("asked", WRONG, ids=" ".join)
def test_prep_refuses_what_cannot_be_drawn_with_a_sentence_and_makes_nothing(
    asked, tmp_path, capfd
):
    folder = tmp_path / "out"
    scene = Path(__file__).parents[2] / "scenes" / "playhouse"
    assert cli.run(["prep", str(scene), "-o", str(folder), *asked]) == 2
    said = capfd.readouterr().err
    assert WRONG[asked] in " ".join(said.split())
    assert "Traceback" not in said
    assert not folder.exists()


def test_scale_and_sheet_are_part_of_the_sets_mark():
    rig = rig_of("studio")
    marks = {
        options_for(rig, plot=plot).stamp.mark
        for plot in ((None, None), (25, None), (50, None), (50, (297.0, 420.0)))
    }
    assert len(marks) == 4


def test_every_sheet_names_its_own_size(sets):
    """As pdfium measures it: A4 where the arena's plot is cut into sheets, its own where it is whole."""
    pdf, svg, _ = sets["arena"]
    for size, text in zip(pdf_reading.sizes(pdf), pdf_reading.pages(pdf), strict=True):
        assert sorted(round(side * MM) for side in size) == [210, 297]
        assert "scale 1:50 on A4" in text
    book = Book()
    light_plot(a_show(rig_of("arena")), book, io.BytesIO(), io.BytesIO(), options("arena"))
    whole = book.pdf(options("arena"), "t")
    (size,), (text,) = pdf_reading.sizes(whole), pdf_reading.pages(whole)
    wide, high = sorted(side * MM for side in size)
    assert f"scale 1:50 on {wide:.0f} x {high:.0f} mm" in text
    assert f"scale 1:50 on {wide:.0f} x {high:.0f} mm" in svg.decode()
    assert "on A4" not in text
    book = Book()
    asked = options("playhouse")
    light_plot(a_show(rig_of("playhouse")), book, io.BytesIO(), io.BytesIO(), asked)
    whole = book.pdf(asked, "t")
    wide, high = sorted(side / 72 for side in pdf_reading.sizes(whole)[0])
    assert f"on {wide:.1f} x {high:.1f} in" in pdf_reading.pages(whole)[0]


def test_an_elevation_that_is_too_wide_for_its_box_has_a_scale_of_its_own_and_says_so():
    """Bodies of 0.6 m on arms of 0.4 m and more are over 66 mm at 1:10."""
    rig = rig_of("arena")
    board = board_of(rig, options("arena", scale=10, sheet=sheet_named("arch-e")))
    said = {words.text for words in board.drawing.words}
    assert "ladder SL, seen from DS, 1:20" in said
    assert "Scale 1:10. Lengths in metres." in said


def test_a_tag_beside_an_elevation_is_never_set_smaller_for_want_of_room():
    unit = rig_of("studio").scene.units[-1]
    long = msgspec.structs.replace(
        unit, colour="a colour with a long name", system="a system with a long name, and a half"
    )
    rig = solve_rig(
        changed(rig_of("studio").scene, units=(*rig_of("studio").scene.units[:-1], long))
    )
    (tag,) = [t for t in elevation_tags(rig, "boom SL", 50.0, "m") if t.number == long.number]
    assert tag.size[0] <= 50.0
    assert "colour" in " ".join(tag.rows)


def test_tags_stand_behind_their_units_where_there_is_room():
    """One unit on its pipe, lighting upstage: its tag is downstage of its body, near it, without a line."""
    kinds = [a_kind(length=0.6, width=0.22, nose=0.34)]
    unit = Unit(position="p", number="1", kind="k", at=4.0, target="A", channel="11")
    rig = solve_rig(a_scene([unit], [Target(name="A", x=4.0, y=5.0)], kinds=kinds))
    board = board_of(rig, PaperOptions(scale=50, sheet=sheet_named("A1")))
    tag, corner = board.inside.tags[0]
    x, y = board.view.at(4.0, 0.0)
    top, middle = corner[1] + tag.size[1], corner[0] + tag.size[0] / 2
    back = y - 0.26 * 20  # the body reaches 0.26 m behind its clamp
    assert 0.0 < back - top < 3.0
    assert middle == pytest.approx(x, abs=0.1)
    assert board.inside.leaders == []
