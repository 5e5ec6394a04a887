"""The programmer's sheet, a page an area: which channels light it, from where and how steeply, at what level.

Then the other way round, what each channel lights, and how each unit's light comes to its own face, with the
shadow it throws. The same tables go into CSV files.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, BinaryIO

from aimcalc.coverage.angles import CUBE_DIAGONAL, FaceLight, face_lights
from aimcalc.coverage.areas import USEFUL, channels_of
from aimcalc.paper.listing import Col, Section, list_pages
from aimcalc.paper.page import body_of, write_pages
from aimcalc.solid.meets import DECK
from aimcalc.text import cover_lists as lw
from aimcalc.text import words as w
from aimcalc.text.cover_lists import (
    AREA_HEADS,
    CHANNEL_HEADS,
    angles_csv,
    areas_csv,
    channels_csv,
    levels_of,
)
from aimcalc.text.facts import SHORT, footer
from aimcalc.text.lists import csv_bytes
from aimcalc.text.names import short_unit
from aimcalc.text.stamp import PaperOptions

if TYPE_CHECKING:
    from aimcalc.coverage.areas import Area, Comes
    from aimcalc.coverage.survey import Survey
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig


ROW = 18.0  # pt
TYPE = 12.0  # pt
FULL = 0.995  # a level from here on is told as full
LEAST_SHARE = 0.005  # a smaller one would be printed as 0 %
AREA_COLUMNS = (
    Col("channel", 50, bold=True, align="r"),
    Col("system", 80, bold=True, name=True),
    Col("comes from", 86),
    Col("up at\nthe face", 46, align="r"),
    Col("share", 52, align="r"),
    Col("square\non", 56, align="r"),
    Col("on\nupright", 56, align="r"),
    Col("level", 44, bold=True, align="r"),
    Col("unit", 86, name=True),
    Col("colour", 60, name=True),
)
CHANNEL_COLUMNS = (
    Col("channel", 60, bold=True, align="r"),
    Col("lights, brightest first", 220, bold=True, wrap=True),
    Col("system", 100, wrap=True),
    Col("units", 150, wrap=True),
)
FACE_COLUMNS = (
    Col("unit", 100, bold=True, name=True),
    Col("lights", 90, name=True),
    Col("up at\nthe face", 56, bold=True, align="r"),
    Col("up in the\nsection", 56, align="r"),
    Col("plan angle from\nstraight on", 84),
    Col("the head's shadow falls", 200, wrap=True),
)
FACE_NOTE = (
    "Up at the face: true elevation. Up in the section: what a side view shows. Ask the designer which "
    "45° is meant: 45° up at the face, or 45° on plan and in the section (a cube's diagonal), which comes "
    f"{CUBE_DIAGONAL:.0f}° up at the face. The shadow is that of the point aimed at, on the first thing "
    "behind it: deck, platform, flat or cloth."
)
NOTE = (
    "Brightest first; > = aimed here. Comes from: where the unit is as seen from the area. Share: of all the "
    f"light at the face, square on; units under {lw.share(USEFUL)} that are not aimed here share one row. "
    "Square on: lux on a card held square to the unit. On upright: lux on an upright card facing the "
    "way named above (the audience's: DS unless the target says). All at full. Level: evens out the areas "
    "of one system, if light goes in proportion to level (a linear dimmer law)."
)


def by_area(
    show: Show,
    pdf: BinaryIO,
    areas: BinaryIO,
    channels: BinaryIO,
    angles: BinaryIO,
    options: PaperOptions,
) -> int:
    """Number of pages of `pdf`; `areas`, `channels` and `angles` get those lists as CSV."""
    rig, found = show.rig, show.areas
    told = [_none(found)] if isinstance(found, str) else list(_sections(found, options.length))
    pages = list_pages(
        "Channels by area",
        [*told, *_faces(rig, options.length)],
        body_of(options, False, SHORT),
        footer(rig, "by area"),
        SHORT,
    )
    count = write_pages(pdf, pages, options, title=f"{rig.scene.settings.title}: by area")
    if isinstance(found, str):
        areas.write(csv_bytes(AREA_HEADS, [], options))
        channels.write(csv_bytes(CHANNEL_HEADS, [], options))
    else:
        areas.write(areas_csv(found, options))
        channels.write(channels_csv(found, options))
    angles.write(angles_csv(rig, options))
    return count


def _none(why: str) -> Section:
    return Section("No areas", (Col("", 1, wrap=True),), [[why]])


def _sections(found: Survey, length: w.LengthUnit) -> Iterator[Section]:
    rig = found.study.rig
    levels = levels_of(found)
    for area in found.areas:
        rows = [_comes(rig, comes, levels) for comes in area.light]
        if area.rest >= LEAST_SHARE:
            rows.append(["", "all others", "", "", lw.share(area.rest)])
        empty = [["", "nothing lights it"]]
        title = _title(rig, area, length)
        yield Section(title, AREA_COLUMNS, rows or empty, NOTE, row=ROW, size=TYPE, anew=True)
    if not found.areas:
        yield _none("The scene names no target, so there is no area to list.")
    channels = [
        [
            lights.channel,
            ", ".join(lights.targets) or "no area",
            _each(rig.units[k].system for k in lights.units),
            _each(short_unit(rig, k) for k in lights.units),
        ]
        for lights in channels_of(found.study, found.areas)
    ]
    if channels:
        yield Section(
            "What each channel lights", CHANNEL_COLUMNS, channels, row=ROW, size=TYPE, anew=True
        )


def _faces(rig: SolidRig, length: w.LengthUnit) -> Iterator[Section]:
    """How each unit's light comes to the face it is aimed at; nothing where none is aimed at a face."""
    rows = [_face(rig, light, length) for light in face_lights(rig)]
    if rows:
        yield Section(
            "How light comes to each face", FACE_COLUMNS, rows, FACE_NOTE, row=ROW, size=TYPE
        )


