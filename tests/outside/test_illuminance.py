"""Light at points against printed worked examples, published packages and an independent ray tracer.

[PSE] Chakrabarti, Soni, Gupta, Bhatnagar, A Text Book on Power System Engineering, 2nd ed., Dhanpat Rai,
Part IV ch. 4. [ch49] "Chapter 49: Illumination", an open collection of mathematical text. Tolerances are
half of the last printed digit.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import brentq

from aimcalc.light.illuminance import contributions, illuminance
from aimcalc.light.lamps import body_right, candela_table, joined, measured_lamps, smooth_lamps
from aimcalc.light.photometry import read_photometry
from tests import ray_tracer
from tests.printed_lamps import ACROSS, DOWN, at, lamp, level, two_axes


# [PSE] example 4.2, p. 753: 100 candela, 2 m off, turned 0, 45, 90 degrees.
def test_inverse_square_and_cosine():
    turned = np.radians([0, 45, 90])
    normals = np.stack((np.sin(turned), np.zeros(3), np.cos(turned)))
    points = np.zeros((3, 3))
    got = illuminance(lamp(100, 0, 0, 2), points, (normals,))[0]
    np.testing.assert_allclose(got, [25, 17.678, 0], atol=5e-4)


# [PSE] example 4.7, p. 755: a row of lamps of 100 candle power, 9.15 m apart and 4.575 m up. Best point,
# the seven nearest: 5.81 lx. Worst point, the six nearest: 3.75 lx.
def test_a_row_of_lamps_at_its_best_and_worst_point():
    best = joined(*(lamp(100, 9.15 * k, 0, 4.575) for k in range(-3, 4)))
    worst = joined(*(lamp(100, 9.15 * (k + 0.5), 0, 4.575) for k in range(-3, 3)))
    assert level(best, 0, 0, 0) == pytest.approx(5.81, abs=0.005)
    assert level(worst, 0, 0, 0) == pytest.approx(3.75, abs=0.005)


# [ch49] example 49.1: 1200 lm all round, 8 m up, 6 m aside: 0.76 lx. Example 49.2: 10 m up, a tenth of the
# light below is 19.08 m aside.
def test_off_centre_and_one_tenth():
    assert level(lamp(1200 / (4 * np.pi), 0, 0, 8), 6, 0, 0) == pytest.approx(0.76, abs=0.005)
    ten_up = lamp(100, 0, 0, 10)
    tenth = brentq(lambda d: level(ten_up, d, 0, 0) - level(ten_up, 0, 0, 0) / 10, 1, 50)
    assert tenth == pytest.approx(19.08, abs=0.005)


# byjus.com, question "a point source emitting 628 lumen": 1 m, 37 off the normal (there cos 37 is 0.8): 40
# lx.
def test_from_flux_and_aslant():
    turned = np.radians(37)
    normal = np.array([np.sin(turned), 0, np.cos(turned)])
    candela = 628 / (4 * np.pi)
    got = illuminance(lamp(candela, 0, 0, 1), np.zeros((3, 1)), (normal,))[0, 0]
    assert got == pytest.approx(40, abs=0.1)


# vidyadip.com, standard 11 physics, photometry, question 23319: 15 lx at 0.60 m is 5.4 cd; 3.24 lx 0.80 m
# aside.
def test_a_table_top():
    unit = lamp(5.4, 0, 0, 0.6)
    assert level(unit, 0, 0, 0) == pytest.approx(15)
    assert level(unit, 0.8, 0, 0) == pytest.approx(3.24)


# pvlib 0.16.1, irradiance.aoi_projection (azimuth clockwise from +y): an upright plane facing 180, its
# source at zenith 54.735610, azimuth 225: 0.5773503. Facing 150, zenith 50, azimuth 200: 0.4924039.
@pytest.mark.parametrize(
    ("facing", "zenith", "azimuth", "cosine", "tolerance"),
    [(180, 54.735610, 225, 0.5773503, 1e-7), (150, 50, 200, 0.4924039, 1e-6)],
)
def test_cosine_of_incidence_on_an_upright_plane(facing, zenith, azimuth, cosine, tolerance):
    def towards(elevation_off_plumb, plan):
        z, a = np.radians([elevation_off_plumb, plan])
        return np.array([np.sin(z) * np.sin(a), np.sin(z) * np.cos(a), np.cos(z)])

    unit = lamp(1.0, *towards(zenith, azimuth))
    got = illuminance(unit, np.zeros((3, 1)), (towards(90, facing),))[0, 0]
    assert got == pytest.approx(cosine, abs=tolerance)


# ---- The ray tracer -------------------------------------------------------------------------------------

AGREE = 1e-3  # the sources are spheres of 1 mm and the tracer works in single precision
FAINT = 1e-4  # lx: where shadow is all, single precision leaves this much
RNG_SEED = 5
TO_HOUSE = np.array([0.0, -1, 0])
UP = np.array([0.0, 0, 1])


def invented_rig(count=24):
    """Round and oval units of many angles and powers, over a stage of 12 by 8 m."""
    rng = np.random.default_rng(RNG_SEED)
    lens = rng.uniform([[-6], [-6], [4.5]], [[6], [9], [7]], (3, count))
    face = np.vstack((rng.uniform(-5, 5, count), rng.uniform(0, 7, count), np.full(count, 1.65)))
    field = np.radians(rng.uniform(15, 60, count))
    narrow = field / np.where(np.arange(count) % 3 == 0, 2, 1)
    return smooth_lamps(
        lens,
        face - lens,
        peak_cd=rng.uniform(1e4, 1e5, count),
        beam=field / rng.uniform(1.2, 2.5, count),
        field=field,
        oval=(narrow, field),
        transmission=rng.uniform(0.1, 1, count),
    )


def stage_points(count=2000):
    rng = np.random.default_rng(RNG_SEED + 1)
    return np.vstack((rng.uniform(-6, 6, count), rng.uniform(0, 8, count), np.full(count, 1.65)))


def agree(got, expected):
    np.testing.assert_allclose(got, expected, rtol=AGREE, atol=FAINT)


def test_the_smooth_profile_agrees_with_the_ray_tracer_at_2000_points(tmp_path):
    lamps, points = invented_rig(), stage_points()
    scene = ray_tracer.smooth_scene(tmp_path, lamps)
    got = illuminance(lamps, points, ("level", "house"))
    agree(got[0], ray_tracer.lux(tmp_path, scene, points, UP))
    agree(got[1], ray_tracer.lux(tmp_path, scene, points, TO_HOUSE))


def test_the_cylindrical_value_is_the_ray_tracers_mean_of_upright_planes(tmp_path):
    lamps, points = invented_rig(), stage_points(50)
    scene = ray_tracer.smooth_scene(tmp_path, lamps)
    turn = np.arange(360) * np.pi / 180
    normals = np.stack((np.cos(turn), np.sin(turn), np.zeros(360)))
    lux = ray_tracer.lux(tmp_path, scene, np.repeat(points, 360, axis=1), np.tile(normals, 50))
    agree(illuminance(lamps, points, ("cylindrical",))[0], lux.reshape(50, 360).mean(axis=1))


PANEL = np.array([[-2.0, 2.5, 1.0], [3, 2.0, 1.0], [3, 2.0, 5.2], [-2, 2.5, 5.2]])


def stopped_by_panel(lens, points):
    """Whether the panel stands between a lens (3,) and each point (3, M): a second method, by its plane."""
    side, rise = PANEL[1] - PANEL[0], PANEL[3] - PANEL[0]
    ray = points - lens[:, None]
    # lens + s ray = corner + a side + b rise, by Cramer's rule
    normal = np.cross(side, rise)
    with np.errstate(divide="ignore", invalid="ignore"):
        s = (normal @ (PANEL[0] - lens)) / (normal @ ray)
    hit = lens[:, None] + s * ray - PANEL[0][:, None]
    a, b = np.linalg.lstsq(np.stack((side, rise), axis=1), hit, rcond=None)[0]
    return (s > 0) & (s < 1) & (a >= 0) & (a <= 1) & (b >= 0) & (b <= 1)


def test_with_a_panel_in_the_way_it_agrees_with_the_ray_tracer_at_2000_points(tmp_path):
    lamps, points = invented_rig(), stage_points()
    stopped = np.array([stopped_by_panel(lens, points) for lens in lamps.lens.T])
    lamps = lamps._replace(part_blocked=stopped.any(axis=1))
    asked = set()

    def visible(unit, which):
        asked.add(unit)
        return ~stopped[unit, which]

    got = illuminance(lamps, points, ("level", "house"), visible=visible)
    scene = ray_tracer.smooth_scene(tmp_path, lamps) + ray_tracer.black_panel(PANEL)
    free = illuminance(lamps, points, ("level", "house"))
    assert np.mean(got[0] < 0.9 * free[0]) > 0.2  # the panel matters at many points
    agree(got[0], ray_tracer.lux(tmp_path, scene, points, UP))
    agree(got[1], ray_tracer.lux(tmp_path, scene, points, TO_HOUSE))
    assert asked <= set(np.flatnonzero(lamps.part_blocked).tolist())


def write_file(path, tilt="TILT=NONE"):
    """An LM-63 file that differs in every direction, and in no two turns about the axis alike."""
    gamma, c = np.arange(0, 92.5, 2.5), np.arange(0, 370, 10.0)
    turn, off = np.radians(c)[:, None], np.radians(gamma)
    wave = 1 + 0.4 * np.sin(turn) * np.sin(3 * off) + 0.2 * np.cos(2 * turn + 1) * np.sin(off)
    candela = 20000 * np.exp(-((gamma / 25) ** 2)) * wave
    rows = [f"1 -1 1 {gamma.size} {c.size} 1 2 0 0 0", "1 1 500"]
    for row in (gamma, c, *candela):
        words = [f"{v:.10g}" for v in row]
        rows += [" ".join(words[k : k + 8]) for k in range(0, len(words), 8)]
    path.write_text("\n".join(["IESNA:LM-63-2002", "[TEST] invented", tilt, *rows]) + "\n")


@pytest.mark.parametrize(
    ("moves", "lens", "tipped"),
    [("-t 0 0 5", (0, 0, 5), 0), ("-rx 40 -t 0.5 -4 5", (0.5, -4, 5), 40)],
)
def test_a_photometric_file_lies_round_the_beam_as_the_ray_tracers_own_reader_has_it(
    tmp_path, moves, lens, tipped
):
    # ies2rad puts the file's straight down along -z and its C = 0 along +x; xform tips it about the x axis.
    write_file(tmp_path / "unit.ies")
    t = np.radians(tipped)
    axis, up = at((0, np.sin(t), -np.cos(t))), at((0, np.cos(t), np.sin(t)))
    table = candela_table(read_photometry(str(tmp_path / "unit.ies")))
    unit = measured_lamps(at(lens), axis, table=table, across=body_right(axis, up))
    scene = ray_tracer.file_scene(tmp_path, tmp_path / "unit.ies", *moves.split())
    points = np.random.default_rng(7).uniform([[-3], [-3], [0]], [[3], [3], [1]], (3, 2000))
    lux = ray_tracer.EFFICACY * ray_tracer.lux(tmp_path, scene, points, UP)
    assert lux.min() > 1
    agree(illuminance(unit, points)[0], lux)
    agree(contributions(unit, points)[0, 0], lux)


@pytest.mark.parametrize("tipped", [0, 25, 40, 75])
def test_a_tilt_table_in_use_agrees_with_the_ray_tracer(tmp_path, tipped):
    # Its own reader of TILT turns the table by the angle of the file's upright axis, as geometry 1 has it.
    table = "TILT=INCLUDE\n1\n4\n0 30 60 90\n1 0.9 0.6 0.5"
    write_file(tmp_path / "unit.ies", table)
    t = np.radians(tipped)
    axis, up = at((0, np.sin(t), -np.cos(t))), at((0, np.cos(t), np.sin(t)))
    read = read_photometry(str(tmp_path / "unit.ies"))
    share = read.tilt.factor(read.tilt.lamp_angle(axis[:, 0], up[:, 0]))
    across = body_right(axis, up)
    unit = measured_lamps(
        at((0.5, -4, 5)), axis, table=candela_table(read), across=across, transmission=share
    )
    moves = ["-rx", str(tipped), "-t", "0.5", "-4", "5"]
    scene = ray_tracer.file_scene(tmp_path, tmp_path / "unit.ies", *moves)
    points = np.random.default_rng(7).uniform([[-3], [-3], [0]], [[3], [3], [1]], (3, 500))
    lux = ray_tracer.EFFICACY * ray_tracer.lux(tmp_path, scene, points, UP)
    assert share == pytest.approx(np.interp(tipped, [0, 30, 60, 90], [1, 0.9, 0.6, 0.5]))
    agree(illuminance(unit, points)[0], lux)


# EULUMDAT symmetries (eulumdat-py 1.0.0, `pyldt/model.py`): 2, alike on both sides of the plane C 0 - 180;
# 3, of C 90 - 270, stored from 270 on; 4, of both. Each shape below has its symmetry by its formula, and
# goes to the ray tracer in full, nothing to unfold.
SYMMETRIES = {
    2: (lambda c: 1 + 0.5 * np.cos(c) + 0.2 * np.cos(2 * c), range(0, 181, 15)),
    3: (lambda c: 1 + 0.5 * np.sin(c) - 0.2 * np.cos(2 * c), range(270, 451, 15)),
    4: (lambda c: 1 + 0.4 * np.cos(2 * c) - 0.1 * np.cos(4 * c), range(0, 91, 15)),
}


def shape(symmetry, c, gamma):
    turn = SYMMETRIES[symmetry][0](np.radians(c))
    return 300 * np.exp(-((gamma / 30) ** 2)) * (1 + (turn - 1) * np.sin(np.radians(gamma)))


@pytest.mark.parametrize("symmetry", SYMMETRIES)
def test_eulumdat_symmetries_agree_with_the_ray_tracer_given_the_whole_table(tmp_path, symmetry):
    gamma, lumens = np.arange(0, 92.5, 2.5), 2000
    angles, stored = np.arange(0, 360, 15), SYMMETRIES[symmetry][1]
    head = [
        "Nobody Ltd",
        1,
        symmetry,
        angles.size,
        15,
        gamma.size,
        2.5,
        "R",
        "unit",
        "N",
        "f",
        "today",
    ]
    head += [*[0] * 9, 100, 100, 1, 0, 1, 1, "lamp", lumens, 3200, "1A", 750, *[0] * 10]
    values = [shape(symmetry, c, gamma) for c in stored]
    lines = [*head, *angles, *gamma, *np.concatenate(values).round(9)]
    (tmp_path / "unit.ldt").write_text("\n".join(map(str, lines)) + "\n")
    c = np.arange(0, 361, 15)
    whole = shape(symmetry, c[:, None], gamma) * lumens / 1000
    rows = [f"1 -1 1 {gamma.size} {c.size} 1 2 0 0 0", "1 1 500"]
    rows += [" ".join(f"{v:.10g}" for v in row) for row in (gamma, c, *whole)]
    (tmp_path / "unit.ies").write_text("\n".join(["IESNA91", "TILT=NONE", *rows]) + "\n")
    scene = ray_tracer.file_scene(tmp_path, tmp_path / "unit.ies", "-t", "0", "0", "5")
    table = candela_table(read_photometry(str(tmp_path / "unit.ldt")))
    unit = measured_lamps(at((0, 0, 5)), DOWN, table=table, across=ACROSS)
    points = np.random.default_rng(7).uniform([[-4], [-4], [0]], [[4], [4], [1]], (3, 1000))
    lux = ray_tracer.EFFICACY * ray_tracer.lux(tmp_path, scene, points, UP)
    agree(illuminance(unit, points)[0], lux)


@pytest.mark.parametrize(("layout", "code"), [("A", 3), ("B", 2)])
@pytest.mark.parametrize("tipped", [0, 40])
def test_types_a_and_b_off_the_axis_agree_with_the_ray_tracer(tmp_path, layout, code, tipped):
    # A narrow oblong flood, lit up to its corners, that no five-degree grid could hold; not even two alike.
    level, upright = np.arange(-60, 62.5, 2.5), np.arange(-15, 16.0, 1.0)
    x, y = level[:, None], upright
    candela = 9000 * np.exp(-((x / 40) ** 2) - ((y - 2) / 6) ** 2) * (1 + 0.3 * np.sin(x + y))
    read = two_axes(tmp_path / "unit.ies", code, level, upright, candela)
    t = np.radians(tipped)
    axis, up = at((0, np.sin(t), -np.cos(t))), at((0, np.cos(t), np.sin(t)))
    across = body_right(axis, up)
    unit = measured_lamps(at((0.5, -4, 5)), axis, table=candela_table(read), across=across)
    (tmp_path / "flat.rad").write_text(
        ray_tracer.table_scene(tmp_path, layout, level, upright, candela)
    )
    moves = ["-rx", str(tipped), "-t", "0.5", "-4", "5"]
    scene = ray_tracer.run(tmp_path, "xform", *moves, "flat.rad").decode()
    points = np.random.default_rng(7).uniform([[-6], [-5], [0]], [[6], [3], [1]], (3, 4000))
    lux = ray_tracer.lux(tmp_path, scene, points, UP)
    assert 0.2 < np.mean(lux > 1) < 0.9  # many points are outside the table, and dark
    agree(illuminance(unit, points)[0], lux)
