"""Edits saved, whole or not at all: the scene's TOML with its comments and layout, its hang list likewise.

What is written is read first, in a folder of its own, and has to be the very scene that the edits make.
"""

from __future__ import annotations

import os
import re
from collections.abc import Sequence
from hashlib import blake2b
from typing import Any

import tomli
from msgspec.structs import replace

from aimcalc.desk.edits import Edit, setting
from aimcalc.desk.savedlist import Cell, SaveError, with_cells
from aimcalc.named import NamedTuple
from aimcalc.scene.document import SCENE_FILE, SINGLE
from aimcalc.scene.files import named_file
from aimcalc.scene.loading import Reading, load_scene, read_scene, scene_file
from aimcalc.scene.mistakes import SceneError, Wrong
from aimcalc.scene.model import Scene
from aimcalc.scene.what_if import Entry
from aimcalc.text.whole import MixedError, whole_set

LENGTHS = (
    "at",
    "connector",
    "arm",
)  # of a hang list, whose headings may have another unit than the scene


class Seen(NamedTuple):
    """The files of a scene as they were when it was read: each one's path and a digest of its bytes."""

    scene: str  # the TOML file
    digests: tuple[tuple[str, bytes], ...]

    def changed(self) -> list[str]:
        """The files that are others now, by their own names."""
        return [os.path.basename(path) for path, was in self.digests if _digest(path) != was]


def seen(scene: str) -> Seen:
    """The files of a scene as they are. Raises SceneError where it cannot be read."""
    file = _file(scene)
    names = _named(load_scene(file))
    folder = os.path.dirname(file)
    paths = (file, *(os.path.join(folder, name) for name in names))
    return Seen(file, tuple((path, _digest(path)) for path in paths))


def save(files: Seen, edits: Sequence[Edit], folder: str | None = None) -> list[str]:
    """Write a scene with some edits: into a new folder, or where it is; the paths written.

    Args:
        files: as they were when the scene was read that the edits were made in.
        edits: each name and key at most once.
        folder: where the new scene goes, with every file that it names; None: the scene's own files are
            replaced, as far as they change.

    Raises:
        SceneError: where an edit is a mistake.
        SaveError: where a file was changed meanwhile, cannot be written, or cannot hold what was edited.
        Nothing is then written.
    """
    _check_unchanged(files)
    whole, changed = _saved(files.scene, edits)
    here, own = os.path.split(files.scene)
    if folder is not None:
        place = os.path.realpath(folder)
        if os.path.isdir(place) and os.listdir(place):
            raise SaveError(f"{folder} holds files already: name a new folder. Nothing was saved.")
        wanted = {SCENE_FILE if name == own else name: data for name, data in whole.items()}
    else:
        place, wanted = here, {name: whole[name] for name in changed}
        _check_places(here, wanted)
    _write(place, wanted, files)
    return [os.path.join(folder or here, name) for name in wanted]


def _check_unchanged(files: Seen) -> None:
    others = files.changed()
    if others:
        raise SaveError(
            f"{' and '.join(others)} changed after being read here. Read the scene again, then save. "
            "Nothing was saved."
        )


def _check_places(here: str, wanted: dict[str, bytes]) -> None:
    """Refuse to replace what one move cannot: a link, or files of two folders."""
    for name in wanted:
        if os.path.islink(os.path.join(here, name)):
            raise SaveError(
                f"{name} is a link to another place: save to a new folder. Nothing was saved."
            )
    if len({os.path.dirname(name) for name in wanted}) > 1:
        raise SaveError(
            "The scene and its hang list lie in two folders and cannot be replaced as one: save to a new "
            "folder. Nothing was saved."
        )


def _write(place: str, wanted: dict[str, bytes], files: Seen) -> None:
    below = {os.path.dirname(name) for name in wanted}
    if len(below) == 1 and below != {""}:  # the hang list alone, in a folder of its own
        (part,) = below
        place = os.path.join(place, part)
        wanted = {os.path.basename(name): data for name, data in wanted.items()}
    try:
        with whole_set(place) as new:
            for name, data in wanted.items():
                path = os.path.join(new, name)
                os.makedirs(os.path.dirname(path), exist_ok=True)
                with open(path, "wb") as file:
                    file.write(data)
                _keep_mode(os.path.join(place, name), path)
            _check_unchanged(files)
    except MixedError as error:
        raise SaveError(
            f"The files in {place} could not be put back ({error.strerror}); the old ones are in "
            f"{error.hidden}."
        ) from None
    except OSError as error:
        raise SaveError(
            f"{place} cannot be written: {(error.strerror or str(error)).lower()}. Nothing was saved. "
            "Make room or see who may write it, or save to another folder."
        ) from None