def _face(rig: SolidRig, light: FaceLight, length: w.LengthUnit) -> list[str]:
    return [
        short_unit(rig, light.unit),
        light.target or "a point",
        _up(light.elevation),
        _up(light.section),
        _plan(light),
        _shadow(light, length),
    ]


def _plan(light: FaceLight) -> str:
    """How far round from straight front the light comes, and from which side: "29° SR"."""
    turn = w.angle(light.plan)
    return turn if turn in ("0°", "180°") else f"{turn} {light.side}"


def _shadow(light: FaceLight, length: w.LengthUnit) -> str:
    """Where the head's shadow falls."""
    if light.on_drop is not None:
        place = w.place(*light.on_drop[:2], length)
        if not w.rounded(light.height, length):
            return f"{place}, at the foot of {light.surface}"
        return f"{light.surface}: {place}, {w.length(light.height, length, w.SIZE)} up"
    if light.on_deck is None:
        told = "nowhere on the deck"
        return f"none: {light.surface} stops the light before the face" if light.surface else told
    on = "" if light.surface == DECK else f" on {light.surface}"
    return f"{w.place(*light.on_deck[:2], length)}{on}"


def _up(elevation: float) -> str:
    """An angle above level: "45°", "10° below"."""
    return f"{w.angle(elevation)} below" if elevation < -0.5 else w.angle(elevation)


def _title(rig: SolidRig, area: Area, length: w.LengthUnit) -> str:
    """The area's name and where it is."""
    target = next(t for t in rig.scene.targets if t.name == area.target)
    place = w.place(target.x, target.y, length)
    return f"{area.target}: {place}; upright faces {w.heading(area.faces)}"


def _comes(rig: SolidRig, comes: Comes, levels: dict[int, float]) -> list[str]:
    unit = rig.units[comes.unit]
    level = levels.get(comes.unit)
    mark = "> " if comes.aimed else ""
    return [
        f"{mark}{unit.channel or 'no ch'}",
        unit.system or "",
        w.heading(comes.bearing),
        _up(comes.down),
        lw.share(comes.share),
        lw.lux(comes.lux),
        lw.lux(comes.upright),
        "" if level is None else "full" if level >= FULL else lw.share(level),
        short_unit(rig, comes.unit),
        unit.colour or "",
    ]


def _each(values: Iterator[str | None]) -> str:
    """Different values in their order."""
    return ", ".join(dict.fromkeys(value for value in values if value))
