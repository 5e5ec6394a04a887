"""Which set a page or file belongs to: a short mark of all it was worked out from, and when it was printed.

The same scene, files, paper and program give the same mark; any change gives another. So two sheets with one
mark may lie on one table, and two with different marks may not.
"""

from __future__ import annotations

import os
import re
from collections.abc import Sequence
from datetime import datetime
from hashlib import blake2b
from typing import TYPE_CHECKING, Literal

import msgspec

from aimcalc import __version__
from aimcalc.text.label_sheet import LabelSheet
from aimcalc.text.words import LengthUnit

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig


# No two look alike, handwritten or read by torchlight; no vowels, so that no mark is a word.
LETTERS, FIGURES = "CDFHJKMNPRTVWXY", "34679"
SET_FILE = "set.json"  # in every folder of sheets: what set each file is of
LONG = 5  # 15 * 20^4 marks: two of a hundred sets share one in 500 shows
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
MINUS = re.compile(r"(?<![\w'\"])[-\u2212]\s*(?=[\d.])")
LONGEST_PART = 24  # letters of what a part is called in the corner of a page
LONGEST_OVER, ROOM = 88, 13  # letters of the line over a page, and of "; and 9 more" at its end
LISTS = (
    "Geometry only: rates nothing, permits nothing. If light, eye and list disagree: STOP, ask, "
    "believe the light."
)


class Stamp(msgspec.Struct, frozen=True):
    """The set that something is of; `printed` is None where runs are to be alike to the byte.

    Without a mark it is of no set: a page made by itself.
    """

    mark: str
    printed: datetime | None = None
    title: str = ""
    revision: str = ""

    @property
    def words(self) -> str:
        """ "set K7MP4, 14 Nov, 16:02"; without a time "set K7MP4"."""
        return ", ".join(filter(None, (self.mark and f"set {self.mark}", said(self.printed))))

    @property
    def iso(self) -> str | None:
        """When it was printed, for programs: "2025-11-14T16:02:09+01:00"."""
        return None if self.printed is None else self.printed.isoformat(timespec="seconds")


NO_SET = Stamp("")


def said(time: datetime | None) -> str:
    """A time as people say it: "14 Nov, 16:02"; nothing of none."""
    return "" if time is None else f"{time.day} {MONTHS[time.month - 1]}, {time:%H:%M}"


def said_iso(printed: str | None) -> str:
    """The same of a time as programs write it; nothing of a text that is none."""
    try:
        return said(datetime.fromisoformat(printed or ""))
    except ValueError:
        return ""


def said_if(typed: str) -> str:
    """What was set, for paper: "pipe 1.trim = 5.8 m"; a minus sign that was typed becomes a word."""
    left, _, value = typed.partition("=")
    return MINUS.sub("minus ", f"{left.strip()} = {value.strip() or 'nothing'}")


def drafted(what_if: Sequence[str]) -> str:
    """What is told first of anything with something set for it alone: "DRAFT, as if pipe 1.trim = 5.8 m"."""
    return f"DRAFT, as if {'; '.join(map(said_if, what_if))}"


def stamp_of(rig: SolidRig, options: PaperOptions, printed: datetime | None) -> Stamp:
    """The stamp of everything that is made of a rig with some options."""
    settings = rig.scene.settings
    return Stamp(set_mark(rig, options), printed, settings.title, settings.revision)


def set_mark(rig: SolidRig, options: PaperOptions) -> str:
    """A letter, then letters and figures: "K7MP4".

    What is hashed: the scene as it was understood (so neither its comments nor the folder it lies in), the
    photometric and mesh files it names, the letters that other typefaces lend it, paper, length unit, draft,
    scale and sheet of the light plot where they were asked for, whether rays can be cast, and the version of
    the program.
    """
    scene = rig.scene
    units = [msgspec.structs.replace(unit, source="") for unit in scene.units]
    settings = msgspec.structs.replace(scene.settings, hang=None, hang_sheet=None, typeface=None)
    plain = msgspec.structs.replace(
        scene, folder="", settings=settings, units=tuple(units), taken=(), hang_columns=()
    )
    parts = [
        __version__.encode(),
        " ".join((options.paper, options.length, "draft" if options.draft else "")).encode(),
        *([f"{options.scale} {options.sheet}".encode()] if options.scale or options.sheet else []),
        b"rays" if _casts_rays() else b"",
        msgspec.json.encode(plain),
        *(_digest(os.path.join(scene.folder, name)) for name in _files(rig)),
        rig.lent.mark.encode(),
    ]
    if options.labels is not None:
        parts.append(msgspec.json.encode(options.labels))
    hashed = blake2b(digest_size=16)
    for part in parts:
        hashed.update(len(part).to_bytes(8, "big") + part)
    return _letters(int.from_bytes(hashed.digest(), "big"))


