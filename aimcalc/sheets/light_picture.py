"""A picture in colour of the light on the stage, a panel a system, for the screen.

The colours go evenly from dark to light, so that the picture says the same in grey.
"""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING, Any, BinaryIO

import numpy as np

from aimcalc.coverage.systems import ALL
from aimcalc.sheets.gapdraw import contour_levels

if TYPE_CHECKING:
    from aimcalc.coverage.study import Study
    from aimcalc.coverage.systems import SystemLight
    from aimcalc.solid.rig import SolidRig


COLOURS = "cividis"  # perceptually even, and the same to colour-blind eyes
ACROSS = 2
PANEL = (5.2, 3.6)  # inches
DPI = 110
FOOT = 0.3048


def light_picture(rig: SolidRig, target: str | BinaryIO) -> None:
    """Write a PNG of every system's light on the face plane, to a path or a binary stream.

    Raises NoAreaError for a scene without an area to cover.
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    from aimcalc.coverage.study import study_of

    study = study_of(rig)
    systems = list(study.systems.values())
    rows = ceil(len(systems) / ACROSS)
    size = (PANEL[0] * ACROSS, PANEL[1] * rows + 0.4)
    figure = Figure(figsize=size, dpi=DPI, layout="constrained")
    FigureCanvasAgg(figure)
    figure.suptitle(f"{rig.scene.settings.title}: light on the level plane at face height")
    panels = figure.subplots(rows, ACROSS, squeeze=False).ravel()
    for panel, system in zip(panels, systems, strict=False):
        _panel(figure, panel, study, system)
    for panel in panels[len(systems) :]:
        panel.set_axis_off()
    figure.savefig(target, format="png", metadata={"Software": "aimcalc"})


def _panel(figure: Any, panel: Any, study: Study, system: SystemLight) -> None:
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
