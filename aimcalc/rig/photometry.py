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

    Raises SceneError, with every file that cannot be trusted in one report.
    """
    used = {unit.kind for unit in scene.units}
    return files_of(scene, [kind for kind in scene.kinds.values() if kind.name in used])


def files_of(scene: Scene, kinds: list[Kind]) -> dict[str, Photometry]:
    """The files of those kinds that name one, by the kind's name. Raises SceneError as `photometry_of`."""
    named = {kind.name: kind.photometry for kind in kinds if kind.photometry}
    if not named:
        return {}
    from aimcalc.light.photometry import PhotometryError, read_photometry
    from aimcalc.scene.mistakes import Mistake, SceneError

    found, mistakes = {}, []
    for kind, file in named.items():
        try:
            found[kind] = read_photometry(os.path.join(scene.folder, file))
        except PhotometryError as wrong:
            line = "" if wrong.line is None else f", line {wrong.line}"
            expected = "a photometric file that can be trusted"
            came = f"{file}{line}: {wrong.says}"
            mistakes.append(Mistake("", "[[kind]]", f'"{kind}"', "photometry", expected, came))
    if mistakes:
        raise SceneError(scene.settings.title, mistakes)
    return found


def filled(kind: Kind, file: Photometry | None) -> Kind:
    """The kind with its field and beam from its file where the scene gives none."""
    if file is None:
        return kind
    field = kind.field or file.field_angle
    beam = kind.beam or (file.beam_angle if kind.field is None else None)
    return msgspec.structs.replace(kind, field=field, beam=beam)
