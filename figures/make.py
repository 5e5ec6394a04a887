"""Makes every picture that README shows: `python figures/make.py [FOLDER]` (into this folder without one).

The pages are those that `aimcalc prep scenes/playhouse` prints, turned into pictures by pypdfium2, which
comes with the `test` extra.
"""

from __future__ import annotations

import io
import sys
from pathlib import Path

from aimcalc.findings import checks
from aimcalc.rig.rig import Rig
from aimcalc.scene.loading import load_scene
from aimcalc.solid.rig import solve_rig

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


def aim_sheet(rig: Rig) -> bytes:
    """The first page of the first position."""
    from aimcalc.sheets.aim_sheets import aim_sheets
    from aimcalc.sheets.prep import options_for

    pdf = io.BytesIO()
    aim_sheets(rig, checks(rig), pdf, options_for(rig))
    return page(pdf, "1 = SL END")


def pool_plan(rig: Rig) -> bytes:
    """The page of the front warm system."""
    from aimcalc.sheets import pool_plan as plan
    from aimcalc.sheets.prep import options_for

    pdf, png = io.BytesIO(), io.BytesIO()
    plan.pool_plan(rig, checks(rig), pdf, png, options_for(rig))
    return page(pdf, "front warm")


def rig_overview(rig: Rig) -> bytes:
    """The rig in three dimensions, as `prep` draws it."""
    from aimcalc.sheets.overview import overview
    from aimcalc.sheets.prep import options_for

    png = io.BytesIO()
    overview(rig, checks(rig), png, options_for(rig))
    return png.getvalue()


def light_on_stage(rig: Rig) -> bytes:
    """The light of every system in colour, for the screen."""
    from aimcalc.sheets.light_picture import light_picture

    png = io.BytesIO()
    light_picture(rig, png)
    return png.getvalue()


FIGURES = {
    "aim-sheet.png": aim_sheet,
    "pool-plan.png": pool_plan,
    "overview.png": rig_overview,
    "light-on-stage.png": light_on_stage,
}


def main(folder: Path = HERE) -> None:
    """Write every figure into `folder`."""
    folder.mkdir(parents=True, exist_ok=True)
    rig = solve_rig(load_scene(str(SCENE)))
    for name, make in FIGURES.items():
        (folder / name).write_bytes(make(rig))
        print(folder / name)


if __name__ == "__main__":
    main(*map(Path, sys.argv[1:2]))
