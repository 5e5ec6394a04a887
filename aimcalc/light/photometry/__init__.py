"""Photometric files of lighting units: ANSI/IES LM-63 and EULUMDAT, read into one record."""

from __future__ import annotations

import os
import re

from aimcalc.light.photometry.eulumdat import read_eulumdat
from aimcalc.light.photometry.lm63 import read_lm63
from aimcalc.light.photometry.record import Photometry, Tilt, intensity
from aimcalc.light.photometry.textfile import PhotometryError, read_lines

__all__ = ["Photometry", "PhotometryError", "Tilt", "intensity", "read_photometry"]


def read_photometry(path: str) -> Photometry:
    """What a photometric file says, about the unit's lens axis.

    LM-63 (any edition, Types A, B, C) has a TILT= line; a file without one is EULUMDAT when its name ends
    in `.ldt` or its lines 3 and 4 are EULUMDAT's counts. The lens axis is the file's straight-down direction
    (photometric zero) for EULUMDAT and LM-63 Types B and C, and its (0, 0) for Type A; straight up where a
    file holds upward angles only. Raises PhotometryError, naming file and line, for anything that cannot be
    trusted.
    """
    lines = read_lines(path)
    if _has_tilt(lines):
        return read_lm63(path, lines)
    if os.path.splitext(path)[1].lower() == ".ldt" or _may_be_eulumdat(lines):
        return read_eulumdat(path, lines)
    return read_lm63(path, lines)


def _has_tilt(lines: list[str]) -> bool:
    return any(re.match(r"\s*TILT\s*=", line, re.IGNORECASE) for line in lines)


def _may_be_eulumdat(lines: list[str]) -> bool:
    """Whether lines 3 and 4 are whole numbers, as EULUMDAT's are."""
    return len(lines) > 26 and all(re.fullmatch(r"\s*\d+\s*", line) for line in lines[2:4])
