"""The class: `explain`, `scale`, `lesson`."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import click

from aimcalc.cli.shared import (
    FINE,
    Failed,
    complete_files,
    folder_name,
    json_option,
    length_given,
    length_unit,
    name_of,
    named_for,
    paper_for,
    reads_scene,
    refused,
    set_option,
    show_of,
    status_of,
    terminal_width,
    unwritten,
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
    from aimcalc.teach.explain import explain_text, explained

    told = worked(lambda: explained(show, k, length_unit(show.rig)))
    if file is not None:
        from aimcalc.teach.explain_page import explain_page

        write_pages_of(show, file, lambda out, options: explain_page(show, told, out, options))
    click.echo(explain_text(told, terminal_width()))
    return status_of([found for found in show.quick_findings if found.unit == show.rig.names[k]])


def write_pages_of(show: Show, file: str, make: Callable[[BinaryIO, PaperOptions], object]) -> None:
    """Write what `make` draws of a show to a file, on the paper of its unit of length."""
    from io import BytesIO

    from aimcalc.rig.letters import lending

    options, page = paper_for(show), BytesIO()
    with lending(show.rig.lent):
        make(page, options)
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


@click.command()
@click.argument("folder", metavar="DIR", callback=folder_name)
@click.option(
    "--students", default=16, show_default=True, metavar="N", help="How many there are, 4 to 40."
)
@click.option(
    "--seed",
    default=1,
    show_default=True,
    metavar="N",
    type=click.IntRange(0, 10**9),
    help="Another seed, another order.",
)
@click.option(
    "--log", metavar="LOG.csv", shell_complete=complete_files, help="A class's log: its page."
)
@set_option
def lesson(folder: str, students: int, seed: int, log: str | None) -> int:
    """Make a lesson on a low pipe: a scene to edit, rota, marks, sheets and log for a class, ready to print.

    DIR/scene.toml is read if there is one, else written. With --log, of a log typed into DIR/log.csv, the
    class's page: each group's misses before and after, its nudges, the likeliest cause, what to look for.
    """
    from aimcalc.teach import lesson as made
    from aimcalc.teach.lesson_plan import LEAST, MOST

    if not LEAST <= students <= MOST:
        expected = f"expected a class of {LEAST} to {MOST}, got {students}."
        raise click.BadParameter(expected, param_hint="--students")
    path = os.path.join(folder, made.SCENE)
    if not os.path.lexists(path):
        if log is not None:
            raise Failed(f"{path} is not there. Make the lesson first: aimcalc lesson {folder}")
        write_file(path, made.own_scene())
    show = show_of(folder)
    if not show.rig.units:
        raise Failed(f"{path}: expected a room with at least one unit, got none. Add a [[unit]].")
    if log is not None:
        return _class(show, folder, log)
    try:
        pieces = worked(
            lambda: made.write_lesson(show, folder, paper_for(show), students=students, seed=seed)
        )
    except OSError as error:
        raise Failed(unwritten(error, folder)) from None
    click.echo(f"{path}: the room, to edit; then aimcalc lesson {folder} once more.")
    for piece in pieces:
        click.echo(f"  {piece.file}  {piece.copies}")
    room, answers = (
        f'"{name}"' if " " in name else name
        for name in (folder, os.path.join(folder, made.ANSWERS))
    )
    click.echo(
        f"Mark what was typed into {made.ANSWERS}: aimcalc drill {room} --seed {seed} "
        f"--students {students} --mark {answers}"
    )
    return status_of(show.quick_findings)


def _class(show: Show, folder: str, log: str) -> int:
    """Make the class's page of a log."""
    from aimcalc.teach.class_log import read_class
    from aimcalc.teach.class_page import class_page, class_text

    groups = worked(lambda: read_class(show, log))
    file = os.path.join(folder, "class-page.pdf")
    write_pages_of(show, file, lambda out, options: class_page(show, groups, out, options))
    click.echo(class_text(groups, length_unit(show.rig), terminal_width()))
    click.echo(f"\nWritten: {file}.")
    return FINE
