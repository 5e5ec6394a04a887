"""Makes every picture that README shows: `python figures/make.py [FOLDER]` (into this folder without one).

The pages are those that `aimcalc prep scenes/playhouse` prints (the light plot: `scenes/studio`), turned into
pictures by pypdfium2, which comes with the `test` extra.
"""

from __future__ import annotations

import io
import sys
from pathlib import Path

from aimcalc.show import Show

HERE = Path(__file__).resolve().parent
SCENE = HERE.parent / "scenes" / "playhouse"


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
    from aimcalc.sheets import pool_plan as plan
    from aimcalc.sheets.prep import options_for

    pdf, png = io.BytesIO(), io.BytesIO()
    plan.pool_plan(show, pdf, png, options_for(show.rig))
    return page(pdf, "front warm")


def rig_overview(show: Show) -> bytes:
    """The rig in three dimensions, as `prep` draws it."""
    from aimcalc.sheets.overview import overview
    from aimcalc.sheets.prep import options_for

    png = io.BytesIO()
    overview(show, png, options_for(show.rig))
    return png.getvalue()


def light_on_stage(show: Show) -> bytes:
    """The light of every system in colour, for the screen."""
    from aimcalc.sheets.light_picture import light_picture

    png = io.BytesIO()
    light_picture(show.rig, png)
    return png.getvalue()


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


def main(folder: Path = HERE) -> None:
    """Write every figure into `folder`."""
    folder.mkdir(parents=True, exist_ok=True)
    show = Show.read(SCENE)
    for name, make in FIGURES.items():
        (folder / name).write_bytes(make(show))
        print(folder / name)


if __name__ == "__main__":
    main(*map(Path, sys.argv[1:2]))
