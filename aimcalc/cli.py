"""The command line: reads, calls, prints. Nothing is worked out here.

What a command needs is loaded when it runs: `--help` must not wait for a numerical library.
"""

from __future__ import annotations

import gc
import os
import sys
import warnings
from contextlib import suppress
from time import monotonic
from typing import TYPE_CHECKING, Any

import click

from aimcalc import __version__
from aimcalc.sheets.pieces import NAMES, PieceError, chosen, chosen_in_part

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from click.shell_completion import CompletionItem

    from aimcalc.sheets.pieces import Piece
    from aimcalc.sheets.prep import Made, Printed
    from aimcalc.show import Show
    from aimcalc.solid.answers import Finding
    from aimcalc.solid.rig import SolidRig
    from aimcalc.text.stamp import PaperOptions


FINE, STOPPED, WRONG, INTERRUPTED = 0, 1, 2, 130
KILLED = 128  # plus the signal's number
STARTER = ("scene", "starter.toml")
GC_THRESHOLD = 500_000  # nearly all that is made on the way in stays to the end
# Linear algebra under numpy starts a thread a core, for sums that are not large here. What a user set stands.
ONE_THREAD = "OPENBLAS_NUM_THREADS"
SET = "aimcalc.set"  # where a call keeps what it sets for itself alone
BAR = 24  # characters of a progress bar
REDRAW = 0.25  # s from one look of a progress bar to the next
_ended: list[int] = []  # the signals that ended this process
MOST_FILES = 4  # of one piece that are named one by one
WIDTH = 96  # columns of the help text; asking the terminal would cost time


def _named(what: str, *endings: str) -> Callable[..., str | None]:
    """A check that a file to write is named for `what` will be in it."""

    def check(context: click.Context, param: click.Parameter, name: str | None) -> str | None:
        stem, ending = os.path.splitext(name or "")
        if name is None or (ending.lower() in endings and os.path.basename(stem)):
            return name
        better = " or ".join(f"{stem or 'FILE'}{right}" for right in endings)
        raise click.BadParameter(f"this writes {what}: name it {better}, not {name!r}.")

    return check


def _folder(context: click.Context, param: click.Parameter, name: str) -> str:
    """A folder's name as given; an empty one would mean the folder one is in, unasked."""
    if not name.strip():
        raise click.BadParameter(
            'expected the name of a folder ("." is this one), came empty text.'
        )
    return name


def _files(context: click.Context, param: click.Parameter, begun: str) -> list[CompletionItem]:
    """Files and folders, for the shell to complete."""
    from click.shell_completion import CompletionItem

    return [CompletionItem(begun, type="file")]


def _kept(context: click.Context, param: click.Parameter, typed: tuple[str, ...]) -> None:
    """Keep what `--set` asks for where whatever reads the scene finds it."""
    context.meta[SET] = typed


_set = click.option(
    "--set",
    multiple=True,
    metavar="NAME.KEY=VALUE",
    expose_value=False,
    callback=_kept,
    help='What if, the scene left as it is: "pipe 1.trim=5.8 m", "pipe 1/3.target=area 2".',
)


def _scene(command: Any) -> Any:
    """The scene that a command reads, and what is set in it for this call alone."""
    return click.argument("scene", shell_complete=_files)(_set(command))


_as_json = click.option("--json", "as_json", is_flag=True, help="As JSON, in metres and degrees.")


class Failed(click.ClickException):
    """A call that cannot be done, with the reason as the user reads it."""

    exit_code = WRONG

    def show(self, file: Any = None) -> None:
        """Print the reason."""
        click.echo(self.message, err=True)


@click.group(context_settings={"help_option_names": ["-h", "--help"], "terminal_width": WIDTH})
@click.version_option(__version__, message="aimcalc %(version)s")
def commands() -> None:
    """Where each stage lighting unit hangs, which way it turns and tips, where its light lands.

    SCENE is a TOML file, or a folder that holds scene.toml. No command changes it. To begin:
    aimcalc start DIR makes one, then check, solve and prep read it.

    Exit status: 0 fine (warnings included), 1 at least one stop, 2 the scene could not be read or
    the call was wrong.
    """


