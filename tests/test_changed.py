"""A show made from another by a change holds what a show made from nothing holds, to the last bit."""

from __future__ import annotations

import dataclasses
import gc
import math
import weakref
from collections.abc import Callable
from pathlib import Path

import msgspec
import numpy as np
import pytest
from msgspec.structs import replace

from aimcalc.coverage.systems import NoAreaError
from aimcalc.geometry.blocked import blocked
from aimcalc.geometry.solids import box
from aimcalc.scene.loading import load_scene
from aimcalc.scene.model import Scene, Solid
from aimcalc.show import Show
from tests.rigs import random_scene
from tests.studies import cases
from tests.wide_rigs import a_wide_wash

SCENES = Path(__file__).parent.parent / "scenes"
Random = np.random.Generator


def told(value: object) -> object:
    """Any result as something that is equal only where every bit is: arrays by bytes, floats by name."""
    if isinstance(value, np.ndarray):
        return value.shape, str(value.dtype), value.tobytes()
    if isinstance(value, msgspec.Struct):
        return type(value).__name__, told(msgspec.structs.asdict(value))
    if isinstance(value, dict):
        return [(key, told(each)) for key, each in value.items()]
    if isinstance(value, list | tuple):
        return [told(each) for each in value]
    if dataclasses.is_dataclass(value):
        return told(vars(value))
    return value.hex() if isinstance(value, float) else value


def results(show: Show) -> dict[str, object]:
    """Everything that is compared."""
    rig = show.rig
    found = {
        "aims": rig.aims,
        "arrays": rig.arrays,
        "lost": rig.lost,
        "tapes": rig.tapes[:3],
        "answers": rig.answers_with_losses,
        "hang": show.hang,
        "budget": show.budget,
        "findings": show.findings,
        "light": light_of(show),
        "areas": areas_of(show),
    }
    return {name: told(value) for name, value in found.items()}


def light_of(show: Show) -> object:
    try:
        study = show.light
    except NoAreaError as none:
        return str(none)
    return [study.plane, study.seen, [tuple(system) for system in study.systems.values()]]


def areas_of(show: Show) -> object:
    survey = show.areas
    return survey if isinstance(survey, str) else (survey.areas, survey.balances)


def lit(scene: Scene) -> Scene:
    """The scene with a stage to light, and kinds that give light."""
    corners = ((-4.0, 0.0), (4.0, 0.0), (4.0, 5.0), (-4.0, 5.0))
    kinds = {name: replace(kind, peak_cd=50_000.0) for name, kind in scene.kinds.items()}
    return replace(scene, kinds=kinds, stage=replace(scene.stage, outline=corners))


def one(items: tuple, rng: Random) -> int:
    return int(rng.integers(len(items)))


def with_one(scene: Scene, table: str, rng: Random, **values: Callable[[object], object]) -> Scene:
    """The scene with one entry of a table changed: each value from the one before."""
    items = list(getattr(scene, table))
    if not items:
        return scene
    k = one(tuple(items), rng)
    items[k] = replace(items[k], **{name: make(items[k]) for name, make in values.items()})
    return replace(scene, **{table: tuple(items)})


def a_target_moved(scene: Scene, rng: Random) -> Scene:
    by = rng.normal(0, 0.5, 2)
    return with_one(scene, "targets", rng, x=lambda t: t.x + by[0], y=lambda t: t.y + by[1])


def a_point_moved(scene: Scene, rng: Random) -> Scene:
    by = rng.normal(0, 0.5, 3)

    def moved(unit):
        return unit.point and tuple(a + b for a, b in zip(unit.point, by, strict=True))

    return with_one(scene, "units", rng, point=moved)


def a_unit_moved(scene: Scene, rng: Random) -> Scene:
    by = rng.normal(0, 0.3)
    return with_one(scene, "units", rng, at=lambda u: None if u.at is None else u.at + by)


def a_kind_swapped(scene: Scene, rng: Random) -> Scene:
    kind = list(scene.kinds)[one(tuple(scene.kinds), rng)]
    return with_one(scene, "units", rng, kind=lambda _: kind)


