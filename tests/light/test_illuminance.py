"""Sums of light at points against a plain second method."""

from __future__ import annotations

import tracemalloc

import numpy as np
import pytest

from aimcalc.geometry.pools import level_across
from aimcalc.light import profiles, tiles
from aimcalc.light.illuminance import contributions, illuminance
from aimcalc.light.lamps import candela_table, joined, measured_lamps, smooth_lamps
from aimcalc.light.photometry import Photometry, intensity

THREE = ("level", "house", "cylindrical")


@pytest.fixture
def rng():
    return np.random.default_rng(20)


def directions(rng, count):
    v = rng.normal(size=(3, count))
    v[2] = -np.abs(v[2]) - 0.3
    return v / np.sqrt((v**2).sum(axis=0))


def file_of(all_round):
    gamma, c = np.arange(0, 182.5, 2.5), np.arange(0, 370, 10.0) if all_round else np.zeros(1)
    wave = 1 + 0.3 * np.sin(np.radians(c))[:, None] * np.sin(np.radians(gamma))
    candela = 40000 * np.exp(-((gamma / 25) ** 2)) * wave
    return Photometry(
        path="invented", standard="x", layout="C", c_deg=c, gamma_deg=gamma, candela=candela
    )


FILES = [file_of(False), file_of(True)]


def some_lamps(rng, count=8):
    """Round Gaussian, round of another power, oval, and two photometric files; all over the place."""
    parts, recipe = [], []
    for kind in ("gaussian", "other", "oval", "file", "all round"):
        lens = rng.uniform([[-6], [-8], [4]], [[6], [8], [7]], (3, count))
        axis = directions(rng, count)
        across = level_across(axis, rng.uniform(0, 6, count))
        dim, peak = rng.uniform(0.2, 1, count), rng.uniform(1e4, 5e4, count)
        field = rng.uniform(0.3, 1.2, count)
        beam = field / profiles.GAUSSIAN_RATIO if kind == "gaussian" else field / 1.4
        if kind in ("file", "all round"):
            file = FILES[kind == "all round"]
            part = measured_lamps(
                lens, axis, table=candela_table(file), across=across, transmission=dim
            )
        else:
            oval = (field / 2, field) if kind == "oval" else None
            part = smooth_lamps(
                lens,
                axis,
                peak_cd=peak,
                beam=beam,
                field=field,
                oval=oval,
                across=across,
                transmission=dim,
            )
        parts.append(part)
        columns = (lens.T, axis.T, across.T, dim, peak, beam, field)
        recipe += [(kind, *one) for one in zip(*columns, strict=True)]
    return joined(*parts), recipe


def candela_towards(recipe, ray):
    """Intensity of one unit along `ray` (3,), by the written formulas, one ray at a time."""
    kind, _, axis, across, dim, peak, beam, field = recipe
    unit = ray / np.linalg.norm(ray)
    theta = np.arctan2(np.linalg.norm(np.cross(axis, unit)), axis @ unit)
    phi = np.arctan2(unit @ np.cross(across, axis), unit @ across)
    if kind in ("file", "all round"):
        return dim * intensity(FILES[kind == "all round"], theta, phi)
    if kind == "oval":
        power = np.log(np.log(10) / np.log(2)) / np.log(field / beam)
        at_tenth = np.array([field, field / 2]) / 2  # along `across` and square to it
        off = theta * np.hypot(*(np.array([np.cos(phi), np.sin(phi)]) / at_tenth))
        return dim * peak * np.exp(-np.log(10) * off**power) * (theta < np.pi / 2)
    return dim * peak * profiles.relative_intensity(theta, beam=beam, field=field)


def one_by_one(recipes, points, normal):
    """Lux of each unit at each point on planes with one normal; light from behind is none."""
    out = np.zeros((len(recipes), points.shape[1]))
    for i, recipe in enumerate(recipes):
        for j, point in enumerate(points.T):
            ray = point - recipe[1]
            cosine = max(0.0, -(ray @ normal) / np.linalg.norm(ray))
            out[i, j] = candela_towards(recipe, ray) * cosine / (ray @ ray)
    return out


