"""Everything the crew carries, made in one go into one folder, whole or not at all.

Where a process can be forked, the pieces are drawn in lanes, a process to a core. They part when the rig is
solved, and what takes long and more pieces need is worked out in one of them only: nothing is solved twice.
What a lane could not do is done again here, so that what is wrong is told as it would be without lanes.
"""

from __future__ import annotations

import fnmatch
import os
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from datetime import datetime
from importlib import import_module
from typing import TYPE_CHECKING, Any

import msgspec
import numpy as np

from aimcalc.named import NamedTuple
from aimcalc.paper.drawing import PT
from aimcalc.paper.page import PAPERS
from aimcalc.rig.letters import lending
from aimcalc.scene.mistakes import nearest
from aimcalc.sheets.lanes import BEGUN, NO_PAGES, cores, lanes
from aimcalc.sheets.pieces import (
    EACH_POSITION,
    PACKS,
    PIECES,
    SET,
    SLIPS,
    Piece,
    PieceError,
    maker_of,
    pack_files,
)
from aimcalc.text.label_sheet import label_sheet
from aimcalc.text.lists import json_bytes
from aimcalc.text.stamp import SET_FILE, PaperOptions, Stamp, said_iso, stamp_of
from aimcalc.text.whole import whole_set

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig


ROOMY = 31 << 20  # bytes; glibc heeds no block over 32 MiB
MOST_UNITS = 2_000  # that sheets are made of; no rig has more (our choice), and pages take time


class Made(NamedTuple):
    """A piece that was made, with its number of pages where it has pages."""

    piece: Piece
    pages: int | None


class Printed(msgspec.Struct, frozen=True, omit_defaults=True):
    """What set a file is of, by the record in its folder; `printed` is None where the time was left out."""

    set: str
    printed: str | None
    part: str = ""  # what alone it holds of the set: "PART: pipe 1"

    @property
    def words(self) -> str:
        """ "set K7MP4 of 14 Nov, 16:02"."""
        time = said_iso(self.printed)
        whole = f"set {self.set} of {time}" if time else f"set {self.set}"
        return f"{whole} ({self.part})" if self.part else whole


def options_for(
    rig: SolidRig,
    *,
    paper: str | None = None,
    length: str | None = None,
    draft: bool = False,
    section: str | None = None,
    printed: datetime | None = None,
    part: tuple[frozenset[str], str] = (frozenset(), ""),
    plot: tuple[int | None, tuple[float, float] | None] = (None, None),
    labels: str | None = None,
    focused: Iterable[str] = (),
) -> PaperOptions:
    """Paper and length unit as asked for, else as the scene's own unit suggests, with the stamp of the set.

    `plot` is the scale of the light plot and its sheet, mm, None for what suits it; `focused` are the units
    whose numbers are those of the focus.

    Without the time when it is `printed`, two runs give the same bytes. A print with
    something set for it alone is a draft.

    Raises:
        ValueError: for a name in `section` ("LX 1/3,LX 1/4") that is no unit's, with the nearest right one.
        LabelSheetError: for `labels` that are no label sheet of this paper.
    """
    in_feet = rig.scene.settings.own_unit in ("ft", "in")
    options = PaperOptions(
        paper=paper or ("letter" if in_feet else "a4"),  # type: ignore[arg-type]
        length=length or ("ft" if in_feet else "m"),  # type: ignore[arg-type]
        draft=draft or bool(rig.scene.what_if),
        what_if=rig.scene.what_if,
        scale=plot[0],
        sheet=plot[1],
        section=_units_named(rig, section),
        part=part[0],
        part_name=part[1],
        focused=frozenset(focused),
    )
    if labels is not None:
        wide, tall = (points * PT for points in PAPERS[options.paper])
        options = msgspec.structs.replace(options, labels=label_sheet(labels, (wide, tall)))
    return msgspec.structs.replace(options, stamp=stamp_of(rig, options, printed))


def _units_named(rig: SolidRig, section: str | None) -> tuple[str, ...]:
    names = [name.strip() for name in (section or "").split(",") if name.strip()]
    for name in names:
        if name not in rig.names:
            near = nearest(name, tuple(rig.names))
            meant = f' Did you mean "{near}"?' if near else ""
            raise ValueError(f'no unit is called "{name}".{meant} Say position/number.')
    return tuple(dict.fromkeys(names))