def a_target_swapped(scene: Scene, rng: Random) -> Scene:
    if not scene.targets:
        return scene
    name = scene.targets[one(scene.targets, rng)].name
    return with_one(scene, "units", rng, target=lambda _: name, point=lambda _: None)


def a_trim_changed(scene: Scene, rng: Random) -> Scene:
    by = rng.normal(0, 0.2)
    return with_one(
        scene,
        "pipes",
        rng,
        start=lambda p: (*p.start[:2], p.start[2] + by),
        end=lambda p: (*p.end[:2], p.end[2] + by),
    )


def a_kind_changed(scene: Scene, rng: Random) -> Scene:
    name = list(scene.kinds)[one(tuple(scene.kinds), rng)]
    kind, by = scene.kinds[name], float(rng.uniform(0.9, 1.1))
    wider = None if kind.width is None else kind.width * by
    field = None if kind.field is None else min(kind.field * by, 170.0)
    return replace(scene, kinds={**scene.kinds, name: replace(kind, width=wider, field=field)})


def a_solid_moved(scene: Scene, rng: Random) -> Scene:
    x, y, z = rng.normal(0, 0.2, 3)

    def boxed(solid):
        return solid.box and tuple(a + b for a, b in zip(solid.box, (x, y, z) * 2, strict=True))

    def cornered(solid):
        return solid.panel and tuple((a + x, b + y, c + z) for a, b, c in solid.panel)

    return with_one(scene, "solids", rng, box=boxed, panel=cornered)


def a_unit_taken_away(scene: Scene, rng: Random) -> Scene:
    k = one(scene.units, rng)
    return replace(scene, units=scene.units[:k] + scene.units[k + 1 :])


def a_position_moved(scene: Scene, rng: Random) -> Scene:
    by = rng.normal(0, 0.2)
    if scene.booms and rng.integers(3) == 0:
        return with_one(scene, "booms", rng, y=lambda b: b.y + by)
    return with_one(
        scene,
        "pipes",
        rng,
        start=lambda p: (p.start[0], p.start[1] + by, p.start[2]),
        end=lambda p: (p.end[0], p.end[1] + by, p.end[2]),
    )


def seats_moved(scene: Scene, rng: Random) -> Scene:
    x, y = rng.normal(0, 0.3, 2)
    return with_one(
        scene, "seats", rng, outline=lambda s: tuple((a + x, b + y) for a, b in s.outline)
    )


def a_setting_changed(scene: Scene, rng: Random) -> Scene:
    settings = scene.settings
    values = {
        "tolerance": settings.tolerance * float(rng.uniform(0.8, 1.2)),
        "face_height": settings.face_height + float(rng.normal(0, 0.05)),
        "volts": float(rng.uniform(110, 240)),
    }
    key = list(values)[int(rng.integers(len(values)))]
    return replace(scene, settings=replace(settings, **{key: values[key]}))


def an_error_changed(scene: Scene, rng: Random) -> Scene:
    return replace(scene, errors=replace(scene.errors, trim=float(rng.uniform(0.01, 0.1))))


def a_unit_reported(scene: Scene, rng: Random) -> Scene:
    hung = ("tail down", "tail up", None)[int(rng.integers(3))]
    return with_one(scene, "units", rng, hung=lambda _: hung, works=lambda _: bool(rng.integers(2)))


def a_connector_typed(scene: Scene, rng: Random) -> Scene:
    at = float(rng.uniform(-0.5, 0.5))
    return with_one(scene, "units", rng, connector=lambda u: None if u.at is None else at)


def a_weight_changed(scene: Scene, rng: Random) -> Scene:
    name = list(scene.kinds)[one(tuple(scene.kinds), rng)]
    kind = replace(
        scene.kinds[name], weight=float(rng.uniform(3, 20)), drop_under=float(rng.uniform(0.1, 0.4))
    )
    return replace(scene, kinds={**scene.kinds, name: kind})


def words_changed(scene: Scene, rng: Random) -> Scene:
    word = f"{int(rng.integers(100))}"
    return with_one(scene, "units", rng, channel=lambda _: word, colour=lambda _: word)


def back_again(scene: Scene, rng: Random) -> Scene:
    return scene