@commands.command()
@click.argument("folder", metavar="DIR", callback=_folder)
@click.option(
    "--from",
    "hang",
    metavar="LIST",
    help="Begin it from this hang list, with what it lacks as questions.",
)
def start(folder: str, hang: str | None) -> int:
    """Make a small scene that works, to edit: DIR/scene.toml."""
    from aimcalc.text.whole import write_whole

    path = os.path.join(folder, "scene.toml")
    if os.path.lexists(path):
        raise Failed(f"{path} exists already and was left as it is. Name another folder.")
    if hang is not None:
        return _begin(folder, hang)
    with open(os.path.join(os.path.dirname(__file__), *STARTER), "rb") as file:
        scene = file.read()
    try:
        write_whole(path, scene)
    except OSError as error:
        raise Failed(_unwritten(error, folder)) from None
    click.echo(f"{path} is ready: six units on two pipes. Open it in an editor and change it.")
    click.echo(
        f"Then:  aimcalc check {folder}   aimcalc solve {folder}   aimcalc prep {folder} -o DIR"
    )
    return FINE


def _table_names(context: click.Context, param: click.Parameter, begun: str) -> list[str]:
    """The tables of a scene whose names begin so, for the shell to complete."""
    from aimcalc.scene.keys import TABLES

    return [name for name in TABLES if name.startswith(begun)]


def _kind_names(
    context: click.Context | None = None, param: click.Parameter | None = None, begun: str = ""
) -> list[str]:
    """The generic kinds whose names begin so, for the shell to complete."""
    from aimcalc.scene.loading import generic_tables

    return [name for name in generic_tables() if name.startswith(begun)]


@commands.command()
@click.argument("tables", metavar="[TABLE]...", nargs=-1, shell_complete=_table_names)
@click.option("--markdown", is_flag=True, help="As tables of Markdown.")
@click.option("--json-schema", "schema", is_flag=True, help="As a schema that an editor reads.")
def keys(tables: tuple[str, ...], markdown: bool, schema: bool) -> int:
    """Explain every table and key of a scene, or of some tables: aimcalc keys unit kind.

    With --json-schema an editor that can check TOML completes the keys and marks mistakes:
    aimcalc keys --json-schema > scene.schema.json
    """
    from aimcalc.scene.keys import TABLES
    from aimcalc.text import keys_text

    names = [name.strip("[]") for name in tables]
    for given, name in zip(tables, names, strict=True):
        if name not in TABLES:
            raise click.BadParameter(
                f"expected {', '.join(TABLES)}, got {given!r}.", param_hint="TABLE"
            )
    if schema and (markdown or tables):
        raise click.UsageError("Give --json-schema alone: it holds every table.")
    if schema:
        click.echo(keys_text.keys_schema(), nl=False)
    elif markdown:
        click.echo(keys_text.keys_markdown(names or list(TABLES)))
    else:
        click.echo(keys_text.keys_text(names or list(TABLES), _width()))
    return FINE


def _begin(folder: str, hang: str) -> int:
    """Begin a scene in a folder from a hang list, which is copied beside it."""
    from aimcalc.scene.begun import begun
    from aimcalc.scene.files import read_whole
    from aimcalc.scene.mistakes import Log, SceneError, Where, Wrong
    from aimcalc.scene.sheetfile import HANG_MEGABYTES
    from aimcalc.text.whole import whole_set

    name, log = os.path.basename(hang), Log()
    copy = os.path.join(folder, name)
    there = os.path.exists(copy) and os.path.exists(hang) and os.path.samefile(copy, hang)
    if os.path.lexists(copy) and not there:
        raise Failed(f"{copy} exists already and was left as it is. Name another folder.")
    try:
        data = read_whole(hang, HANG_MEGABYTES)
        files = {"scene.toml": begun(hang, name).encode("utf-8", "replace")}
    except Wrong as wrong:
        log.add(Where(hang, ""), "", wrong, name)
        raise Failed(SceneError(hang, log.mistakes).report()) from None
    if not there:
        files[name] = data
    try:
        with whole_set(folder) as hidden:
            for file, content in files.items():
                with open(os.path.join(hidden, file), "wb") as stream:
                    stream.write(content)
    except OSError as error:
        raise Failed(_unwritten(error, folder)) from None
    open_ones = files["scene.toml"].count(b'= "?"')
    click.echo(
        f"{os.path.join(folder, 'scene.toml')} is begun from {name}, with {open_ones} open questions."
    )
    click.echo(f"Answer them in an editor; aimcalc check {folder} lists those that are left.")
    return FINE


