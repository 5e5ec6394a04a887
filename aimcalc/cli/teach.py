"""The class: `explain`."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from aimcalc.cli.shared import (
    length_unit,
    name_of,
    named_for,
    reads_scene,
    show_of,
    status_of,
    terminal_width,
    worked,
    write_file,
)

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import BinaryIO

    from aimcalc.show import Show
    from aimcalc.text.stamp import PaperOptions

pdf_option = click.option(
    "-o",
    "--out",
    "file",
    metavar="FILE.pdf",
    callback=named_for("a PDF", ".pdf"),
    help="Also on paper, drawn to scale.",
)


@click.command()
@reads_scene
@click.argument("unit")
@pdf_option
def explain(scene: str, unit: str, file: str | None) -> int:
    """Tell why a unit's numbers are what they are: sources, triangles, sums for a pocket calculator.

    UNIT is position/number: aimcalc explain SCENE "house pipe/3".
    """
    show = show_of(scene)
    k = show.rig.by_name[name_of(unit, show.rig.names, "UNIT")]
    from aimcalc.teach.explain import explained
    from aimcalc.teach.explain_text import explain_text

    told = worked(lambda: explained(show, k, length_unit(show.rig)))
    if file is not None:
        from aimcalc.teach.explain_page import explain_page

        write_pages_of(show, file, lambda out, options: explain_page(show, told, out, options))
    click.echo(explain_text(told, terminal_width()))
    return status_of([found for found in show.quick_findings if found.unit == show.rig.names[k]])


def write_pages_of(show: Show, file: str, make: Callable[[BinaryIO, PaperOptions], object]) -> None:
    """Write what `make` draws of a show to a file, on the paper of its unit of length."""
    from io import BytesIO

    import msgspec

    from aimcalc.rig.letters import lending
    from aimcalc.text.stamp import PaperOptions, stamp_of

    unit, tried = length_unit(show.rig), show.scene.what_if
    options = PaperOptions(
        paper="letter" if unit == "ft" else "a4", length=unit, draft=bool(tried), what_if=tried
    )
    page = BytesIO()
    with lending(worked(lambda: show.rig.lent)):
        stamp = stamp_of(show.rig, options, None)
        make(page, msgspec.structs.replace(options, stamp=stamp))
    write_file(file, page.getvalue())
