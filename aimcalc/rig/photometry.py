"""Kinds that name a photometric file: what the file says, put where the scene says nothing."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import msgspec

from aimcalc.scene.model import Kind, Scene

if TYPE_CHECKING:
    from aimcalc.light.photometry import Photometry


def photometry_of(scene: Scene) -> dict[str, Photometry]:
    """The photometric file of every kind in use that names one, by the kind's name.

    Raises PhotometryError where a file cannot be trusted.
    """
    used = {unit.kind for unit in scene.units}
    named = {k.name: k.photometry for k in scene.kinds.values() if k.photometry and k.name in used}
    if not named:
        return {}
    from aimcalc.light.photometry import read_photometry

    return {kind: read_photometry(os.path.join(scene.folder, file)) for kind, file in named.items()}


def filled(kind: Kind, file: Photometry | None) -> Kind:
    """The kind with its field and beam from its file where the scene gives none."""
    if file is None:
        return kind
    field = kind.field or file.field_angle
    beam = kind.beam or (file.beam_angle if kind.field is None else None)
    return msgspec.structs.replace(kind, field=field, beam=beam)
