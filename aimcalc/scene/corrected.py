"""Corrections of a scene: what measured landings have shown of its rig, in a file that it names.

Each is true minus plotted. `aimcalc.rig.corrected` makes them.
"""

from __future__ import annotations

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
OF_POSITION = ("trim", "slope", "skew", "moved", "marks")
MOST = 10.0  # m; what is out by more was plotted elsewhere


def corrected_by(scene: Scene, file: str, log: Log) -> Scene | None:
    """The scene with the corrections in a file of its folder; None, with mistakes, where it is wrong."""
    try:
        found = read_corrections(named_file(scene.folder, file, (".toml",)), file, scene, log)
    except Wrong as wrong:
        log.add(Where(scene.file, "[scene]"), "corrections", wrong, file)
    except TooManyError:
        pass
    if log.mistakes:
        return None
    many = f"{len(found)} corrections" if len(found) != 1 else "1 correction"
    says = f"{many} from measured landings {'are' if len(found) != 1 else 'is'} made in this rig."
    note = Taken("corrected", says, f"They are in {file}.")
    return replace(scene, corrections=found, taken=(*scene.taken, note) if found else scene.taken)


def read_corrections(path: str, file: str, scene: Scene, log: Log) -> tuple[Correction, ...]:
    """The corrections in a file; mistakes go to `log`. Raises Wrong where it is no TOML."""
    raw = parse(path)
    for key in raw:
        if key != "correction":
            wrong = Wrong("[[correction]]", choices=("correction",), rank=UNKNOWN)
            log.add(Where(file, ""), "", wrong, key)
    document = Document({}, file, log)
    document.raw, document.unit = raw, scene.settings.own_unit
    entries = document.entries("correction", correction_readers) if "correction" in raw else []
    found = [_built(entry, scene, document.unit) for entry in entries]
    seen: set[tuple[str, str]] = set()
    for entry, each in zip(entries, found, strict=True):
        if each is not None and (each.what, each.of) in seen:
            entry.note("of", Wrong("each correction once", rank=CLASH), each.of)
        if each is not None:
            seen.add((each.what, each.of))
    return tuple(each for each in found if each is not None)


def _built(entry: Entry, scene: Scene, unit: str) -> Correction | None:
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
    return Correction(**entry.values) if entry.sound else None


def corrections_toml(corrections: tuple[Correction, ...]) -> str:
    """A corrections file, lengths in metres and angles in degrees."""
    lines = [
        "# True minus plotted, from measured landings: + is up, to SL or US, clockwise from above."
    ]
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
