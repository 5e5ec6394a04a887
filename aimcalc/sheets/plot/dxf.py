"""The light plot as DXF: the stage in real lengths, a block at every clamp, the sheet on a layout."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, BinaryIO

import numpy as np

from aimcalc.geometry.vectors import Array, to_degrees
from aimcalc.paper.drawdxf import (
    Layer,
    Model,
    add_drawing,
    add_line,
    add_words,
    dxf_bytes,
    names_of,
    new_model,
    plain,
)
from aimcalc.paper.drawing import (
    CAPITAL,
    NARROW,
    PT,
    SYMBOL,
    WIDE,
    Drawing,
    Inset,
    Words,
)
from aimcalc.paper.planpage import View
from aimcalc.rig.places import TUBE_RADIUS, place
from aimcalc.scene.model import Pipe
from aimcalc.sheets.plot.plan import LOOKS, RING, Drawn, features
from aimcalc.sheets.plot.symbols import Look, looks_of, symbol
from aimcalc.sheets.plot.tags import TAG, aim_words
from aimcalc.text import words as w
from aimcalc.text.rows import hangs

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig
    from aimcalc.text.stamp import PaperOptions


UNITS, DATA, NAMES, ZEROS, MARKS, SHEET, DRAFT = (
    "units",
    "unit data",
    "position names",
    "zero marks",
    "dimensions",
    "sheet",
    "draft",
)
LAYERS = {
    **{name: Layer(*look) for name, look in LOOKS.items()},
    UNITS: Layer(SYMBOL),
    DATA: Layer(NARROW),
    NAMES: Layer(NARROW),
    ZEROS: Layer(NARROW),
    MARKS: Layer(NARROW),
    SHEET: Layer(NARROW),
    DRAFT: Layer(WIDE),
}
LAYOUT = "light plot"


def write_plot_dxf(
    stream: BinaryIO, rig: SolidRig, inside: Drawn, view: View, page: Drawing, options: PaperOptions
) -> None:
    """Write the plot; `page` is the sheet that has all but the plan on it, which `inside` shows in `view`."""
    settings = rig.scene.settings
    model = new_model(
        options.length, LAYERS, view.scale, f"{settings.title}: light plot", options.stamp
    )
    for feature in features(rig):
        add_line(model.space, feature.points * model.per_metre, feature.layer)
    _positions(model, rig)
    _zero_lines(model, view)
    _words(model, inside, view)
    _units(model, rig, inside, view, options.length)
    _sheet(model, view, page)
    if options.draft:
        _draft(model, view, options)
    stream.write(dxf_bytes(model.document))


def _positions(model: Model, rig: SolidRig) -> None:
    """Booms and stands as circles of their tube, zero marks as the rings that the paper has."""
    for position in rig.scene.positions.values():
        if isinstance(position, Pipe):
            x, y, _ = place(position).zero
            spot, radius, layer = model.point(x, y), RING * model.mm, ZEROS
        else:
            spot, radius, layer = (
                model.point(position.x, position.y),
                TUBE_RADIUS * model.per_metre,
                "positions",
            )
        model.space.add_circle(spot, radius, dxfattribs={"layer": layer})


def _zero_lines(model: Model, view: View) -> None:
    x0, y0, x1, y1 = view.reach
    for line in (np.array([(0.0, y0), (0.0, y1)]), np.array([(x0, 0.0), (x1, 0.0)])):
        add_line(model.space, line * model.per_metre, "centre and plaster lines")


def _words(model: Model, inside: Drawn, view: View) -> None:
    """Names of positions, scenery and sides where the paper has them, and the lines from tags to units."""
    for told, layer in ((inside.named, NAMES), (inside.dimensions.words, MARKS)):
        for words in told:
            add_words(model.space, words, layer, _real(model, view, *words.start), model.mm)
    for lines, layer in ((inside.leaders, DATA), (inside.dimensions.lines, MARKS)):
        for line in lines:
            points = np.array([_real(model, view, x, y) for x, y in line.points.tolist()])
            add_line(model.space, points, layer)


def _real(model: Model, view: View, x: float, y: float) -> tuple[float, float]:
    """A point on the board, mm, in the document's unit."""
    per_mm = view.scale / 1000
    left, bottom, _, _ = view.frame
    return model.point(view.origin[0] + (x - left) * per_mm, view.origin[1] + (y - bottom) * per_mm)


