"""A photometric file as read: one record for every format and layout."""

from __future__ import annotations

import msgspec
import numpy as np
from numpy.typing import ArrayLike

from aimcalc.geometry.vectors import Array, to_degrees, to_radians
from aimcalc.light.photometry import record
from aimcalc.light.photometry.planes import looked_up, own_angles
from aimcalc.named import NamedTuple


class Spread(NamedTuple):
    """Full angles in degrees at one level: over all planes the mean, the narrowest, the widest."""

    mean: float
    narrow: float
    wide: float


def plane_angle(gamma: Array, here: Array, there: Array, level: float) -> float:
    """Full angle within which the intensity is at least `level` candela, in one plane through the lens axis.

    `gamma` (G,) rises from the axis, degrees; `here` and `there` (G,) are the candela of its two halves.
    From the highest intensity on each side outwards to the first fall below the level, linear between the
    angles; where one side never reaches the level, from the other side's highest through the axis. A curve
    that ends above the level ends the angle there.
    """
    angle = np.concatenate((-gamma[:0:-1], gamma))
    value = np.concatenate((there[:0:-1], here))
    right = _edge(angle, value, level)
    left = _edge(-angle[::-1], value[::-1], level)
    return right + left


def _edge(angle: Array, value: Array, level: float) -> float:
    """Where the curve first falls below the level, going to the right from the highest right of the axis.

    From the highest of the whole plane where the right side never reaches the level; that edge may then be
    left of the axis (negative).
    """
    middle = angle.size // 2
    start = middle + int(value[middle:].argmax())
    if value[start] < level:
        start = int(value.argmax())
        if value[start] < level:
            return 0.0
    below = np.flatnonzero(value[start:] < level)
    if not below.size:
        return float(angle[-1])
    k = start + int(below[0])
    share = (value[k - 1] - level) / (value[k - 1] - value[k])
    return float(angle[k - 1] + share * (angle[k] - angle[k - 1]))


def flux(c: Array, gamma: Array, candela: Array) -> float:
    """Lumens in all: the table, linear in both angles, integrated exactly over its directions.

    `c` (C,) and `gamma` (G,) degrees off the pole, rising, `candela` (C, G); one half-plane stands for all.
    """
    turn = _round_the_pole(c, candela)
    g = to_radians(gamma)
    slope = np.diff(turn) / np.diff(g)
    # integral of (a + s (x - x0)) sin x: -(a + s (x - x0)) cos x + s sin x
    parts = turn[:-1] * np.cos(g[:-1]) - turn[1:] * np.cos(g[1:])
    parts += slope * np.diff(np.sin(g))
    return float(parts.sum())


def _round_the_pole(c: Array, candela: Array) -> Array:
    """Candela summed over C in radians, at each gamma."""
    if c.size == 1:
        return np.asarray(2 * np.pi * candela[0])
    return np.asarray(np.trapezoid(candela, to_radians(c), axis=0))


OBLIQUE, OFF_AXIS = 5.0, 0.25  # degrees: planes round the axis of Types A and B, and steps in each


class Tilt(msgspec.Struct, frozen=True, eq=False):
    """How the lamp's output falls when the unit is tipped: factors at angles (degrees) of the lamp's tilt.

    `geometry` is LM-63's lamp-to-luminaire code (2019 edition, annex F, as restated by the package photompy
    0.3.1): 1, the lamp stands upright while the unit points straight down; 2, it lies level, and stays level
    when the unit is tipped; 3, it lies level then, and tips with the unit. The standard thinks of a unit
    that is tipped about its yoke bolts: a lamp of 2 lies along them, one of 3 square to them and to the
    lens axis. Where the bolts are not level themselves (a unit on its side), that decides.
    """

    geometry: int
    angles: Array
    factors: Array

    def lamp_angle(self, axis: Array, up: Array) -> float:
        """How far the lamp is tilted from where it was measured, radians; unit vectors (3,) of the body."""
        if self.geometry == 1:
            return float(np.arccos(np.clip(-axis[2], -1.0, 1.0)))
        if self.geometry == 2:
            return float(np.arcsin(np.clip(abs(axis[0] * up[1] - axis[1] * up[0]), 0.0, 1.0)))
        off_level = float(np.arcsin(np.clip(abs(up[2]), 0.0, 1.0)))
        return float(np.pi) - off_level if axis[2] > 0 else off_level

    def factor(self, angle: ArrayLike) -> Array:
        """Factor at tilts in radians, linear between the file's; held beyond its ends."""
        return np.asarray(
            np.interp(to_degrees(np.asarray(angle, np.float64)), self.angles, self.factors)
        )


