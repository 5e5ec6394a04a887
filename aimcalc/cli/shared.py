"""What the commands have in common: the scene that is read, exit statuses, errors, files that are written."""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from click.shell_completion import CompletionItem

    from aimcalc.scene.mistakes import Wrong
    from aimcalc.show import Show
    from aimcalc.solid.answers import Finding
    from aimcalc.solid.rig import SolidRig
    from aimcalc.text.stamp import PaperOptions


FINE, STOPPED, WRONG = 0, 1, 2  # exit statuses
SET = "aimcalc.set"  # where a call keeps what it sets for itself alone


def named_for(what: str, *endings: str) -> Callable[..., str | None]:
    """A check that a file to write is named for `what` will be in it."""

    def check(context: click.Context, param: click.Parameter, name: str | None) -> str | None:
        stem, ending = os.path.splitext(name or "")
        if name is None or (ending.lower() in endings and os.path.basename(stem)):
            return name
        better = " or ".join(f"{stem or 'FILE'}{right}" for right in endings)
        raise click.BadParameter(f"this writes {what}: name it {better}, not {name!r}.")

    return check


def folder_name(context: click.Context, param: click.Parameter, name: str) -> str:
    """A folder's name as given; an empty one would mean the folder one is in, unasked."""
    if not name.strip():
        raise click.BadParameter(
            'expected the name of a folder ("." is this one), came empty text.'
        )
    return name


def complete_files(
    context: click.Context, param: click.Parameter, begun: str
) -> list[CompletionItem]:
    """Files and folders, for the shell to complete."""
    from click.shell_completion import CompletionItem

    return [CompletionItem(begun, type="file")]


def _kept(context: click.Context, param: click.Parameter, typed: tuple[str, ...]) -> None:
    """Keep what `--set` asks for where whatever reads the scene finds it."""
    context.meta[SET] = typed


set_option = click.option(
    "--set",
    multiple=True,
    metavar="NAME.KEY=VALUE",
    expose_value=False,
    callback=_kept,
    help='What if, the scene left as it is: "pipe 1.trim=5.8 m", "pipe 1/3.target=area 2".',
)


def reads_scene(command: Any) -> Any:
    """The scene that a command reads, and what is set in it for this call alone."""
    return click.argument("scene", shell_complete=complete_files)(set_option(command))


json_option = click.option(
    "--json", "as_json", is_flag=True, help="As JSON, in metres and degrees."
)


class Failed(click.ClickException):
    """A call that cannot be done, with the reason as the user reads it."""

    exit_code = WRONG

    def show(self, file: Any = None) -> None:
        """Print the reason."""
        click.echo(self.message, err=True)


def checked(scene: str, length: Any = None, *, rays: bool = True) -> Show:
    """The show of a scene with its `findings` made, or without `rays` its `quick_findings`."""
    show = show_of(scene, length)
    worked(lambda: show.findings if rays else show.quick_findings)
    return show


def show_of(scene: str, length: Any = None, *, as_it_is: bool = False) -> Show:
    """The show of a scene with its rig solved, told in `length` (m or ft), else in the scene's own unit.

    `as_it_is`: without what is set for this call.
    """
    from aimcalc.show import Show

    context = click.get_current_context()
    asked = () if as_it_is else context.meta.get(SET, ())
    show: Show = worked(lambda: Show.read(scene, length, asked))
    worked(lambda: show.rig)
    if show.scene.what_if:
        from aimcalc.text.stamp import drafted

        in_list = context.params.get("as_json") or context.params.get("as_csv")
        click.echo(drafted(show.scene.what_if), err=bool(in_list))
    return show


def worked(work: Callable[[], Any]) -> Any:
    """What `work` on a scene gives; a file of it that cannot be used is told in words."""
    from aimcalc.scene.mistakes import SceneError

    try:
        return work()
    except SceneError as error:
        raise Failed(error.report()) from None


