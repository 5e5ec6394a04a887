"""Light at points by an independent ray tracer: Radiance's rtrace, from the binaries of pyradiance.

Every unit becomes a sphere of 1 mm whose brightness varies with direction by the written formula of the
profile (a function file) or by a photometric file (ies2rad). Nothing here is shared with `aimcalc.light`
but the numbers that describe the units.
"""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

import numpy as np
import pyradiance

RADIUS = 0.001  # m
DIRECT_ONLY = ["-ab", "0", "-dj", "0", "-ds", "0", "-dc", "1", "-dt", "0", "-dr", "0"]
EFFICACY = 179.0  # lumens per watt in Radiance's own convention for white light

# Direction D runs from the point to the source. A1-A3 axis, A4-A6 across, A7 and A8 the widths along it and
# square to it, A9 the power. (In these files -x^2 means (-x)^2: hence the 0 - ...)
PROFILE = """
cosine = -(Dx*A1 + Dy*A2 + Dz*A3);
side = Dx*A4 + Dy*A5 + Dz*A6;
theta = if(cosine - 1, 0, acos(cosine));
share = if(1 - cosine*cosine - 1e-12, side*side/(1 - cosine*cosine), 0);
stretch = sqrt(share/(A7*A7) + (1 - share)/(A8*A8));
shape = if(cosine, exp(0 - (theta*stretch)^A9), 0);
"""


def _home() -> Path:
    return Path(pyradiance.__file__).parent


def run(folder: Path, *command: str, given: bytes = b"") -> bytes:
    """What one of Radiance's programs writes, run in `folder`."""
    home = _home()
    environment = {
        **os.environ,
        "RAYPATH": f".:{home / 'lib'}",
        "PATH": f"{home / 'bin'}:/usr/bin:/bin",
    }
    program = str(home / "bin" / command[0])
    done = subprocess.run(
        [program, *command[1:]], cwd=folder, env=environment, input=given, capture_output=True
    )
    assert done.returncode == 0, done.stderr.decode()
    return done.stdout


def smooth_scene(folder: Path, lamps) -> str:
    """A scene of units with the smooth profile, round or oval."""
    assert (lamps.table < 0).all()
    (folder / "profile.cal").write_text(PROFILE)
    brightness = lamps.peak_cd * lamps.transmission / (np.pi * RADIUS**2)
    lines = []
    for k in range(lamps.size):
        numbers = [
            *lamps.axis[:, k],
            *lamps.across[:, k],
            lamps.wide[k],
            lamps.narrow[k],
            lamps.power[k],
        ]
        lines += [
            f"void brightfunc f{k} 2 shape profile.cal 0 9 "
            + " ".join(f"{v:.17g}" for v in numbers),
            f"f{k} light l{k} 0 0 3" + f" {brightness[k]:.17g}" * 3,
            f"l{k} sphere s{k} 0 0 4 " + " ".join(f"{v:.17g}" for v in [*lamps.lens[:, k], RADIUS]),
        ]
    return "\n".join(lines) + "\n"


def file_scene(folder: Path, ies: Path, *moves: str) -> str:
    """A scene of one unit with a photometric file, pointing straight down until moved as xform is told."""
    run(folder, "ies2rad", "-dm", "-t", "white", "-i", str(RADIUS), "-o", "unit", str(ies))
    return run(folder, "xform", *moves, "unit.rad").decode()


# The file's own angles of a direction from a unit that points straight down, its C = 0 along +x and its
# C = 90 along +y (D runs the other way). A: about the upright axis first, then up from there; B: about the
# level one first.
ANGLES = """
A_level = Atan2(-Dx, Dz) / DEGREE;
A_upright = Asin(-Dy) / DEGREE;
B_level = Asin(-Dx) / DEGREE;
B_upright = Atan2(-Dy, Dz) / DEGREE;
inside(v, lo, hi) = if(v - lo, if(hi - v, 1, 0), 0);
A_cut(v) = v * inside(A_level, A1, A2) * inside(A_upright, A3, A4);
B_cut(v) = v * inside(B_level, A1, A2) * inside(B_upright, A3, A4);
"""


def table_scene(
    folder: Path, layout: str, level: np.ndarray, upright: np.ndarray, candela: np.ndarray
) -> str:
    """A scene of one unit at the origin, looking straight down, by a Type A or B table, (level, upright).

    Its own reader of Type B takes both angles as projected ones, which LM-63 does not: so the table goes in
    as data over two angles.
    """
    (folder / "angles.cal").write_text(ANGLES)
    rows = [f"0 0 {v.size} " + " ".join(f"{a:.10g}" for a in v) for v in (level, upright)]
    brightness = candela / (np.pi * RADIUS**2)
    (folder / "table.dat").write_text(
        "\n".join(["2", *rows, *(f"{v:.12g}" for v in brightness.reshape(-1))]) + "\n"
    )
    ends = " ".join(f"{v:.10g}" for v in (level[0], level[-1], upright[0], upright[-1]))
    function = f"{layout}_cut table.dat angles.cal {layout}_level {layout}_upright"
    return (
        f"void brightdata f 5 {function} 0 4 {ends}\n"
        f"f light l 0 0 3 1 1 1\nl sphere s 0 0 4 0 0 0 {RADIUS}\n"
    )


def black_panel(corners: np.ndarray, name: str = "panel") -> str:
    """A panel that stops light, as text of a scene; corners (K, 3)."""
    numbers = " ".join(f"{v:.17g}" for v in corners.reshape(-1))
    return (
        f"void plastic black 0 0 5 0 0 0 0 0\nblack polygon {name} 0 0 {corners.size} {numbers}\n"
    )


def lux(folder: Path, scene: str, points: np.ndarray, normals: np.ndarray) -> np.ndarray:
    """Illuminance (M,) at points (3, M) on planes with normals (3,) or (3, M), all light direct."""
    (folder / "scene.rad").write_text(scene)
    (folder / "scene.oct").write_bytes(run(folder, "oconv", "scene.rad"))
    towards = np.broadcast_to(normals.reshape(3, -1), points.shape)
    rays = np.vstack((points, towards)).T.astype("<f8").tobytes()
    answer = run(folder, "rtrace", "-I", "-h", "-fdd", *DIRECT_ONLY, "scene.oct", given=rays)
    return np.frombuffer(answer, "<f8").reshape(-1, 3)[:, 1]