def _keep_mode(old: str, new: str) -> None:
    if os.path.exists(old):
        os.chmod(new, os.stat(old).st_mode & 0o777)


def _file(scene: str) -> str:
    try:
        return os.path.realpath(scene_file(scene))
    except Wrong as wrong:
        raise SaveError(f"{scene}: expected {wrong.expected}.") from None


def _digest(path: str) -> bytes:
    """Of a file's bytes; empty where it cannot be read."""
    try:
        with open(path, "rb") as file:
            return blake2b(file.read(), digest_size=16).digest()
    except OSError:
        return b""


def _named(scene: Scene) -> list[str]:
    """The files that a scene names, relative to its folder."""
    own = scene.settings
    photometry = (kind.photometry for kind in scene.kinds.values())
    meshes = (solid.mesh for solid in scene.solids)
    names = (own.hang, own.corrections, own.typeface, *photometry, *meshes)
    return [name for name in dict.fromkeys(names) if name]


# --- what is to be written ---


def _saved(file: str, edits: Sequence[Edit]) -> tuple[dict[str, bytes], list[str]]:
    """Every file of the edited scene by its name, and the names of those that changed."""
    try:
        reading = read_scene(file, [setting(edit) for edit in edits])
        folder, own = os.path.split(file)
        names = [own, *_named(reading.scene)]
        whole = {name: _read(named_file(folder, name)) for name in dict.fromkeys(names)}
    except (OSError, Wrong) as error:
        raise SaveError(
            f"The files of the scene cannot be read: {error}. Nothing was saved."
        ) from None
    before = dict(whole)
    placed = reading.changes.placed if reading.changes else []
    listed = {id(raw) for raw, _ in reading.document.tables("unit")}
    rows = [(s, e) for s, e in placed if e.table == "unit" and id(e.raw) not in listed]
    tables = [(s.key, s.value, e) for s, e in placed if (s, e) not in rows]
    whole[own] = _toml_with(whole[own], reading, tables)
    hang = reading.scene.settings.hang
    if rows and hang:
        unit = reading.scene.settings.own_unit
        cells = [_cell(hang, s.key, s.value, e, unit) for s, e in rows]
        whole[hang] = with_cells(hang, whole[hang], cells)
    _check_same(reading.scene, whole, own)
    return whole, [name for name in whole if whole[name] != before[name]]


def _read(path: str) -> bytes:
    with open(path, "rb") as file:
        return file.read()


def _check_same(wanted: Scene, whole: dict[str, bytes], own: str) -> None:
    """Refuse files that are not read as the scene that they are to be."""
    from tempfile import TemporaryDirectory

    with TemporaryDirectory() as folder:
        try:
            for name, data in whole.items():
                path = os.path.join(folder, name)
                os.makedirs(os.path.dirname(path), exist_ok=True)
                with open(path, "wb") as file:
                    file.write(data)
            found = load_scene(os.path.join(folder, own))
        except OSError as error:
            raise SaveError(
                f"No room to try the files in: {error.strerror}. Nothing was saved."
            ) from None
        except SceneError as error:
            raise SaveError(
                f"Saved so, the scene could not be read. {error.mistakes[0].text()}"
            ) from None
    other = _differing(_plain(wanted), _plain(found))
    if other:
        raise SaveError(
            f"Saved so, {other} would read otherwise: its cell stands for more than its words (it is "
            "shared with other rows, is a mark for the cell above, or its heading has a unit). Change it in "
            "the file itself. Nothing was saved."
        )


def _plain(scene: Scene) -> Scene:
    """A scene without what it does not say of the rig: where it was read, and what was noted in reading."""
    units = tuple(replace(unit, source="") for unit in scene.units)
    return replace(scene, units=units, folder="", file="", what_if=(), taken=(), hang_columns=())


def _differing(wanted: Scene, found: Scene) -> str:
    """What two scenes differ in, in words; "" where they are one."""
    for mine, other in zip(wanted.units, found.units, strict=False):
        if mine != other:
            return f"unit {mine.position}/{mine.number}"
    return "" if wanted == found else "the scene"


