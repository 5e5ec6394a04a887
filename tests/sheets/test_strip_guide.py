"""The first page of the hang strips."""

from __future__ import annotations

import io

from aimcalc.scene.model import Unit
from aimcalc.sheets.strip.hang_strip import hang_strip, steps
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_pipe, a_scene
from tests.sheets import pdf_reading
from tests.shows import a_show, rig_of


def pages_of(rig, **options):
    stream = io.BytesIO()
    hang_strip(a_show(rig, []), stream, PaperOptions(**options))
    return stream.getvalue()


def beside(page, name):
    """What is said after a name on its line."""
    (start,) = (run for run in page if run.words == name)
    line = [run for run in page if abs(run.top - start.top) < 4 and run.left > start.left]
    return [run.words for run in sorted(line, key=lambda run: run.left)]


def test_the_guide_names_every_strip_with_its_pages():
    data = pages_of(rig_of("studio"))
    texts = pdf_reading.pages(data)
    for name in ("front pipe", "back pipe", "boom SL"):
        tiles, pages = beside(pdf_reading.runs(data)[0], name)[:2]
        mine = [k for k, text in enumerate(texts, 1) if f"{name}, tile " in text]
        assert pages == f"{mine[0]} to {mine[-1]}"
        assert sum(text.count(f"{name}, tile ") for text in texts) == int(tiles)


def test_the_steps_speak_of_the_length_unit_of_the_paper():
    assert "100 mm" in steps("m")[0]
    assert "1.00 m apart" in steps("m")[2]
    assert "4 in" in steps("ft")[0]
    assert "3'-0\" apart" in steps("ft")[2]


def test_many_strips_fit_on_the_page():
    pipes = [a_pipe(f"pipe number {k} of the grid", y=k / 10) for k in range(40)]
    units = [Unit(position=p.name, number="1", kind="k", at=0.0, point=(0, 9, 1)) for p in pipes]
    data = pages_of(solve_rig(a_scene(units, pipes=pipes)))
    first = pdf_reading.runs(data)[0]
    assert pdf_reading.overlaps(first) == []
    assert pdf_reading.outside(first, pdf_reading.sizes(data)[0]) == []