def prepare(
    show: Show,
    folder: str,
    options: PaperOptions,
    pieces: Sequence[Piece] = SET,
    tell: Callable[[Piece], None] = lambda piece: None,
    more: Sequence[Any] = (),
) -> list[Made]:
    """Make `pieces` of a show into `folder`; `tell` hears of each before it is begun.

    `more` is what the maker of the change slips takes besides.

    The files appear when all of them are done, with the record of what set each is of.

    Raises:
        PieceError: for a piece that cannot be made of this scene, such as sheets of over MOST_UNITS units.
        OSError: when the disk refuses. Nothing has then arrived.
    """
    _keep_what_is_freed()
    pieces = _with_files(show.rig, pieces, options)
    _refuse_endless(show.rig, pieces)
    _refuse_part(folder, options, pieces)
    with lending(show.rig.lent), whole_set(folder) as hidden:

        def make(piece: Piece) -> int | None:
            with _streams(hidden, piece.files) as streams:
                return maker_of(piece)(show, *streams, options, *more)

        made = _drawn(show, pieces, make, tell)
        if options.stamp.mark:
            now = Printed(options.stamp.mark, options.stamp.iso, options.part_words)
            kept = {file: of for file, of in sets_in(folder).items() if of is not None}
            record = kept | {file: now for piece in pieces for file in piece.files}
            with open(os.path.join(hidden, SET_FILE), "wb") as file:
                file.write(json_bytes({name: record[name] for name in sorted(record)}))
    return made


def _keep_what_is_freed() -> None:
    """Let pages and pictures find the memory of those before them, instead of new memory from the system.

    glibc hands back blocks that are larger than any freed so far (mallopt(3), M_MMAP_THRESHOLD). This one
    is freed at once and never touched, so it takes no room; elsewhere it does nothing.
    """
    np.empty(ROOMY, np.uint8)


def _with_files(rig: SolidRig, pieces: Sequence[Piece], options: PaperOptions) -> list[Piece]:
    """The pieces with a file for every position that is printed, where they have one for each."""
    files = pack_files(
        [n for n, m in rig.rows.items() if any(options.holds(rig.names[k]) for k in m)]
    )
    return [
        piece._replace(files=tuple(files.values())) if piece.files == (EACH_POSITION,) else piece
        for piece in pieces
    ]


def _refuse_endless(rig: SolidRig, pieces: Sequence[Piece]) -> None:
    if len(rig.units) > MOST_UNITS and any(piece.name != "lists" for piece in pieces):
        raise PieceError(
            f"The scene has {len(rig.units):,} units; sheets are made of at most {MOST_UNITS:,}. Look for "
            "rows that came in twice, or name lists alone in --only: they hold every unit."
        )


def _refuse_part(folder: str, options: PaperOptions, pieces: Sequence[Piece]) -> None:
    """A part never takes the place of a whole sheet."""
    before = sets_in(folder) if options.part else {}
    files = [file for piece in pieces for file in piece.files if file in before]
    whole = [file for file in files if (of := before[file]) is None or not of.part]
    if whole:
        raise PieceError(
            f"{', '.join(whole)} in {folder} would be replaced by a part of the set ({options.part_words}). "
            "Name another folder."
        )


def part_of(
    rig: SolidRig, positions: Sequence[str] = (), units: str | None = None
) -> tuple[frozenset[str], str]:
    """The units of some positions, and units named ("LX 1/3,LX 1/4"), with what they are called together.

    Raises:
        ValueError: for a name that is none, with the nearest right one, and for a position without units.
    """
    found: dict[str, None] = {}
    names = [_position_named(rig, name) for name in positions]
    for name in names:
        found |= dict.fromkeys(rig.names[k] for k in rig.rows[name])
    named = _units_named(rig, units)
    if units is not None and not named:
        raise ValueError("expected names of units, came empty text.")
    return frozenset((*found, *named)), ", ".join((*names, *named))


def _position_named(rig: SolidRig, asked: str) -> str:
    plain = " ".join(asked.split()).casefold()
    name = asked if asked in rig.rows else next((n for n in rig.rows if n.casefold() == plain), "")
    if not name:
        used = tuple(n for n, members in rig.rows.items() if members)
        near = nearest(asked, used)
        meant = f'Did you mean "{near}"?' if near else f"There are: {', '.join(used)}."
        raise ValueError(f'no position is called "{asked}". {meant}')
    if not rig.rows[name]:
        raise ValueError(f'nothing hangs on "{name}".')
    return name


