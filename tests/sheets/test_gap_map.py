"""The gap map of the worked scenes: figures and holes as an independent count has them, nothing covered."""

import io
import re
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from scipy import ndimage

from aimcalc.scene.model import Kind, Stage, Target, Unit
from aimcalc.sheets.plans.gap_map import draw_gap_map, gap_map
from aimcalc.sheets.plans.gapdraw import EDGE, contour_levels
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_scene
from tests.sheets import pdf_reading
from tests.sheets.printed import maps
from tests.shows import a_show, rig_of

SCENES = Path(__file__).parents[2] / "scenes"
FEET = PaperOptions(paper="letter", length="ft")
CASES = [("studio", PaperOptions()), ("playhouse", FEET), ("raked", PaperOptions())]
SQUARE = ((-2.0, 0.0), (2.0, 0.0), (2.0, 4.0), (-2.0, 4.0))


@cache
def show_of(name):
    return a_show(rig_of(name))


@cache
def map_of(name, options):
    pdf, png = io.BytesIO(), io.BytesIO()
    pages = gap_map(show_of(name), pdf, png, options)
    return pdf.getvalue(), png.getvalue(), pages


def a_rig(outline=SQUARE, **kind):
    """One unit that looks nearly straight down on a square of 4 m."""
    unit = Unit(position="p", number="1", kind="k", at=0.0, target="A", system="top", channel="7")
    return solve_rig(
        a_scene(
            [unit],
            [Target(name="A", x=0.0, y=0.2)],
            kinds=[Kind(name="k", family="ers", field=40.0, beam=25.0, drop_under=0.3, **kind)],
            stage=Stage(outline=outline),
        )
    )


@pytest.mark.parametrize(("name", "options"), CASES)
def test_no_text_covers_another_or_leaves_the_paper(name, options):
    data, _, _ = map_of(name, options)
    pdf_reading.assert_apart(data)


@pytest.mark.parametrize(("name", "options"), CASES)
def test_no_minus_sign_no_bare_side_and_every_page_names_its_plane(name, options):
    data, _, count = map_of(name, options)
    pages = pdf_reading.pages(data)
    settings = rig_of(name).scene.settings
    assert len(pages) == count
    for number, text in enumerate(pages, 1):
        assert pdf_reading.minus_signs(text) == []
        assert pdf_reading.bare_sides(text) == []
        told = f"page {number} of {count}", settings.title, f"revision {settings.revision}"
        for said in (*told, "FACE PLANE", "STAND"):
            assert said in text


@pytest.mark.parametrize(("name", "options"), CASES)
def test_a_page_for_every_system_of_the_hang_list_and_one_for_all(name, options):
    systems = list(dict.fromkeys(u.system for u in rig_of(name).units if u.system))
    pages = pdf_reading.pages(map_of(name, options)[0])
    assert len(pages) == len(systems) + 1
    for page, system in zip(pages, [*systems, "all systems together"], strict=True):
        assert re.search(rf"(?m)(^|\d ){system}\s*$", page)


@pytest.mark.parametrize(("name", "options"), CASES)
def test_holes_on_paper_are_the_ones_that_a_plain_count_of_dark_points_finds(name, options):
    """Second method: label the dark cells of the level's raster here, size and centroid by ndimage."""
    study = show_of(name).survey.study
    grid = study.plane.grid
    for text, system in zip(
        pdf_reading.pages(map_of(name, options)[0]), study.systems.values(), strict=True
    ):
        dark = np.nan_to_num(grid.raster(system.level), nan=np.inf) < 0.5 * system.figures.mean
        labels, count = ndimage.label(dark, structure=np.ones((3, 3)))
        cells = ndimage.sum(dark, labels, range(1, count + 1)) * grid.dx * grid.dy
        m2 = sorted((float(c) for c in cells if c >= 0.1), reverse=True)
        text = " ".join(text.split())
        per = 0.3048**2 if options.length == "ft" else 1.0
        told = {
            int(k): float(v) for k, v in re.findall(r"\bhole (\d+),? ([\d.]+) (?:m2|ft2)", text)
        }
        step = 0.1 if options.length == "ft" else 0.01
        assert [told[k] for k in sorted(told)] == pytest.approx(
            [area / per for area in m2], abs=0.51 * step
        )
        assert f"mean {system.figures.mean:.0f} lx" in text


@pytest.mark.parametrize(("name", "options"), CASES)
def test_the_heavy_edges_enclose_the_holes_area(name, options):
    """Area by Green's theorem from the upright edges alone: every row's widths times its height."""
    study = show_of(name).survey.study
    for drawing, system in zip(maps(name, options), study.systems.values(), strict=True):
        scale = int(re.search(r"1:(\d+)", " ".join(x.text for x in drawing.words))[1])
        edges = [ln.points for ln in drawing.lines if ln.weight == EDGE and len(ln.points) == 2]
        upright = np.array([e for e in edges if abs(e[0, 0] - e[1, 0]) < 1e-6]).reshape(-1, 2, 2)
        low, high = upright[:, :, 1].min(axis=1), upright[:, :, 1].max(axis=1)
        mm2 = 0.0
        for y in np.arange(0.0, drawing.height, 0.2):
            x = np.sort(upright[(low <= y) & (y < high), 0, 0]).reshape(-1, 2)
            mm2 += 0.2 * (x[:, 1] - x[:, 0]).sum()
        assert mm2 * (scale / 1000) ** 2 == pytest.approx(
            sum(g.area for g in system.gaps), rel=0.02
        )