def refuse(stops: Sequence[Finding], findings: Sequence[Finding], end: str) -> int:
    """Say which stops keep the sheets from being made, and `end`; the exit status."""
    from aimcalc.text.columns import folded
    from aimcalc.text.tables import findings_text

    width = terminal_width(err=True)
    click.echo(f"{findings_text(stops, width, of=findings)}\n", err=True)
    click.echo(folded(end, width), err=True)
    return STOPPED


def name_of(text: str, names: Sequence[str], option: str) -> str:
    """The one of some names that was meant, however it was spelled."""
    from aimcalc.scene.hanglist.names.meant import Names
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


def length_given(rig: SolidRig, text: str | None, option: str) -> float | None:
    """A length over 0 that was given on the command line, in metres."""
    if text is None:
        return None
    from aimcalc.scene.lengths import parse_length
    from aimcalc.scene.mistakes import Wrong

    unit = rig.scene.settings.unit
    try:
        metres = parse_length(as_number(text), unit)
    except Wrong as wrong:
        raise click.BadParameter(
            f"expected {wrong.expected}, got {text!r}", param_hint=option
        ) from None
    if metres <= 0:
        raise click.BadParameter(f"expected a length over 0, got {text!r}", param_hint=option)
    return metres


def as_number(text: str) -> str | float:
    """What was typed, as a number if it is one."""
    try:
        return float(text)
    except ValueError:
        return text


def refused(what: str, wrong: Wrong) -> Failed:
    """The reason why a call about something cannot be done, as a sentence."""
    came = f", got {wrong.came}" if wrong.came else ""
    do = f" {wrong.do}" if wrong.do else ""
    return Failed(f"{what}: expected {wrong.expected}{came}.{do}")


def mend_folder(folder: str) -> None:
    """Put right what a killed run left in a folder, and say so."""
    from aimcalc.text.whole import mend

    try:
        if mend(folder):
            told = f"An earlier run into {folder} was killed while it replaced files: the old ones are back."
            click.echo(told, err=True)
    except OSError as error:
        raise Failed(unwritten(error, folder)) from None


def write_file(path: str, data: bytes) -> None:
    """Write one file, whole or not at all; raises `Failed` where it cannot be."""
    from aimcalc.text.whole import write_whole

    mend_folder(os.path.dirname(os.path.realpath(path)))
    try:
        write_whole(path, data)
    except OSError as error:
        raise Failed(unwritten(error, path)) from None


def write_files(folder: str, files: dict[str, bytes]) -> None:
    """Write some files into a folder, all or none; raises `Failed` where they cannot be."""
    from aimcalc.text.whole import whole_set

    mend_folder(folder)
    try:
        with whole_set(folder) as hidden:
            for name, data in files.items():
                with open(os.path.join(hidden, name), "wb") as file:
                    file.write(data)
    except OSError as error:
        raise Failed(unwritten(error, folder)) from None


def paper_for(show: Show) -> PaperOptions:
    """Paper for a few pages of a show: of the size that goes with its unit of length, without a time."""
    from msgspec.structs import replace

    from aimcalc.text.stamp import PaperOptions, stamp_of

    unit, tried = length_unit(show.rig), show.scene.what_if
    options = PaperOptions(
        paper="letter" if unit == "ft" else "a4", length=unit, draft=bool(tried), what_if=tried
    )
    return replace(options, stamp=stamp_of(show.rig, options, None))


def unwritten(error: OSError, folder: str) -> str:
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


def status_of(findings: Sequence[Finding]) -> int:
    """The exit status that findings ask for."""
    return STOPPED if any(found.severity == "stop" for found in findings) else FINE


def length_unit(rig: SolidRig) -> Any:
    """The unit, m or ft, that a scene is told in."""
    return "ft" if rig.scene.settings.unit in ("ft", "in") else "m"


def terminal_width(*, err: bool = False) -> int | None:
    """Columns of the terminal that shows what is printed; None where no terminal does."""
    stream = sys.stderr if err else sys.stdout
    if stream is None or not stream.isatty():
        return None
    try:
        return os.get_terminal_size(stream.fileno()).columns or None
    except (OSError, ValueError):
        return None


def drop_output() -> None:
    """Let what is still unwritten go nowhere, so that leaving raises nothing more."""
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
