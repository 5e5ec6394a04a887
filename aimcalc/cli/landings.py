"""What came back from the deck, and what has changed: `where`, `learn`, `compare`."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from aimcalc.cli.shared import (
    FINE,
    SET,
    Failed,
    complete_files,
    folder_name,
    json_option,
    length_unit,
    mend_folder,
    name_of,
    reads_scene,
    refused,
    set_option,
    show_of,
    terminal_width,
    unwritten,
    worked,
)

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig


@click.command()
@reads_scene
@click.argument("unit")
@json_option
@click.option("--down", metavar="ANGLE", help='What a level on its barrel reads: 47, "UP 5".')
@click.option("--pan", metavar="TURN", help='What its dial reads: "22 SL", or square.')
@click.option("--sight", metavar="PLACE", help='Where it is sighted on its tape: "2 m SL".')
@click.option("--yoke", metavar="ANGLE", help='In place of --down: "40 away" from the clamp.')
@click.option(
    "--focused",
    metavar="LIST",
    shell_complete=complete_files,
    help="As it was focused: what this list has read off it.",
)
def where(
    scene: str,
    unit: str,
    as_json: bool,
    down: str | None,
    pan: str | None,
    sight: str | None,
    yoke: str | None,
    focused: str | None,
) -> int:
    """Tell where a unit lands as it is set, by how much it misses, whether that will do, what to change.

    UNIT is position/number. What is not given is as printed.
    """
    if pan is not None and sight is not None:
        raise click.UsageError("Give --pan or --sight, not both.")
    if down is not None and yoke is not None:
        raise click.UsageError("Give --down or --yoke, not both.")
    if focused is not None and any((down, pan, sight, yoke)):
        raise click.UsageError("Give --focused alone: the list has what was read.")
    rig = show_of(scene).rig
    from aimcalc.landings import said
    from aimcalc.landings import where as read_back
    from aimcalc.scene.mistakes import Wrong
    from aimcalc.text import where_text

    k = rig.by_name[name_of(unit, rig.names, "UNIT")]
    as_set = None if focused is None else _read_off(rig, k, focused)
    try:
        told = as_set or said.said(rig.scene, rig.units[k].position, pan, down, yoke, sight)
        found = read_back.where(rig, k, told, float(worked(lambda: rig.tapes).out[k]))
    except Wrong as wrong:
        raise refused(rig.names[k], wrong) from None
    if as_json:
        click.echo(where_text.where_json(rig, found), nl=False)
    else:
        click.echo(where_text.where_text(rig, found, length_unit(rig), terminal_width()))
    return FINE


def _read_off(rig: SolidRig, k: int, file: str) -> Any:
    """What a list of focused units has read off one of them."""
    from aimcalc.landings.focused import read_focused

    found = worked(lambda: read_focused(file, rig, rig.tapes.out)).get(rig.names[k])
    if found is None:
        raise Failed(
            f"{file}: expected a row of {rig.names[k]}, got none. Add what was read off it."
        )
    return found.read


@click.command()
@click.argument("old", shell_complete=complete_files)
@click.argument("new", shell_complete=complete_files)
@json_option
@set_option
def compare(old: str, new: str, as_json: bool) -> int:
    """Tell what changed from OLD to NEW, whose rows must be printed again, and which sheets are out of date.

    Each is a scene, or an earlier print: its aims.json, or the folder of its sheets. What --set asks for is
    set in NEW: compare SCENE SCENE --set "pipe 1.trim=5.8 m" tells what that would change.
    """
    from aimcalc.sheets.stale import stale, stale_words, with_packs
    from aimcalc.text.changes.compare import compare_json, compare_text

    found = compared_shows(earlier(old, as_it_is=True), earlier(new))
    if as_json:
        click.echo(compare_json(found, stale(found.changes)), nl=False)
    else:
        files = with_packs(found.changes)
        sheets = stale_words(found.changes, files, f"of {found.old.words}")
        click.echo(compare_text(found, sheets, terminal_width()))
    return FINE


def earlier(path: str, *, as_it_is: bool = False) -> Any:
    """An earlier print, or the show of a scene; `as_it_is` without what is set for this call."""
    from aimcalc.text.changes.earlier import is_print, read_print

    if not is_print(path):
        return show_of(path, as_it_is=as_it_is)
    if not as_it_is and click.get_current_context().meta.get(SET):
        raise Failed(f"{path} is a print: --set changes a scene. Name a scene as NEW.")
    try:
        return read_print(path)
    except ValueError as error:
        raise Failed(str(error)) from None


def compared_shows(old: Any, new: Any, *, light: bool = True) -> Any:
    from aimcalc.text.changes.compare import compared

    return worked(lambda: compared(old, new, light=light))


@click.command()
@reads_scene
@click.argument("landings", shell_complete=complete_files)
@json_option
@click.option(
    "-o",
    "--out",
    "folder",
    metavar="DIR",
    callback=lambda context, param, name: (
        name if name is None else folder_name(context, param, name)
    ),
    help="Also corrections.toml for the scene, and change slips, into this folder.",
)
def learn(scene: str, landings: str, as_json: bool, folder: str | None) -> int:
    """Tell from measured LANDINGS what is out: trim, skew, marks, dial, level, drop, kick.

    LANDINGS is CSV, a workbook or TOML: unit, x, y, and if known on, height, down, pan, sight, throw.
    A row of a pipe may give its trim or plaster (from the plaster line) and at; one of a kind its
    drop. With corrections = "corrections.toml" in [scene] the scene is solved as it really hangs.
    """
    from aimcalc.landings.learn import ContradictError
    from aimcalc.sheets.learned import outcome_of, write_outcome
    from aimcalc.text.learn_text import learn_json, learn_text, slips_words

    show = show_of(scene)
    try:
        outcome = worked(lambda: outcome_of(show, landings))
    except ContradictError as error:
        raise Failed(f"{error} Nothing was written.") from None
    made = []
    if folder is not None:
        from datetime import datetime

        mend_folder(folder)
        try:
            made = write_outcome(show, outcome, folder, datetime.now().astimezone())
        except OSError as error:
            raise Failed(unwritten(error, folder)) from None
    if as_json:
        click.echo(learn_json(outcome.learned, show.scene), nl=False)
        return FINE
    told = {"again": outcome.again, "known": outcome.known}
    click.echo(learn_text(outcome.learned, show.scene, terminal_width(), **told))
    click.echo("\n" + slips_words(outcome.rows, len(outcome.learned.worth_making)))
    if made:
        click.echo(f"Written to {folder}: {', '.join(made)}.")
    return FINE
