"""A scene to begin with, and what may stand in one: `start`, `keys`, `kinds`."""

from __future__ import annotations

import os

import click

import aimcalc
from aimcalc.cli.shared import (
    FINE,
    Failed,
    folder_name,
    named_for,
    terminal_width,
    unwritten,
    write_file,
)

STARTER = os.path.join(os.path.dirname(aimcalc.__file__), "scene", "starter.toml")


@click.command()
@click.argument("folder", metavar="DIR", callback=folder_name)
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
    with open(STARTER, "rb") as file:
        scene = file.read()
    try:
        write_whole(path, scene)
    except OSError as error:
        raise Failed(unwritten(error, folder)) from None
    click.echo(f"{path} is ready: six units on two pipes. Open it in an editor and change it.")
    click.echo(
        f"Then:  aimcalc check {folder}   aimcalc solve {folder}   aimcalc prep {folder} -o DIR"
    )
    return FINE


def _begin(folder: str, hang: str) -> int:
    """Begin a scene in a folder from a hang list, which is copied beside it."""
    from aimcalc.scene.begun import begun
    from aimcalc.scene.files import read_whole
    from aimcalc.scene.hanglist.table.sheetfile import HANG_MEGABYTES
    from aimcalc.scene.mistakes import Log, SceneError, Where, Wrong
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
        raise Failed(unwritten(error, folder)) from None
    open_ones = files["scene.toml"].count(b'= "?"')
    click.echo(
        f"{os.path.join(folder, 'scene.toml')} is begun from {name}, with {open_ones} open questions."
    )
    click.echo(f"Answer them in an editor; aimcalc check {folder} lists those that are left.")
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


@click.command()
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
        click.echo(keys_text.keys_text(names or list(TABLES), terminal_width()))
    return FINE


@click.command()
@click.argument("name", metavar="[KIND]", required=False, shell_complete=_kind_names)
@click.option(
    "-o",
    "--out",
    "file",
    metavar="FILE",
    callback=named_for("a drawn page", ".pdf", ".png"),
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
        write_file(file, page.getvalue())
    if name is None:
        click.echo(kinds_text.kinds_text(terminal_width()))
        return FINE
    try:
        click.echo(kinds_text.kind_entry(name))
    except KeyError:
        known = ", ".join(_kind_names())
        raise click.BadParameter(
            f"expected one of {known}; got {name!r}.", param_hint="KIND"
        ) from None
    return FINE