def cylinder(recipes, points, turns=720):
    """Mean over a whole turn of the light on upright planes: the meaning of the cylindrical value."""
    angles = np.arange(turns) * 2 * np.pi / turns
    normals = [np.array([np.cos(a), np.sin(a), 0]) for a in angles]
    return np.mean([one_by_one(recipes, points, n).sum(axis=0) for n in normals], axis=0)


def test_every_kind_of_unit_agrees_with_the_formulas_ray_by_ray(rng):
    lamps, recipes = some_lamps(rng)
    points = rng.uniform([[-7], [-9], [0]], [[7], [9], [3]], (3, 40))
    slope = np.array([0.2, -0.3, np.sqrt(1 - 0.13)])
    normals = {"level": np.array([0, 0, 1.0]), "house": np.array([0, -1.0, 0])}
    got = contributions(lamps, points, ("level", "house", slope))
    for row, normal in enumerate([normals["level"], normals["house"], slope]):
        expected = one_by_one(recipes, points, normal)
        np.testing.assert_allclose(got[row], expected, rtol=1e-7, atol=1e-9)
    total = illuminance(lamps, points, ("level", slope, "house"))
    np.testing.assert_allclose(total, got.sum(axis=1)[[0, 2, 1]], rtol=1e-12)


def test_the_cylindrical_value_is_the_mean_of_upright_planes_all_round(rng):
    lamps, recipes = some_lamps(rng, 1)
    points = rng.uniform([[-3], [-3], [0]], [[3], [3], [2]], (3, 3))
    got = illuminance(lamps, points, ("cylindrical",))[0]
    np.testing.assert_allclose(got, cylinder(recipes, points), rtol=3e-5)  # 720 planes


def test_each_point_may_have_a_plane_of_its_own(rng):
    lamps, recipes = some_lamps(rng, 1)
    points = rng.uniform(-2, 2, (3, 4))
    normals = directions(rng, 4)
    got = illuminance(lamps, points, (normals,))[0]
    expected = [
        one_by_one(recipes, points[:, [k]], normals[:, k]).sum() for k in range(points.shape[1])
    ]
    np.testing.assert_allclose(got, expected, rtol=1e-7)


def test_tiles_of_any_size_give_the_same_sums(monkeypatch, rng):
    lamps, _ = some_lamps(rng)
    points = rng.uniform([[-7], [-9], [0]], [[7], [9], [3]], (3, 333))
    whole = illuminance(lamps, points, (*THREE, "count"))
    for tile, strip in ((64, 16), (100, 7), (333, 1000)):
        monkeypatch.setattr(tiles, "TILE", tile)
        monkeypatch.setattr(tiles, "STRIP", strip)
        np.testing.assert_allclose(
            illuminance(lamps, points, (*THREE, "count")), whole, rtol=1e-12, atol=1e-12
        )


def test_where_the_origin_is_makes_no_difference(rng):
    lamps, _ = some_lamps(rng)
    points = rng.uniform([[-7], [-9], [0]], [[7], [9], [3]], (3, 50))
    far = np.array([[1000.0], [-2000], [50]])
    moved = lamps._replace(lens=lamps.lens + far)
    np.testing.assert_allclose(
        illuminance(moved, points + far, THREE), illuminance(lamps, points, THREE), rtol=1e-6
    )


def test_the_count_is_of_the_units_whose_field_takes_in_the_point():
    # Two units straight down from 4 m with fields of 30 and 60 degrees: radii 1.0718 and 2.3094 m.
    lens = np.array([[0.0, 0], [0, 0], [4, 4]])
    down = np.array([[0.0, 0], [0, 0], [-1, -1]])
    field = np.radians([30, 60])
    lamps = smooth_lamps(lens, down, peak_cd=1000, beam=field / 2, field=field)
    x = np.array([0, 1.07, 1.08, 2.30, 2.32, -1.07])
    points = np.stack((x, np.zeros(6), np.zeros(6)))
    assert illuminance(lamps, points, ("count",))[0].tolist() == [2, 2, 1, 1, 0, 2]


def test_the_edge_of_the_field_counts_as_inside():
    lamps = smooth_lamps(
        np.zeros((3, 1)), np.array([[0.0], [1], [0]]), peak_cd=1, beam=0.3, field=np.pi / 2
    )
    on_edge = np.array([[1.0, 1.0000001], [1, 1], [0, 0]])  # 45 degrees off the axis
    assert illuminance(lamps, on_edge, ("count",))[0].tolist() == [1, 0]


