"""Lamps as books and files print them: one candela, a polar curve, a table of Type A or B."""

from __future__ import annotations

import numpy as np

from aimcalc.light.illuminance import illuminance
from aimcalc.light.lamps import candela_table, measured_lamps
from aimcalc.light.photometry import Photometry, read_photometry

DOWN = np.array([[0.0], [0], [-1]])
ACROSS = np.array([[1.0], [0], [0]])


def at(*xyz):
    return np.array(xyz, float).reshape(-1, 3).T


def curve(gamma, candela):
    return Photometry(
        path="printed",
        standard="LM-63-2002",
        layout="C",
        c_deg=np.zeros(1),
        gamma_deg=np.array(gamma, float),
        candela=np.array([candela], float),
    )


def lamp(candela, *lens, gamma=(0, 90, 180)):
    """A unit looking straight down whose candela is one number, or a printed polar curve."""
    values = candela if np.ndim(candela) else [candela] * len(gamma)
    table = candela_table(curve(gamma, values))
    return measured_lamps(at(lens), DOWN, table=table, across=ACROSS)


def level(units, *point):
    return illuminance(units, at(point))[0, 0]


def two_axes(path, code, level, upright, candela):
    """An LM-63 file of Type A (3) or B (2)."""
    head = f"1 -1 1 {upright.size} {level.size} {code} 2 0 0 0"
    rows = [head, "1 1 500", *(" ".join(f"{v:g}" for v in row) for row in (upright, level))]
    rows += [" ".join(f"{v:.10g}" for v in row) for row in candela]
    path.write_text("\n".join(["IESNA:LM-63-2002", "[TEST] invented", "TILT=NONE", *rows]) + "\n")
    return read_photometry(str(path))


VERTICAL = " ".join(f"{2.5 * k:g}" for k in range(37))
DUMMY = """2200.0 2000.2 1950.0 1700.1 1328.4 1115.1 900.5 700.4 600.3 501.2 400.1 398.3 380.9 400.2 390.5
320.0 185.0 100.6 40.1 20.0 15.2 15.0 14.0 11.0 10.8 10.8 10.0 7.0 4.0 1.2 0 0 0 0 0 1.0 0"""


def lm63(
    tmp_path, head, vertical, horizontal, candela, *, first="IESNA:LM-63-1995", after="1 1 15"
):
    path = tmp_path / "example.ies"
    text = [first, "[TEST] TESTREP1", "TILT=NONE", head, after, vertical, horizontal, candela]
    path.write_text("\n".join(text) + "\n")
    return read_photometry(str(path))


def dummy(tmp_path, *, lumens="-1", multiplier="1"):
    head = f"1 {lumens} {multiplier} 37 1 1 2 0 0 0"
    return lm63(tmp_path, head, VERTICAL, "0", DUMMY)