@commands.command()
@click.argument("name", metavar="[KIND]", required=False, shell_complete=_kind_names)
@click.option(
    "-o",
    "--out",
    "file",
    metavar="FILE",
    callback=_named("a drawn page", ".pdf", ".png"),
    help="Also a drawn page of the families: FILE.pdf or FILE.png.",
)
def kinds(name: str | None, file: str | None) -> int:
    """Show the generic kinds: families, figures, what to replace; or one, to copy into a scene.

    aimcalc kinds ers-30 >> scene.toml  adds one to the end of a scene.
    """
    from aimcalc.text import kinds_text

    if file is not None:
        from io import BytesIO

        from aimcalc.sheets.kinds_page import kinds_page

        page = BytesIO()
        kinds_page(page, png=file.lower().endswith(".png"))
        _write(file, page.getvalue())
    if name is None:
        click.echo(kinds_text.kinds_text(_width()))
        return FINE
    try:
        click.echo(kinds_text.kind_entry(name))
    except KeyError:
        known = ", ".join(_kind_names())
        raise click.BadParameter(
            f"expected one of {known}; got {name!r}.", param_hint="KIND"
        ) from None
    return FINE


@commands.command()
@_scene
@_as_json
@click.option("--columns", is_flag=True, help="First what each column of the hang list is read as.")
def check(scene: str, as_json: bool, columns: bool) -> int:
    """List what the crew should know before anybody climbs, worst first."""
    if columns:
        if as_json:
            raise click.UsageError("Give --json or --columns, not both.")
        _print_columns(scene)
    findings = _checked(scene).findings
    if as_json:
        import msgspec

        click.echo(msgspec.json.format(msgspec.json.encode(findings), indent=1))
    else:
        from aimcalc.text.tables import findings_text

        click.echo(findings_text(findings, _width()))
    return _status(findings)


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
    click.echo(columns_text(columns, _width()) + "\n")


@commands.command()
@_scene
@_as_json
@click.option("--csv", "as_csv", is_flag=True, help="One row a unit, in metres and degrees.")
@click.option(
    "--glb",
    "file",
    metavar="FILE.glb",
    callback=_named("binary glTF", ".glb"),
    help="Also the rig in three dimensions.",
)
def solve(scene: str, as_json: bool, as_csv: bool, file: str | None) -> int:
    """Print how every unit is set and where its light goes, position by position."""
    if as_json and as_csv:
        raise click.UsageError("Give --json or --csv, not both.")
    show = _checked(scene, rays=as_json or as_csv)
    rig, findings = show.rig, show.findings if as_json or as_csv else show.quick_findings
    if file is not None:
        from aimcalc.solid.model import rig_glb

        _write(file, _worked(lambda: rig_glb(rig)))
    if as_json or as_csv:
        from aimcalc.text import lists
        from aimcalc.text.stamp import PaperOptions

        tried = show.scene.what_if
        options = PaperOptions(draft=bool(tried), what_if=tried)
        data = lists.as_json(rig, findings) if as_json else lists.as_csv(rig, findings, options)
        click.echo(data, nl=False)
    else:
        from aimcalc.text.tables import aims_text

        click.echo(aims_text(rig, findings, _length_unit(rig), _width()))
    return _status(findings)


@commands.command()
@_scene
@_as_json
def hang(scene: str, as_json: bool) -> int:
    """Print the work at the pipe: marks, loads, tails, cable, circuits, counts."""
    show = _checked(scene)
    from aimcalc.sheets import hang_table
    from aimcalc.text.columns import folded
    from aimcalc.text.tables import tally

    rig = show.rig
    if as_json:
        click.echo(hang_table.hang_json(rig, show.hang, show.findings), nl=False)
    else:
        text = hang_table.hang_text(rig, show.hang, _length_unit(rig), _width(), show.trims)
        click.echo(f"{text}\n\n{folded(tally(rig, show.findings), _width())}")
    return _status(show.findings)


