"""The command line: reads, calls, prints. Nothing is worked out here.

What a command needs is loaded when it runs, its own module too: `--help` must not wait for a numerical
library, nor `check` for the options of `prep`.
"""

from __future__ import annotations

import gc
import os
import sys
import warnings
from contextlib import suppress
from importlib import import_module
from typing import Any

import click

from aimcalc import __version__
from aimcalc.cli.shared import FINE, WRONG, drop_output

INTERRUPTED = 130
KILLED = 128  # plus the signal's number
GC_THRESHOLD = 500_000  # nearly all that is made on the way in stays to the end
# Linear algebra under numpy starts a thread a core, for sums that are not large here. What a user set stands.
ONE_THREAD = "OPENBLAS_NUM_THREADS"
WIDTH = 96  # columns of the help text; asking the terminal would cost time
_ended: list[int] = []  # the signals that ended this process
COMMANDS = {  # of each module: its commands, with the first sentence of their docstrings, which --help lists
    "scene": {
        "start": "Make a small scene that works, to edit: DIR/scene.toml.",
        "keys": "Explain every table and key of a scene, or of some tables: aimcalc keys unit kind.",
        "kinds": (
            "Show the generic kinds: families, figures, what to replace; or one, "
            "to copy into a scene."
        ),
    },
    "rig": {
        "check": "List what the crew should know before anybody climbs, worst first.",
        "solve": "Print how every unit is set and where its light goes, position by position.",
        "hang": "Print the work at the pipe: marks, loads, tails, cable, circuits, counts.",
    },
    "prep": {
        "prep": "Make everything the crew carries: a pack for each who holds one, cards, drawings, lists.",
    },
    "light": {
        "cover": "Print the light of each system over the acting area, its holes, who could fill them.",
        "ask": "Tell what lights an area or a point, or what a channel lights, and who could fill in.",
        "lens": "Propose a kind for every unit from the stock, and say what is short.",
    },
    "desk": {
        "desk": "Open the live page of a scene in the browser: drag, type, see what it does, save.",
    },
    "phones": {
        "crew": "Serve rig.html to phones on this network: ticks and landings arrive as they are made.",
        "merge": "Join what phones have saved, landings or ticks, into one file that loses nothing.",
    },
    "landings": {
        "where": (
            "Tell where a unit lands as it is set, by how much it misses, whether "
            "that will do, what to change."
        ),
        "learn": "Tell from measured LANDINGS what is out: trim, skew, marks, dial, level, drop, kick.",
        "compare": (
            "Tell what changed from OLD to NEW, whose rows must be printed again, "
            "and which sheets are out of date."
        ),
    },
    "teach": {
        "explain": (
            "Tell why a unit's numbers are what they are: sources, triangles, "
            "sums for a pocket calculator."
        ),
        "scale": (
            "Set up a low practice pipe with a pipe's own angles: marks, floor spots, tape, "
            "what cannot be kept."
        ),
        "lesson": (
            "Make a lesson on a low pipe: a scene to edit, rota, marks, sheets and log for a class, "
            "ready to print."
        ),
    },
    "drill": {
        "drill": (
            "Make worksheets of a scene for a class, each student's of other "
            "units, with a key; or mark them."
        ),
    },
}
MODULE_OF = {name: module for module, names in COMMANDS.items() for name in names}


class Lazy(click.Group):
    """A group whose commands are loaded when one is called; until then it has their names and sentences."""

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Return the command that was called, loaded, with its name and its arguments."""
        name, known, rest = super().resolve_command(ctx, args)
        return name, known and command_of(str(name)), rest


def command_of(name: str) -> click.Command:
    """Return a command, loaded with its module."""
    command: click.Command = getattr(import_module(f"aimcalc.cli.{MODULE_OF[name]}"), name)
    return command


@click.group(
    cls=Lazy,
    commands=[
        click.Command(name, help=sentence)
        for names in COMMANDS.values()
        for name, sentence in names.items()
    ],
    context_settings={"help_option_names": ["-h", "--help"], "terminal_width": WIDTH},
)
@click.version_option(__version__, message="aimcalc %(version)s")
def commands() -> None:
    """Where each stage lighting unit hangs, which way it turns and tips, where its light lands.

    SCENE is a TOML file, or a folder that holds scene.toml. No command changes it, but for the
    desk when you save. To begin: aimcalc start DIR makes one, then check, solve and prep read it.

    Exit status: 0 fine (warnings included), 1 at least one stop, 2 the scene could not be read or
    the call was wrong.
    """


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
        drop_output()
        return FINE
    except OSError as error:
        drop_output()
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
