"""Corrections of a scene: what measured landings have shown of its rig, in a file that it names.

Each is true minus plotted. `aimcalc.rig.corrected` makes them.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from typing import Any

from msgspec.structs import replace

from aimcalc.scene import quantities as q
from aimcalc.scene.document import Document, Entry, parse
from aimcalc.scene.files import named_file
from aimcalc.scene.lengths import parse_length
from aimcalc.scene.mistakes import CLASH, UNKNOWN, Log, TooManyError, Where, Wrong
from aimcalc.scene.model import Correction, Scene, Taken
from aimcalc.scene.readers import Reader, between
from aimcalc.scene.tables import correction_readers

TURNED = ("skew", "dial", "level", "kick")
TOOLS = ("dial", "level")
AT_THE_RIG = (*TOOLS, "kick")  # put right there: no number is changed for them
RIG = "rig"  # what a tool is out by, it is out by everywhere
LANDINGS = "landings"
OF_POSITION = ("trim", "slope", "skew", "moved", "marks")
MOST = 10.0  # m; what is out by more was plotted elsewhere


def corrected_by(scene: Scene, file: str, log: Log) -> Scene | None:
    """The scene with the corrections in a file of its folder; None, with mistakes, where it is wrong."""
    try:
        path = named_file(scene.folder, file, (".toml",))
        found, landings = read_corrections(path, file, scene, log)
    except Wrong as wrong:
        log.add(Where(scene.file, "[scene]"), "corrections", wrong, file)
    except TooManyError:
        pass
    if log.mistakes:
        return None
    measured = {pipe.name for pipe in scene.pipes if pipe.measured}
    taken = (*scene.taken, *_taken(found, file, measured))
    return replace(scene, corrections=found, taken=taken, learned_from=landings)


def _taken(found: Sequence[Correction], file: str, measured: Collection[str]) -> Iterator[Taken]:
    """What somebody should know of corrections: how many are made, and what is to be put right at the rig."""
    made = sum(each.what not in AT_THE_RIG for each in found)
    if made:
        many = f"{made} corrections" if made != 1 else "1 correction"
        says = f"{many} from measured landings {'are' if made != 1 else 'is'} made in this rig."
        yield Taken("corrected", says, f"They are in {file}.")
    for each in found:
        size = f"{abs(each.value):.1f}°"
        more = each.value > 0
        then = f"Then take its entry out of {file}."
        if each.what == "level":
            says = f"The level reads wrong: units set by it point {size} {'lower' if more else 'higher'}."
            do = f"Hold it on something known to be level and put it right. {then}"
            yield Taken("level-off", says, do, "warn")
        elif each.what == "dial":
            way = "clockwise" if more else "anticlockwise"
            says = (
                f"The dial reads wrong: units set by it stand {size} {way} of it, seen from above."
            )
            do = f"Hold it to a true square and put it right. {then}"
            yield Taken("dial-off", says, do, "warn")
        elif each.what == "kick":
            says = f"Its clamp was found kicked {size} round the pipe."
            do = f"Plumb its yoke, then set it as printed. {then}"
            yield Taken("kicked", says, do, "warn", unit=each.of)
        elif each.what == "trim" and each.of in measured:
            says = "Its trim is typed as measured, and corrected from landings besides."
            do = f"If it was measured since those landings, take its trim out of {file}."
            yield Taken("corrected-twice", says, do, "warn", position=each.of)


def read_corrections(
    path: str, file: str, scene: Scene, log: Log
) -> tuple[tuple[Correction, ...], tuple[str, ...]]:
    """The corrections in a file and the landings that told them; mistakes go to `log`.

    Raises Wrong where it is no TOML.
    """
    raw = parse(path)
    for key in raw:
        if key not in ("correction", LANDINGS):
            wrong = Wrong("[[correction]]", choices=("correction",), rank=UNKNOWN)
            log.add(Where(file, ""), "", wrong, key)
    landings = raw.get(LANDINGS, [])
    if not (isinstance(landings, list) and all(isinstance(each, str) for each in landings)):
        wrong = Wrong("the landings as learn wrote them", "Take the key out, or learn again.")
        log.add(Where(file, ""), LANDINGS, wrong, landings)
        landings = []
    document = Document({}, file, log)
    document.raw, document.unit = raw, scene.settings.own_unit
    entries = document.entries("correction", correction_readers) if "correction" in raw else []
    names = [f"{unit.position}/{unit.number}" for unit in scene.units]
    found = [_built(entry, scene, names, document.unit) for entry in entries]
    seen: set[tuple[str, str]] = set()
    for entry, each in zip(entries, found, strict=True):
        if each is not None and (each.what, each.of) in seen:
            entry.note("of", Wrong("each correction once", rank=CLASH), each.of)
        if each is not None:
            seen.add((each.what, each.of))
    return tuple(each for each in found if each is not None), tuple(landings)


def _built(entry: Entry, scene: Scene, units: Sequence[str], unit: str) -> Correction | None:
    entry.needs("what", "of", "value")
    what = entry.values.get("what")
    size = between(-MOST, MOST, lambda raw: parse_length(raw, unit), "a length in metres")
    read: Reader = between(-90, 90, q.degrees, "degrees") if what in TURNED else size
    for key in ("value", "low", "high"):
        entry.take(key, read)
    if what in OF_POSITION:
        entry.check_name("of", "position", scene.positions)
    elif what == "drop":
        entry.check_name("of", "kind", scene.kinds)
    elif what == "kick":
        entry.check_name("of", "unit", units)
    elif what in TOOLS and entry.values.get("of") not in (None, RIG):
        entry.note("of", Wrong(f'"{RIG}": a {what} is wrong everywhere'), entry.values["of"])
    return Correction(**entry.values) if entry.sound else None


def corrections_toml(corrections: Sequence[Correction], landings: Sequence[str] = ()) -> str:
    """A corrections file, lengths in metres and angles in degrees; `landings` told them."""
    lines = [
        "# True minus plotted, from measured landings: + is up, to SL or US, clockwise from above."
    ]
    if any(each.what in AT_THE_RIG for each in corrections):
        lines.append(
            "# A dial, a level and a kick are to be put right at the rig: no number changes."
        )
    if landings:
        lines += [
            "",
            "# What told it, in metres: learn counts none of these again.",
            "landings = [",
        ]
        lines += [f"    {_quoted(each)}," for each in landings]
        lines.append("]")
    for each in corrections:
        turned = each.what in TURNED
        lines += ["", "[[correction]]", f'what = "{each.what}"', f"of = {_quoted(each.of)}"]
        for key, digits in (("value", 4), ("low", 4), ("high", 4)):
            number: Any = getattr(each, key)
            if number is not None:
                told = f"{number:.{digits}f}"
                lines.append(f"{key} = {told}" if turned else f'{key} = "{told} m"')
    return "\n".join(lines) + "\n"


def _quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