def _units(model: Model, rig: SolidRig, inside: Drawn, view: View, length: w.LengthUnit) -> None:
    """A block for every look, and a reference to one at every clamp."""
    looks, turns = looks_of(rig)
    used = list(dict.fromkeys(looks))
    blocks = dict(zip(used, names_of([look.kind for look in used]), strict=True))
    for look, name in blocks.items():
        _block(model, rig, look, name)
    for k, look in enumerate(looks):
        spot = model.point(*rig.arrays.clamp[:2, k].tolist())
        turn = float(to_degrees(-turns[k])) % 360.0
        insert = model.space.add_blockref(
            blocks[look], spot, dxfattribs={"layer": UNITS, "rotation": turn}
        )
        _attributes(model, rig, k, insert, inside, view, length)


def _block(model: Model, rig: SolidRig, look: Look, name: str) -> None:
    block = model.document.blocks.new(name)
    drawn = symbol(rig.scene.kinds[look.kind], look)
    for part in drawn.outlines:
        add_line(block, part * model.per_metre, "0", closed=True)
    for part in drawn.strokes:
        add_line(block, part * model.per_metre, "0", weight=NARROW)
    high = CAPITAL * TAG * PT * model.mm
    for n, tag in enumerate(TAGS):
        block.add_attdef(tag, (0.0, -n * 1.5 * high), height=high, dxfattribs={"flags": 1})


TAGS = (
    "NUMBER",
    "CHANNEL",
    "CIRCUIT",
    "COLOUR",
    "KIND",
    "TARGET",
    "SYSTEM",
    "POSITION",
    "MARK",
    "HOW",
    "HEIGHT",
)


def values_of(rig: SolidRig, k: int, length: w.LengthUnit) -> dict[str, str]:
    """What the attributes of a unit's block say, by their tags."""
    unit = rig.units[k]
    mark, how = hangs(unit, rig.positions[k], length)
    told = (
        unit.number,
        unit.channel,
        unit.circuit,
        unit.colour,
        unit.kind,
        unit.target or aim_words(rig, k, length),
        unit.system,
        unit.position,
        mark,
        how,
        w.length(float(rig.arrays.clamp[2, k]), length, w.HANG),
    )
    return dict(zip(TAGS, (value or "" for value in told), strict=True))


def _attributes(
    model: Model,
    rig: SolidRig,
    k: int,
    insert: Any,
    inside: Drawn,
    view: View,
    length: w.LengthUnit,
) -> None:
    """A unit's attributes: where its tag stands those that it has are seen, in its rows; the rest are not."""
    values = values_of(rig, k, length)
    shown = {}
    if k in inside.tags:
        form, corner = inside.tags[k]
        shown = form.places(float(corner[0]), float(corner[1]))
        shown.pop("KIND", None)  # a letter, for whoever has the key beside it
    spot = model.point(*rig.arrays.clamp[:2, k].tolist())
    for tag, value in values.items():
        words = shown.get(tag)
        size = words.size if words else TAG
        at = _real(model, view, *words.start) if words else spot
        attribute = insert.add_attrib(
            tag,
            plain(value),
            at,
            dxfattribs={"layer": DATA, "height": CAPITAL * size * PT * model.mm},
        )
        attribute.is_invisible = words is None
        attribute.dxf.style = "heavy" if words and words.bold else "plain"


def _sheet(model: Model, view: View, page: Drawing) -> None:
    """The sheet as a layout in mm: what stands round the plan, and the plan seen through a window."""
    document = model.document
    document.layouts.rename("Layout1", LAYOUT)
    layout = document.layouts.get(LAYOUT)
    layout.page_setup(size=(page.width, page.height), margins=(0, 0, 0, 0), units="mm")
    shift = (0.0, 0.0)
    if isinstance(page.inset, Inset):
        shift = page.inset.shift
        add_drawing(model, LAYOUT, page.inset.drawing, SHEET, shift)
    add_drawing(model, LAYOUT, page, SHEET)
    left, bottom, right, top = view.frame
    x0, y0, x1, y1 = (side * model.per_metre for side in view.reach)
    layout.add_viewport(
        center=((left + right) / 2 + shift[0], (bottom + top) / 2 + shift[1]),
        size=(right - left, top - bottom),
        view_center_point=((x0 + x1) / 2, (y0 + y1) / 2),
        view_height=y1 - y0,
        dxfattribs={"layer": SHEET},
    )


def _draft(model: Model, view: View, options: PaperOptions) -> None:
    """DRAFT large under the plan, with what was set for this print alone."""
    x0, y0, x1, _ = view.reach
    size = 40.0
    told = Words(0.0, 0.0, options.draft_words or "DRAFT", size, True)
    start: Array = np.array(model.point((x0 + x1) / 2, y0))
    x, y = (start - np.array([0.0, 1.5 * size * PT * model.mm])).tolist()
    add_words(model.space, told, DRAFT, (x, y), model.mm)
