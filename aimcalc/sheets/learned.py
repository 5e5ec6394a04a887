"""What is made of landings: the corrected rig, whose rows change, the corrections file and the slips."""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

import msgspec
import numpy as np

from aimcalc.geometry.vectors import Array, to_radians
from aimcalc.landings.forward import DIAL, DOWN, ERRORS, KICK, PAN, Set, printed, some
from aimcalc.landings.learn import Correction as Told
from aimcalc.landings.learn import Learned, learn
from aimcalc.landings.readings import Measured, Noted, Reading, read_landings, written_down
from aimcalc.landings.sighted import sighted
from aimcalc.landings.spots import Problem
from aimcalc.landings.surfaces import spots_of
from aimcalc.landings.trims import missing
from aimcalc.named import NamedTuple
from aimcalc.rig.letters import lending
from aimcalc.scene.corrected import AT_THE_RIG, corrections_toml
from aimcalc.scene.mistakes import Mistake, SceneError
from aimcalc.scene.model import Correction, Pipe, Scene
from aimcalc.sheets.prep import options_for
from aimcalc.sheets.slips import change_slips
from aimcalc.show import Show
from aimcalc.text.changes.compare import compared
from aimcalc.text.changes.compared import Compared
from aimcalc.text.learn_text import learn_json
from aimcalc.text.whole import whole_set

if TYPE_CHECKING:
    from datetime import datetime

    from aimcalc.solid.rig import SolidRig

CORRECTIONS, SLIPS, LEARNED = "corrections.toml", "change-slips.pdf", "learned.json"


class Outcome(NamedTuple):
    """What was learned, the corrections for the scene's file, the show with them, what changes by them.

    `again` names the other units that miss as they stand, for a tool or a clamp that is to be put right or
    for a little of everything. `known` of the landings were learned from before; `landings` are all that
    told something, as they are written down.
    """

    learned: Learned
    corrections: tuple[Correction, ...]
    show: Show
    found: Compared
    again: tuple[str, ...]
    known: int
    landings: tuple[str, ...]

    @property
    def rows(self) -> list[str]:
        """The units whose printed numbers leave their tolerance."""
        return [row.unit for row in self.found.changes.rows]


def outcome_of(show: Show, landings: str) -> Outcome:
    """What the landings in a file tell of a show, those left out that its corrections come from.

    Raises SceneError where the file cannot be used, ContradictError where its landings contradict each other.
    """
    rig, before = show.rig, show.scene
    noted = read_landings(landings, rig)
    name = os.path.basename(landings)
    fresh, lines = _fresh(show, noted, name)
    stands = _stands(show)
    spots, direct = spots_of(rig, fresh, rig.tapes.out, name, stands)
    learned = learn(Problem(rig, spots, direct))
    made = tuple(
        _correction(c)
        for c in learned.worth_making
        if c.what == "drop" or isinstance(rig.scene.positions.get(c.of), Pipe)
    )
    scene = msgspec.structs.replace(before, corrections=made, settings=_revised(before))
    after = Show(scene)
    found = compared(show, after, light=False)
    changed = {row.unit for row in found.changes.rows}
    again = tuple(
        name for name in _still_to_set(show, after, stands, learned) if name not in changed
    )
    known = len(noted.spots) + len(noted.direct) - len(fresh.spots) - len(fresh.direct)
    every = _summed(before, learned, made)
    return Outcome(learned, every, after, found, again, known, lines)


def _correction(c: Told) -> Correction:
    return Correction(what=c.what, of=c.of, value=c.value, low=c.low, high=c.high)  # type: ignore[arg-type]


def _fresh(show: Show, noted: Noted, name: str) -> tuple[Noted, tuple[str, ...]]:
    """The landings that tell something new, and all that have told something, as they are written down."""
    before = show.scene.learned_from
    known = set(before)
    fresh = Noted(
        tuple(each for each in noted.spots if written_down(each, show.rig) not in known),
        tuple(each for each in noted.direct if written_down(each, show.rig) not in known),
    )
    every: list[Reading | Measured] = [*fresh.spots, *fresh.direct]
    if not every:
        expected = f"landings that {show.scene.settings.corrections} does not come from"
        do = "Note where light lands now that the corrected numbers are set."
        raise SceneError(name, [Mistake(name, "", "", "", expected, "none but those", do)])
    return fresh, (*before, *(written_down(each, show.rig) for each in every))


