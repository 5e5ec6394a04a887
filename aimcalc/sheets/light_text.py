"""What `aimcalc cover` prints: figures and holes of each system, who fills them, levels, points."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import TYPE_CHECKING

from aimcalc.rig.light.findings import light_findings
from aimcalc.rig.light.systems import ALL
from aimcalc.sheets import light_words as lw
from aimcalc.sheets import words as w
from aimcalc.sheets.facts import headline
from aimcalc.sheets.tables import findings_text

if TYPE_CHECKING:
    from aimcalc.light.gaps import Gap
    from aimcalc.rig.light.at_points import PointLight
    from aimcalc.rig.light.balances import Balanced
    from aimcalc.rig.light.fewest import Fewest
    from aimcalc.rig.light.helpers import Helper
    from aimcalc.rig.light.survey import Survey
    from aimcalc.rig.light.systems import SystemLight
    from aimcalc.rig.solve import Rig

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
POINT_HEADS = ("point", "system", "level", "house", "cylindrical", "strongest (of cylindrical)")
SHOWN = 3  # helpers told of for one hole


def cover_text(found: Survey, unit: w.LengthUnit) -> str:
    """The light of a rig for a terminal."""
    rig = found.study.rig
    if not rig.units:
        return f"{headline(rig)}\n\n{findings_text(light_findings(found))}"
    parts = [_head(found, unit), lw.table([HEADS, *_figures(found, unit)])]
    parts += [
        _system(found, system, unit) for system in found.study.systems.values() if system.gaps
    ]
    if found.balances:
        parts.append("\n".join(["Balance", *(_balance(rig, each) for each in found.balances)]))
    if found.points:
        parts.append(points_text(rig, found.points, unit))
    return "\n\n".join([*parts, findings_text(light_findings(found))])


def points_text(rig: Rig, points: Sequence[PointLight], unit: w.LengthUnit) -> str:
    """The light at listed points: lux on the level, facing the house, cylindrical, the strongest units."""
    rows: list[Sequence[str]] = [POINT_HEADS]
    for point, lights in groupby(points, lambda light: light.point):
        x, y, z = point
        place = f"{w.place(x, y, unit, w.HANG)}, {w.length(z, unit, w.HANG)} up"
        for light in lights:
            values = (lw.lux(v) for v in (light.level, light.house, light.cylindrical))
            told = ", ".join(f"{lw.named(rig, k)} {lw.share(part)}" for k, part in light.strongest)
            rows.append((place, light.system, *values, told))
            place = ""
    return f"Points\n{lw.table(rows)}"


def _head(found: Survey, unit: w.LengthUnit) -> str:
    study = found.study
    settings = study.rig.scene.settings
    revision = f", revision {settings.revision}" if settings.revision else ""
    face = w.length(settings.face_height, unit, w.HANG)
    coarse, fine = (w.length(p.grid.spacing, unit, w.HANG) for p in (study.coarse, study.fine))
    solids = "scenery counts, pipes and units do not" if study.sight.ready else "no scenery"
    return (
        f"{settings.title}{revision}: light on the level plane {face} above the deck ({solids}).\n"
        f"Figures on a grid of {coarse}, holes on one of {fine}."
    )


def _figures(found: Survey, unit: w.LengthUnit) -> Iterator[tuple[str, ...]]:
    for system in found.study.systems.values():
        figures = system.figures
        total = lw.area(sum(gap.area for gap in system.gaps), unit)
        yield (
            system.name,
            str(system.units.size),
            _over(system),
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
    helpers = found.helpers[system.name]
    for k, gap in enumerate(system.gaps):
        lines.append(f"  {k + 1}. {_gap(gap, system, unit)}")
        if k < len(helpers):
            lines += [f"     {line}" for line in _help(rig, helpers[k], unit)]
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


def _help(rig: Rig, helpers: Sequence[Helper], unit: w.LengthUnit) -> list[str]:
    if not helpers:
        return ["no new aim of the system's units closes any of it"]
    return [_helper(rig, each, unit) for each in helpers[:SHOWN]]


def _helper(rig: Rig, helper: Helper, unit: w.LengthUnit) -> str:
    aim = lw.new_aim(*helper.face[:2], helper.heading, helper.down, unit)
    away = rig.units[helper.unit].target
    off = f", off {away}" if away else ""
    opens = f"uncovers {lw.area(helper.uncovers, unit)}" if helper.uncovers else "uncovers nothing"
    return (
        f"{lw.named(rig, helper.unit)}{off} to {aim}: closes {lw.area(helper.gain, unit)}, {opens}"
    )


def _fewest(rig: Rig, found: Fewest, unit: w.LengthUnit) -> list[str]:
    tries = found.tries
    if not tries.unit.size:
        return ["  Re-aims: none of the aims tried closes more than it uncovers."]
    lines = [f"  Re-aims: {_how_well(found, unit)}"]
    rows = zip(tries.unit.tolist(), tries.face.T, tries.aims.heading, tries.aims.down, strict=True)
    for k, face, heading, down in rows:
        aim = lw.new_aim(float(face[0]), float(face[1]), float(heading), float(down), unit)
        lines.append(f"     {lw.named(rig, k)} to {aim}")
    return lines


def _how_well(found: Fewest, unit: w.LengthUnit) -> str:
    moves = w.count(found.tries.unit.size, "unit")
    if not found.closed:
        return f"the best set found, {moves}, leaves {lw.area(found.left, unit)} of holes."
    fewer = "the fewest of the aims tried" if found.proved else _not_proved(found)
    beyond = ""
    if found.out_of_reach:
        dark = lw.area(found.out_of_reach, unit)
        beyond = f" that can be closed; {dark} would be dark with all of them pointed at it"
    return f"{moves}, {fewer}, close every hole{beyond}."


def _not_proved(found: Fewest) -> str:
    if found.at_least <= 1:
        return "the fewest found"
    return f"the fewest found (fewer than {found.at_least} of the aims tried do not)"


def _balance(rig: Rig, found: Balanced) -> str:
    """Levels of one system's channels, the same levels together."""
    if found.spread_at_full < 1.005:
        return f"  {found.system}: alike at full."
    by_level: dict[str, list[int]] = {}
    for i in sorted(range(found.unit.size), key=lambda i: -float(found.level[i])):
        by_level.setdefault(lw.share(float(found.level[i])), []).append(int(found.unit[i]))
    levels = [f"{lw.channels(rig, units)} at {level}" for level, units in by_level.items()]
    head = f"at full {found.spread_at_full:.1f} to 1"
    tail = "alike" if found.alike else f"{found.spread:.1f} to 1, each unit by its own light alone"
    return f"  {found.system}: {head}; {tail} with {'; '.join(levels)}."
