"""The crew's page on phones, and what comes back from it: `crew`, `merge`."""

from __future__ import annotations

import os

import click

from aimcalc.cli.shared import (
    FINE,
    STOPPED,
    Failed,
    checked,
    complete_files,
    named_for,
    reads_scene,
    refuse,
    worked,
    write_file,
)

KEPT = "crew.sqlite"


@click.command()
@reads_scene
@click.option(
    "--host",
    metavar="ADDRESS",
    help="Where to listen; default: this machine's address on its network. 127.0.0.1: itself alone.",
)
@click.option(
    "--port", type=click.IntRange(0, 65535), help="Default: that of last time, else any free one."
)
@click.option(
    "--keep",
    metavar="FILE",
    help="Where ticks and landings are kept; default: crew.sqlite beside the scene.",
)
@click.option("--draft", is_flag=True, help="Serve in spite of stops; DRAFT stands on every page.")
def crew(scene: str, host: str | None, port: int | None, keep: str | None, draft: bool) -> int:
    """Serve rig.html to phones on this network: ticks and landings arrive as they are made.

    The address has a key, and is the first line printed; under it stands a QR code of it for phones.
    Whoever has the address can read the sheets and tick, until Ctrl-C ends it. Begun again with the same
    file the address is the same, and phones send what they have ticked meanwhile.
    """
    from datetime import datetime

    from aimcalc.desk.crew import Crew, code_text, own_address
    from aimcalc.desk.crew_journal import Journal, JournalError
    from aimcalc.findings.pose import holds_back
    from aimcalc.sheets.prep import options_for

    show = checked(scene)
    if not draft and (stops := holds_back(show.rig, show.findings)):
        return refuse(
            stops, show.findings, "Nothing is served: fix the stops, or serve with --draft."
        )
    options = options_for(show.rig, draft=draft, printed=datetime.now().astimezone())
    folder = scene if os.path.isdir(scene) else os.path.dirname(scene)
    path = os.path.join(folder, KEPT) if keep is None else keep
    host = own_address() if host is None else host
    try:
        journal = Journal(path)
        page = Crew(show, options, journal, host, port)
    except JournalError as error:
        raise Failed(str(error)) from None
    except OSError as error:
        why = os.strerror(error.errno) if error.errno else str(error)
        at = host if port is None else f"{host}, port {port}"
        raise Failed(
            f"Cannot listen at {at}: {why}. Give --host an address of this machine, and --port one that "
            "is free."
        ) from None
    click.echo(page.address)
    click.echo(code_text(page.address))
    mine, others = journal.count(page.link.print)
    click.echo(_served_words(page.host, path, mine, others), err=True)
    page.serve()
    journal.close()
    click.echo(
        "Closed. Phones keep what they tick, and send it when this is begun again.", err=True
    )
    return FINE


def _served_words(host: str, path: str, mine: int, others: int) -> str:
    """Who can open the page, in plain words, and where things are kept."""
    from aimcalc.text.words import count

    who = (
        "This machine alone can open it."
        if host in ("127.0.0.1", "localhost")
        else "ANYBODY ON THIS NETWORK who has the address can read the sheets and tick. It is not "
        "encrypted: use a network of your own."
    )
    older = (
        f" {count(others, 'entry', 'entries')} of earlier prints are kept, not shown."
        if others
        else ""
    )
    return f"{who} Kept in {path}: {count(mine, 'entry', 'entries')} so far.{older} Ctrl-C ends it."


@click.command()
@click.argument("files", nargs=-1, required=True, shell_complete=complete_files)
@click.option(
    "-o",
    "--out",
    metavar="FILE",
    required=True,
    callback=named_for("a list", ".csv"),
    help="The joined list, CSV: landings for aimcalc learn, or ticks.",
)
def merge(files: tuple[str, ...], out: str) -> int:
    """Join what phones have saved, landings or ticks, into one file that loses nothing.

    FILES are those that rig.html saves, two or more of one sort. What two phones say of one thing is
    told, a line for each, and all of it is kept; the exit status is then 1.
    """
    from aimcalc.desk.phone_files import joined, joined_bytes, joined_text

    if len(files) < 2:
        raise click.UsageError("Give two files or more: aimcalc merge A B -o OUT.")
    if any(_one_file(out, file) for file in files):
        raise Failed(f"{out} is one of the files to join. Name another: they stay as they are.")
    found = worked(lambda: joined(files))
    write_file(out, joined_bytes(found))
    click.echo(joined_text(found, out))
    return STOPPED if found.told else FINE


def _one_file(a: str, b: str) -> bool:
    return os.path.exists(a) and os.path.exists(b) and os.path.samefile(a, b)
