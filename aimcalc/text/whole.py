"""Files that appear whole or not at all, and sets of files whose old and new never mix.

A set is written into a hidden folder first. When the wanted folder does not exist yet, one rename makes
it appear complete. When it exists, the files that are to be replaced are moved aside into the hidden
folder, then the new ones are moved in: at no moment do an old and a new one lie side by side. When one of
these moves fails, or a signal comes between them, all are undone. Files of other names are never touched.

The hidden folder lies beside the wanted one (inside it where the folder above cannot be written, or
is on another disk). A run that is killed leaves it behind; the next run into the same folder removes it,
and undoes the moves where the killed run was among them: a list of the set's names stands in the hidden
folder for as long as there is something to undo.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress

from aimcalc.text.holding import alone_in, lock, stop_if, unbroken, unlock

HIDDEN = "aimcalc-part-"
NEW, OLD, MOVING = "new", "old", "moving"  # in a hidden folder: made, moved aside, their names
IN_THE_WAY = "a file of that name is in the way; name a folder"
IN_PLACE = "All files are in place."

_at_work: dict[str, int | None] = {}  # this process's hidden folders, each with its lock


class MixedError(OSError):
    """Files that could be neither replaced nor put back; `hidden` holds the old ones."""

    def __init__(self, error: OSError, place: str, hidden: str) -> None:
        super().__init__(error.errno, error.strerror, place)
        self.hidden = hidden


@contextmanager
def whole_set(folder: str) -> Iterator[str]:
    """A folder to write plain files into, which all move into `folder` when the block ends well.

    Folders in it move too where `folder` is new or empty.

    When the block raises, nothing of it reaches `folder`. A KeyboardInterrupt that came when all was done
    says so in its words, `IN_PLACE`.
    Raises OSError when the disk refuses, `NotADirectoryError` when `folder` is a file,
    `IsADirectoryError` when a file would have to replace a folder: nothing has then changed. Raises
    `MixedError` when the disk refuses to put back what was moved.
    """
    folder = os.path.realpath(folder)
    if os.path.exists(folder) and not os.path.isdir(folder):
        raise NotADirectoryError(0, IN_THE_WAY, folder)
    base = _base_of(folder)
    hidden = os.path.join(base, f"{_prefix(folder)}{os.getpid()}-{os.urandom(4).hex()}")
    new = os.path.join(hidden, NEW)
    stands = False
    try:
        with unbroken() as came, alone_in(folder, came):  # another run sees it locked or not at all
            _mended(folder)
            _at_work[hidden] = None
            os.mkdir(hidden)
            _at_work[hidden] = lock(hidden)
            os.mkdir(new)
        yield new
        with unbroken() as came:
            _put_in_place(hidden, folder, came)
            stands = True
            _leave(hidden)
    except KeyboardInterrupt:
        if stands:
            raise KeyboardInterrupt(IN_PLACE) from None
        raise
    finally:
        with unbroken():
            _leave(hidden)


def write_whole(path: str, data: bytes) -> None:
    """Write `data` to the file `path`, which appears complete or not at all."""
    folder, name = os.path.split(os.path.realpath(path))
    with whole_set(folder) as hidden, open(os.path.join(hidden, name), "wb") as file:
        file.write(data)


def mend(folder: str) -> bool:
    """Clear away what killed runs into `folder` left; True where old files had to be put back.

    Raises `MixedError` when the disk refuses to put them back.
    """
    folder = os.path.realpath(folder)
    if not _left_behind(folder):
        return False
    with unbroken() as came, alone_in(folder, came):
        return _mended(folder)


def clear_up() -> None:
    """Remove what this process may still have at work; for its very end, after an interrupt."""
    for hidden in list(_at_work):
        _leave(hidden)


def let_go() -> None:
    """Leave what is at work to the process that this one was forked from: only it holds the locks."""
    for held in _at_work.values():
        unlock(held)
    _at_work.clear()


def _prefix(folder: str) -> str:
    return f".{os.path.basename(folder)}.{HIDDEN}"


def _base_of(folder: str) -> str:
    """The folder that the hidden folder is made in; folders above a new one are made."""
    above = os.path.dirname(folder)
    if not os.path.isdir(folder):
        try:
            os.makedirs(above, exist_ok=True)
        except (FileExistsError, NotADirectoryError) as error:
            raise NotADirectoryError(0, IN_THE_WAY, error.filename) from None
        return above
    same_disk = os.stat(above).st_dev == os.stat(folder).st_dev
    return above if same_disk and os.access(above, os.W_OK | os.X_OK) else folder


def _put_in_place(hidden: str, folder: str, came: Sequence[int]) -> None:
    """Move what was made into `folder`; all goes back when one move fails or a signal has come."""
    new = os.path.join(hidden, NEW)
    stop_if(came)
    if not os.path.exists(folder):
        try:
            os.rename(new, folder)
            return
        except OSError:  # another run may have made it since
            if not os.path.isdir(folder):
                raise
    names = sorted(os.listdir(new))
    for name in names:
        place = os.path.join(folder, name)
        if os.path.isdir(place):
            raise IsADirectoryError(0, "a folder is where a file must go; move it away", place)
    with alone_in(folder, came):
        _mended(folder)  # the run that we had to wait for may have been killed
        _write_names(hidden, names)
        try:
            _replace(hidden, folder, names, came)
            os.unlink(os.path.join(hidden, MOVING))  # from here on the new set stands
        except BaseException:
            _undo(hidden, folder)
            raise


def _replace(hidden: str, folder: str, names: Sequence[str], came: Sequence[int]) -> None:
    """Move the old files aside, then the new ones in; raises in the middle when a signal has come."""
    os.mkdir(os.path.join(hidden, OLD))
    place = folder
    try:
        for name in names:
            place = os.path.join(folder, name)
            if os.path.lexists(place):
                os.rename(place, os.path.join(hidden, OLD, name))
            stop_if(came)
        for name in names:
            place = os.path.join(folder, name)
            os.replace(os.path.join(hidden, NEW, name), place)
            stop_if(came)
    except OSError as error:
        raise OSError(error.errno, error.strerror, place) from error


def _undo(hidden: str, folder: str) -> None:
    """Put everything back as it was before `_replace`, however far that (or this) has come."""
    failed: MixedError | None = None
    for name in _read_names(hidden):
        place = os.path.join(folder, name)
        made, old = (os.path.join(hidden, part, name) for part in (NEW, OLD))
        try:
            if not os.path.lexists(made) and os.path.lexists(place):
                os.rename(place, made)
            if os.path.lexists(old):
                os.rename(old, place)
        except OSError as error:
            failed = failed or MixedError(error, place, hidden)
    if failed is not None:
        raise failed
    os.unlink(os.path.join(hidden, MOVING))


def _write_names(hidden: str, names: Sequence[str]) -> None:
    """Note the names of the set, in one step: while they stand there, there may be something to undo."""
    part = os.path.join(hidden, f"{MOVING}.part")
    with open(part, "wb") as file:
        file.write(b"\0".join(map(os.fsencode, names)))
    os.rename(part, os.path.join(hidden, MOVING))


def _read_names(hidden: str) -> list[str]:
    with open(os.path.join(hidden, MOVING), "rb") as file:
        return [os.fsdecode(name) for name in file.read().split(b"\0") if name]


def _left_behind(folder: str) -> list[str]:
    """Hidden folders for `folder`, whether or not their makers are gone."""
    found = []
    for base in (os.path.dirname(folder), folder):
        with suppress(OSError), os.scandir(base) as entries:
            found += [e.path for e in entries if e.name.startswith(_prefix(folder)) and e.is_dir()]
    return found


def _mended(folder: str) -> bool:
    """Clear away the hidden folders whose makers are gone; whether old files had to be put back."""
    mended = False
    for hidden in _left_behind(folder):
        held = lock(hidden)
        if held is None:
            continue
        try:
            if os.path.lexists(os.path.join(hidden, MOVING)):
                os.makedirs(folder, exist_ok=True)
                _undo(hidden, folder)
                mended = True
            _remove(hidden)
        finally:
            unlock(held)
    return mended


def _leave(hidden: str) -> None:
    """Be done with a hidden folder; one that holds old files which could not be put back stays."""
    if not os.path.lexists(os.path.join(hidden, MOVING)):
        _remove(hidden)
    unlock(_at_work.pop(hidden, None))


def _remove(folder: str) -> None:
    """Remove a hidden folder and what is in it, as far as the disk allows."""
    with suppress(OSError):
        for entry in list(os.scandir(folder)):
            if entry.is_dir(follow_symlinks=False):
                _remove(entry.path)
            else:
                os.unlink(entry.path)
        os.rmdir(folder)