CHANGES = (
    a_target_moved,
    a_point_moved,
    a_unit_moved,
    a_kind_swapped,
    a_target_swapped,
    a_trim_changed,
    a_kind_changed,
    a_solid_moved,
    a_unit_taken_away,
    a_position_moved,
    seats_moved,
    a_setting_changed,
    an_error_changed,
    a_unit_reported,
    a_connector_typed,
    a_weight_changed,
    words_changed,
    back_again,
)


def follow(scene: Scene, changes: int, seed: int) -> None:
    """One change after the other, each compared with a show made from nothing."""
    rng = np.random.default_rng(seed)
    show = Show(scene)
    results(show)
    for _ in range(changes):
        change = CHANGES[one(CHANGES, rng)]
        scene = change(scene, rng)
        show = show.changed(scene)
        warm, cold = results(show), results(Show(scene))
        for name, value in cold.items():
            assert warm[name] == value, f"{name} after {change.__name__}, seed {seed}"


@pytest.mark.long
@pytest.mark.parametrize("name", ["playhouse", "raked", "studio"])
def test_a_changed_scene_gives_what_it_gives_from_nothing(name):
    follow(load_scene(SCENES / name), changes=cases(4, 8), seed=len(name))


@pytest.mark.long
@pytest.mark.parametrize("mount", ["under", "over", "out", "arm", "direct", "stand"])
def test_a_changed_rig_of_any_mount_gives_what_it_gives_from_nothing(mount):
    follow(lit(random_scene(mount, 6, seed=3)), changes=cases(3, 5), seed=5)


def test_a_result_that_is_kept_where_it_must_not_be_is_seen(monkeypatch):
    """Were two values ever taken for the same that are not, the tests above would fail."""
    monkeypatch.setattr("aimcalc.rig.kept.alike", lambda a, b: True)
    with pytest.raises(AssertionError, match="after"):
        follow(load_scene(SCENES / "studio"), changes=6, seed=1)


def test_a_mesh_whose_file_is_written_anew_is_read_anew(tmp_path):
    """The scene says the same; its file does not: an open box is told of, a closed one is not."""
    scene = load_scene(SCENES / "studio")
    prop = Solid(name="prop", mesh="prop.obj")
    scene = replace(scene, solids=(*scene.solids, prop), folder=str(tmp_path))
    shape = box((2.0, 2.0, 0.0), (3.0, 3.0, 1.0))
    corners = [f"v {x} {y} {z}" for x, y, z in shape.vertices.T.tolist()]
    faces = ["f " + " ".join(str(k + 1) for k in face) for face in shape.faces.T.tolist()]
    show = None
    for sides in (12, 10, 10, 12):
        (tmp_path / "prop.obj").write_text("\n".join([*corners, *faces[:sides]]))
        show = Show(scene) if show is None else show.changed(scene)
        told = [finding.rule for finding in show.findings]
        assert ("mesh-open" in told) is (sides < 12)
        assert results(show) == results(Show(scene))


def held(value: object, seen: set[int]) -> list[object]:
    """A value and all that it holds, as far as its parts are tuples, records, dicts or objects of ours."""
    if id(value) in seen or isinstance(value, str | int | float | np.ndarray | None):
        return []
    seen.add(id(value))
    if isinstance(value, dict):
        parts = [*value, *value.values()]
    elif isinstance(value, tuple | list | frozenset):
        parts = list(value)
    elif isinstance(value, msgspec.Struct):
        parts = list(msgspec.structs.astuple(value))
    else:
        parts = list(vars(value).values()) if hasattr(value, "__dict__") else []
    return [value, *(each for part in parts for each in held(part, seen))]


@pytest.mark.parametrize("name", ["playhouse", "raked", "studio", "arena"])
def test_what_is_kept_holds_no_rig(name):
    """Else every rig since the first would be kept: neither one nor what stands for it or its parts."""
    show, rng = Show(load_scene(SCENES / name)), np.random.default_rng(3)
    for change in CHANGES[:3]:
        show = show.changed(change(show.scene, rng))
        results(show)
    every = [each for made in show.rig.kept._made.values() for each in held(tuple(made), set())]
    assert len(every) > 1000
    assert {type(each).__name__ for each in every} & {"_Standing", "SolidRig", "Solids"} == set()


