"""The paper of a scene: `prep`."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING, Any

import click

from aimcalc.cli.shared import (
    Failed,
    checked,
    complete_files,
    drop_output,
    folder_name,
    mend_folder,
    reads_scene,
    refuse,
    status_of,
    terminal_width,
    unwritten,
    worked,
)
from aimcalc.sheets.pieces import NAMES, PieceError, chosen, chosen_in_part

if TYPE_CHECKING:
    from collections.abc import Sequence

    from aimcalc.sheets.pieces import Piece
    from aimcalc.sheets.prep import Made, Printed
    from aimcalc.show import Show
    from aimcalc.text.stamp import PaperOptions


MOST_FILES = 4  # of one piece that are named one by one


@click.command()
@reads_scene
@click.option(
    "-o",
    "--out",
    "folder",
    metavar="DIR",
    required=True,
    callback=folder_name,
    help="Folder for the sheets.",
)
@click.option(
    "--paper", type=click.Choice(["a4", "letter"]), help="Default: letter for feet, a4 for metres."
)
@click.option(
    "--length", type=click.Choice(["m", "ft"]), help="Unit on the sheets; default: the scene's."
)
@click.option("--only", metavar="NAMES", help=f"Only these, by comma: {','.join(NAMES)}.")
@click.option("--draft", is_flag=True, help="Print in spite of stops, DRAFT across every page.")
@click.option(
    "--labels",
    metavar="MEASURES",
    help='Label sheets: "3x8 63.5x33.9 mm", then ", margins 7x13" and ", gaps 2.5x0" where there are some.',
)
@click.option("--section", metavar="UNITS", help='Sections through units too: "LX 1/3,LX 1/4".')
@click.option("--reproducible", is_flag=True, help="No time of print: same scene, same bytes.")
@click.option(
    "--scale",
    metavar="SCALE",
    help='Of the light plot: 1:50, 1/4" (to the foot) ... Default: what its sheet holds.',
)
@click.option(
    "--sheet",
    metavar="SIZE",
    help="Of the light plot: A3, arch-d, 600x900 mm ...; what is larger goes on several.",
)
@click.option(
    "--position",
    "positions",
    metavar="NAME",
    multiple=True,
    help="Only the rows and pages of this position; may be given again.",
)
@click.option("--units", metavar="UNITS", help='Only those of these units: "LX 1/3,LX 1/4".')
@click.option(
    "--since",
    metavar="OLD",
    shell_complete=complete_files,
    help="Change slips alone: what changed since this scene, aims.json or folder of sheets.",
)
@click.option(
    "--focused",
    metavar="LIST",
    shell_complete=complete_files,
    help="With --only cards: cards with the numbers of the focus, where this list has them.",
)
def prep(
    scene: str,
    folder: str,
    paper: str | None,
    length: str | None,
    only: str | None,
    draft: bool,
    labels: str | None,
    section: str | None,
    reproducible: bool,
    scale: str | None,
    sheet: str | None,
    since: str | None,
    positions: tuple[str, ...],
    units: str | None,
    focused: str | None,
) -> int:
    """Make everything the crew carries: a pack for each who holds one, cards, drawings, lists.

    A pack for the head electrician, one for every position (ladder sheet, deck sheet). With --only the
    sheets of those names alone, each in a file of its own.

    While there is a stop nothing is made, unless --draft says so; a unit reported tail up stops its
    own row only. The files appear in DIR when all are done; other files there are left alone.
    """
    from datetime import datetime

    from aimcalc.findings.pose import holds_back
    from aimcalc.sheets.prep import options_for, part_of, prepare, sets_in
    from aimcalc.text.label_sheet import LabelSheetError

    in_part = bool(positions) or units is not None
    if since is not None and (only is not None or in_part):
        raise click.UsageError(
            "Give --since without --only, --position and --units: it makes change slips alone."
        )
    try:
        pieces = chosen_in_part(only, units=units is not None) if in_part else chosen(only)
    except ValueError as error:
        raise click.BadParameter(str(error), param_hint="'--only'") from None
    if focused is not None and (since or [piece.name for piece in pieces] != ["cards"]):
        raise click.UsageError("Give --focused with --only cards: nothing else is made as focused.")
    plot = _plot(pieces if since is None else [], scale, sheet)
    mend_folder(folder)
    show = checked(scene, length)
    as_set: Sequence[str] = ()
    if focused is not None:
        show, as_set = _as_focused(show, focused)
    rig, findings = show.rig, show.findings
    if not draft and (stops := holds_back(rig, findings)):
        end = (
            "Nothing was made: fix the stops, or print with --draft to see the sheets as they are."
        )
        return refuse(stops, findings, end)
    try:
        part = part_of(rig, positions, units)
    except ValueError as error:
        asked = "--position" if positions else "--units"
        raise click.BadParameter(str(error), param_hint=f"'{asked}'") from None
    try:
        options = options_for(
            rig,
            paper=paper,
            length=length,
            draft=draft,
            section=section,
            printed=None if reproducible else datetime.now().astimezone(),
            part=part,
            plot=plot,
            labels=labels,
            focused=as_set,
        )
    except LabelSheetError as error:
        raise click.BadParameter(str(error), param_hint="'--labels'") from None
    except ValueError as error:
        raise click.BadParameter(str(error), param_hint="'--section'") from None
    before = sets_in(folder)
    found = None
    if since is not None:
        from aimcalc.cli.landings import compared_shows, earlier
        from aimcalc.sheets.pieces import SLIPS

        found = compared_shows(earlier(since, as_it_is=True), show, light=False)
        pieces = [SLIPS]
        if not found.changes.rows:
            told = "no row has changed" if found.changes.changes else "nothing has changed"
            click.echo(f"No slip is needed, {told} since {found.old.words}. Nothing was made.")
            if found.changes.changes or found.changes.loads:
                _tell_stale(found, since, before, whole=True)
            return status_of(findings)
    try:
        made = prepare(show, folder, options, pieces, _progress, [found] if found else ())
    except PieceError as error:
        raise Failed(str(error)) from None
    except OSError as error:
        raise Failed(unwritten(error, folder)) from None
    except KeyboardInterrupt as stop:
        raise KeyboardInterrupt(str(stop) or f"Nothing was changed in {folder}.") from None
    try:
        _sum_up(show, folder, made, before, options)
        if found is not None:
            _tell_stale(found, since or "", before)
    except OSError as error:  # the set stands, whoever can no longer read of it
        drop_output()
        if not isinstance(error, BrokenPipeError):
            reason = error.strerror or error
            click.echo(f"The set is in {folder}; its list cannot be printed: {reason}.", err=True)
    return status_of(findings)


def _as_focused(show: Show, file: str) -> tuple[Show, Sequence[str]]:
    """The show as it was focused, by a list, and the names of the units that are in there."""
    from aimcalc.landings.focused import as_focused, read_focused

    rig = show.rig
    found = worked(lambda: read_focused(file, rig, rig.tapes.out))
    return show.changed(as_focused(show.scene, rig, found)), list(found)


def _plot(pieces: Sequence[Piece], scale: str | None, sheet: str | None) -> Any:
    """Scale and sheet of the light plot as typed; refused where no light plot is made."""
    if scale is None and sheet is None:
        return None, None
    if not any(piece.name in ("light-plot", "drawings") for piece in pieces):
        asked = " and ".join(
            name for name, typed in (("--scale", scale), ("--sheet", sheet)) if typed is not None
        )
        raise click.UsageError(
            f"{asked}: for the light plot, which is not made here. Add light-plot to --only, or leave it out."
        )
    from aimcalc.paper.tiles import scale_named, sheet_named

    asked_for = []
    for option, typed, named in (("--scale", scale, scale_named), ("--sheet", sheet, sheet_named)):
        try:
            asked_for.append(None if typed is None else named(typed))
        except ValueError as error:
            raise click.BadParameter(str(error), param_hint=f"'{option}'") from None
    return tuple(asked_for)


def _progress(piece: Piece) -> None:
    """A line for each piece, for somebody who watches."""
    if sys.stderr is not None and sys.stderr.isatty():
        from aimcalc.text.columns import folded

        click.echo(folded(f"making {_files_of(piece)} ...", terminal_width(err=True)), err=True)


def _files_of(piece: Piece) -> str:
    """The files of a piece; of many the first, and how many more."""
    first, *more = piece.files
    return ", ".join(piece.files) if len(more) < MOST_FILES else f"{first} and {len(more)} more"


def _sum_up(
    show: Show,
    folder: str,
    made: Sequence[Made],
    before: dict[str, Printed | None],
    options: PaperOptions,
) -> None:
    from aimcalc.sheets.prep import left_alone, replaced
    from aimcalc.text.columns import folded
    from aimcalc.text.stamp import SET_FILE
    from aimcalc.text.tables import tally
    from aimcalc.text.words import count

    files = count(1 + sum(len(each.piece.files) for each in made), "file")
    stamp = options.stamp
    units = count(len(options.part or show.rig.units), "unit")
    of_set = f"set {stamp.mark}" + (f", {options.part_words}" if options.part else "")
    lines = [f"{show.scene.settings.title}: {units}, {files} in {folder}, {of_set}"]
    for each in made:
        named = _files_of(each.piece)
        pages = "" if each.pages is None else count(each.pages, "page")
        lines.append(f"  {named}  {', '.join(filter(None, (pages, each.piece.whom)))}".rstrip())
    lines.append(f"  {SET_FILE}")
    pieces = [each.piece for each in made]
    lines += filter(None, [replaced(before, pieces, stamp), *left_alone(before, pieces, stamp)])
    click.echo(folded("\n".join([*lines, tally(show.rig, show.findings)]), terminal_width()))


def _tell_stale(
    found: Any, since: str, before: dict[str, Printed | None], *, whole: bool = False
) -> None:
    """Say which of the older sheets serve no more: those in the folder that was named, else in this one.

    `whole`: every sheet that there can be, where neither folder has one.
    """
    from aimcalc.sheets.pieces import PIECES
    from aimcalc.sheets.prep import sets_in
    from aimcalc.sheets.stale import stale_words

    older = sets_in(since) if os.path.isdir(since) else {}
    files = list(older or before)
    if whole and not files:
        files = [file for piece in PIECES for file in piece.files]
    for line in stale_words(found.changes, files, f"of {found.old.words}"):
        click.echo(line)
