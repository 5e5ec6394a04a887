"""What units will want a nudge once the light is on, and the one measurement that saves the most of them."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from aimcalc.findings.report import NOTE, percent
from aimcalc.landings.budget import Budget, Help
from aimcalc.rig.wording import joined
from aimcalc.scene.model import Errors, Pipe, runs_across
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import SolidRig

TOLD_FROM = 0.5  # expected nudges of the rig: from there on one is as likely as none (our choice)
LIKELY = 0.05  # chance from which a unit is named (our choice)
MOST = 4
WORTH = 0.1  # nudges that a measurement must save to be asked for (our choice)


def expected_nudges(rig: SolidRig, budget: Budget) -> Iterator[Finding]:
    """Notes how many units are likely to land out of tolerance, which, and what to measure (PRACTICE, 44)."""
    if budget.expected < TOLD_FROM:
        return
    likely = [k for k in budget.ranked.tolist() if budget.nudge[k] >= LIKELY]
    worst = [
        f"{rig.names[k]} ({percent(budget.nudge[k])}; face in its field "
        f"{percent_down(budget.in_field[k])})"
        for k in likely[:MOST]
    ]
    named = f" Likeliest: {joined(worst)}." if worst else ""
    says = (
        f"Set as printed, expect to nudge {how_many(budget.expected)} of {len(rig.units)} units: so many "
        f"land farther off than they may.{named} {basis(rig)}"
    )
    yield Finding(NOTE, "expect-to-nudge", says, advice(rig, budget))


def basis(rig: SolidRig) -> str:
    """What the chances rest on, as a sentence."""
    if rig.scene.errors == Errors():
        return "By typical errors, estimates: give yours in the scene's errors."
    return "By the errors given; the others are estimates."


def how_many(number: float) -> str:
    """An expected number of units: "about 12", "about 2.3"."""
    return f"about {number:.0f}" if number >= 9.95 else f"about {number:.1f}"


def percent_down(share: float) -> str:
    """A chance as people say it, never more than it is: "95 %", "over 99 %"."""
    return "over 99 %" if share > 0.99 else f"{int(100 * share)} %"


def advice(rig: SolidRig, budget: Budget) -> str:
    """The one measurement that saves the most nudges, as a sentence."""
    best = budget.helps[0] if budget.helps else None
    if best is None or budget.expected - best.expected < WORTH:
        return "No one measurement saves many; watch these units first when the light is on."
    return f"{_measure(rig, best)}: {how_many(best.expected)} then."


def _measure(rig: SolidRig, help_: Help) -> str:
    """What is to be measured, as a request."""
    what, of = help_.what, help_.of
    if what == "dial":
        return "Check the pan dial on a clamp turned to a known angle"
    if what == "level":
        return "Check the level on something known to be level"
    if what == "drop":
        return f"Measure the drop of one {of}"
    if what == "trim":
        return f"Measure the trim of {of}"
    if what == "marks":
        return f"Measure the marks of {of} again from its zero"
    pipe = rig.scene.positions[of]
    assert isinstance(pipe, Pipe)
    line = "plaster line" if runs_across(pipe.start, pipe.end) else "centre line"
    return f"Measure how far {of} hangs from the {line}"


def likely_rows(budget: Budget, most: int) -> list[int]:
    """The units that are likeliest to want a nudge, at most so many, none that is all but sure to hit."""
    return [k for k in budget.ranked.tolist()[:most] if np.round(100 * budget.nudge[k]) >= 1]
