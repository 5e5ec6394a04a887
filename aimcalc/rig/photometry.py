"""Kinds that name a photometric file: what the file says, put where the scene says nothing."""

from __future__ import annotations

import os
from math import sqrt
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from aimcalc.scene.model import Kind, Scene

if TYPE_CHECKING:
    from aimcalc.light.photometry import Photometry


# A field is round where its mean is within 2.5 % of both its widths: 5 cm of a 2 m pool, which is how finely
# marks on the deck are set.
ROUND = 1.05
WIDEST = 178.0  # degrees


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
            mistakes.append(
                Mistake(scene.file, "[[kind]]", f'"{kind}"', "photometry", expected, came)
            )
    if mistakes:
        raise SceneError(scene.settings.title, mistakes)
    return found


class FileOval(NamedTuple):
    """The two principal planes of a file whose field is oval: full angles in degrees, narrow then wide.

    `beam` goes by the same planes. `upright` says that the wide one is the body's up and down (C = 90).
    """

    field: tuple[float, float]
    beam: tuple[float, float]
    upright: bool

    @property
    def round_field(self) -> float:
        """The round field of the same solid angle, nearly."""
        return sqrt(self.field[0] * self.field[1])

    @property
    def round_beam(self) -> float:
        """The round beam of the same solid angle, nearly."""
        return sqrt(self.beam[0] * self.beam[1])


def oval_of(file: Photometry | None) -> FileOval | None:
    """The file's two widths where they differ enough to tell; None where the field is round, or nearly."""
    if file is None:
        return None
    field, beam = (_within_half(file.widths(share)) for share in (0.1, 0.5))
    if max(field) <= ROUND * min(field) or not min(beam):
        return None
    upright = field[1] > field[0]
    if upright:
        return FileOval(field, beam, True)
    return FileOval(field[::-1], beam[::-1], False)


def file_ovals(scene: Scene, files: dict[str, Photometry]) -> dict[str, FileOval]:
    """The ovals of those kinds that have their field from a file, by the kind's name."""
    given = {name: scene.kinds[name] for name in files}
    found = {n: oval_of(files[n]) for n, k in given.items() if k.field is None and k.oval is None}
    return {name: oval for name, oval in found.items() if oval is not None}


def _within_half(pair: tuple[float, float]) -> tuple[float, float]:
    """Full angles kept to what a plane can cut: a flood's may go all the way round."""
    return min(pair[0], WIDEST), min(pair[1], WIDEST)


def filled(kind: Kind, file: Photometry | None) -> Kind:
    """The kind with its field and beam from its file where the scene gives none; both widths of an oval."""
    if file is None:
        return kind
    own = kind.field is None and kind.oval is None
    oval = oval_of(file) if own else None
    if oval is not None:
        beam = kind.beam or oval.round_beam
        return msgspec.structs.replace(kind, field=oval.round_field, beam=beam, oval=oval.field)
    return msgspec.structs.replace(
        kind,
        field=kind.field or file.field_angle,
        beam=kind.beam or (file.beam_angle if own else None),
    )