def test_a_hole_is_dark_on_paper_and_covered_ground_is_plain():
    """Ink in the picture over the middle of the largest hole, and over the cell with the most light."""
    options, rig = PaperOptions(), rig_of("raked")
    study = a_show(rig).survey.study
    drawing, system = maps("raked", options)[2], list(study.systems.values())[2]
    _, png, _ = map_of("raked", options)
    picture = np.asarray(Image.open(io.BytesIO(png)), dtype=float) / 255
    per_mm = 80 / 25.4
    left = int(2 * drawing.width * per_mm)

    def ink(x, y):
        column = left + int(x * per_mm)
        row = int((drawing.height - y) * per_mm)
        return 1 - picture[row - 6 : row + 7, column - 6 : column + 7].mean()

    edges = np.concatenate(
        [ln.points for ln in drawing.lines if ln.weight == EDGE and len(ln.points) == 2]
    )
    scale = int(re.search(r"1:(\d+)", " ".join(x.text for x in drawing.words))[1])
    low = edges.min(axis=0)
    x0 = min(gap.box[0] for gap in system.gaps)
    y0 = min(gap.box[1] for gap in system.gaps)

    def page(x, y):
        return low + (np.array([x - x0, y - y0])) * 1000 / scale

    assert ink(*page(*system.gaps[0].centre)) > 0.25
    assert ink(*page(*system.gaps[1].centre)) > 0.25
    grid = study.plane.grid
    x, y = grid.plan()
    plain = [ink(*page(x[k], y[k])) for k in np.flatnonzero(system.level > system.below * 1.3)]
    assert np.median(plain) < 0.1


@pytest.mark.parametrize(("name", "options"), CASES)
def test_the_unit_told_for_each_hole_is_set_to_hit_the_face_told(name, options):
    """Second method: down from the printed face by plain trigonometry from the pivot, which stays.

    Half a degree for an axis that does not cross the pivot.
    """
    rig = rig_of(name)
    found = a_show(rig).survey
    told = 0
    for system, helpers in found.helpers.items():
        assert system in found.study.systems
        for best in (each[0] for each in helpers if each):
            x, y, z = np.array(best.face) - rig.aims.pivot[:, best.unit]
            down = np.degrees(np.arctan2(-z, np.hypot(x, y)))
            assert np.degrees(best.down) == pytest.approx(down, abs=0.5)
            told += 1
    text = " ".join(pdf_reading.pages(map_of(name, options)[0]))
    assert text.count("closes ") > 0.6 * told


def test_the_same_rig_gives_the_same_bytes():
    twice = []
    for _ in range(2):
        pdf, png = io.BytesIO(), io.BytesIO()
        gap_map(show_of("studio"), pdf, png, PaperOptions())
        twice.append((pdf.getvalue(), png.getvalue()))
    assert twice[0] == twice[1]


def test_light_straight_down_is_told_in_lux_by_the_inverse_square():
    """10,000 cd straight down from 6 - 0.3 - 1.65 m over the face: 10,000 / 4.05^2 = 610 lx (plus cosine)."""
    rig = a_rig(peak_cd=10_000.0)
    pdf = io.BytesIO()
    gap_map(a_show(rig, []), pdf, io.BytesIO(), PaperOptions())
    most = int(re.search(r"most (\d+) lx", pdf_reading.pages(pdf.getvalue())[0])[1])
    assert 540 < most <= 610


def test_where_no_candela_is_known_nothing_is_hatched_and_the_page_says_why():
    drawing = draw_gap_map(a_show(a_rig()), PaperOptions())[0]
    text = " ".join(words.text for words in drawing.words)
    assert "not known" in text
    assert "hole 1" not in text
    assert not [ln for ln in drawing.lines if ln.weight == EDGE and len(ln.points) == 2]


def test_an_area_of_one_row_of_points_has_figures_but_no_lines():
    strip = ((-2.0, 0.0), (2.0, 0.0), (2.0, 0.1), (-2.0, 0.1))
    drawing = draw_gap_map(a_show(a_rig(strip, peak_cd=10_000.0)), PaperOptions())[0]
    assert [w.text for w in drawing.words if w.text.startswith("mean ")]
    assert not [w.text for w in drawing.words if re.fullmatch(r"\d+ lx", w.text)]


def test_figures_on_the_map_count_the_one_unit_that_is_there():
    counts = [
        w.text for w in draw_gap_map(a_show(a_rig(peak_cd=10_000.0)), PaperOptions())[0].words
    ]
    assert "1" in counts
    assert "2" not in counts


def test_without_an_area_the_page_says_what_is_missing():
    rig = solve_rig(a_scene([Unit(position="p", number="1", kind="k", at=0.0, point=(0, 1, 1))]))
    pages = draw_gap_map(a_show(rig), PaperOptions())
    assert len(pages) == 1
    assert "no area to cover" in " ".join(words.text for words in pages[0].words)


@pytest.mark.parametrize(
    ("least", "most", "levels"),
    [
        (418.0, 1299.0, [500.0, 1000.0]),
        (0.0, 1000.0, [200.0, 400.0, 600.0, 800.0]),
        (0.3, 1.0, [0.4, 0.6, 0.8]),
        (5.0, 5.0, []),
    ],
)
def test_lines_of_equal_light_have_round_values_between_the_threshold_and_the_most(
    least, most, levels
):
    assert contour_levels(least, most) == pytest.approx(levels)


@pytest.mark.parametrize("options", [PaperOptions(), PaperOptions(paper="letter", length="ft")])
@pytest.mark.parametrize("name", ["studio", "playhouse", "raked"])
def test_no_line_under_a_map_is_squeezed_and_every_hole_and_mark_has_its_name(name, options):
    """11 pt is the least type; a long reason why nothing helps goes on to a second line."""
    for drawing in maps(name, options):
        table = [word for word in drawing.words if word.text.startswith("hole ")]
        assert all(word.size >= 11.0 - 1e-9 for word in table)
        assert not [word.text for word in drawing.words if "No room" in word.text]
