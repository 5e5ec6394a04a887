"""Files that appear whole or not at all.

A set of files is written into a hidden folder first, then moved to where it belongs. When the
wanted folder does not exist yet, one rename makes it appear complete. When it exists, each file is
replaced by one rename: a run killed among those renames leaves whole files, some of this run and
some of the last one. Files of other names are never touched.

The hidden folder lies beside the wanted one (inside it where the folder above cannot be written, or
is on another disk). A run that is killed leaves it behind; the next run into the same folder
removes it.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress

HIDDEN = "aimcalc-part-"
IN_THE_WAY = "a file of that name is in the way; name a folder"


@contextmanager
def whole_set(folder: str) -> Iterator[str]:
    """A folder to write files into, which all move into `folder` when the block ends well.

    When the block raises, nothing of it reaches `folder`. Only plain files are moved.
    Raises OSError when the disk refuses, `NotADirectoryError` when `folder` is a file,
    `IsADirectoryError` when a file would have to replace a folder.
    """
    folder = os.path.realpath(folder)
    if os.path.exists(folder) and not os.path.isdir(folder):
        raise NotADirectoryError(0, IN_THE_WAY, folder)
    base = _base_of(folder)
    _clear_stale(base, _prefix(folder))
    hidden = os.path.join(base, f"{_prefix(folder)}{os.getpid()}-{os.urandom(4).hex()}")
    lock = None
    try:  # from before the folder is there, so that no interrupt can come between
        os.mkdir(hidden)
        lock = _lock(hidden)
        yield hidden
        _move_into_place(hidden, folder)
    finally:
        _remove(hidden)
        _unlock(lock)


def write_whole(path: str, data: bytes) -> None:
    """Write `data` to the file `path`, which appears complete or not at all."""
    folder, name = os.path.split(os.path.realpath(path))
    with whole_set(folder) as hidden, open(os.path.join(hidden, name), "wb") as file:
        file.write(data)


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


def _lock(hidden: str) -> int | None:
    """The lock on a hidden folder, None where another process holds it or locks do not exist.

    The system drops the lock when its holder dies, however it dies.
    """
    try:
        import fcntl
    except ImportError:  # Windows: a folder left behind stays
        return None
    handle = os.open(hidden, os.O_RDONLY)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        os.close(handle)
        return None
    return handle


def _unlock(lock: int | None) -> None:
    if lock is not None:
        os.close(lock)


def _clear_stale(base: str, prefix: str) -> None:
    """Remove hidden folders whose makers are gone."""
    with suppress(OSError), os.scandir(base) as entries:
        for entry in entries:
            if entry.name.startswith(prefix) and entry.is_dir(follow_symlinks=False):
                with suppress(OSError):
                    _clear_if_free(entry.path)


def _clear_if_free(hidden: str) -> None:
    lock = _lock(hidden)
    if lock is not None:
        _remove(hidden)
        _unlock(lock)


def _move_into_place(hidden: str, folder: str) -> None:
    if not os.path.exists(folder):
        os.rename(hidden, folder)
        return
    names = sorted(os.listdir(hidden))
    for name in names:
        if os.path.isdir(os.path.join(folder, name)):
            raise IsADirectoryError(
                0, "a folder is where a file must go; move it away", os.path.join(folder, name)
            )
    for name in names:
        os.replace(os.path.join(hidden, name), os.path.join(folder, name))


def _remove(hidden: str) -> None:
    """Remove a hidden folder and the plain files in it, as far as the disk allows."""
    with suppress(OSError):
        for name in os.listdir(hidden):
            os.unlink(os.path.join(hidden, name))
        os.rmdir(hidden)