def sets_in(folder: str) -> dict[str, Printed | None]:
    """What set each file of ours in `folder` is of; None where no record tells."""
    try:
        with open(os.path.join(folder, SET_FILE), "rb") as file:
            told = msgspec.json.decode(file.read(), type=dict[str, Printed])
    except (OSError, msgspec.DecodeError, UnicodeDecodeError):
        told = {}
    every = [*(file for piece in (*PACKS, *PIECES) for file in piece.files), *SLIPS.files]
    packs = (
        sorted(fnmatch.filter(os.listdir(folder), EACH_POSITION)) if os.path.isdir(folder) else []
    )
    names = dict.fromkeys([*every, *packs, *told])
    return {file: told.get(file) for file in names if os.path.exists(os.path.join(folder, file))}


def replaced(before: dict[str, Printed | None], pieces: Sequence[Piece], stamp: Stamp) -> str:
    """What a run of `pieces` has replaced, where `before` was in the folder; nothing where nothing was."""
    made = [file for piece in pieces for file in piece.files]
    sets = list(dict.fromkeys(before[file] for file in made if file in before))
    same = [of for of in sets if of is not None and of.set == stamp.mark and not of.part]
    others = [of.words if of else "files of no known set" for of in sets if of not in same]
    if others:
        return f"Replaces {', '.join(others)}."
    if same:
        return f"Printed again: replaces {same[-1].words}, which said the same."
    return ""


def left_alone(
    before: dict[str, Printed | None], pieces: Sequence[Piece], stamp: Stamp
) -> list[str]:
    """What is to be said of files of ours that a run of `pieces` does not renew, a sentence for each set."""
    made = [file for piece in pieces for file in piece.files]
    kept = {file: of for file, of in before.items() if file not in made}
    told = []
    for of in dict.fromkeys(kept.values()):
        which = "perhaps of an older scene"
        if of is not None:
            which = f"of the same {of.words}" if of.set == stamp.mark else f"still of {of.words}"
        told.append(
            f"Left as they were, {which}: {', '.join(file for file in kept if kept[file] == of)}"
        )
    return told


def _drawn(
    show: Show,
    pieces: Sequence[Piece],
    make: Callable[[Piece], int | None],
    tell: Callable[[Piece], None],
) -> list[Made]:
    """All pieces, drawn in lanes where there are some; what they leave is drawn here, what failed first."""
    tasks = _tasks(pieces)
    count = min(cores(), len(tasks))
    done: dict[int, int | None] = {}
    begun: list[int] = []
    if count > 1:
        _make_ready(show, pieces)
        with lanes(count, tasks, lambda k: make(pieces[k])) as news:
            for k, told in news:
                if told == BEGUN:
                    for j in _begun_with(k, tasks):
                        if j not in begun:
                            begun.append(j)
                            tell(pieces[j])
                else:
                    done[k] = None if told == NO_PAGES else told
    failed = [k for k in begun if k not in done]
    for k in dict.fromkeys([*failed, *range(len(pieces))]):
        if k not in done:
            if k not in begun:
                tell(pieces[k])
            done[k] = make(pieces[k])
    return [Made(piece, done[k]) for k, piece in enumerate(pieces)]


def _tasks(pieces: Sequence[Piece]) -> list[list[int]]:
    """The pieces by number, as they are begun: those that need the light are one task, the first."""
    light = [k for k, piece in enumerate(pieces) if piece.light]
    rest = [[k] for k, piece in enumerate(pieces) if not piece.light]
    return [light, *rest] if light else rest


def _begun_with(k: int, tasks: Sequence[Sequence[int]]) -> list[int]:
    """What is begun when a lane says so of piece `k`: the first of each task before its own, and `k`.

    Tasks are taken in their order, but of two that are taken at once either may be told of first.
    """
    own = next(number for number, task in enumerate(tasks) if k in task)
    return [*(task[0] for task in tasks[:own]), k]


def _make_ready(show: Show, pieces: Sequence[Piece]) -> None:
    """Work out and load what more than one lane will ask for."""
    from aimcalc.text.typeset import new_canvas

    _ = show.findings, show.hang, show.rig.answers, show.rig.reaches
    files = [file for piece in pieces for file in piece.files]
    if any(file.endswith(".pdf") for file in files):
        new_canvas("")  # reads the typeface, and loads what every document needs
    if any(file.endswith(".png") for file in files):
        import_module("aimcalc.paper.drawpng")
    if sum(any(file.endswith(".xlsx") for file in piece.files) for piece in pieces) > 1:
        import_module("xlsxwriter")
    for piece in pieces:
        if not piece.light:  # one lane's alone
            maker_of(piece)


@contextmanager
def _streams(folder: str, files: Sequence[str]) -> Iterator[list[Any]]:
    with ExitStack() as stack:
        yield [stack.enter_context(open(os.path.join(folder, file), "wb")) for file in files]
