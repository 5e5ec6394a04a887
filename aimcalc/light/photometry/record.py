"""A photometric file as read: one record for every format and layout."""

from __future__ import annotations

import msgspec
import numpy as np
from numpy.typing import ArrayLike

from aimcalc.geometry.vectors import Array
from aimcalc.light.photometry import curves
from aimcalc.light.photometry.planes import bilinear


class Tilt(msgspec.Struct, frozen=True, eq=False):
    """How the lamp's output falls when the unit is tipped: factors at angles (degrees) from straight down.

    `geometry` is LM-63's lamp-to-luminaire code, 1 to 3.
    """

    geometry: int
    angles: Array
    factors: Array

    def factor(self, off_plumb: ArrayLike) -> Array:
        """Factor at angles off plumb in radians, linear between the file's; held beyond its ends."""
        return np.asarray(np.interp(np.degrees(off_plumb), self.angles, self.factors))


class Photometry(msgspec.Struct, frozen=True, eq=False, kw_only=True):
    """What one file says. Degrees here, as the file has them; full angles for `beam_angle` and its like.

    `candela` is (C, gamma) in the common form of `planes`, about the lens axis; absolute, all factors of
    the file applied but `tilt`. `opening` is the luminous opening (width, length, height) in metres.
    `notes` say what was odd and how it was taken.
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
    def peak_cd(self) -> float:
        """The highest intensity of the table."""
        return float(self.candela.max())

    @property
    def peak_at(self) -> tuple[float, float]:
        """Direction of the peak: degrees off the lens axis, and C (0 where it is on the axis)."""
        row, column = np.unravel_index(int(self.candela.argmax()), self.candela.shape)
        off = float(self.gamma_deg[column])
        return off, float(self.c_deg[row]) if off else 0.0

    @property
    def centre_cd(self) -> float:
        """Intensity along the lens axis (mean over C where a file's planes disagree there)."""
        return float(self.candela[:, 0].mean())

    @property
    def beam(self) -> curves.Spread:
        """Full angles at 50 % of the maximum."""
        return self._spread(0.5 * self.peak_cd)

    @property
    def field(self) -> curves.Spread:
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
        return curves.flux(self.c_deg, self.gamma_deg, self.candela)

    def _spread(self, level: float) -> curves.Spread:
        return curves.spread(self.c_deg, self.gamma_deg, self.candela, level)


def intensity(photometry: Photometry, gamma: ArrayLike, c: ArrayLike = 0.0) -> Array:
    """Candela at `gamma` off the lens axis in the half-plane `c`, linear in both; the arguments broadcast.

    Radians. C counts anti-clockwise as seen along the beam from the unit's own right-hand side, any number of
    turns. Zero beyond the last angle of the file.
    """
    off, turn = np.broadcast_arrays(np.degrees(gamma), np.degrees(c) % 360.0)
    value = bilinear(photometry.c_deg, photometry.gamma_deg, photometry.candela, turn, off)
    return np.asarray(np.where(off <= photometry.gamma_deg[-1] + 1e-9, value, 0.0))