def _cell(hang: str, key: str, value: Any, entry: Entry, unit: str) -> Cell:
    """The cell of a hang list that a value of a unit goes to."""
    column = (entry.where.columns or {}).get(key)
    if column is None:
        raise SaveError(
            f"{hang} has no column for {key}: add one with that heading, reload, and change it again. "
            "Nothing was saved."
        )
    if isinstance(value, list):
        value = "; ".join(map(str, value))
    elif isinstance(value, bool):
        value = "yes" if value else "no"
    elif isinstance(value, int | float) and key in LENGTHS:
        value = f"{value!r} {unit}"
    sheet = entry.where.table.removeprefix("sheet ")
    row = (entry.where.rows or {}).get(key) or int(entry.where.entry.removeprefix("row "))
    return Cell(sheet, row, column, value)


# --- the scene's own file ---

_HEADER = re.compile(r"^[ \t]*\[\[?[^\[\]\n]+\]\]?[ \t]*(?:#[^\n]*)?$", re.MULTILINE)


def _toml_with(data: bytes, reading: Reading, changes: list[tuple[str, Any, Entry]]) -> bytes:
    """A scene's TOML with some values changed: every other line is as it was."""
    mark = b"\xef\xbb\xbf" if data.startswith(b"\xef\xbb\xbf") else b""
    text = data.removeprefix(mark).decode()
    ends = "\r\n" if "\r\n" in text else "\n"
    if ends == "\r\n" and text.count("\n") != text.count(ends):
        raise SaveError(
            "The scene's lines end in two ways: save it once in an editor. Nothing was saved."
        )
    blocks = _blocks(text.replace("\r\n", "\n"))
    tables = [tomli.loads(block) for block in blocks]
    for key, value, entry in changes:
        k, index = _block_of(tables, reading, entry)
        if k == len(blocks):
            blocks.append(("" if blocks[-1].endswith("\n") else "\n") + f"\n[{entry.table}]\n")
            tables.append({entry.table: {}})
        blocks[k] = _block_with(blocks[k], entry.table, index, key, value)
    return mark + "".join(blocks).replace("\n", ends).encode()


def _blocks(text: str) -> list[str]:
    """A TOML text cut before the headers of its tables; what only looks like one, within a list or a text of
    several lines, leaves no TOML before the cut."""
    cuts = [found.start() for found in _HEADER.finditer(text)] + [len(text)]
    blocks, begin = [], 0
    for cut in cuts:
        try:
            tomli.loads(text[begin:cut])
        except ValueError:
            continue
        blocks.append(text[begin:cut])
        begin = cut
    return blocks


def _block_of(tables: list[dict[str, Any]], reading: Reading, entry: Entry) -> tuple[int, int]:
    """The block that holds an entry, and which entry of its table there; one past the last where nobody
    wrote the table yet."""
    if entry.table in SINGLE:
        held = (k for k, each in enumerate(tables) if isinstance(each.get(entry.table), dict))
        return next(held, len(tables)), 0
    items = reading.document.raw[entry.table]
    left = next(k for k, raw in enumerate(items) if raw is entry.raw)
    for k, each in enumerate(tables):
        found = each.get(entry.table)
        if isinstance(found, list):  # else a table of one of its entries
            if left < len(found):
                return k, left
            left -= len(found)
    raise SaveError(f"{entry.where.entry} is written in a way that cannot be changed here.")


def _block_with(block: str, table: str, index: int, key: str, value: Any) -> str:
    import tomlkit

    document: Any = tomlkit.parse(block)
    entry = document[table] if table in SINGLE else document[table][index]
    if key not in entry and value is not None and _HEADER.match(block.lstrip("\n")):
        return _with_line(block, f"{key} = {_item(value).as_string()}\n")
    if value is None:
        entry.pop(key, None)
    elif (
        isinstance(value, dict)
        and isinstance(entry.get(key), dict)
        and value.keys() == entry[key].keys()
    ):
        entry[key].update({k: _item(v) for k, v in value.items() if entry[key][k] != v})
    elif key not in entry or entry[key] != value:
        entry[key] = _item(value)
    return tomlkit.dumps(document)


def _with_line(block: str, line: str) -> str:
    """A table with one line more, before the blank lines and comments that lead to the next table."""
    lines = block.splitlines(keepends=True)
    if not lines[-1].endswith("\n"):
        lines[-1] += "\n"
    last = max(
        k for k, each in enumerate(lines) if each.strip() and not each.lstrip().startswith("#")
    )
    return "".join((*lines[: last + 1], line, *lines[last + 1 :]))


def _item(value: Any) -> Any:
    """A value as TOML writes it on one line."""
    import tomlkit

    if isinstance(value, dict):
        table = tomlkit.inline_table()
        table.update({key: _item(each) for key, each in value.items()})
        return table
    return tomlkit.item(value)