def test_only_units_marked_as_partly_blocked_are_asked_about(rng):
    lamps, _ = some_lamps(rng, 2)
    points = rng.uniform([[-7], [-9], [0]], [[7], [9], [3]], (3, 60))
    free = contributions(lamps, points, ("level", "count"))
    marked = np.flatnonzero(free[0].max(axis=1) > 1)[[0, -1]]
    lamps = lamps._replace(part_blocked=np.isin(np.arange(lamps.size), marked))
    asked = {}

    def visible(unit, which):
        asked.setdefault(unit, []).extend(which.tolist())
        return points[0, which] > 0

    got = contributions(lamps, points, ("level", "count"), visible=visible)
    assert set(asked) == set(marked.tolist())
    assert all(len(set(which)) == len(which) for which in asked.values())
    dark = points[0] <= 0
    np.testing.assert_allclose(got[:, marked][..., ~dark], free[:, marked][..., ~dark], rtol=1e-12)
    assert free[:, marked][..., dark].max() > 1
    assert got[:, marked][..., dark].max() < 1e-9 * 5e4  # what was too faint to ask about
    others = np.setdiff1d(np.arange(lamps.size), marked)
    np.testing.assert_allclose(got[:, others], free[:, others], rtol=1e-12)
    # Without the question the mark means nothing.
    np.testing.assert_allclose(illuminance(lamps, points), free[:1].sum(axis=1), rtol=1e-12)


def test_light_does_not_fall_on_a_plane_from_behind():
    lamps = smooth_lamps(
        np.array([[0.0], [0], [-1]]), np.array([[0.0], [0], [1]]), peak_cd=900, beam=0.5, field=1
    )
    over = np.array([[0.0], [0], [2]])
    got = illuminance(lamps, over, ("level", np.array([0, 0, -1.0]), "cylindrical", "house"))
    # From under: 900 / 3^2 = 100 lx on the plane facing down, none on the others (the ray is upright).
    np.testing.assert_allclose(got[:, 0], [0, 100, 0, 0], atol=1e-4)


def test_a_point_in_the_lens_and_one_behind_it_give_no_nonsense():
    lamps = smooth_lamps(
        np.array([[0.0], [0], [4]]), np.array([[0.0], [0], [-1]]), peak_cd=900, beam=0.5, field=1
    )
    points = np.array([[0.0, 0, 0], [0, 0, 0], [4, 4 - 1e-9, 6]])
    got = illuminance(lamps, points, THREE)
    assert np.isfinite(got).all()
    np.testing.assert_array_equal(got[:, 2], 0)


def test_no_units_and_no_points_are_no_light(rng):
    lamps, _ = some_lamps(rng, 1)
    none = lamps.take(np.zeros(0, int))
    np.testing.assert_array_equal(illuminance(none, np.ones((3, 4)), THREE), np.zeros((3, 4)))
    assert illuminance(lamps, np.ones((3, 0)), THREE).shape == (3, 0)
    assert contributions(none, np.ones((3, 0)), THREE).shape == (3, 0, 0)


def test_an_unknown_word_is_refused_by_name(rng):
    lamps, _ = some_lamps(rng, 1)
    with pytest.raises(ValueError, match=r"expected level, house, cylindrical, count.*got 'floor'"):
        illuminance(lamps, np.ones((3, 1)), ("floor",))


def test_many_units_by_many_points_take_little_memory(rng):
    count, points = 600, rng.uniform([[-7], [-9], [0]], [[7], [9], [3]], (3, 20_000))
    lens = rng.uniform([[-6], [-8], [4]], [[6], [8], [7]], (3, count))
    lamps = smooth_lamps(lens, directions(rng, count), peak_cd=1e4, beam=0.3, field=0.5)
    illuminance(lamps.take([0]), points[:, :10])
    tracemalloc.start()
    illuminance(lamps, points, THREE)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    # The full table would be 600 x 20000 x 8 = 96 MB for each quantity.
    assert peak < 16 * 2**20
