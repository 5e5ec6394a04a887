"""Which sheets on the wall serve no more after a change: by the rows they print, and by what they draw."""

from __future__ import annotations

import fnmatch
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from aimcalc.sheets.pieces import ALL, EACH_POSITION, PIECES, SAYS, SET, pack_files

if TYPE_CHECKING:
    from aimcalc.landings.changes import Change, Changes

# Which work at a unit leaves which of the older sheets without use; sheets not named here serve on.
WORKED = {
    "aim-sheets": ("strike", "hang", "aim", "read"),
    "cards": ("strike", "hang", "aim", "colour", "read"),
    "hang-sheets": ("strike", "hang", "colour", "plug"),
    "hang-strip": ("strike", "hang", "plug"),
    "labels": ("strike", "hang", "aim", "colour", "plug", "desk"),
    "saddles": ("strike", "hang", "aim", "plug"),
    "test-sheet": ("strike", "hang", "plug", "desk", "aim"),
    "head-page": ("strike", "hang", "aim", "colour", "plug"),
    "counts": ("strike", "hang", "colour", "plug"),
    "plan": ("strike", "hang", "aim"),
    "fall-plan": ("strike", "hang", "aim"),
    "section": ("strike", "hang", "aim"),
    "light-plot": ("strike", "hang", "aim", "colour", "plug", "desk", "read"),
    "gap-map": ("strike", "hang", "aim", "colour"),
    "by-area": ("strike", "hang", "aim", "colour", "desk"),
    "overview": ("strike", "hang", "aim"),
    "lists": ("strike", "hang", "aim", "colour", "plug", "read", "desk"),
}
BY_POSITION = (
    *("aim-sheets", "cards", "hang-sheets", "hang-strip", "saddles"),
    *("ladder", "deck", "packs"),
)
# The two sheets of a position, and the page on the phone, print what these do.
LIKE: dict[str, tuple[str, ...]] = {
    **dict.fromkeys(("ladder", "deck"), ("aim-sheets", "hang-sheets")),
    "phone": ("aim-sheets", "hang-sheets", "labels", "plan"),
}
ALWAYS = ("pan-dial", "plumb-card", "steps")  # no change of a show touches them
ALL_OF_IT = "all of it"
PLANS = ("plan", "fall-plan", "light-plot", "overview")
LIT = ("gap-map", "by-area")
DRAWN = (*PLANS, "section", *LIT)  # all that is drawn or summed from the whole stage
HUNG = ("hang-sheets", "head-page", "counts")  # those with cables, weights and lift lines
AIMED = ("aim-sheets", "cards", "lists")
BODIES = (*PLANS, "section", "head-page", "aim-sheets", "lists")
REPORTED = ("aim-sheets", "hang-sheets", "test-sheet", "head-page", "lists")
ANY = "*"
# Which sheets draw or print what the scene says of a thing, by the thing and its key; ANY is every other
# key. What the row of a unit prints is told by its work, WORKED, within the tolerance that it has.
TOLD: dict[str, dict[str, tuple[str, ...]]] = {
    "solid": {ANY: (*DRAWN, "head-page", "lists")},
    "seats": {ANY: ("section", "head-page", "aim-sheets")},
    "stage": {"acting": (*PLANS, *LIT), ANY: DRAWN},
    "pipe": {
        "trim": (*DRAWN, "hang-sheets", "head-page"),
        "trims": (*AIMED, "hang-sheets", "head-page"),
        "clamp_opens": ("aim-sheets", "hang-sheets", "head-page", "lists"),
        "measured": (*AIMED, "hang-sheets", "head-page", "plan", "fall-plan", "section"),
        "dead_hung": ("aim-sheets", "cards", "hang-sheets", "head-page", "section"),
        "rating": ("hang-sheets", "head-page"),
        "pipe_weight": HUNG,
        "lines": ("hang-sheets", "head-page"),
        "circuits": ("aim-sheets", *HUNG, "hang-strip", "saddles", "test-sheet"),
        "keep_clear": ("hang-sheets", "hang-strip", "saddles"),
        **dict.fromkeys(("sight_out", "spacing", "spaced_from", "marks"), ()),
        ANY: (*DRAWN, *HUNG, "hang-strip", "saddles"),
    },
    "boom": {
        "circuits": ("aim-sheets", *HUNG, "hang-strip", "saddles", "test-sheet"),
        "keep_clear": ("hang-sheets", "hang-strip", "saddles"),
        ANY: (*DRAWN, *HUNG, "hang-strip", "saddles"),
    },
    "stand": {"circuits": ("aim-sheets", *HUNG, "test-sheet"), ANY: (*DRAWN, *HUNG)},
    "target": {
        "without": LIT,
        "faces": LIT,
        **dict.fromkeys(("new", "gone"), (*DRAWN, "head-page", "aim-sheets", "lists")),
        ANY: (*DRAWN, "lists"),
    },
    "kind": {
        **dict.fromkeys(("field", "oval", "photometry"), (*DRAWN, *AIMED)),
        "beam": ("plan", *LIT, "lists"),
        **dict.fromkeys(("peak_cd", "lumens"), LIT),
        **dict.fromkeys(("nose", "rise", "family"), (*DRAWN, "lists")),
        **dict.fromkeys(("drop_under", "drop_over"), (*DRAWN, *HUNG, *AIMED)),
        **dict.fromkeys(("length", "width"), BODIES),
        "top_hat": (*BODIES, "counts"),
        "watts": (*HUNG, "test-sheet"),
        "yoke_range": ("aim-sheets", "lists"),
        "label_distance": ("aim-sheets",),
        ANY: HUNG,
    },
    "scene": {
        "title": tuple(piece.name for piece in PIECES),
        "face_height": (*DRAWN, *AIMED, "head-page"),
        "tolerance": ("aim-sheets", "lists"),
        "gap_below": LIT,
        "volts": ("aim-sheets", *HUNG, "lists"),
        "continuous_share": ("head-page", "counts"),
        "note": ("aim-sheets",),
    },
    "position": {ANY: DRAWN},
    "unit": {
        "system": (*LIT, "plan", "fall-plan", "aim-sheets", *HUNG, "lists"),
        "precise": ("aim-sheets", *LIT, "lists"),
        "transmission": LIT,
        "works": REPORTED,
        "hung": (*REPORTED, "cards", "counts"),
    },
}