@commands.command()
@_scene
@click.option(
    "-o",
    "--out",
    "folder",
    metavar="DIR",
    required=True,
    callback=_folder,
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
    shell_complete=_files,
    help="Change slips alone: what changed since this scene, aims.json or folder of sheets.",
)
@click.option(
    "--focused",
    metavar="LIST",
    shell_complete=_files,
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
    _mend(folder)
    show = _checked(scene, length)
    as_set: Sequence[str] = ()
    if focused is not None:
        show, as_set = _as_focused(show, focused)
    rig, findings = show.rig, show.findings
    if not draft and (stops := holds_back(rig, findings)):
        return _refuse(stops, findings)
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
        from aimcalc.sheets.pieces import SLIPS

        found = _compared(_earlier(since, as_it_is=True), show, light=False)
        pieces = [SLIPS]
        if not found.changes.rows:
            told = "no row has changed" if found.changes.changes else "nothing has changed"
            click.echo(f"No slip is needed, {told} since {found.old.words}. Nothing was made.")
            if found.changes.changes or found.changes.loads:
                _tell_stale(found, since, before, whole=True)
            return _status(findings)
    try:
        made = prepare(show, folder, options, pieces, _progress, [found] if found else ())
    except PieceError as error:
        raise Failed(str(error)) from None
    except OSError as error:
        raise Failed(_unwritten(error, folder)) from None
    except KeyboardInterrupt as stop:
        raise KeyboardInterrupt(str(stop) or f"Nothing was changed in {folder}.") from None
    try:
        _sum_up(show, folder, made, before, options)
        if found is not None:
            _tell_stale(found, since or "", before)
    except OSError as error:  # the set stands, whoever can no longer read of it
        _drop_output()
        if not isinstance(error, BrokenPipeError):
            reason = error.strerror or error
            click.echo(f"The set is in {folder}; its list cannot be printed: {reason}.", err=True)
    return _status(findings)


def _read_off(rig: SolidRig, k: int, file: str) -> Any:
    """What a list of focused units has read off one of them."""
    from aimcalc.landings.focused import read_focused

    found = _worked(lambda: read_focused(file, rig, rig.tapes.out)).get(rig.names[k])
    if found is None:
        raise Failed(
            f"{file}: expected a row of {rig.names[k]}, got none. Add what was read off it."
        )
    return found.read


def _as_focused(show: Show, file: str) -> tuple[Show, Sequence[str]]:
    """The show as it was focused, by a list, and the names of the units that are in there."""
    from aimcalc.landings.focused import as_focused, read_focused

    rig = show.rig
    found = _worked(lambda: read_focused(file, rig, rig.tapes.out))
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


@commands.command()
@_scene
@_as_json
@click.option("--grid", metavar="LENGTH", help="Distance between points. Default: 0.15 m.")
@click.option(
    "--below",
    metavar="SHARE|LUX",
    help='Dark below this: a share of the mean ("0.4", "40%") or lux ("300 lx"). Default: a half.',
)
@click.option("--points", metavar="FILE.csv", help="Also the light at these points: x, y, z.")
def cover(
    scene: str, as_json: bool, grid: str | None, below: str | None, points: str | None
) -> int:
    """Print the light of each system over the acting area, its holes, who could fill them."""
    rig = _show(scene).rig
    from aimcalc.coverage.survey import CoverOptions, survey

    options = CoverOptions(
        spacing=_length(rig, grid, "--grid"),
        below=_below(below, "--below"),
        points=_points(rig, points),
    )
    bar = _Bar()
    found = _lit(lambda: survey(rig, options, bar))
    bar.wipe()
    from aimcalc.findings.light import light_findings

    if as_json:
        from aimcalc.text.cover_lists import cover_json

        click.echo(cover_json(found), nl=False)
    else:
        from aimcalc.text.cover_text import cover_text

        click.echo(cover_text(found, _length_unit(rig), _width()))
    return _status(light_findings(found))


@commands.command()
@_scene
@_as_json
@click.option("--area", metavar="NAME", help="What lights this target of the scene.")
@click.option("--channel", metavar="NUMBER", help="What this channel lights.")
@click.option("--at", metavar='"X, Y"', help="What lights a face here: \"3' SL, 4' US\".")
@click.option(
    "--law",
    type=click.Choice(["linear", "square"]),
    default="linear",
    help="How light follows the fader: as the level, or as its square. Default: linear.",
)
def ask(
    scene: str, as_json: bool, area: str | None, channel: str | None, at: str | None, law: str
) -> int:
    """Tell what lights an area or a point, or what a channel lights, and who could fill in.

    Of each unit: its direction, share, colour, lux, the fader level that evens its system, what goes dark
    without it. --json tells all of it.
    """
    if sum(asked is not None for asked in (area, channel, at)) != 1:
        raise click.UsageError("Give one of --area, --channel and --at.")
    show = _show(scene)
    rig, unit = show.rig, _length_unit(show.rig)
    from aimcalc.coverage import asked
    from aimcalc.text import ask_text

    if channel is not None:
        number = _name_of(channel, [own.channel for own in rig.units if own.channel], "--channel")
        found = _lit(lambda: asked.of_channel(show.light, number))
        if as_json:
            click.echo(ask_text.channel_json(rig, found, law), nl=False)
        else:
            click.echo(ask_text.channel_text(rig, found, law, unit, _width()))
        return FINE
    if area is not None:
        name = _name_of(area, [target.name for target in rig.scene.targets], "--area")
        place = _lit(lambda: asked.at_target(show.light, name))
    else:
        point = _point(rig, at or "", "--at")
        place = _lit(lambda: asked.at_point(show.light, *point))
    if as_json:
        click.echo(ask_text.place_json(rig, place, law), nl=False)
    else:
        click.echo(ask_text.place_text(rig, place, law, unit, _width()))
    return FINE


@commands.command()
@_scene
@click.argument("unit")
@_as_json
@click.option("--down", metavar="ANGLE", help='What a level on its barrel reads: 47, "UP 5".')
@click.option("--pan", metavar="TURN", help='What its dial reads: "22 SL", or square.')
@click.option("--sight", metavar="PLACE", help='Where it is sighted on its tape: "2 m SL".')
@click.option("--yoke", metavar="ANGLE", help='In place of --down: "40 away" from the clamp.')
@click.option(
    "--focused",
    metavar="LIST",
    shell_complete=_files,
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
    rig = _show(scene).rig
    from aimcalc.landings import said
    from aimcalc.landings import where as read_back
    from aimcalc.scene.mistakes import Wrong
    from aimcalc.text import where_text

    k = rig.by_name[_name_of(unit, rig.names, "UNIT")]
    as_set = None if focused is None else _read_off(rig, k, focused)
    try:
        told = as_set or said.said(rig.scene, rig.units[k].position, pan, down, yoke, sight)
        found = read_back.where(rig, k, told, float(_worked(lambda: rig.tapes).out[k]))
    except Wrong as wrong:
        came = f", got {wrong.came}" if wrong.came else ""
        do = f" {wrong.do}" if wrong.do else ""
        raise Failed(f"{rig.names[k]}: expected {wrong.expected}{came}.{do}") from None
    if as_json:
        click.echo(where_text.where_json(rig, found), nl=False)
    else:
        click.echo(where_text.where_text(rig, found, _length_unit(rig), _width()))
    return FINE


@commands.command()
@_scene
@_as_json
@click.option(
    "--pool",
    metavar="LENGTH",
    help="Pool wanted of all systems, across. Default: to meet neighbours.",
)
@click.option(
    "-o",
    "--out",
    "file",
    metavar="FILE",
    callback=_named("TOML or CSV", ".toml", ".csv"),
    help="Also the proposal as a file: FILE.toml or FILE.csv.",
)
def lens(scene: str, as_json: bool, pool: str | None, file: str | None) -> int:
    """Propose a kind for every unit from the stock, and say what is short. The scene is not changed."""
    rig = _show(scene).rig
    from aimcalc.coverage.lens import lens_outlook
    from aimcalc.text import lens_text

    wanted = _length(rig, pool, "--pool")
    outlook = _lit(lambda: lens_outlook(rig, pool=wanted))
    if file is not None:
        _write(file, lens_text.lens_file(rig, outlook.plan, csv=file.lower().endswith(".csv")))
    if as_json:
        click.echo(lens_text.lens_json(rig, outlook), nl=False)
    else:
        click.echo(lens_text.lens_text(rig, outlook, _length_unit(rig), _width()))
    return FINE


@commands.command()
@click.argument("old", shell_complete=_files)
@click.argument("new", shell_complete=_files)
@_as_json
@_set
def compare(old: str, new: str, as_json: bool) -> int:
    """Tell what changed from OLD to NEW, whose rows must be printed again, and which sheets are out of date.

    Each is a scene, or an earlier print: its aims.json, or the folder of its sheets. What --set asks for is
    set in NEW: compare SCENE SCENE --set "pipe 1.trim=5.8 m" tells what that would change.
    """
    from aimcalc.sheets.stale import stale, stale_words, with_packs
    from aimcalc.text.compare import compare_json, compare_text

    found = _compared(_earlier(old, as_it_is=True), _earlier(new))
    if as_json:
        click.echo(compare_json(found, stale(found.changes)), nl=False)
    else:
        files = with_packs(found.changes)
        sheets = stale_words(found.changes, files, f"of {found.old.words}")
        click.echo(compare_text(found, sheets, _width()))
    return FINE


@commands.command()
@_scene
@click.argument("landings", shell_complete=_files)
@_as_json
@click.option(
    "-o",
    "--out",
    "folder",
    metavar="DIR",
    callback=lambda context, param, name: name if name is None else _folder(context, param, name),
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

    show = _show(scene)
    try:
        outcome = _worked(lambda: outcome_of(show, landings))
    except ContradictError as error:
        raise Failed(f"{error} Nothing was written.") from None
    made = []
    if folder is not None:
        from datetime import datetime

        _mend(folder)
        try:
            made = write_outcome(show, outcome, folder, datetime.now().astimezone())
        except OSError as error:
            raise Failed(_unwritten(error, folder)) from None
    if as_json:
        click.echo(learn_json(outcome.learned, show.scene), nl=False)
        return FINE
    click.echo(learn_text(outcome.learned, show.scene, _width()))
    click.echo("\n" + slips_words(outcome.rows, len(outcome.learned.worth_making)))
    if made:
        click.echo(f"Written to {folder}: {', '.join(made)}.")
    return FINE


def _earlier(path: str, *, as_it_is: bool = False) -> Any:
    """An earlier print, or the show of a scene; `as_it_is` without what is set for this call."""
    from aimcalc.text.earlier import is_print, read_print

    if not is_print(path):
        return _show(path, as_it_is=as_it_is)
    if not as_it_is and click.get_current_context().meta.get(SET):
        raise Failed(f"{path} is a print: --set changes a scene. Name a scene as NEW.")
    try:
        return read_print(path)
    except ValueError as error:
        raise Failed(str(error)) from None


def _compared(old: Any, new: Any, *, light: bool = True) -> Any:
    from aimcalc.text.compare import compared

    return _worked(lambda: compared(old, new, light=light))


def _checked(scene: str, length: Any = None, *, rays: bool = True) -> Show:
    """The show of a scene with its `findings` made, or without `rays` its `quick_findings`."""
    show = _show(scene, length)
    _worked(lambda: show.findings if rays else show.quick_findings)
    return show


def _show(scene: str, length: Any = None, *, as_it_is: bool = False) -> Show:
    """The show of a scene with its rig solved, told in `length` (m or ft), else in the scene's own unit.

    `as_it_is`: without what is set for this call.
    """
    from aimcalc.show import Show

    context = click.get_current_context()
    asked = () if as_it_is else context.meta.get(SET, ())
    show: Show = _worked(lambda: Show.read(scene, length, asked))
    _worked(lambda: show.rig)
    if show.scene.what_if:
        from aimcalc.text.stamp import drafted

        in_list = context.params.get("as_json") or context.params.get("as_csv")
        click.echo(drafted(show.scene.what_if), err=bool(in_list))
    return show


def _worked(work: Callable[[], Any]) -> Any:
    """What `work` on a scene gives; a file of it that cannot be used is told in words."""
    from aimcalc.scene.mistakes import SceneError

    try:
        return work()
    except SceneError as error:
        raise Failed(error.report()) from None


def _lit(work: Callable[[], Any]) -> Any:
    """What `work` on the light of a rig gives; what the scene lacks for it is told in words."""
    from aimcalc.coverage.systems import GridError, NoAreaError
    from aimcalc.geometry.rays import NoRayEngineError

    try:
        return _worked(work)
    except (GridError, NoAreaError, NoRayEngineError) as error:
        raise Failed(str(error)) from None


def _name_of(text: str, names: Sequence[str], option: str) -> str:
    """The one of some names that was meant, however it was spelled."""
    from aimcalc.scene.meant import Names
    from aimcalc.scene.mistakes import nearest

    known = tuple(dict.fromkeys(names))
    meant = Names(known, ordered=True).find(text)
    if meant.name is not None:
        return meant.name
    near = nearest(text, known)
    told = f"; it may be {' or '.join(meant.several)}" if meant.several else ""
    told = told or (
        f'. Did you mean "{near}"?' if near else f". There are: {', '.join(known) or 'none'}."
    )
    raise click.BadParameter(f"expected a name of the scene, got {text!r}{told}", param_hint=option)


def _point(rig: SolidRig, text: str, option: str) -> tuple[float, ...]:
    """A place on plan, or a point, given on the command line: across, then up the stage, perhaps a height."""
    from aimcalc.scene.mistakes import Wrong
    from aimcalc.scene.tables import spot_reader

    parts = [_as_number(part.strip()) for part in text.split(";" if ";" in text else ",")]
    try:
        x, y, z = spot_reader(rig.scene.settings.unit)(parts)
    except Wrong as wrong:
        raise click.BadParameter(
            f"expected {wrong.expected}, such as \"3' SL, 4' US\", got {text!r}", param_hint=option
        ) from None
    return (x, y) if z is None else (x, y, z)


def _length(rig: SolidRig, text: str | None, option: str) -> float | None:
    """A length over 0 that was given on the command line, in metres."""
    if text is None:
        return None
    from aimcalc.scene.lengths import parse_length
    from aimcalc.scene.mistakes import Wrong

    unit = rig.scene.settings.unit
    try:
        metres = parse_length(_as_number(text), unit)
    except Wrong as wrong:
        raise click.BadParameter(
            f"expected {wrong.expected}, got {text!r}", param_hint=option
        ) from None
    if metres <= 0:
        raise click.BadParameter(f"expected a length over 0, got {text!r}", param_hint=option)
    return metres


def _below(text: str | None, option: str) -> Any:
    """A threshold given on the command line: "0.4" or "40 %" of the mean, or "300 lx"; None where none is."""
    if text is None:
        return None
    from aimcalc.coverage.systems import Below

    plain = text.strip().casefold()
    lux, percent = plain.endswith(("lx", "lux")), plain.endswith("%")
    number = _as_number(plain.removesuffix("lx").removesuffix("lux").removesuffix("%").strip())
    value = number / (100 if percent else 1) if isinstance(number, float) else 0.0
    if not (0 < value < float("inf") if lux else 0 < value <= 1):
        expected = (
            "expected a share over 0 and up to 1 of the mean, such as 0.4 or 40%, "
            f'or lux over 0, such as "300 lx", got {text!r}'
        )
        raise click.BadParameter(expected, param_hint=option)
    return Below(lux=value) if lux else Below(share=value)


def _as_number(text: str) -> str | float:
    try:
        return float(text)
    except ValueError:
        return text


def _points(rig: SolidRig, path: str | None) -> tuple[Any, ...]:
    """The points of a file, none where none is named."""
    if path is None:
        return ()
    from aimcalc.scene.mistakes import SceneError
    from aimcalc.scene.points import read_points

    try:
        return tuple(read_points(path, rig.scene.settings.unit))
    except SceneError as error:
        raise Failed(error.report()) from None


def _mend(folder: str) -> None:
    """Put right what a killed run left in a folder, and say so."""
    from aimcalc.text.whole import mend

    try:
        if mend(folder):
            told = f"An earlier run into {folder} was killed while it replaced files: the old ones are back."
            click.echo(told, err=True)
    except OSError as error:
        raise Failed(_unwritten(error, folder)) from None


def _write(path: str, data: bytes) -> None:
    from aimcalc.text.whole import write_whole

    _mend(os.path.dirname(os.path.realpath(path)))
    try:
        write_whole(path, data)
    except OSError as error:
        raise Failed(_unwritten(error, path)) from None


class _Bar:
    """A line that fills up while a search runs, for somebody who watches: redrawn every `REDRAW` s."""

    def __init__(self) -> None:
        self.watched = sys.stderr is not None and sys.stderr.isatty()
        self.drawn = -REDRAW
        self.width = 0

    def __call__(self, what: str, share: float) -> None:
        now = monotonic()
        if self.watched and now - self.drawn >= REDRAW:
            filled = round(share * BAR)
            room = min(40, max(0, (_width(err=True) or 80) - BAR - 7))
            line = f"{what[:room]:<{room}} {'#' * filled}{'.' * (BAR - filled)} {share:4.0%}"
            click.echo(f"\r{line}", nl=False, err=True)
            self.drawn, self.width = now, len(line)

    def wipe(self) -> None:
        """Take the line away."""
        if self.width:
            click.echo(f"\r{' ' * self.width}\r", nl=False, err=True)


def _status(findings: Sequence[Finding]) -> int:
    return STOPPED if any(found.severity == "stop" for found in findings) else FINE


def _length_unit(rig: SolidRig) -> Any:
    return "ft" if rig.scene.settings.unit in ("ft", "in") else "m"


def _width(*, err: bool = False) -> int | None:
    """Columns of the terminal that shows what is printed; None where no terminal does."""
    stream = sys.stderr if err else sys.stdout
    if stream is None or not stream.isatty():
        return None
    try:
        return os.get_terminal_size(stream.fileno()).columns or None
    except (OSError, ValueError):
        return None


def _refuse(stops: Sequence[Finding], findings: Sequence[Finding]) -> int:
    """Say which stops keep the sheets from being made."""
    from aimcalc.text.columns import folded
    from aimcalc.text.tables import findings_text

    width = _width(err=True)
    click.echo(f"{findings_text(stops, width, of=findings)}\n", err=True)
    end = "Nothing was made: fix the stops, or print with --draft to see the sheets as they are."
    click.echo(folded(end, width), err=True)
    return STOPPED


def _progress(piece: Piece) -> None:
    """A line for each piece, for somebody who watches."""
    if sys.stderr is not None and sys.stderr.isatty():
        from aimcalc.text.columns import folded

        click.echo(folded(f"making {_files_of(piece)} ...", _width(err=True)), err=True)


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
    click.echo(folded("\n".join([*lines, tally(show.rig, show.findings)]), _width()))


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


def _unwritten(error: OSError, folder: str) -> str:
    """Why files could not be written; our own hidden folder is named only where old files lie in it."""
    from aimcalc.text.whole import HIDDEN, MixedError

    name, reason = str(error.filename or folder), error.strerror or error
    if isinstance(error, MixedError):
        return (
            f"Cannot put back {name}: {reason}. Old and new are now mixed in {folder}: use none of them. "
            f"The old ones are in {error.hidden}; clear what is in the way, and the next run into {folder} "
            "puts them back."
        )
    place = folder if HIDDEN in name else name
    advice = ""
    if isinstance(error, PermissionError):
        advice = " Close it where it is open, see who may write it, or name another folder."
    return f"Cannot write {place}: {reason}. Nothing was changed.{advice}"


def main() -> None:
    """Run the command line and leave with its exit status.

    All is written by then, so the process ends at once: taking the interpreter down piece by piece
    would cost as much as solving a large rig.
    """
    import signal

    from aimcalc.text.holding import ending

    gc.set_threshold(GC_THRESHOLD)
    os.environ.setdefault(ONE_THREAD, "1")
    if not sys.warnoptions:  # what libraries remark is for us, not for a crew
        warnings.simplefilter("ignore")
    try:
        for number in ending():
            signal.signal(number, _end)
        status = run(sys.argv[1:])
    except KeyboardInterrupt:  # between two lines of ours
        status = _interrupted("")
    for number in ending():
        signal.signal(number, signal.SIG_IGN)  # what is left takes no time
    if "aimcalc.text.whole" in sys.modules:
        from aimcalc.text.whole import clear_up

        clear_up()
    for stream in (sys.stdout, sys.stderr):
        with suppress(OSError):
            if stream is not None:
                stream.flush()
    os._exit(status)


def _end(number: int, frame: Any) -> None:
    """What a signal does that ends the program: all is left as at a Ctrl-C."""
    _ended.append(number)
    raise KeyboardInterrupt


def run(arguments: list[str]) -> int:
    """The exit status of one call. Whatever goes wrong is told in words on stderr."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):  # letters that a terminal cannot show become "?"
            stream.reconfigure(errors="replace")
    try:
        status = commands.main(arguments, "aimcalc", standalone_mode=False)
        if sys.stdout is not None:
            sys.stdout.flush()
    except click.ClickException as error:
        error.show()
        return WRONG
    except (click.Abort, KeyboardInterrupt) as error:
        return _interrupted(str(error.__cause__ or error))
    except BrokenPipeError:  # whoever read our output has seen enough
        _drop_output()
        return FINE
    except OSError as error:
        _drop_output()
        click.echo(f"Cannot write: {error.strerror or error}.", err=True)
        return WRONG
    except Exception as error:
        if sys.flags.dev_mode:  # python -X dev -m aimcalc
            raise
        click.echo(_our_fault(error), err=True)
        return WRONG
    return status if isinstance(status, int) else FINE


def _interrupted(so: str) -> int:
    """Say that a signal has ended the run, and how things stand; the exit status."""
    with suppress(OSError):  # a terminal that was closed
        click.echo(f"Stopped. {so or 'No file was left half written.'}", err=True)
    return KILLED + _ended[0] if _ended else INTERRUPTED


def _our_fault(error: Exception) -> str:
    """What to tell of an error that nobody foresaw: what and where, in a line that can be reported."""
    place = error.__traceback__
    while place is not None and place.tb_next is not None:
        place = place.tb_next
    where = "" if place is None else f" ({place.tb_frame.f_code.co_filename}:{place.tb_lineno})"
    what = f"{type(error).__name__}: {error}{where}"
    return f"aimcalc itself has failed, not you. Please report this line with your scene:\n{what}"


def _drop_output() -> None:
    """Let what is still unwritten go nowhere, so that leaving raises nothing more."""
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
