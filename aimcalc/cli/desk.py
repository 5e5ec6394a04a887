"""The live page: `desk`."""

from __future__ import annotations

import gc

import click

from aimcalc.cli.shared import FINE, SET, Failed, reads_scene

GC_THRESHOLD = 5_000  # shows that a hand has moved on from go soon, unlike what one call makes


@click.command()
@reads_scene
@click.option(
    "--port", type=click.IntRange(0, 65535), default=0, help="0, any free one, if not given."
)
@click.option("--no-browser", is_flag=True, help="Print the address and open nothing.")
def desk(scene: str, port: int, no_browser: bool) -> int:
    """Open the live page of a scene in the browser: drag, type, see what it does, save.

    The page is served to this machine alone, at an address with a key, which is the first line printed.
    What is tried there, --set too, changes no file until you save. Ctrl-C ends it.
    """
    from aimcalc.desk.server import Desk
    from aimcalc.desk.session import Session
    from aimcalc.scene.mistakes import SceneError

    try:
        session = Session(scene)
        session.begin(click.get_current_context().meta.get(SET, ()))
        page = Desk(session, port)
    except SceneError as error:
        raise Failed(error.report()) from None
    except OSError as error:
        why = error.strerror or str(error)
        raise Failed(
            f"Port {port} cannot be had: {why}. Leave --port out for a free one."
        ) from None
    gc.set_threshold(GC_THRESHOLD)
    click.echo(page.address)
    if page.others:
        click.echo(page.others, err=True)
    click.echo("This is the desk, for this machine alone. Ctrl-C ends it.", err=True)
    page.serve(browser=not no_browser)
    click.echo("Closed. The scene's files are as they were saved last.", err=True)
    return FINE
