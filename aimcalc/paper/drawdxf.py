"""Drawings as DXF: a document in metres or feet, lines and words on named layers, the same bytes every time.

What is drawn on a page (`add_drawing`) goes on a layout, in millimetres; what is real goes into the model
space in the unit that the header states. The library loads inside these functions only.
"""

from __future__ import annotations

import io
import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import Any

import numpy as np

from aimcalc.geometry.vectors import Array, to_radians
from aimcalc.named import NamedTuple
from aimcalc.paper.drawing import CAPITAL, DASHES, PT, Dash, Drawing, Words, text_width
from aimcalc.paper.planpage import FOOT
from aimcalc.text.stamp import Stamp
from aimcalc.text.words import LengthUnit

METRES, FEET = 6, 2  # $INSUNITS (DXF reference, header section: 2 feet, 4 mm, 6 metres)
PLAIN, HEAVY = "plain", "heavy"  # text styles
FILES = {PLAIN: "DejaVuSans.ttf", HEAVY: "DejaVuSans-Bold.ttf"}
FORBIDDEN = '<>/\\":;?*|=,`'  # in names of blocks (DXF reference, symbol table names)
LONGEST_NAME = 200  # letters; the format ends at 255


class Layer(NamedTuple):
    """A layer's line: its width in pt, and its dash."""

    weight: float
    dash: Dash = "solid"


class Model(NamedTuple):
    """A document while it grows: `per_metre` are its units to the metre, `scale` that of its paper."""

    document: Any
    per_metre: float
    scale: float

    @property
    def space(self) -> Any:
        """The model space."""
        return self.document.modelspace()

    def point(self, x: float, y: float) -> tuple[float, float]:
        """Plan metres in the document's unit."""
        return x * self.per_metre, y * self.per_metre

    @property
    def mm(self) -> float:
        """A millimetre on paper in the document's unit."""
        return self.scale / 1000 * self.per_metre


def new_model(
    length: LengthUnit, layers: Mapping[str, Layer], scale: float, title: str, stamp: Stamp
) -> Model:
    """An empty document with these layers, in metres or feet by the length unit of the paper."""
    from ezdxf.filemanagement import new

    with _same_dates():
        document: Any = new("R2010")
    document.header["$INSUNITS"] = FEET if length == "ft" else METRES
    document.header["$MEASUREMENT"] = 0 if length == "ft" else 1
    document.header["$LUNITS"] = 2
    document.header["$LTSCALE"] = 1.0
    document.header["$PSLTSCALE"] = 0
    document.header.custom_vars.append("title", plain(title))
    document.header.custom_vars.append("set", stamp.words or "none")
    model = Model(document, 1 / FOOT if length == "ft" else 1.0, scale)
    for name, font in FILES.items():
        document.styles.add(name, font=font)
    for name, layer in layers.items():
        linetype = _linetype(model, layer)
        document.layers.add(name, lineweight=_weight(layer.weight), linetype=linetype)
    return model


def _linetype(model: Model, layer: Layer) -> str:
    """The line type of a layer's dash, made when it is first asked for."""
    if layer.dash == "solid":
        return "Continuous"
    if layer.dash not in model.document.linetypes:
        parts = [part * layer.weight * PT * model.mm for part in DASHES[layer.dash]]
        signed = [part * (-1.0 if k % 2 else 1.0) for k, part in enumerate(parts)]
        model.document.linetypes.add(layer.dash, pattern=[sum(parts), *signed])
    return str(layer.dash)


def _weight(points: float) -> int:
    """A width in hundredths of a millimetre, as the format has it."""
    return round(points * PT * 100)


def add_line(
    space: Any,
    points: Array,
    layer: str,
    *,
    closed: bool = False,
    weight: float = 0.0,
    dash: Dash = "solid",
    dash_scale: float = 1.0,
) -> None:
    """A run of straight pieces (n, 2) in the units of the space; width and dash of its layer, or its own."""
    attributes: dict[str, Any] = {"layer": layer}
    if weight:
        attributes["lineweight"] = _weight(weight)
    if dash != "solid":
        attributes |= {"linetype": dash, "ltscale": dash_scale}
    space.add_lwpolyline(points.tolist(), close=closed, dxfattribs=attributes)


def add_words(space: Any, words: Words, layer: str, start: tuple[float, float], mm: float) -> None:
    """A line of text that begins at `start`, as wide as it was measured to be; `mm` is that of the space."""
    from ezdxf.enums import TextEntityAlignment

    wide = text_width(words.text, words.size, words.bold) * mm
    turn = to_radians(words.turn)
    end = start[0] + wide * float(np.cos(turn)), start[1] + wide * float(np.sin(turn))
    text = space.add_text(
        plain(words.text),
        height=CAPITAL * words.size * PT * mm,
        dxfattribs={"layer": layer, "style": HEAVY if words.bold else PLAIN},
    )
    text.set_placement(start, end, align=TextEntityAlignment.FIT)


def add_drawing(
    model: Model, layout: str, drawing: Drawing, layer: str, shift: tuple[float, float] = (0.0, 0.0)
) -> None:
    """The lines, outlines and words of a page on a layout in mm, all on one layer, white fills left out.

    Dashes are those that some layer of the document has.
    """
    space = model.document.layouts.get(layout)
    way = np.array(shift)
    for line in drawing.lines:
        dash = line.dash if line.dash in model.document.linetypes else "solid"
        add_line(
            space,
            line.points + way,
            layer,
            weight=line.weight,
            dash=dash,
            dash_scale=1 / model.mm,
        )
    for shape in drawing.shapes:
        if shape.weight or shape.fill == "black":
            add_line(space, shape.points + way, layer, closed=True, weight=shape.weight)
        if shape.fill == "black":
            hatch = space.add_hatch(dxfattribs={"layer": layer})
            hatch.paths.add_polyline_path((shape.points + way).tolist(), is_closed=True)
    for words in drawing.words:
        x, y = words.start
        add_words(space, words, layer, (x + shift[0], y + shift[1]), 1.0)


def plain(text: str) -> str:
    """Text on one line that no reader takes for codes: pairs of per cent signs and carets are spelled out."""
    printed = (" " if unicodedata.category(letter) == "Cc" else letter for letter in text)
    joined = " ".join("".join(printed).split())
    return joined.replace("%%", "%%%%%%").replace("^", "^ ")


def names_of(wanted: Sequence[str]) -> list[str]:
    """Names for blocks that the format allows, all different where capitals do not count."""
    found: list[str] = []
    taken: set[str] = set()
    for name in wanted:
        clean = "".join("_" if c in FORBIDDEN or not c.isprintable() else c for c in name).strip()
        clean = clean[:LONGEST_NAME] or "kind"
        tries = [clean, *(f"{clean} {n}" for n in range(2, len(wanted) + 2))]
        found.append(next(one for one in tries if one.casefold() not in taken))
        taken.add(found[-1].casefold())
    return found


def dxf_bytes(document: Any) -> bytes:
    """The finished document. Its own dates and marks are always the same: the set's stand in its text."""
    stream = io.StringIO()
    document.classes.add_required_classes(document.dxfversion)
    kept = (
        document.classes.classes
    )  # which the library fills from a set, in another order every run
    for key in sorted(kept):
        kept.move_to_end(key)
    with _same_dates():
        document.write(stream)
    return stream.getvalue().encode(document.output_encoding, errors="replace")


@contextmanager
def _same_dates() -> Iterator[None]:
    """The library puts the same dates and marks into whatever it makes, for as long as this lasts."""
    from ezdxf import options  # type: ignore[attr-defined]

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before
