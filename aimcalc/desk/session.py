"""What is tried on a scene, apart from its files: the changes made to it, and the show of what they make.

The files stay as they are until somebody saves. When they change meanwhile they are read again, and what
was tried is tried on what they say now; a mistake in them is told, and the last good state stays.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from typing import TYPE_CHECKING

from aimcalc.desk import edits
from aimcalc.desk.edits import Changes, Edit, Step
from aimcalc.desk.saving import Seen, save, seen
from aimcalc.scene.mistakes import Log, SceneError
from aimcalc.scene.what_if import WhatIf
from aimcalc.show import Show

if TYPE_CHECKING:
    from aimcalc.scene.model import Scene

Stamp = tuple[tuple[str, int, int], ...]  # of files: name, when written (ns), bytes


class Session:
    """One scene and what is tried on it. Raises SceneError where the scene cannot be read at first.

    `base` is the show of the files as they stand, `show` that of what is tried, `scene` the same as it is
    typed, corrections not made in it. `known` is the last show of which everything was asked: a new one takes
    over what it can from there, not from one on the way of a hand. `held` is what a hand has moved and has
    not let go of. `trouble` tells why the files could not be read again; empty when they were.
    """

    def __init__(self, path: str) -> None:
        self.path = path
        self.changes = Changes()
        self.held: Step = ()
        self.trouble = ""
        self._read()
        self.scene = self._as_read
        self.show = self.known = self.base.changed(self._as_read)

    def _read(self) -> None:
        """Read the files as they stand."""
        self.files = seen(self.path)
        self.stamp = stamp_of(self.files)
        scene = edits.changed(self.path, ())
        base = Show(scene)
        base.rig.solids  # noqa: B018 - a file that cannot be used is told now
        self.base, self._as_read, self._ready = base, scene, scene
        self.by_points = edits.by_points(self.path)

    def begin(self, typed: Sequence[str]) -> None:
        """Try what `--set` asks for, as the first change; raises SceneError where one is a mistake."""
        if not typed:
            return
        log = Log()
        step = tuple(Edit(s.name, s.key, s.value) for s in WhatIf(typed, log).asked)
        if log.mistakes:
            raise SceneError(self.path, log.mistakes)
        self.do(step)

    def grab(self, step: Step) -> None:
        """Get ready for moves that set what a step sets, so that the first of them is as quick as the others.

        Raises SceneError where the scene cannot have what it sets.
        """
        every = self.changes.made(step).edits
        if edits.moved(self.scene, every) is None:
            self._ready = edits.changed(self.path, every)

    def move(self, step: Step) -> None:
        """Try what a hand holds now, in place of what it held before; else SceneError, nothing changed."""
        scene = self._scene(self.changes.made(step))
        self.show, self.scene, self.held = self._made(scene), scene, step

    def drop(self) -> None:
        """Make what the hand holds a change."""
        if self.held:
            self.changes = self.changes.made(self.held)._replace(undone=())
            self.held = ()

    def do(self, step: Step) -> None:
        """Make a change; raises SceneError, and then none is made."""
        self.drop()
        self._take(self.changes.made(step)._replace(undone=()))

    def undo(self) -> None:
        """Take the last change back; without one, nothing."""
        self.drop()
        self._take(self.changes.undo())

    def redo(self) -> None:
        """Make again what was taken back last; without it, nothing."""
        self.drop()
        self._take(self.changes.redo())

    def save(self, folder: str | None) -> str:
        """Write the scene with all changes into a new folder, or into its own files; what is said of it.

        The desk stays with the scene that it has; once that holds the changes, none is left to undo. Raises
        SaveError and SceneError, and ValueError for a folder without a name; nothing is then written.
        """
        self.drop()
        if folder is not None and not folder.strip():
            raise ValueError(
                "Expected the name of a new folder, came empty text. Nothing was saved."
            )
        place = folder and os.path.expanduser(folder.strip())
        written = save(self.files, self.changes.edits, place)
        if place is not None:
            return f"Saved as {place}. This page stays with {self.path}."
        self.changes, self.trouble = Changes(), ""
        self._read()
        self.show, self.scene = self.known.changed(self._as_read), self._as_read
        return f"Saved: {', '.join(written)}." if written else "Saved already: nothing was changed."

    def reload(self) -> bool:
        """Read files again that have changed since they were read; whether there is anything new to tell."""
        now = stamp_of(self.files)
        if now == self.stamp:
            return False
        self.stamp = now
        try:
            scene = edits.changed(self.path, self.changes.edits)
            tried = self._made(scene)
            self._read()
        except SceneError as error:
            self.trouble = error.report()
            return True
        self.held, self.trouble = (), ""
        self.show, self.scene = tried, scene
        return True

    def _take(self, changes: Changes) -> None:
        if changes != self.changes:
            scene = self._scene(changes)
            self.show, self.scene, self.changes = self._made(scene), scene, changes

    def _made(self, scene: Scene) -> Show:
        """The show of a scene, solved; raises SceneError where a file that it names cannot be used."""
        show = self.known.changed(scene)
        show.rig.scenery  # noqa: B018
        return show

    def _scene(self, changes: Changes) -> Scene:
        """The scene with these changes: made of what was read where that can be, else read again."""
        every = changes.edits
        if not every:
            return self._as_read
        for near in (self.scene, self._ready):
            made = edits.moved(near, every)
            if made is not None:
                return made
        return edits.changed(self.path, every)


def stamp_of(files: Seen) -> Stamp:
    """How the files of a scene stand on the disk; a file that is not there is left out."""
    return tuple(state for file, _ in files.digests if (state := _state(file)) is not None)


def _state(file: str) -> tuple[str, int, int] | None:
    try:
        found = os.stat(file)
    except OSError:
        return None
    return file, found.st_mtime_ns, found.st_size
