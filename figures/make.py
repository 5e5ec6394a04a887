"""Makes every picture that README shows: `python figures/make.py [FOLDER]` (into this folder without one).

The pages are those that `aimcalc prep scenes/playhouse` prints (the light plot: `scenes/studio`), turned into
pictures by pypdfium2, which comes with the `test` extra.
"""

from __future__ import annotations

import io
import sys
from math import ceil
from pathlib import Path
from typing import Any

import numpy as np

from aimcalc.coverage.systems import ALL
from aimcalc.sheets.plans.gapdraw import contour_levels
from aimcalc.show import Show

HERE = Path(__file__).resolve().parent
SCENE = HERE.parent / "scenes" / "playhouse"
COLOURS = "cividis"  # perceptually even, and the same to colour-blind eyes
ACROSS = 2
PANEL = (5.2, 3.6)  # inches
DPI = 110
FOOT = 0.3048


def page(pdf: io.BytesIO, words: str, *, dots_per_inch: float = 80.0) -> bytes:
    """The first page of a PDF that says `words`, as a grey PNG."""
    import pypdfium2

    for sheet in pypdfium2.PdfDocument(pdf.getvalue()):
        if words in sheet.get_textpage().get_text_bounded():
            break
    image = sheet.render(scale=dots_per_inch / 72.0, grayscale=True)
    out = io.BytesIO()
    image.to_pil().save(out, "PNG", optimize=True)
    return out.getvalue()


def ladder_sheet(show: Show) -> bytes:
    """The side of pipe 1, two of whose units face the reader."""
    from aimcalc.sheets.ladder import ladder
    from aimcalc.sheets.prep import options_for

    pdf = io.BytesIO()
    ladder(show, pdf, options_for(show.rig))
    return page(pdf, "| pipe 1 |")


def pool_plan(show: Show) -> bytes:
    """The page of the front warm system."""
    from aimcalc.sheets.plans import pool_plan as plan
    from aimcalc.sheets.prep import options_for

    pdf, png = io.BytesIO(), io.BytesIO()
    plan.pool_plan(show, pdf, png, options_for(show.rig))
    return page(pdf, "front warm")


def rig_overview(show: Show) -> bytes:
    """The rig in three dimensions, as `prep` draws it."""
    from aimcalc.sheets.plans.overview import overview
    from aimcalc.sheets.prep import options_for

    png = io.BytesIO()
    overview(show, png, options_for(show.rig))
    return png.getvalue()


def light_on_stage(show: Show) -> bytes:
    """The light of every system in colour, for the screen."""
    png = io.BytesIO()
    light_picture(show, png)
    return png.getvalue()


def light_picture(show: Show, target: io.BytesIO) -> None:
    """Write a PNG of every system's light on the face plane, a panel a system.

    Its colours go evenly from dark to light, so that it says the same in grey.
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    study = show.light
    systems = list(study.systems.values())
    rows = ceil(len(systems) / ACROSS)
    size = (PANEL[0] * ACROSS, PANEL[1] * rows + 0.4)
    figure = Figure(figsize=size, dpi=DPI, layout="constrained")
    FigureCanvasAgg(figure)
    figure.suptitle(f"{show.scene.settings.title}: light on the level plane at face height")
    panels = figure.subplots(rows, ACROSS, squeeze=False).ravel()
    for panel, system in zip(panels, systems, strict=False):
        _panel(figure, panel, study, system)
    for panel in panels[len(systems) :]:
        panel.set_axis_off()
    figure.savefig(target, format="png", metadata={"Software": "aimcalc"})


def _panel(figure: Any, panel: Any, study: Any, system: Any) -> None:
    """One system: its light in colour with a bar in lux, lines of equal light, its holes edged white."""
    grid, rig = study.plane.grid, study.rig
    metre = FOOT if rig.scene.settings.unit in ("ft", "in") else 1.0
    x, y = grid.x / metre, grid.y / metre
    raster = np.ma.masked_invalid(grid.raster(system.level))
    half_x, half_y = grid.dx / metre / 2, grid.dy / metre / 2
    extent = (x[0] - half_x, x[-1] + half_x, y[0] - half_y, y[-1] + half_y)
    shown = panel.imshow(
        raster,
        origin="lower",
        extent=extent,
        cmap=COLOURS,
        vmin=0.0,
        interpolation="bilinear",
    )
    figure.colorbar(shown, ax=panel, label="lux", shrink=0.85)
    levels = contour_levels(system.below, float(raster.max()))
    if levels and min(raster.shape) > 1:
        lines = panel.contour(x, y, raster, levels, colors="black", linewidths=0.6)
        panel.clabel(lines, fmt="%.0f", fontsize=7)
        if system.gaps:
            panel.contour(x, y, raster, [system.below], colors="white", linewidths=1.6)
    outline = np.array([*rig.scene.stage.outline, *rig.scene.stage.outline[:1]]).reshape(-1, 2)
    panel.plot(*(outline / metre).T, color="black", linewidth=1.4)
    panel.axvline(0.0, color="black", linewidth=0.6, linestyle="-.")
    panel.axhline(0.0, color="black", linewidth=0.6, linestyle="-.")
    name = "all systems together" if system.name == ALL else system.name
    panel.set_title(f"{name}: mean {system.figures.mean:.0f} lx", fontsize=10)
    unit = "ft" if metre != 1.0 else "m"
    side = "{:.0f}".format
    panel.xaxis.set_major_formatter(lambda v, _: f"{side(abs(v))} {_side(v, 'SL', 'SR', 'CL')}")
    panel.yaxis.set_major_formatter(lambda v, _: f"{side(abs(v))} {_side(v, 'US', 'DS', 'PL')}")
    panel.set_xlabel(f"{unit} from the centre line (CL)", fontsize=8)
    panel.set_ylabel(f"{unit} from the plaster line (PL)", fontsize=8)
    panel.tick_params(labelsize=7)


def _side(value: float, plus: str, minus: str, zero: str) -> str:
    return zero if abs(value) < 1e-9 else plus if value > 0 else minus


def plot(show: Show) -> bytes:
    """The light plot of the smallest scene, whose sheet a screen can show whole."""
    from aimcalc.sheets.plot.light_plot import light_plot
    from aimcalc.sheets.prep import options_for

    small, pdf = Show.read(SCENE.parent / "studio"), io.BytesIO()
    light_plot(small, pdf, io.BytesIO(), io.BytesIO(), options_for(small.rig))
    return page(pdf, "LIGHT PLOT")


FIGURES = {
    "ladder-sheet.png": ladder_sheet,
    "pool-plan.png": pool_plan,
    "overview.png": rig_overview,
    "light-plot.png": plot,
    "light-on-stage.png": light_on_stage,
}


def main(folder: Path = HERE, show: Show | None = None) -> None:
    """Write every figure into `folder`, of the playhouse's show where it is there already."""
    folder.mkdir(parents=True, exist_ok=True)
    show = show or Show.read(SCENE)
    for name, make in FIGURES.items():
        (folder / name).write_bytes(make(show))
        print(folder / name)


if __name__ == "__main__":
    main(*map(Path, sys.argv[1:2]))
