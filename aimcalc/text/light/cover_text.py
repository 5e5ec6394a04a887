"""What `aimcalc cover` prints: figures and holes of each system, who fills them, levels, points."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import TYPE_CHECKING

from aimcalc.coverage.systems import ALL
from aimcalc.findings.light import light_findings
from aimcalc.text import words as w
from aimcalc.text.columns import folded, table
from aimcalc.text.facts import headline
from aimcalc.text.light import cover_lists as lw
from aimcalc.text.tables import findings_text

if TYPE_CHECKING:
    from aimcalc.coverage.areas import Balanced
    from aimcalc.coverage.fewest import Fewest
    from aimcalc.coverage.helpers import Helper
    from aimcalc.coverage.survey import PointLight, Survey
    from aimcalc.coverage.systems import SystemLight
    from aimcalc.light.evenness import Gap
    from aimcalc.solid.rig import SolidRig


HEADS = (
    "system",
    "units",
    "over a point",
    "mean",
    "least",
    "most",
    "U0",
    "over half the mean",
    "holes",
)
SECOND_LINE = ("mean",)  # where a row goes on in a narrow terminal
POINT_HEADS = ("point", "system", "level", "house", "cylindrical", "strongest (of cylindrical)")
SHOWN = 3  # helpers told of for one hole
EVEN = 1.05  # most over least below which 1.0:1 would be printed
BALANCE = "Balance (light in proportion to level: a linear dimmer law)"
RE_AIMS = (
    "Re-aims: a unit turns 30° at most, stays in the acting area, and is offered for one hole of a system.\n"
    "Specials, patterns and odd colours stay as they are. The dark limit stays as given for each system.\n"
    "Each unit stays upright and in its yoke's travel, and loses a tenth of its field at most.\n"
    "Each clears its neighbours (not checked where a kind has no length and width)."
)


def cover_text(found: Survey, unit: w.LengthUnit, width: int | None = None) -> str:
    """The light of a rig for a terminal; `width` is the terminal's, see `aimcalc.text.columns`."""
    rig = found.study.rig
    if not rig.units:
        return f"{folded(headline(rig), width)}\n\n{findings_text(light_findings(found), width)}"
    parts = [_head(found, unit), "\n".join(_table(found, unit, width))]
    if any(system.gaps for system in found.study.systems.values()):
        parts.append(RE_AIMS)
    parts += [
        _system(found, system, unit) for system in found.study.systems.values() if system.gaps
    ]
    if found.balances:
        parts.append("\n".join([BALANCE, *(_balance(rig, each) for each in found.balances)]))
    if found.points:
        parts.append(points_text(rig, found.points, unit, width))
    parts = [folded(part, width) for part in parts]
    return "\n\n".join([*parts, findings_text(light_findings(found), width)])


def _table(found: Survey, unit: w.LengthUnit, width: int | None) -> Iterator[str]:
    """The figures of every system, and of whose units the light is not known."""
    yield from table(HEADS, list(_figures(found, unit)), width, SECOND_LINE)
    for system in found.study.systems.values():
        if line := lw.unknown_light(found.study.rig, system):
            yield f"  {line}"


def points_text(
    rig: SolidRig, points: Sequence[PointLight], unit: w.LengthUnit, width: int | None = None
) -> str:
    """The light at listed points: lux on the level, facing the house, cylindrical, the strongest units."""
    rows: list[Sequence[str]] = []
    for point, lights in groupby(points, lambda light: light.point):
        x, y, z = point
        place = f"{w.place(x, y, unit, w.HANG)}, {w.length(z, unit, w.HANG)} up"
        for light in lights:
            values = (lw.lux(v) for v in (light.level, light.house, light.cylindrical))
            told = ", ".join(f"{lw.named(rig, k)} {lw.share(part)}" for k, part in light.strongest)
            rows.append((place, light.system, *values, told))
            place = ""
    turned = any(target.faces is not None for target in rig.scene.targets)
    head = "Points; house: upright, as the nearest target faces" if turned else "Points"
    return "\n".join([head, *table(POINT_HEADS, rows, width)])


def _head(found: Survey, unit: w.LengthUnit) -> str:
    study = found.study
    settings = study.rig.scene.settings
    revision = f", revision {settings.revision}" if settings.revision else ""
    face = w.length(settings.face_height, unit, w.HANG)
    solids = "scenery counts, pipes and units do not" if study.sight.ready else "no scenery"
    return (
        f"{settings.title}{revision}: light on the level plane {face} above the deck ({solids}).\n"
        f"Figures and holes are of one grid: {lw.grid(study.plane, unit)}"
    )


def _figures(found: Survey, unit: w.LengthUnit) -> Iterator[tuple[str, ...]]:
    for system in found.study.systems.values():
        figures = system.figures
        first = (system.name, str(system.units.size), _over(system))
        if not system.known:
            yield (*first, lw.NOT_KNOWN, "", "", "", "", lw.NOT_KNOWN)
            continue
        total = lw.area(system.dark_area, unit)
        yield (
            *first,
            *(lw.lux(v) for v in (figures.mean, figures.least, figures.most)),
            f"{figures.u0:.2f}",
            lw.share(figures.share_above_half),
            f"{len(system.gaps)}, {total}" if system.gaps else "none",
        )


