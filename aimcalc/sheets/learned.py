"""What is made of landings: the corrected rig, whose rows change, the corrections file and the slips."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import msgspec

from aimcalc.landings.learn import Learned, learn
from aimcalc.landings.readings import read_landings
from aimcalc.landings.spots import Problem
from aimcalc.landings.surfaces import spots_of
from aimcalc.named import NamedTuple
from aimcalc.rig.letters import lending
from aimcalc.scene.corrected import corrections_toml
from aimcalc.scene.model import Correction, Pipe, Scene
from aimcalc.sheets.prep import options_for
from aimcalc.sheets.slips import change_slips
from aimcalc.show import Show
from aimcalc.text.compare import compared
from aimcalc.text.compared import Compared
from aimcalc.text.learn_text import learn_json
from aimcalc.text.whole import whole_set

if TYPE_CHECKING:
    from datetime import datetime

CORRECTIONS, SLIPS, LEARNED = "corrections.toml", "change-slips.pdf", "learned.json"


class Outcome(NamedTuple):
    """What was learned, the corrections for the scene's file, the show with them, what changes by them."""

    learned: Learned
    corrections: tuple[Correction, ...]
    show: Show
    found: Compared

    @property
    def rows(self) -> list[str]:
        """The units whose printed numbers leave their tolerance."""
        return [row.unit for row in self.found.changes.rows]


def outcome_of(show: Show, landings: str) -> Outcome:
    """What the landings in a file tell of a show.

    Raises SceneError where the file cannot be used, ContradictError where its landings contradict each other.
    """
    rig = show.rig
    noted = read_landings(landings, rig)
    name = os.path.basename(landings)
    spots, direct = spots_of(rig, noted, rig.tapes.out, name)
    learned = learn(Problem(rig, spots, direct))
    more = tuple(
        Correction(what=c.what, of=c.of, value=c.value, low=c.low, high=c.high)  # type: ignore[arg-type]
        for c in learned.worth_making
        if c.what == "drop" or isinstance(rig.scene.positions.get(c.of), Pipe)
    )
    before = show.scene
    scene = msgspec.structs.replace(before, corrections=more, settings=_revised(before))
    after = Show(scene)
    return Outcome(learned, _summed(before, more), after, compared(show, after, light=False))


def _revised(scene: Scene) -> msgspec.Struct:
    """The settings with the next revision: B after A, A where there was none."""
    own = scene.settings
    last = own.revision.strip()
    following = (
        chr(ord(last) + 1) if len(last) == 1 and last.upper() in "ABCDEFGHIJKLMNOPQRSTUVWXY" else ""
    )
    return msgspec.structs.replace(own, revision=following or (f"{last}+" if last else "A"))


def _summed(scene: Scene, more: tuple[Correction, ...]) -> tuple[Correction, ...]:
    """The corrections that the scene has and some more, as one list for its file."""
    every: dict[tuple[str, str], Correction] = {(c.what, c.of): c for c in scene.made}
    for each in more:
        before = every.get((each.what, each.of))
        if before is not None:
            shifts = {
                key: None if getattr(each, key) is None else getattr(each, key) + before.value
                for key in ("low", "high")
            }
            each = msgspec.structs.replace(each, value=each.value + before.value, **shifts)
        every[each.what, each.of] = each
    return tuple(every.values())


def write_outcome(
    show: Show, outcome: Outcome, folder: str, printed: datetime | None = None
) -> list[str]:
    """The files made in a folder: corrections, what was learned, and slips where a row changes.

    All of them appear or none. Raises OSError when the disk refuses.
    """
    made = [CORRECTIONS, LEARNED]
    with whole_set(folder) as hidden:
        _put(hidden, CORRECTIONS, corrections_toml(outcome.corrections).encode())
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