def test_a_rig_of_which_all_was_asked_goes_when_it_has_been_moved_on_from():
    show, rng = Show(load_scene(SCENES / "studio")), np.random.default_rng(5)
    rigs = []
    for _ in range(5):
        show = show.changed(a_target_moved(show.scene, rng))
        results(show)
        rigs.append(weakref.ref(show.rig))
    gc.collect()
    assert [rig() is None for rig in rigs[:3]] == [True] * 3


def cloth(name: str, y: float) -> Solid:
    return Solid(name=name, panel=((-5.0, y, 0.5), (5.0, y, 0.5), (5.0, y, 2.2), (-5.0, y, 2.2)))


def test_things_that_lie_face_on_face_lose_light_to_the_one_they_lose_it_to_from_nothing():
    """Which of the three a ray meets first hangs on everything else that rays may meet."""
    scene = load_scene(SCENES / "studio")
    y = scene.targets[0].y - 0.3
    show = Show(replace(scene, solids=tuple(cloth(f"cloth {k}", y) for k in range(3))))
    rng = np.random.default_rng(1)
    taken = 0
    for _ in range(8):
        show = show.changed(a_target_moved(show.scene, rng))
        taken += show.rig.lost.share.sum() > 0
        assert told(show.rig.lost) == told(Show(show.scene).rig.lost)
    assert taken == 8


def test_things_face_on_face_are_minded_by_the_units_whose_light_may_come_to_them(
    tmp_path, monkeypatch
):
    """Legs lie in the planes of borders, over the ends of the pipes: most fields keep away from there."""
    scene = load_scene(a_wide_wash(tmp_path))
    far_out = tuple(Solid(name=f"{y}", box=(0, y, 0, 1, y + 1, 1)) for y in (-20.0, 29.0))
    show = Show(replace(scene, solids=scene.solids + far_out))
    assert len(show.rig.solids.face_on_face) == 8  # a leg at either end of four
    _ = show.rig.lost
    asked = []

    def counted(ready, lenses):
        asked.append(lenses.which.size)
        return blocked(ready, lenses)

    monkeypatch.setattr("aimcalc.solid.light_lost.blocked", counted)
    rng = np.random.default_rng(4)
    for _ in range(6):
        show = show.changed(a_target_moved(show.scene, rng))
        asked.clear()
        told_now = told(show.rig.lost)
        assert asked[0] < len(show.rig.units) / 2
        assert told_now == told(Show(show.scene).rig.lost)


@pytest.mark.parametrize(
    ("solids", "lies"),
    [
        ((cloth("a", 1.0), cloth("b", 1.0)), True),
        ((cloth("a", 1.0), cloth("b", 1.01)), False),
        ((cloth("a", 1.0), Solid(name="b", box=(-2.0, 1.0, 0.0, 2.0, 3.0, 3.0))), True),
        (
            (Solid(name="a", box=(0.0,) * 3 + (1.0,) * 3), Solid(name="b", box=(0, 0, 1, 1, 1, 2))),
            False,
        ),
        (
            (Solid(name="a", box=(0.0,) * 3 + (1.0,) * 3), Solid(name="b", box=(0, 0, 0, 1, 2, 2))),
            True,
        ),
    ],
    ids=["twins", "apart", "on a wall", "on one another", "within one another"],
)
def test_face_on_face_is_where_two_things_show_one_face(solids, lies):
    rig = Show(replace(load_scene(SCENES / "studio"), solids=solids)).rig
    boxes = rig.solids.face_on_face
    assert bool(len(boxes)) is lies


def test_told_sees_a_last_bit_and_a_sign_of_nothing():
    assert told(np.array([1.0])) != told(np.array([np.nextafter(1.0, 2)]))
    assert told((0.0,)) != told((-0.0,))
    assert told([math.nan]) == told([math.nan])


def test_what_did_not_change_is_not_worked_out_again(monkeypatch):
    show = Show(load_scene(SCENES / "studio"))
    first = show.rig.lost
    again = show.changed(show.scene)

    def never(*given):
        raise AssertionError

    monkeypatch.setattr("aimcalc.solid.light_lost.blocked", never)
    assert again.rig.lost is first
