"""The class's worksheets: `drill`."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from aimcalc.cli.shared import (
    FINE,
    Failed,
    complete_files,
    json_option,
    paper_for,
    reads_scene,
    show_of,
    worked,
    write_files,
)

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.teach.drill import Drill


@click.command()
@reads_scene
@click.option(
    "--seed",
    metavar="N",
    type=click.IntRange(0, 10**9),
    required=True,
    help="Which drill: any number.",
)
@click.option(
    "--students",
    metavar="N",
    type=click.IntRange(1, 60),
    default=4,
    show_default=True,
    help="Worksheets, one a student.",
)
@click.option(
    "--level",
    type=click.IntRange(1, 3),
    default=2,
    show_default=True,
    help="1 reads the plot, 2 works out, 3 adds pool and cable.",
)
@click.option("-o", "--out", "folder", metavar="DIR", help="Worksheets, key, plot, pool plan.")
@click.option(
    "--mark",
    "answers",
    metavar="FILE.csv",
    shell_complete=complete_files,
    help="Mark these answers: student,question,answer.",
)
@json_option
def drill(
    scene: str,
    seed: int,
    students: int,
    level: int,
    folder: str | None,
    answers: str | None,
    as_json: bool,
) -> int:
    """Make worksheets of a scene for a class, each student's of other units, with a key; or mark them.

    The same scene, seed, level and number of students make the same sheets. Answers go into the
    answers.csv that is made with them; then --mark names the mistake behind each wrong one.
    """
    if (folder is None) == (answers is None):
        raise click.UsageError(
            "expected -o DIR to make worksheets, or --mark FILE.csv to mark them."
        )
    show = show_of(scene)
    from aimcalc.teach.drill import drill as drill_of

    work = worked(lambda: drill_of(show, seed=seed, students=students, level=level))
    if not any(work.sheets):
        raise Failed("The scene has nothing to ask: it needs units that hang and light something.")
    if folder is not None:
        _write_drill(show, work, folder)
        return FINE
    from aimcalc.teach.drill import marked
    from aimcalc.teach.marking import marks_text, read_answers

    given = worked(lambda: read_answers(str(answers), work))
    marks = [marked(work, student, given[student]) for student in sorted(given)]
    if as_json:
        import msgspec

        click.echo(msgspec.json.format(msgspec.json.encode({"students": marks})))
    else:
        click.echo(marks_text(marks))
    return FINE


def _write_drill(show: Show, work: Drill, folder: str) -> None:
    """Write everything that a class needs for a drill into a folder, whole or not at all."""
    from io import BytesIO

    from aimcalc.rig.letters import lending
    from aimcalc.sheets.plans.pool_plan import pool_plan
    from aimcalc.sheets.plot.light_plot import light_plot
    from aimcalc.teach.marking import blank_answers
    from aimcalc.teach.worksheets import key_pages, worksheets

    options = paper_for(show)
    made = {
        name: BytesIO() for name in ("worksheets.pdf", "key.pdf", "light-plot.pdf", "pool-plan.pdf")
    }
    with lending(worked(lambda: show.rig.lent)):
        worksheets(show, work, made["worksheets.pdf"], options)
        key_pages(show, work, made["key.pdf"], options)
        light_plot(show, made["light-plot.pdf"], BytesIO(), BytesIO(), options)
        pool_plan(show, made["pool-plan.pdf"], BytesIO(), options)
    files = {name: data.getvalue() for name, data in made.items()}
    write_files(folder, {**files, "answers.csv": blank_answers(work)})
    click.echo(f"{folder}: {', '.join([*made, 'answers.csv'])}.")
    if work.without:
        click.echo(f"Left out, for the scene has nothing to ask: {', '.join(work.without)}.")
