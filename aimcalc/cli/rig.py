"""What a scene comes to when it is solved: `check`, `solve`, `hang`."""

from __future__ import annotations

import click

from aimcalc.cli.shared import (
    SET,
    checked,
    json_option,
    length_unit,
    named_for,
    reads_scene,
    status_of,
    terminal_width,
    worked,
    write_file,
)


@click.command()
@reads_scene
@json_option
@click.option("--columns", is_flag=True, help="First what each column of the hang list is read as.")
def check(scene: str, as_json: bool, columns: bool) -> int:
    """List what the crew should know before anybody climbs, worst first."""
    if columns:
        if as_json:
            raise click.UsageError("Give --json or --columns, not both.")
        _print_columns(scene)
    findings = checked(scene).findings
    if as_json:
        import msgspec

        click.echo(msgspec.json.format(msgspec.json.encode(findings), indent=1))
    else:
        from aimcalc.text.tables import findings_text

        click.echo(findings_text(findings, terminal_width()))
    return status_of(findings)


def _print_columns(scene: str) -> None:
    """Print what each column of a scene's hang list is read as, of one that is refused too."""
    from aimcalc.scene.loading import load_scene
    from aimcalc.scene.mistakes import SceneError
    from aimcalc.text.tables import columns_text

    try:
        asked = click.get_current_context().meta.get(SET, ())
        columns = load_scene(scene, asked).hang_columns
    except SceneError as error:
        if not error.columns:  # why there are none is told with the rest of what is wrong
            return
        columns = error.columns
    click.echo(columns_text(columns, terminal_width()) + "\n")


@click.command()
@reads_scene
@json_option
@click.option("--csv", "as_csv", is_flag=True, help="One row a unit, in metres and degrees.")
@click.option(
    "--glb",
    "file",
    metavar="FILE.glb",
    callback=named_for("binary glTF", ".glb"),
    help="Also the rig in three dimensions.",
)
def solve(scene: str, as_json: bool, as_csv: bool, file: str | None) -> int:
    """Print how every unit is set and where its light goes, position by position."""
    if as_json and as_csv:
        raise click.UsageError("Give --json or --csv, not both.")
    show = checked(scene, rays=as_json or as_csv)
    rig, findings = show.rig, show.findings if as_json or as_csv else show.quick_findings
    if file is not None:
        from aimcalc.solid.model import rig_glb

        write_file(file, worked(lambda: rig_glb(rig)))
    if as_json or as_csv:
        from aimcalc.text import lists

        if as_json:
            data = lists.as_json(rig, findings)
        else:
            from aimcalc.text.stamp import PaperOptions

            tried = show.scene.what_if
            data = lists.as_csv(rig, findings, PaperOptions(draft=bool(tried), what_if=tried))
        click.echo(data, nl=False)
    else:
        from aimcalc.text.tables import aims_text

        click.echo(aims_text(rig, findings, length_unit(rig), terminal_width()))
    return status_of(findings)


@click.command()
@reads_scene
@json_option
def hang(scene: str, as_json: bool) -> int:
    """Print the work at the pipe: marks, loads, tails, cable, circuits, counts."""
    show = checked(scene)
    from aimcalc.sheets import hang_table
    from aimcalc.text.columns import folded
    from aimcalc.text.tables import tally

    rig = show.rig
    if as_json:
        click.echo(hang_table.hang_json(rig, show.hang, show.findings, show.trims), nl=False)
    else:
        text = hang_table.hang_text(rig, show.hang, length_unit(rig), terminal_width(), show.trims)
        click.echo(f"{text}\n\n{folded(tally(rig, show.findings), terminal_width())}")
    return status_of(show.findings)