def _letters(number: int) -> str:
    """The first is a letter, so that no spreadsheet takes a mark for a number."""
    number, first = divmod(number, len(LETTERS))
    every = LETTERS + FIGURES
    mark = LETTERS[first]
    for _ in range(LONG - 1):
        number, next_one = divmod(number, len(every))
        mark += every[next_one]
    return mark


def _files(rig: SolidRig) -> list[str]:
    """The files that a scene's answers come from, beside the scene and its hang list."""
    photometry = [kind.photometry for kind in rig.scene.kinds.values()]
    return [name for name in (*photometry, *(s.mesh for s in rig.scene.solids)) if name]


def _digest(path: str) -> bytes:
    """What a file holds, in short; nothing of one that cannot be read, of which the findings tell."""
    from hashlib import file_digest

    try:
        with open(path, "rb") as file:
            return file_digest(file, "blake2b").digest()
    except OSError:
        return b""


def _casts_rays() -> bool:
    from importlib.util import find_spec

    return find_spec("embreex") is not None


def imprint(options: PaperOptions | None) -> dict[str, str]:
    """What every row of a list says of its set, by column; nothing of what is of no set and no draft."""
    if options is None or not (options.stamp.mark or options.draft or options.part):
        return {}
    stamp = options.stamp
    return {
        "revision": stamp.revision,
        "set": stamp.mark,
        "printed": f"{stamp.printed:%Y-%m-%d %H:%M}" if stamp.printed else "",
        "draft": options.draft_words,
        **({"part": options.part_words} if options.part else {}),
        "caution": LISTS,
    }


def headlines(options: PaperOptions | None) -> list[str]:
    """The lines over a table of a workbook: draft, title, revision and set, then the caution."""
    told = imprint(options)
    if options is None or not told:
        return []
    stamp = options.stamp
    revision = f"rev {stamp.revision}" if stamp.revision else "no revision"
    parts = (told["draft"], options.part_words, stamp.title, revision, stamp.words)
    return [" | ".join(filter(None, parts)), LISTS]


class PaperOptions(msgspec.Struct, frozen=True):
    """What the user chose about paper."""

    paper: Literal["a4", "letter"] = "a4"
    length: LengthUnit = "m"
    draft: bool = False
    what_if: tuple[str, ...] = ()  # what was set for this print alone, as typed
    scale: int | None = None  # of the light plot, 50 of 1:50; None: what its sheet holds
    sheet: tuple[float, float] | None = None  # of the light plot, short and long side, mm
    section: tuple[str, ...] = ()  # units ("position/number") to cut a section through
    stamp: Stamp = NO_SET  # of the set that is made
    part: frozenset[str] = frozenset()  # the units that alone are printed; all where there is none
    part_name: str = ""  # what they are: "pipe 1"
    focused: frozenset[str] = frozenset()  # units whose numbers are those of the focus
    labels: LabelSheet | None = (
        None  # the measures of the label sheets; None: what is usual for the paper
    )

    def holds(self, unit: str) -> bool:
        """Whether a unit ("position/number") is among those that are printed."""
        return not self.part or unit in self.part

    @property
    def part_words(self) -> str:
        """ "PART: pipe 1" of what is not the whole set; nothing of what is."""
        if not self.part:
            return ""
        name = self.part_name
        return f"PART: {name if len(name) <= LONGEST_PART else f'{len(self.part)} units'}"

    @property
    def draft_words(self) -> str:
        """ "DRAFT", with what was set for this print alone; nothing where it is none."""
        if self.what_if:
            return drafted(self.what_if)
        return "DRAFT" if self.draft else ""

    @property
    def over(self) -> str:
        """What stands over a page where something was set for this print alone: as much as one line holds."""
        if not self.what_if or len(self.draft_words) <= LONGEST_OVER:
            return self.draft_words if self.what_if else ""
        first, *more = map(said_if, self.what_if)
        told, rest = f"DRAFT, as if {first}", len(more)
        if len(told) > LONGEST_OVER - ROOM:
            told = f"{told[: LONGEST_OVER - ROOM - 1].rstrip()}…"
        for words in more:
            if len(told) + len(words) > LONGEST_OVER - ROOM:
                break
            told, rest = f"{told}; {words}", rest - 1
        return f"{told}; and {rest} more" if rest else told

    def numbered(self, number: int, of: int) -> str:
        """What stands in the corner of a page: "DRAFT | set K7MP4, 14 Nov, 16:02 | page 1 of 5"."""
        parts = ("DRAFT" if self.draft else "", self.part_words, self.stamp.words)
        return " | ".join([*filter(None, parts), f"page {number} of {of}"])