def stale(changes: Changes) -> dict[str, str]:
    """Of every sheet by its name, where it serves no more: some positions, or "all of it"; "" where it does.

    A card or a page of a position serves on where nothing of that position is to be done otherwise.
    """
    told = {piece.name: _where(piece.name, changes) for piece in PIECES}
    for name in (*LIKE, *SAYS):
        told[name] = _joined([told[each] for each in LIKE.get(name) or SAYS[name]], name)
    return told


def _joined(where: Sequence[str], name: str) -> str:
    """Where a sheet serves no more that says what others do."""
    if ALL_OF_IT in where or (any(where) and name not in BY_POSITION):
        return ALL_OF_IT
    return ", ".join(dict.fromkeys(place for each in where for place in each.split(", ") if place))


def told_on(change: Change) -> tuple[str, ...]:
    """The sheets that draw or print what the scene says there, besides the rows of units."""
    of = TOLD.get(change.of, {})
    return of.get(change.what, of.get(ANY, ()))


def _where(sheet: str, changes: Changes) -> str:
    works = set(WORKED.get(sheet, ()))
    positions = [row.position for row in changes.rows if works & set(row.touch)]
    if sheet in HUNG:
        positions += [load.position for load in changes.loads]
    told = [change for change in changes.changes if sheet in told_on(change)]
    if sheet not in BY_POSITION:
        return ALL_OF_IT * bool(positions or told)
    positions += [_position(change) for change in told]
    return ALL_OF_IT if "" in positions else ", ".join(dict.fromkeys(positions))


def _position(change: Change) -> str:
    """The position that a change is of; "" where it is of the whole show."""
    if change.of in ("pipe", "boom", "stand", "position"):
        return change.name
    return change.name.rpartition("/")[0] if change.of == "unit" else ""


def stale_words(changes: Changes, files: Sequence[str], whose: str) -> list[str]:
    """Which of some files serve no more, a sentence; and which still do."""
    told = stale(changes)
    parts: list[str] = []
    whole: list[str] = []
    good: list[str] = []
    for piece in ALL:
        if piece.files == (EACH_POSITION,):
            for file in _packs(files):
                (whole if _gone(file, told[piece.name]) else good).append(file)
            continue
        mine = [file for file in piece.files if file in files and file not in (*whole, *good)]
        if told[piece.name] and piece.name in BY_POSITION:
            parts += [f"{file} ({told[piece.name]})" for file in mine]
        else:
            (whole if told[piece.name] else good).extend(mine)
    sentences = [
        f"Out of date {whose}, in part: {'; '.join(parts)}." if parts else "",
        f"Out of date {whose}: {', '.join(whole)}." if whole else "",
        f"Still good {whose}: {', '.join(good)}." if good else "",
    ]
    return [sentence for sentence in sentences if sentence]


def of_a_set(positions: Iterable[str]) -> list[str]:
    """The files of a whole set: packs of some positions, all that is no pack of one, and the tools."""
    files = [file for piece in SET for file in piece.files if file != EACH_POSITION]
    files += [file for piece in PIECES if piece.name in ALWAYS for file in piece.files]
    return [*files, *pack_files(list(positions)).values()]


def with_packs(changes: Changes) -> list[str]:
    """The same with the packs that serve no more, where nobody says which positions there are."""
    gone = stale(changes)["packs"]
    if gone == ALL_OF_IT:
        return [*of_a_set(()), EACH_POSITION]
    return of_a_set(gone.split(", ") if gone else ())


def _packs(files: Sequence[str]) -> Iterator[str]:
    """Those of some files that are packs of positions."""
    heads = [file for piece in ALL for file in piece.files if file != EACH_POSITION]
    return (file for file in fnmatch.filter(files, EACH_POSITION) if file not in heads)


def _gone(file: str, where: str) -> bool:
    return where == ALL_OF_IT or (file in pack_files(where.split(", ")).values() and bool(where))