def _stands(show: Show) -> Set:
    """How the units stand: as printed, those that no correction asked to be set again as printed before."""
    given = _as_printed(show)
    if not show.plotted.corrections:
        return given
    plotted = Show(msgspec.structs.replace(show.plotted, corrections=()))
    changed = {row.unit for row in compared(plotted, show, light=False).changes.rows}
    first = some(_as_printed(plotted), [plotted.rig.by_name[each] for each in show.rig.names])
    off = _left_off(show.rig, first, show.scene.made)
    changed |= {
        *missing(show.rig, first, off),
        *(c.of for c in show.scene.made if c.what == "kick"),
    }
    kept = np.array([each not in changed for each in show.rig.names], dtype=bool)
    return Set._make(np.where(kept, a, b) for a, b in zip(first, given, strict=True))


def _as_printed(show: Show) -> Set:
    """How units are set as printed: by their marks on the sight tape where the scene has `sight` errors."""
    rig = show.rig
    if show.scene.errors.sight is None:
        return printed(rig)
    return sighted(rig, printed(rig), rig.tapes.sight, rig.tapes.out)


def _still_to_set(show: Show, after: Show, stands: Set, learned: Learned) -> list[str]:
    """The units that miss as they stand on the corrected rig with its faulty tools, and hit as printed."""
    rig, order = after.rig, [show.rig.by_name[name] for name in after.rig.names]
    off = _left_off(rig, some(stands, order), learned.to_put_right)
    in_vain = set(missing(rig, _as_printed(after), np.zeros_like(off)))
    return [name for name in missing(rig, some(stands, order), off) if name not in in_vain]


def _left_off(rig: SolidRig, given: Set, wrong: Iterable[Correction | Told]) -> Array:
    """What is off (9, N) of every unit, set as `given`, of a corrected rig: what is to be put right there."""
    off = np.zeros((len(ERRORS), len(rig.units)))
    for each in wrong:
        value = to_radians(each.value)
        if each.what == "level":
            off[DOWN] = value
        elif each.what == "dial":
            off[PAN] = np.where(given.by == DIAL, value, 0.0)
        elif each.what == "kick":
            off[KICK, rig.by_name[each.of]] = value
    return off


def _revised(scene: Scene) -> msgspec.Struct:
    """The settings with the next revision: B after A, A where there was none."""
    own = scene.settings
    last = own.revision.strip()
    following = (
        chr(ord(last) + 1) if len(last) == 1 and last.upper() in "ABCDEFGHIJKLMNOPQRSTUVWXY" else ""
    )
    return msgspec.structs.replace(own, revision=following or (f"{last}+" if last else "A"))


def _summed(scene: Scene, learned: Learned, more: Sequence[Correction]) -> tuple[Correction, ...]:
    """The corrections that the scene has and some more, as one list for its file.

    What is to be put right at the rig is as it was found now.
    """
    asked = {(c.what, c.of) for c in learned.corrections if c.what in AT_THE_RIG}
    every = {(c.what, c.of): c for c in scene.made if (c.what, c.of) not in asked}
    for each in more:
        before = every.get((each.what, each.of))
        if before is not None:
            shifts = {
                key: None if getattr(each, key) is None else getattr(each, key) + before.value
                for key in ("low", "high")
            }
            each = msgspec.structs.replace(each, value=each.value + before.value, **shifts)
        every[each.what, each.of] = each
    return (*every.values(), *map(_correction, learned.to_put_right))


def write_outcome(
    show: Show, outcome: Outcome, folder: str, printed: datetime | None = None
) -> list[str]:
    """The files made in a folder: corrections, what was learned, and slips where a row changes.

    All of them appear or none. Raises OSError when the disk refuses.
    """
    made = [CORRECTIONS, LEARNED]
    with whole_set(folder) as hidden:
        _put(hidden, CORRECTIONS, corrections_toml(outcome.corrections, outcome.landings).encode())
        _put(hidden, LEARNED, learn_json(outcome.learned, show.scene))
        if outcome.rows:
            after = outcome.show
            options = options_for(after.rig, printed=printed)
            with lending(after.rig.lent), open(os.path.join(hidden, SLIPS), "wb") as stream:
                change_slips(after, stream, options, outcome.found)
            made.append(SLIPS)
    return made


def _put(folder: str, name: str, content: bytes) -> None:
    with open(os.path.join(folder, name), "wb") as stream:
        stream.write(content)
