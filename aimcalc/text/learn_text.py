"""What `aimcalc learn` tells: what is out and by how much, why, what fits, what to measure, whose rows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from aimcalc.landings.learn import Apart, Correction, Learned, Likely
from aimcalc.landings.settle import Settles
from aimcalc.landings.spots import RIG
from aimcalc.rig.wording import length
from aimcalc.scene.model import Pipe, Scene, runs_across
from aimcalc.text.columns import folded, table
from aimcalc.text.lists import json_bytes
from aimcalc.text.words import count

NOTHING = "nothing is out by so much that a landing misses for it"
MANY = 6  # things that are listed in one line
MOST_NAMED = 20  # units
SURE = 0.9  # chance from which on a cause is told as it is


def learn_json(learned: Learned, scene: Scene) -> bytes:
    """As JSON, in metres and degrees; a correction is true minus plotted."""
    told = {
        "corrections": learned.corrections,
        "causes": learned.causes,
        "landings": learned.landings,
        "doubted": learned.doubted,
        "tell_apart": [
            {
                "between": [{"what": what, "of": of} for what, of in each.between],
                "correlation": each.correlation,
                "measure": {"what": each.measure[0], "of": each.measure[1]},
                "says": apart_words(each),
            }
            for each in learned.tell_apart
        ]
        + list(_open_json(learned)),
    }
    return json_bytes(told)


def _open_json(learned: Learned) -> Iterator[dict[str, object]]:
    """What would settle the cause, where none has most of the chance: told as what tells things apart."""
    if learned.settles is not None:
        found = learned.settles
        measure = {"what": found.what, "of": found.of}
        if not found.what:
            what = "read back" if found.units else "more landings"
            measure = {"what": what, "of": ", ".join(found.units)}
        yield {
            "between": [{"what": each.cause, "of": each.of} for each in learned.causes[:2]],
            "correlation": None,
            "measure": measure,
            "says": settles_words(found),
        }


def learn_text(
    learned: Learned,
    scene: Scene,
    width: int | None = None,
    *,
    again: Sequence[str] = (),
    known: int = 0,
) -> str:
    """In words and tables, lengths in the scene's unit.

    `again` names units to set again as printed, once what is wrong at the rig is put right; so many
    landings as are `known` were learned from before.
    """
    parts = [
        _known_words(known),
        _likely_words(learned),
        "\n".join(_corrections(learned, scene, width)),
        "\n".join(_landings(learned, scene, width)),
        *_doubts(learned),
        "" if learned.settles is None else settles_words(learned.settles),
        *(apart_words(each) for each in learned.tell_apart),
        "\n".join(_at_the_rig(learned, scene, again)),
    ]
    return folded("\n\n".join(filter(None, parts)), width)


def _likely_words(learned: Learned) -> str:
    """The likeliest cause, and its rivals with their chances."""
    first, *others = learned.causes
    told = f"Most likely: {cause_words(first)} ({_chance(first)})."
    rivals = [f"{cause_words(each)} ({_chance(each)})" for each in others if each.chance >= 0.02]
    return f"{told} Else: {'; '.join(rivals)}." if rivals else told


def _chance(likely: Likely) -> str:
    percent = round(100 * likely.chance)
    return "over 99 %" if percent > 99 else f"{max(1, percent)} %"


def cause_words(likely: Likely) -> str:
    """A cause in plain words: "the trim of pipe 2 is far out"."""
    of = "the whole rig" if likely.of == RIG else likely.of
    words = {
        "none": NOTHING,
        "trim": f"{of} hangs at another trim than plotted",
        "slope": f"{of} is out of level",
        "moved": f"{of} hangs farther up or down stage than plotted",
        "skew": f"{of} is skewed",
        "marks": f"all marks of {of} are shifted along it",
        "dial": "the dial reads wrong, the same everywhere",
        "level": "the level reads wrong, the same everywhere",
        "drop": f"{of} has another drop",
        "kick": f"the clamp of {of} is kicked round its pipe",
        "mirrored": f"{of} is swung to the wrong side: SL and SR mixed up",
        "face-for-floor": f"{of} is tipped at the floor mark, not at the face",
        "wrong-end": f"{of} was counted from the wrong end",
        "from-plumb": f"{of} is tipped from plumb, not from level",
        "swapped": f"{of} are swapped",
    }
    return words[likely.cause]


def apart_words(apart: Apart) -> str:
    """What cannot be told apart, and the one measurement that settles it."""
    one, other = (_thing(*each) for each in apart.between)
    how = _measure(*apart.measure)
    return f"These landings cannot tell {one} from {other}. One measurement settles it: {how}."


def settles_words(settles: Settles) -> str:
    """That the cause cannot be told from these landings, and what would tell it."""
    if settles.what:
        do = _measure(settles.what, settles.of)
    elif settles.units:
        many = count(len(settles.units), "unit")
        do = f"read back the dial and the level of {many}: {_named(settles.units)}"
    else:
        do = "note more landings, of other units"
    return f"The cause cannot be told from these landings. Do: {do}."


def _measure(what: str, of: str) -> str:
    """What to measure, as a request."""
    return {
        "trim": f"measure the trim of {of} at its middle with a tape",
        "moved": f"measure how far {of} is from the plaster line at its middle",
        "drop": f"measure the drop of one {of}",
        "level": "hold the level to something known to be level",
        "dial": "hold the dial to a true square",
    }[what]


def _thing(what: str, of: str) -> str:
    words = {
        "moved": "the place up or down stage",
        "marks": "the marks",
        "dial": "the dial",
        "level": "the level",
    }
    told = words.get(what, f"the {what}")
    return told if of == RIG else f"{told} of {of}"


def _senses(what: str, of: str, scene: Scene) -> tuple[str, str]:
    """The words of more and of less."""
    position = scene.positions.get(of)
    upstage = isinstance(position, Pipe) and not runs_across(position.start, position.end)
    along, aside = (("US", "DS"), ("SL", "SR"))[:: 1 if upstage else -1]
    return {
        "trim": ("higher", "lower"),
        "slope": (f"{along[0]} end higher", f"{along[0]} end lower"),
        "moved": aside,
        "marks": along,
        "skew": ("clockwise", "anticlockwise"),
        "dial": ("clockwise", "anticlockwise"),
        "level": ("lower", "higher"),
        "drop": ("longer", "shorter"),
        "kick": ("towards US", "towards DS") if not upstage else ("towards SL", "towards SR"),
    }[what]


def amount(correction: Correction, value: float, scene: Scene) -> str:
    """A value of a correction without a sign: "0.38 m lower", "1.2° clockwise", "none"."""
    size = f"{abs(value):.1f}°" if correction.unit == "deg" else length(value, scene.settings.unit)
    none = f"{0:.1f}°" if correction.unit == "deg" else length(0.0, scene.settings.unit)
    if size == none:
        return "none"
    return f"{size} {_senses(correction.what, correction.of, scene)[value < 0]}"


def _notable(learned: Learned) -> list[Correction]:
    """The corrections that are more than their uncertainty, those that stand out first."""
    found = [c for c in learned.corrections if abs(c.value) > c.width and c.width > 0]
    return sorted(found, key=lambda c: not c.stands_out)


def _corrections(learned: Learned, scene: Scene, width: int | None) -> Iterator[str]:
    notable = _notable(learned)
    if notable:
        yield "Out by (true against plotted):"
        rows = [
            (
                each.what,
                "" if each.of == RIG else each.of,
                amount(each, each.value, scene),
                f"{amount(each, each.low, scene)} to {amount(each, each.high, scene)}",
            )
            for each in notable
        ]
        yield from table(("what", "of", "by", "95 % between"), rows, width)
    rest = [_thing(c.what, c.of) for c in learned.corrections if c not in notable]
    if rest:
        shown = "; ".join(rest[:MANY]) + (
            f" and {len(rest) - MANY} more" if len(rest) > MANY else ""
        )
        yield f"Not shown to be out: {shown}."


def _landings(learned: Learned, scene: Scene, width: int | None) -> Iterator[str]:
    if not learned.landings:
        return
    unit = scene.settings.unit
    yield "Landings, distance from where the light was to be:"
    rows = [
        (
            each.unit,
            length(each.miss_before, unit),
            length(each.miss_after, unit),
            length(each.left_out, unit),
            length(each.forecast, unit),
            "does not fit" if each.unit in learned.doubted else "",
        )
        for each in learned.landings
    ]
    heads = ("unit", "as plotted", "corrected", "told by the others", "expected within", "remark")
    yield from table(heads, rows, width)


def _doubts(learned: Learned) -> Iterator[str]:
    if learned.doubted:
        several = len(learned.doubted) > 1
        yield (
            f"{', '.join(learned.doubted)}: {'these landings do' if several else 'this landing does'} "
            f"not fit the others and {'were' if several else 'was'} left out. Look at the unit, its "
            "clamp and the numbers, and read the spot again."
        )


def _known_words(known: int) -> str:
    if not known:
        return ""
    are, they = ("was", "it") if known == 1 else ("were", "they")
    return (
        f"{count(known, 'landing')} {are} learned from before: the corrections hold what {they} told. "
        "A unit that they did not ask to be set again counts as it was first printed, the others as "
        "printed now; where that is not so, note its down and pan."
    )


def _at_the_rig(learned: Learned, scene: Scene, again: Sequence[str]) -> Iterator[str]:
    """What is to be done at the rig, since no printed number should hold it, and what is then set again."""
    for each in learned.to_put_right:
        told = amount(each, each.value, scene)
        other = amount(each, -each.value, scene)
        if each.what == "dial":
            yield (
                f"Do: put the dial right. Units stand {told} of what it reads, seen from above: hold it to "
                f"a true square. With a dial that stays as it is, turn each unit {other} of its printed pan."
            )
        elif each.what == "level":
            yield (
                f"Do: put the level right. Units point {told} than it reads: hold it on something known to "
                f"be level. With a level that stays as it is, tip each unit {other} than printed."
            )
        else:
            yield f"Do: plumb the yoke of {each.of}, whose clamp is kicked {told}; then set it as printed."
    if learned.to_put_right:
        yield "No number is changed for it."
    if again:
        yield (
            "Do: set again as the corrected sheets print them, since they miss as they stand: "
            f"{_named(again)}."
        )


def slips_words(rows: Sequence[str], made: int) -> str:
    """Whose rows have to be printed again once the corrections are made."""
    if not made:
        return "No correction is sure enough to change a printed number."
    told = count(made, "correction")
    if not rows:
        return f"With {told} every printed number stays within its tolerance: no row changes."
    shown = _named(rows)
    return f"With {told}, {count(len(rows), 'row')} must be set again: {shown}."


def _named(units: Sequence[str]) -> str:
    more = f" and {len(units) - MOST_NAMED} more" if len(units) > MOST_NAMED else ""
    return ", ".join(units[:MOST_NAMED]) + more