def _over(system: SystemLight) -> str:
    """How many units have a point in their field, from the point with the fewest to that with the most."""
    if not system.counts.size:
        return ""
    return f"{system.counts.min():.0f} to {system.counts.max():.0f}"


def _system(found: Survey, system: SystemLight, unit: w.LengthUnit) -> str:
    rig = found.study.rig
    name = "All units" if system.name == ALL else system.name
    lines = [f"{name}: dark where under {lw.lux(system.below)}"]
    for k, gap in enumerate(system.gaps):
        lines.append(f"  hole {k + 1}: {_gap(gap, system, unit)}")
        lines += [f"     {line}" for line in _help(found, system, k, unit)]
    if system.name in found.fewest:
        lines += _fewest(rig, found.fewest[system.name], unit)
    return "\n".join(lines)


def _gap(gap: Gap, system: SystemLight, unit: w.LengthUnit) -> str:
    x0, y0, x1, y1 = gap.box
    size = f"{w.length(x1 - x0, unit)} across, {w.length(y1 - y0, unit)} up and down stage"
    mean = (
        f", {lw.share(gap.least / system.figures.mean)} of the mean" if system.figures.mean else ""
    )
    return (
        f"{lw.area(gap.area, unit)} at {w.place(*gap.centre, unit)} ({size}): "
        f"darkest {lw.lux(gap.least)}{mean}"
    )


def _help(found: Survey, system: SystemLight, hole: int, unit: w.LengthUnit) -> list[str]:
    """What is offered for one hole, or why nothing is."""
    rig = found.study.rig
    if hole >= len(found.helpers[system.name]):
        return ["no fix searched for"]
    if helpers := found.helpers[system.name][hole]:
        return [_helper(rig, each, unit) for each in helpers[:SHOWN]]
    return [lw.why_no_help(found, system, hole)]


def _helper(rig: SolidRig, helper: Helper, unit: w.LengthUnit) -> str:
    aim = lw.new_aim(*helper.face[:2], helper.heading, helper.down, unit)
    away = rig.units[helper.unit].target
    off = f", off {away}" if away else ""
    opens = f"uncovers {lw.area(helper.uncovers, unit)}" if helper.uncovers else "uncovers nothing"
    closes = f"closes {lw.area(helper.gain, unit)} of it"
    return f"{lw.named(rig, helper.unit)}{off} to {aim}: {closes}, {opens}"


def _fewest(rig: SolidRig, found: Fewest, unit: w.LengthUnit) -> list[str]:
    tries = found.new
    if not tries.unit.size:
        return ["  Re-aims together: nothing tried closes more than it uncovers."]
    lines = [f"  Re-aims together: {_how_well(found, unit)}"]
    rows = zip(tries.unit.tolist(), tries.face.T, tries.aims.heading, tries.aims.down, strict=True)
    for k, face, heading, down in rows:
        aim = lw.new_aim(float(face[0]), float(face[1]), float(heading), float(down), unit)
        lines.append(f"     {lw.named(rig, k)} to {aim}")
    return lines


def _how_well(found: Fewest, unit: w.LengthUnit) -> str:
    moves = found.new.unit.size
    beyond = ""
    if found.out_of_reach:
        beyond = f" {lw.area(found.out_of_reach, unit)} is out of reach of the whole system."
    if not found.closed:
        left = lw.area(found.left, unit)
        return f"{w.count(moves, 'unit')}, the best found, {_leave(moves)} {left} of holes.{beyond}"
    within = " within reach" if found.out_of_reach else ""
    close = "closes" if moves == 1 else "close"
    return f"{w.count(moves, 'unit')} {close} every hole{within}{_proof(found, moves)}.{beyond}"


def _leave(moves: int) -> str:
    return "leaves" if moves == 1 else "leave"


def _proof(found: Fewest, moves: int) -> str:
    """How far fewer re-aims are known not to do."""
    if moves == 1:
        return ""
    if found.proved:
        return ", the fewest of all that was tried"
    return f"; at least {max(found.at_least, 1)} needed; {moves} is the best found"


def _balance(rig: SolidRig, found: Balanced) -> str:
    """Levels of one system's channels, the same levels together."""
    dark = (
        f" Light not known: {lw.channels(rig, found.unknown.tolist())}."
        if found.unknown.size
        else ""
    )
    if found.spread_at_full < EVEN:
        return f"  {found.system}: even at full.{dark}"
    by_level: dict[str, list[int]] = {}
    for i in sorted(range(found.unit.size), key=lambda i: -float(found.level[i])):
        by_level.setdefault(lw.share(float(found.level[i])), []).append(int(found.unit[i]))
    levels = [f"{lw.channels(rig, units)} at {level}" for level, units in by_level.items()]
    even = (
        "even at these levels"
        if found.alike
        else f"{found.spread:.1f}:1 at these levels, each unit judged by itself"
    )
    return f"  {found.system}: {found.spread_at_full:.1f}:1 at full; {even}: {'; '.join(levels)}.{dark}"