class Photometry(msgspec.Struct, frozen=True, eq=False, kw_only=True):
    """What one file says. Degrees here, as the file has them; full angles for `beam_angle` and its like.

    `candela` is (C, gamma) in the file's own planes, as `planes` has them for its `layout`; absolute, all
    factors of the file applied but `tilt`. `opening` is the luminous opening (width, length, height) in
    metres. `notes` say what was odd and how it was taken.
    """

    path: str
    standard: str  # "LM-63-2002", "EULUMDAT"
    layout: str  # "A", "B" or "C"
    c_deg: Array
    gamma_deg: Array
    candela: Array
    lamp_lumens: float | None = None  # None: absolute photometry
    watts: float | None = None
    tilt: Tilt | None = None
    opening: tuple[float, float, float] = (0.0, 0.0, 0.0)
    labels: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def all_round(self) -> bool:
        """Whether the light is the same all round the lens axis, by the file's form."""
        return self.layout == "C" and self.c_deg.size == 1

    @property
    def peak_cd(self) -> float:
        """The highest intensity of the table."""
        return float(self.candela.max())

    @property
    def peak_at(self) -> tuple[float, float]:
        """Direction of the peak: degrees off the lens axis, and round it from C = 0 (0 on the axis)."""
        row, column = np.unravel_index(int(self.candela.argmax()), self.candela.shape)
        c, gamma = to_radians([self.c_deg[row], self.gamma_deg[column]])
        pole, x, y = np.cos(gamma), np.sin(gamma) * np.cos(c), np.sin(gamma) * np.sin(c)
        along, right, up = {"C": (pole, x, y), "A": (x, y, pole), "B": (x, pole, y)}[self.layout]
        off = float(to_degrees(np.arctan2(np.hypot(right, up), along)))
        off = round(off, 9)
        return off, round(float(to_degrees(np.arctan2(up, right))) % 360.0, 9) if off else 0.0

    @property
    def centre_cd(self) -> float:
        """Intensity along the lens axis (mean over C where a file's planes disagree there)."""
        if self.layout == "C":
            return float(self.candela[:, 0].mean())
        return float(intensity(self, 0.0))

    @property
    def beam(self) -> record.Spread:
        """Full angles at 50 % of the maximum."""
        return self._spread(0.5 * self.peak_cd)

    @property
    def field(self) -> record.Spread:
        """Full angles at 10 % of the maximum."""
        return self._spread(0.1 * self.peak_cd)

    @property
    def beam_angle(self) -> float:
        """Full angle at 50 % of the **maximum**, mean over the planes: what this project works with."""
        return self.beam.mean

    @property
    def field_angle(self) -> float:
        """Full angle at 10 % of the **maximum**, mean over the planes: what this project works with."""
        return self.field.mean

    @property
    def beam_angle_of_centre(self) -> float:
        """Full angle at 50 % of the **centre** intensity (CIE ILV 17-27-077), mean over the planes."""
        return self._spread(0.5 * self.centre_cd).mean

    @property
    def field_angle_of_centre(self) -> float:
        """Full angle at 10 % of the **centre** intensity, mean over the planes."""
        return self._spread(0.1 * self.centre_cd).mean

    @property
    def lumens(self) -> float:
        """Luminous flux of the table in lumens."""
        return record.flux(self.c_deg, self.gamma_deg, self.candela)

    def widths(self, share: float) -> tuple[float, float]:
        """Full angles at a share of the maximum in the two principal planes: C = 0, then C = 90."""
        level = share * self.peak_cd
        across, upright = (self._angle(c, level) for c in (0.0, 90.0))
        return across, upright

    def _spread(self, level: float) -> record.Spread:
        """Full angles at a level over the file's planes through the lens axis (Types A and B: every 5)."""
        c = np.arange(0.0, 180.0, OBLIQUE) if self.layout != "C" else self.c_deg[self.c_deg < 180]
        found = np.array([self._angle(angle, level) for angle in c.tolist()])
        return record.Spread(float(found.mean()), float(found.min()), float(found.max()))

    def _angle(self, c: float, level: float) -> float:
        """Full angle in the plane of C and C + 180 through the lens axis."""
        gamma = self._off_axis()
        here, there = (intensity(self, to_radians(gamma), to_radians(c + k)) for k in (0, 180))
        return record.plane_angle(gamma, here, there, level)

    def _off_axis(self) -> Array:
        """Angles off the lens axis at which its planes are looked at: the file's own where it is Type C.

        Else the file's own in the two principal planes, where they are kept exactly, just beyond them, where
        a table may end lit, and steps between for the oblique planes.
        """
        if self.layout == "C":
            return self.gamma_deg
        named = np.abs(np.concatenate((self.c_deg, self.gamma_deg - 90.0)))
        return np.unique(np.concatenate((named, named + 1e-6, np.arange(0.0, 180.0, OFF_AXIS))))


def intensity(photometry: Photometry, gamma: ArrayLike, c: ArrayLike = 0.0) -> Array:
    """Candela at `gamma` off the lens axis in the half-plane `c`, linear in the file's own two angles.

    Radians; the arguments broadcast. C counts anti-clockwise as seen along the beam from the unit's own
    right-hand side, any number of turns. Zero outside the angles of the file.
    """
    off, turn = np.broadcast_arrays(np.asarray(gamma, np.float64), np.asarray(c, np.float64))
    own = to_degrees(turn), to_degrees(off)
    if photometry.layout != "C":
        away = np.sin(off)
        parts = away * np.cos(turn), away * np.sin(turn), np.cos(off)
        own = own_angles(photometry.layout, *parts)
    table = photometry.c_deg, photometry.gamma_deg, photometry.candela
    return looked_up(photometry.layout, table, *own)
