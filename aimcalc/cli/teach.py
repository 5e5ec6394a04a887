"""The class: `explain`, `scale`."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from aimcalc.cli.shared import (
    FINE,
    json_option,
    length_given,
    length_unit,
    name_of,
    named_for,
    reads_scene,
    refused,
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


@click.command()
@reads_scene
@click.argument("position")
@click.option(
    "--height", metavar="LENGTH", required=True, help="Of the practice pipe's zero mark: 2.2m."
)
@json_option
@pdf_option
def scale(scene: str, position: str, height: str, as_json: bool, file: str | None) -> int:
    """Set up a low practice pipe with a pipe's own angles: marks, floor spots, tape, what cannot be kept.

    POSITION is a pipe: aimcalc scale SCENE "house pipe" --height 2.2m.
    """
    show = show_of(scene)
    from aimcalc.scene.mistakes import Wrong
    from aimcalc.teach.scaled import scaled
    from aimcalc.teach.scaled_text import scaled_json, scaled_text

    name = name_of(position, list(show.scene.positions), "POSITION")
    metres = length_given(show.rig, height, "--height")
    try:
        practice = scaled(show, name, metres or 0.0)
    except Wrong as wrong:
        raise refused(name, wrong) from None
    if file is not None:
        from aimcalc.teach.scaled_page import scaled_page

        write_pages_of(
            practice.show, file, lambda out, options: scaled_page(practice, out, options)
        )
    if as_json:
        click.echo(scaled_json(practice), nl=False)
    else:
        click.echo(scaled_text(practice, length_unit(show.rig), terminal_width()))
    return FINE
