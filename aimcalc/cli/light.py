"""The light of a scene: `cover`, `ask`, `lens`."""

from __future__ import annotations

import sys
from time import monotonic
from typing import TYPE_CHECKING, Any

import click

from aimcalc.cli.shared import (
    FINE,
    Failed,
    as_number,
    json_option,
    length_given,
    length_unit,
    name_of,
    named_for,
    reads_scene,
    show_of,
    status_of,
    terminal_width,
    worked,
    write_file,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from aimcalc.solid.rig import SolidRig


BAR = 24  # characters of a progress bar
REDRAW = 0.25  # s from one look of a progress bar to the next


@click.command()
@reads_scene
@json_option
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
    rig = show_of(scene).rig
    from aimcalc.coverage.survey import CoverOptions, survey

    options = CoverOptions(
        spacing=length_given(rig, grid, "--grid"),
        below=below_of(below, "--below"),
        points=_points(rig, points),
    )
    bar = Bar()
    found = _lit(lambda: survey(rig, options, bar))
    bar.wipe()
    from aimcalc.findings.light import light_findings

    if as_json:
        from aimcalc.text.light.cover_json import cover_json

        click.echo(cover_json(found), nl=False)
    else:
        from aimcalc.text.light.cover_text import cover_text

        click.echo(cover_text(found, length_unit(rig), terminal_width()))
    return status_of(light_findings(found))


@click.command()
@reads_scene
@json_option
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
    show = show_of(scene)
    rig, unit = show.rig, length_unit(show.rig)
    from aimcalc.coverage import asked
    from aimcalc.text.light import ask_text

    if channel is not None:
        number = name_of(channel, [own.channel for own in rig.units if own.channel], "--channel")
        found = _lit(lambda: asked.of_channel(show.light, number))
        if as_json:
            click.echo(ask_text.channel_json(rig, found, law), nl=False)
        else:
            click.echo(ask_text.channel_text(rig, found, law, unit, terminal_width()))
        return FINE
    if area is not None:
        name = name_of(area, [target.name for target in rig.scene.targets], "--area")
        place = _lit(lambda: asked.at_target(show.light, name))
    else:
        point = _point(rig, at or "", "--at")
        place = _lit(lambda: asked.at_point(show.light, *point))
    if as_json:
        click.echo(ask_text.place_json(rig, place, law), nl=False)
    else:
        click.echo(ask_text.place_text(rig, place, law, unit, terminal_width()))
    return FINE


@click.command()
@reads_scene
@json_option
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
    callback=named_for("TOML or CSV", ".toml", ".csv"),
    help="Also the proposal as a file: FILE.toml or FILE.csv.",
)
def lens(scene: str, as_json: bool, pool: str | None, file: str | None) -> int:
    """Propose a kind for every unit from the stock, and say what is short. The scene is not changed."""
    rig = show_of(scene).rig
    from aimcalc.coverage.lens import lens_outlook
    from aimcalc.text.light import lens_text

    wanted = length_given(rig, pool, "--pool")
    outlook = _lit(lambda: lens_outlook(rig, pool=wanted))
    if file is not None:
        write_file(file, lens_text.lens_file(rig, outlook.plan, csv=file.lower().endswith(".csv")))
    if as_json:
        click.echo(lens_text.lens_json(rig, outlook), nl=False)
    else:
        click.echo(lens_text.lens_text(rig, outlook, length_unit(rig), terminal_width()))
    return FINE


def _lit(work: Callable[[], Any]) -> Any:
    """What `work` on the light of a rig gives; what the scene lacks for it is told in words."""
    from aimcalc.coverage.systems import GridError, NoAreaError
    from aimcalc.geometry.rays import NoRayEngineError

    try:
        return worked(work)
    except (GridError, NoAreaError, NoRayEngineError) as error:
        raise Failed(str(error)) from None


def _point(rig: SolidRig, text: str, option: str) -> tuple[float, ...]:
    """A place on plan, or a point, given on the command line: across, then up the stage, perhaps a height."""
    from aimcalc.scene.mistakes import Wrong
    from aimcalc.scene.tables import spot_reader

    parts = [as_number(part.strip()) for part in text.split(";" if ";" in text else ",")]
    try:
        x, y, z = spot_reader(rig.scene.settings.unit)(parts)
    except Wrong as wrong:
        raise click.BadParameter(
            f"expected {wrong.expected}, such as \"3' SL, 4' US\", got {text!r}", param_hint=option
        ) from None
    return (x, y) if z is None else (x, y, z)


def below_of(text: str | None, option: str) -> Any:
    """A threshold given on the command line: "0.4" or "40 %" of the mean, or "300 lx"; None where none is."""
    if text is None:
        return None
    from aimcalc.coverage.systems import Below

    plain = text.strip().casefold()
    lux, percent = plain.endswith(("lx", "lux")), plain.endswith("%")
    number = as_number(plain.removesuffix("lx").removesuffix("lux").removesuffix("%").strip())
    value = number / (100 if percent else 1) if isinstance(number, float) else 0.0
    if not (0 < value < float("inf") if lux else 0 < value <= 1):
        expected = (
            "expected a share over 0 and up to 1 of the mean, such as 0.4 or 40%, "
            f'or lux over 0, such as "300 lx", got {text!r}'
        )
        raise click.BadParameter(expected, param_hint=option)
    return Below(lux=value) if lux else Below(share=value)


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


class Bar:
    """A line that fills up while a search runs, for somebody who watches: redrawn every `REDRAW` s."""

    def __init__(self) -> None:
        self.watched = sys.stderr is not None and sys.stderr.isatty()
        self.drawn = -REDRAW
        self.width = 0

    def __call__(self, what: str, share: float) -> None:
        now = monotonic()
        if self.watched and now - self.drawn >= REDRAW:
            filled = round(share * BAR)
            room = min(40, max(0, (terminal_width(err=True) or 80) - BAR - 7))
            line = f"{what[:room]:<{room}} {'#' * filled}{'.' * (BAR - filled)} {share:4.0%}"
            click.echo(f"\r{line}", nl=False, err=True)
            self.drawn, self.width = now, len(line)

    def wipe(self) -> None:
        """Take the line away."""
        if self.width:
            click.echo(f"\r{' ' * self.width}\r", nl=False, err=True)
