"""A small rig in which nothing is to be found, and ways to plant one mistake in it.

Three faces across the stage, a front pair on each from 3 m either side, a back light behind each, and one
unit on a boom's side arm.
"""

from __future__ import annotations

from typing import Any

import msgspec

from aimcalc.findings import findings
from aimcalc.scene.model import Boom, Kind, Pipe, Scene, Seats, Settings, Stage, Target, Unit
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import solve_rig

INCH = 0.0254
OUTLINE = ((-7.0, -1.0), (7.0, -1.0), (7.0, 8.0), (-7.0, 8.0))
BODY: dict[str, Any] = {"nose": 0.3, "length": 0.6, "width": 0.25}
SLIM: dict[str, Any] = {"length": 0.35, "width": 0.06}  # so slender that it is in nobody's way
DROP = 0.36

Told = tuple[str, str, str | None]


def a_kind(name: str = "house ers", **values: object) -> Kind:
    given = {"family": "ers", "field": 26.0, "drop_under": DROP, "drop_over": DROP, **BODY}
    return Kind(name=name, **{**given, **values})  # type: ignore[arg-type]


def a_unit(
    position: str, number: int | str, at: float | None, target: str | None, **more: Any
) -> Unit:
    given = {"kind": "house ers", "channel": f"{position} {number}", **more}
    return Unit(position=position, number=str(number), at=at, target=target, **given)


def a_face(name: str, x: float, y: float, **more: Any) -> Target:
    return Target(name=name, x=x, y=y, plane="face", plane_given=True, **more)


CLEAN = Scene(
    settings=Settings(title="Nothing to find"),
    stage=Stage(outline=OUTLINE, acting=OUTLINE),
    pipes=(
        Pipe(name="front", start=(-6.0, -4.0, 5.5), end=(6.0, -4.0, 5.5), measured=True),
        Pipe(name="back", start=(-6.0, 6.0, 5.5), end=(6.0, 6.0, 5.5), measured=True),
    ),
    booms=(Boom(name="boom", x=5.0, y=2.0, height=6.0),),
    stands=(),
    targets=(a_face("A", 2.0, 2.0), a_face("B", 0.0, 2.0), a_face("C", -2.0, 2.0)),
    kinds={"house ers": a_kind()},
    units=(
        a_unit("front", 1, 5.0, "A", system="cool"),
        a_unit("front", 2, 3.0, "B", system="cool"),
        a_unit("front", 3, 1.0, "C", system="cool"),
        a_unit("front", 4, -1.0, "A", system="warm"),
        a_unit("front", 5, -3.0, "B", system="warm"),
        a_unit("front", 6, -5.0, "C", system="warm"),
        a_unit("back", 1, 2.0, "A", system="back"),
        a_unit("back", 2, 0.0, "B", system="back"),
        a_unit("back", 3, -2.0, "C", system="back"),
        a_unit("boom", 1, 5.5, "C", mount="arm", arm=0.4, arm_to=270.0),
    ),
    seats=(Seats(name="stalls", outline=((-6, -14), (6, -14), (6, -6), (-6, -6)), eye=0.5),),
)


def with_unit(name: str, scene: Scene = CLEAN, **changes: Any) -> Scene:
    """The scene with one unit ("front/3") changed."""
    units = [
        msgspec.structs.replace(u, **changes) if f"{u.position}/{u.number}" == name else u
        for u in scene.units
    ]
    return msgspec.structs.replace(scene, units=tuple(units))


def with_units(*units: Unit, scene: Scene = CLEAN) -> Scene:
    """The scene with more units."""
    return msgspec.structs.replace(scene, units=scene.units + units)


def with_special(point: tuple[float, float, float], scene: Scene = CLEAN, **more: Any) -> Scene:
    """The scene with unit back/4, on no system, 4 m SR on the back pipe and aimed at a point."""
    return with_units(a_unit("back", 4, -4.0, None, point=point, **more), scene=scene)


def with_target_on_back(target: Target, scene: Scene = CLEAN, **more: Any) -> Scene:
    """The scene with one more target, and unit back/4, on no system, aimed at it."""
    scene = msgspec.structs.replace(scene, targets=(*scene.targets, target))
    return with_units(a_unit("back", 4, -4.0, target.name, **more), scene=scene)


def without(*names: str, scene: Scene = CLEAN) -> Scene:
    """The scene without some units."""
    units = [u for u in scene.units if f"{u.position}/{u.number}" not in names]
    return msgspec.structs.replace(scene, units=tuple(units))


def with_pipe(name: str, scene: Scene = CLEAN, **changes: Any) -> Scene:
    """The scene with one pipe changed."""
    pipes = [msgspec.structs.replace(p, **changes) if p.name == name else p for p in scene.pipes]
    return msgspec.structs.replace(scene, pipes=tuple(pipes))


def with_target(name: str, scene: Scene = CLEAN, **changes: Any) -> Scene:
    """The scene with one target changed."""
    targets = [
        msgspec.structs.replace(t, **changes) if t.name == name else t for t in scene.targets
    ]
    return msgspec.structs.replace(scene, targets=tuple(targets))


def with_kind(kind: Kind, scene: Scene = CLEAN) -> Scene:
    """The scene with one more kind, or one put in place of that of its name."""
    return msgspec.structs.replace(scene, kinds={**scene.kinds, kind.name: kind})


def with_settings(scene: Scene = CLEAN, **changes: Any) -> Scene:
    """The scene with other settings."""
    return msgspec.structs.replace(
        scene, settings=msgspec.structs.replace(scene.settings, **changes)
    )


def changed(scene: Scene = CLEAN, **changes: Any) -> Scene:
    """The scene with whole tables replaced."""
    return msgspec.structs.replace(scene, **changes)


def scaled(by: float, *names: str) -> Scene:
    """The clean rig with the places of some units multiplied."""
    scene = CLEAN
    for unit in CLEAN.units:
        name = f"{unit.position}/{unit.number}"
        if unit.position in names or name in names:
            scene = with_unit(name, scene, at=(unit.at or 0.0) * by)
    return scene


def crossing(places: list[float], targets: list[float], system: str | None = "cross") -> Scene:
    """Only a front pipe, its units aimed at points 6 m US."""
    units = [
        a_unit("front", n, at, None, point=(x, 2.0, 1.65), system=system)
        for n, (at, x) in enumerate(zip(places, targets, strict=True), 1)
    ]
    return changed(units=tuple(units), targets=(), booms=())


def found(scene: Scene) -> list[Finding]:
    return findings(solve_rig(scene))


def told(scene: Scene) -> list[Told]:
    """Severity, rule and unit or position of everything found."""
    return [(f.severity, f.rule, f.unit or f.position) for f in found(scene)]


def says(scene: Scene, rule: str) -> str:
    """The sentence of the one finding of a rule."""
    (sentence,) = [f.says for f in found(scene) if f.rule == rule]
    return sentence
