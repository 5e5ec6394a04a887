"""The programmer's sheet, a page an area: which channels light it, from where and how steeply, at what level,
what goes dark without each, and who could fill in for those that it is lit by.

Then the other way round, what each channel lights, and how each unit's light comes to its own face, with the
shadow it throws. The same tables go into CSV files.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, BinaryIO

from aimcalc.coverage.angles import CUBE_DIAGONAL, FaceLight, face_lights
from aimcalc.coverage.areas import USEFUL, channels_of
from aimcalc.coverage.asked import LIKE
from aimcalc.paper.listing import Col, Section, list_pages
from aimcalc.paper.page import body_of, write_pages
from aimcalc.solid.meets import DECK
from aimcalc.text import words as w
from aimcalc.text.facts import SHORT, footer
from aimcalc.text.light import cover_lists as lw
from aimcalc.text.light.ask_text import dark_words, fader_words, fills_words
from aimcalc.text.light.cover_lists import (
    light_lists,
)
from aimcalc.text.names import short_unit
from aimcalc.text.stamp import PaperOptions

if TYPE_CHECKING:
    from aimcalc.coverage.asked import Contributor, Place
    from aimcalc.coverage.survey import Survey
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig


ROW = 18.0  # pt
TYPE = 12.0  # pt
LAW = "linear"  # how levels turn into light on this sheet
LEAST_SHARE = 0.005  # a smaller one would be printed as 0 %
AREA_COLUMNS = (
    Col("channel", 48, bold=True, align="r"),
    Col("system", 78, bold=True, name=True),
    Col("comes from", 80),
    Col("up at\nthe face", 48, align="r"),
    Col("share", 42, align="r"),
    Col("on\nupright", 52, align="r"),
    Col("on\nlevel", 52, align="r"),
    Col("fader", 42, bold=True, align="r"),
    Col("dark\nwithout it", 60, bold=True, align="r"),
    Col("unit", 84, name=True),
    Col("colour", 58, name=True),
)
GONE_COLUMNS = (
    Col("gone", 48, bold=True, align="r"),
    Col("unit", 84, name=True),
    Col("colour", 58, name=True),
    Col("could fill in, best first", 456, wrap=True),
)
REACH_COLUMNS = (
    Col("channel", 48, bold=True, align="r"),
    Col("unit", 110, name=True),
    Col("colour", 80, name=True),
    Col("points now at", 130, name=True),
    Col("would give here,\nsquare on", 110, align="r"),
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
    "Brightest first; > = aimed here; all at full. Comes from: where the unit is, seen from the area. "
    "Share: of all the light, each on a card square to it; units under "
    f"{lw.share(USEFUL)} not aimed here share one row. "
    "On upright: lux on an upright card that faces as named above (DS unless the target says); on level: on "
    "a level one. Fader: evens the areas of one system, light in proportion to level (linear law). Dark "
    "without it: of its system's area (of all, where it has none), what falls below the dark limit."
)
GONE_NOTE = (
    f"Light from within {LIKE:.0f}° of its way: its own colour first, then the nearest in direction. In "
    "brackets: how far off its way, a colour not its own, lux here square on, the target it is turned from, "
    "which then goes without it."
)
FILLS = 2  # who could fill in, for each unit: as many as a line holds
COUNTS = 0.05  # share of the light from which a unit that is aimed elsewhere is stood in for (our choice)


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
    light_lists(show, areas, channels, angles, options)
    places = show.places
    told = (
        [_none(found if isinstance(found, str) else str(places))]
        if isinstance(found, str) or isinstance(places, str)
        else [*_areas(rig, places, options.length), *_channels(found)]
    )
    pages = list_pages(
        "Channels by area",
        [*told, *_faces(rig, options.length)],
        body_of(options, False, SHORT),
        footer(rig, "by area"),
        SHORT,
    )
    return write_pages(pdf, pages, options, title=f"{rig.scene.settings.title}: by area")


def _none(why: str) -> Section:
    return Section("No areas", (Col("", 1, wrap=True),), [[why]])


def _areas(rig: SolidRig, places: list[Place], length: w.LengthUnit) -> Iterator[Section]:
    """A page for each target: its light, then who could fill in; or who could be turned there."""
    for place in places:
        rows = [_comes(rig, each, length) for each in place.light]
        if place.rest >= LEAST_SHARE:
            rows.append(["", "all others", "", "", lw.share(place.rest)])
        title = _title(rig, place, length)
        if not rows:
            yield Section(f"{title}; nothing lights it", REACH_COLUMNS, [], anew=True)
            yield _reach(rig, place)
            continue
        yield Section(title, AREA_COLUMNS, rows, NOTE, row=ROW, size=TYPE, anew=True)
        gone = [_gone(rig, each) for each in place.light if _counts(each)]
        if gone:
            heading = f"{place.name}: if one is gone"
            yield Section(heading, GONE_COLUMNS, gone, GONE_NOTE, row=ROW, size=TYPE)
    if not places:
        yield _none("The scene names no target, so there is no area to list.")


def _counts(each: Contributor) -> bool:
    """Whether who could fill in for a unit is told: it is aimed here, or gives a good part of the light."""
    return each.comes.aimed or each.comes.share >= COUNTS


def _gone(rig: SolidRig, each: Contributor) -> list[str]:
    k = each.comes.unit
    unit = rig.units[k]
    fills = fills_words(rig, each.fills, FILLS)
    return [unit.channel or "no ch", short_unit(rig, k), unit.colour or "", fills]


def _reach(rig: SolidRig, place: Place) -> Section:
    """Who could be turned to an area that nothing lights."""
    rows = [
        [
            rig.units[fill.unit].channel or "no ch",
            short_unit(rig, fill.unit),
            rig.units[fill.unit].colour or "",
            rig.units[fill.unit].target or "a point",
            lw.lux(fill.lux),
        ]
        for fill in place.reach
    ]
    none = [["", "nobody", "", "by a turn of at most 30° within the acting area"]]
    return Section("Could be turned there", REACH_COLUMNS, rows or none, row=ROW, size=TYPE)


def _channels(found: Survey) -> Iterator[Section]:
    """What each channel lights."""
    rig = found.study.rig
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


def _title(rig: SolidRig, place: Place, length: w.LengthUnit) -> str:
    """The area's name, where it is, and all of its light."""
    where = w.place(place.point[0], place.point[1], length)
    light = f"; {lw.lux(place.lux)} square on" if place.light else ""
    return f"{place.name}: {where}; upright faces {w.heading(place.faces)}{light}"


def _comes(rig: SolidRig, each: Contributor, length: w.LengthUnit) -> list[str]:
    comes = each.comes
    unit = rig.units[comes.unit]
    mark = "> " if comes.aimed else ""
    return [
        f"{mark}{unit.channel or 'no ch'}",
        unit.system or "",
        w.heading(comes.bearing),
        _up(comes.down),
        lw.share(comes.share),
        lw.lux(comes.upright),
        lw.lux(comes.level),
        fader_words(each.even, LAW),
        dark_words(each, unit.system, length),
        short_unit(rig, comes.unit),
        unit.colour or "",
    ]


def _each(values: Iterator[str | None]) -> str:
    """Different values in their order."""
    return ", ".join(dict.fromkeys(value for value in values if value))
