"""A scene solved: every unit's aim, in the order of the sheets; kinds filled from their photometric files."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from functools import cached_property
from math import sqrt
from typing import TYPE_CHECKING

import msgspec
import numpy as np

from aimcalc.geometry.aim import Aims, Mounted, aim
from aimcalc.geometry.deck import Deck
from aimcalc.geometry.vectors import Array, points
from aimcalc.named import NamedTuple, regex
from aimcalc.rig.arrays import Words, deck_of, rig_arrays
from aimcalc.rig.places import across, front_of
from aimcalc.scene.model import Boom, Kind, Pipe, Position, Scene, Unit

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


_DIGITS = regex(r"\d+")


def number_key(number: str) -> tuple[int, str]:
    """Sorts unit numbers as people count: 2 before 10, 7 before 7a, words last."""
    digits = _DIGITS.match(number)
    return (int(digits.group()) if digits else 10**9, number)


def starts_at_plus(units: Sequence[Unit]) -> bool:
    """True where the row starts at the end that `at` counts towards (SL or US).

    Pipes are numbered from stage left to stage right (hstech.org, How to design lights, Dimensioning
    lighting units); a row numbered the other way starts at the other end. Decided by how the order of the
    numbers and the places run together over the whole row, so that one unit out of order, or one number of
    another series, does not turn the sheet round. Units without a number (a word) say nothing.
    """
    numbered = [unit for unit in units if unit.number[:1].isdecimal()]
    numbered.sort(key=lambda unit: number_key(unit.number))
    middle = (len(numbered) - 1) / 2
    together = sum((rank - middle) * (unit.at or 0.0) for rank, unit in enumerate(numbered))
    return together <= 1e-9


def start_end(position: Position, units: Sequence[Unit]) -> str:
    """The words for where the row begins: "SL END", "DS END", "TOP"; empty for a stand."""
    if isinstance(position, Boom):
        return "TOP"
    if not isinstance(position, Pipe):
        return ""
    plus, minus = ("SL", "SR") if across(position) else ("US", "DS")
    return f"{plus if starts_at_plus(units) else minus} END"


def hang_order(scene: Scene) -> tuple[Unit, ...]:
    """Every unit of the scene, in the order of the sheets."""
    rows: dict[str, list[Unit]] = {name: [] for name in scene.positions}
    for unit in scene.units:
        rows[unit.position].append(unit)
    ordered: list[Unit] = []
    for name, position in scene.positions.items():
        ordered += _row(position, rows[name])
    return tuple(ordered)


def _row(position: Position, units: list[Unit]) -> list[Unit]:
    if not isinstance(position, Pipe | Boom):
        return sorted(units, key=lambda unit: number_key(unit.number))
    from_plus = isinstance(position, Boom) or starts_at_plus(units)
    sign = -1.0 if from_plus else 1.0
    return sorted(units, key=lambda unit: (sign * (unit.at or 0.0), number_key(unit.number)))


class Solved:
    """One scene, its units in hang order, and the arrays of what goes in and what comes out."""

    def __init__(self, scene: Scene) -> None:
        if scene.corrections:
            from aimcalc.rig.corrected import corrected

            scene = corrected(scene)
        self.scene = scene
        self.units: tuple[Unit, ...] = hang_order(scene)
        self.photometry = photometry_of(scene)
        self.file_ovals = file_ovals(scene, self.photometry)
        kinds = {name: filled(k, self.photometry.get(name)) for name, k in scene.kinds.items()}
        self.kinds: tuple[Kind, ...] = tuple(kinds[unit.kind] for unit in self.units)
        positions = scene.positions
        self.positions: tuple[Position, ...] = tuple(positions[u.position] for u in self.units)
        self.deck: Deck = deck_of(scene)
        given = rig_arrays(scene, self.units, self.kinds)
        self.arrays: Mounted = given.mounted
        self.words: Words = given.words
        self.surface_z: Array = given.surface_z
        self.aims: Aims = aim(self.arrays, self.deck)
        self.tape_off: Array = given.aside * self.aims.square_sign
        self._move_tapes()

    def _move_tapes(self) -> None:
        """Sight from a truss's chord: the tape is nearer to it, or farther off, than to the truss's line."""
        given, sight = self.arrays, self.aims.sight
        rows = np.flatnonzero(self.tape_off)
        out = given.sight_out[rows]
        left = np.where(out > self.tape_off[rows], out - self.tape_off[rows], np.nan)
        sight[rows] = given.tape_at[rows] + (sight[rows] - given.tape_at[rows]) * left / out

    @cached_property
    def axis(self) -> Array:
        """Unit direction of each lens axis, (3, N)."""
        return self.aims.axis

    @cached_property
    def up(self) -> Array:
        """Each body's own up, a unit direction, (3, N)."""
        return self.aims.up

    @cached_property
    def fronts(self) -> Array:
        """The level way that each unit's target faces, (2, N): where its audience is."""
        targets = {target.name: target for target in self.scene.targets}
        return points([front_of(targets.get(unit.target or "")) for unit in self.units])[:2]

    @cached_property
    def off_front(self) -> Array:
        """Turn on plan of each axis from straight on to its target's front, clockwise, (N,) radians."""
        x, y = self.axis[:2]
        ahead, aside = -self.fronts
        return np.asarray(np.arctan2(x * aside - y * ahead, x * ahead + y * aside))

    @cached_property
    def names(self) -> list[str]:
        """Every unit as "position/number"."""
        return [f"{unit.position}/{unit.number}" for unit in self.units]

    @cached_property
    def by_name(self) -> dict[str, int]:
        """The index of each unit by its "position/number", which is never taken apart again."""
        return {name: k for k, name in enumerate(self.names)}

    def number(self, name: str) -> str:
        """The number of the unit that is called "position/number"."""
        return self.units[self.by_name[name]].number

    @cached_property
    def rows(self) -> dict[str, list[int]]:
        """Indices of the units of each position, in ladder order; positions without units too."""
        rows: dict[str, list[int]] = {name: [] for name in self.scene.positions}
        for k, unit in enumerate(self.units):
            rows[unit.position].append(k)
        return rows


def hung(rig: Solved) -> Iterator[tuple[Position, list[int]]]:
    """Every position that holds units, with them in ladder order."""
    for position, rows in zip(rig.scene.positions.values(), rig.rows.values(), strict=True):
        if rows:
            yield position, rows
