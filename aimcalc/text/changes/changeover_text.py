"""The changeover between two shows in words: how many units to touch, which, and what is only patched."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import TYPE_CHECKING

from aimcalc.landings.changeover import Job
from aimcalc.text import words as w
from aimcalc.text.changes.change_words import hung_words
from aimcalc.text.columns import folded, table

if TYPE_CHECKING:
    from aimcalc.text.changes.compared import Compared

HEADS = ("unit", "hangs now as", "to do", "to", "channel")
PATCH_HEADS = ("job of", "done by", "to do", "light comes from", "patch to")
TO_DO = {"aim": "re-aim", "colour": "re-colour", "plug": "re-plug"}
SORTS = ("strike", "hang", "move")  # whatever else is to be done at such a unit


def changeover_words(found: Compared) -> str:
    """ "Changeover: 2 of 12 units to touch, 1 to re-aim, 1 to strike; 10 serve as they are."."""
    jobs = found.changeover.jobs
    sorts = Counter(_sort(job) for job in jobs if job.to_do)
    told = [f"{number} to {sort}" for sort, number in sorted(sorts.items(), key=_order)]
    serve = len(jobs) - found.changeover.touch
    kept = f"{serve} {'serves as it is' if serve == 1 else 'serve as they are'}"
    if not told:
        return f"Changeover: no unit to touch; {kept}."
    count = f"{found.changeover.touch} of {w.count(len(jobs), 'unit')} to touch"
    return f"Changeover: {count}, {', '.join(told)}; {kept}."


def _sort(job: Job) -> str:
    """The work that a unit is counted under."""
    if job.to_do[0] in SORTS:
        return job.to_do[0]
    only = " only" if len(job.to_do) == 1 else ""
    return _to_do(job.to_do).replace(" + ", " and ") + only


def _order(counted: tuple[str, int]) -> tuple[bool, str]:
    """What is done from where it hangs first."""
    return counted[0] in SORTS, counted[0]


def _to_do(works: Sequence[str]) -> str:
    return " + ".join(TO_DO.get(work, work) for work in works)


def changeover_text(found: Compared, width: int | None = None) -> str:
    """The sentence, every unit to touch or to patch in a table, and what patching instead would save."""
    over = found.changeover
    parts = [folded(changeover_words(found), width)]
    if any(side.scene is None for side in found.sides):
        parts.append(folded("Colours, circuits and channels are not known of a print.", width))
    lines = [_line(found, job) for job in over.jobs if job.to_do or _patch(job) or _renamed(job)]
    if lines:
        parts.append("\n".join(table(HEADS, lines, width)))
    if over.touch_patched is not None:
        less = (
            f"Patched instead of re-aimed, {over.touch_patched} to touch: these units do each other's "
            "jobs. Ask the designer first: light comes from another place."
        )
        lines = [
            (
                patch.unit,
                patch.by,
                _to_do(patch.to_do) or "nothing",
                f"{w.length(patch.apart, found.length)} away",
                patch.channel or "",
            )
            for patch in over.patched
        ]
        parts.append("\n".join([folded(less, width), *table(PATCH_HEADS, lines, width)]))
    return "\n".join(parts)


def _renamed(job: Job) -> bool:
    return job.unit is not None and job.was is not None and job.unit != job.was


def _patch(job: Job) -> str:
    """The channel where another is wanted: "12, was 11"."""
    if None in (job.unit, job.was) or job.channel == job.channel_was:
        return ""
    return f"{job.channel or 'none'}, was {job.channel_was or 'none'}"


def _line(found: Compared, job: Job) -> Sequence[str]:
    """One unit to touch or to patch; what it is set to, where that is another."""
    name = job.unit or job.was or ""
    was = (job.was or "") if _renamed(job) else ""
    channel = _patch(job) or (job.channel or "" if job.was is None else "")
    return (name, was, _to_do(job.to_do) or "nothing", _settings(found, job), channel)


def _settings(found: Compared, job: Job) -> str:
    """Its mark, its pan and down, its colour, of those that are to be done: "1.00 m SL, SR 22°, DOWN 47°"."""
    if job.unit is None:
        return ""
    answer, told = found.sides[1].units[job.unit], []
    written = found.sides[1].written.get(job.unit)
    if {"move", "hang"} & set(job.to_do):
        told.append(hung_words(found, job.unit, 1))
    if {"aim", "hang"} & set(job.to_do) and answer.down is not None:
        tip = w.tip(answer.down)
        told += [w.turn(answer.pan, answer.swing), f"{tip.word} {tip.angle}".strip()]
    if {"colour", "hang"} & set(job.to_do) and written is not None:
        told.append(written.colour or ("no colour" if "colour" in job.to_do else ""))
    return ", ".join(filter(None, told))
