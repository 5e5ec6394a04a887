"""The hang strip: true-scale tiles to tape along a pipe, with every clamp mark and yoke-bar line.

It begins at the end where the sheets begin. Tiles that would be empty are left out: what is left are pieces
of one tile or more. Two tiles a page, one above the other. What all tiles of a strip share is drawn once and
used again, so that many pages stay small and quick.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from typing import TYPE_CHECKING

from aimcalc.named import NamedTuple
from aimcalc.paper.page import SMALL, THIN, Box, Page, Sheet, Target, body_of, write_pages
from aimcalc.paper.stance import stance_words
from aimcalc.paper.true_scale import (
    BAND,
    CIRCUIT,
    CLAMP,
    MM,
    NUMBER,
    ONLY_TRUE,
    TALL,
    WORDS,
    bar_across,
    bar_upright,
    draw_bar,
    proof_length,
    proof_words,
)
from aimcalc.sheets.strip.label import Label, kept, labels, marks_on
from aimcalc.sheets.strip.marks import Strip, check_step, checks, strips
from aimcalc.text import words as w
from aimcalc.text.facts import SHORT, footer
from aimcalc.text.stamp import PaperOptions

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig


TYPE = 12.0  # pt


def guide_page(rig: SolidRig, strips: Sequence[Strip], a_page: int, options: PaperOptions) -> Page:
    """One page: the steps, then every strip with its tiles and where they are in the file."""
    return Page(partial(_draw, strips, a_page, options), footer(rig, "hang strip"), SHORT)


def steps(length: w.LengthUnit) -> list[str]:
    """How a strip is made and used, a step a line."""
    proof, step = proof_words(length), w.length(check_step(length), length, w.HANG)
    return [
        f'Print at 100 %, never "fit to page". Measure both {proof} bars of a page: bin it where one is '
        "off. Uniform scaling keeps angles, ruins lengths: at 94 % this strip is ruined.",
        "Cut each tile along its edge, lay it on the overlap line of its neighbour, glue, go on in order. "
        "Where nothing hangs there is no tile: a strip is of several pieces, and the tape measure leads from "
        "one to the next.",
        f"Lay each piece so that its marks are at their places from the zero mark. Measure from it to each "
        f"CHECK ({step} apart) as well, before the strip is taped.",
        "Lay it along the top of the pipe, printed side up, with its edges and ends to the sides they "
        "name. Stand as the strip says and read it from above, square to a pipe that slopes.",
        "The upright line at a number is the middle of that unit's clamp.",
        "The thick slanting line is the YOKE BAR, the yoke's top bar over the bolts, NOT the beam: the "
        "lens is a quarter turn from it, on the side named. Turn the yoke until its bar lies along the line.",
        "A boom's strip goes along the boom; its places and checks count from the foot.",
    ]


def _steps_for(strips: Sequence[Strip]) -> Iterator[str]:
    """What else is to be known of the strips of curved pipes and trusses, where there are any."""
    if any(strip.curved for strip in strips):
        yield (
            "A curved pipe's strip goes along its bend: cut it halfway between its marks, and lay each piece "
            "so that its mark is as far along the tube as it says, its line square to the tube."
        )
    if any(strip.truss for strip in strips):
        yield "A truss has one strip: lay it on each chord in turn; ON names the chord that a mark is for."


def _draw(strips: Sequence[Strip], a_page: int, options: PaperOptions, sheet: Sheet) -> None:
    body = sheet.body
    sheet.text(body.left, body.top - 24, "Hang strip", 26, bold=True)
    y = body.top - 34
    if not strips:
        sheet.text(body.left, y - 20, "Nothing hangs on a pipe or a boom in this scene.", TYPE)
        return
    for k, words in enumerate([*steps(options.length), *_steps_for(strips)], 1):
        sheet.text(body.left, y - 13.5, str(k), TYPE, bold=True)
        y = sheet.paragraph(body.left + 20, y - 2, words, TYPE, body.width - 20)
    _draw_contents(sheet, strips, a_page, y - 10)


def _draw_contents(sheet: Sheet, strips: Sequence[Strip], a_page: int, top: float) -> None:
    """Draw a line a strip, as small as they have to be."""
    left, page = sheet.body.left, 2
    step = min(17.0, (top - sheet.body.bottom) / (len(strips) + 1))
    size = min(TYPE, 0.75 * step)
    edges = [left, left + 170, left + 245, left + 330]
    for k, head in enumerate(("position", "tiles", "pages", "where you stand")):
        sheet.text(edges[k], top - step, head, size, bold=True)
    for n, strip in enumerate(strips, 2):
        tiles = sum(len(piece) for piece in kept(strip))
        pages = -(-tiles // a_page)
        stance = stance_words(strip.stance) if strip.up else "along the boom, TOP first"
        span = f"{page} to {page + pages - 1}" if pages > 1 else f"{page}"
        row = (strip.name, str(tiles), span, stance)
        for k, words in enumerate(row):
            sheet.text(edges[k], top - n * step, words, size, width=160 if k == 0 else None)
        page += pages


TILES = 2  # on a page, one above the other
OVERLAP = 12.0  # mm, glued under the next tile
CHECK_ROOM = 76.0  # mm, for the words of a check mark
END_WIDE = 44.0  # mm, for END and its words
FOLD = 2.5  # mm, half a triangle that points at an overlap line


class Paper(NamedTuple):
    """What all pages of one strip share. Places in pt."""

    strip: Strip
    tiles: list[int]  # those that hold something, in their order
    pieces: dict[int, int]  # of which piece of the strip each of them is
    labels: list[Label]
    left: float
    bottoms: tuple[float, ...]  # of the tiles, the upper first
    length: w.LengthUnit
    form: str
    mark: str  # of the set

    @property
    def wide(self) -> float:
        """From a tile's beginning to its overlap line, in pt."""
        return self.strip.tiling.pitch * 1000 * MM


def hang_strip(show: Show, target: Target, options: PaperOptions) -> int:
    """Number of pages of the hang strips, written to a path or a binary stream."""
    rig = show.rig
    made = strips(rig, options.length, options.holds)
    pages = [page for k, strip in enumerate(made) for page in _pages(rig, strip, k, options)]
    title = f"{rig.scene.settings.title}: hang strip"
    first = guide_page(rig, made, TILES, options)
    return write_pages(target, [first, *pages], options, title=title, landscape=True)


def _pages(rig: SolidRig, strip: Strip, k: int, options: PaperOptions) -> list[Page]:
    facts = footer(rig, strip.name, ["true scale: measure the proof bars"])
    paper = _paper(strip, k, options)
    return [
        Page(partial(_draw_page, paper, paper.tiles[first : first + TILES]), facts, SHORT)
        for first in range(0, len(paper.tiles), TILES)
    ]


def _paper(strip: Strip, k: int, options: PaperOptions) -> Paper:
    body = body_of(options, True, SHORT)
    wide = (strip.tiling.pitch * 1000 + OVERLAP) * MM
    left = (body.left + body.right - wide) / 2
    bottoms = (body.top - TALL * MM, body.bottom + 1.0)
    lines = [place for place, _ in checks(strip.tiling, check_step(options.length))]
    found = labels(strip.marks, strip.tiling, lines)
    pieces = {tile: n for n, piece in enumerate(kept(strip), 1) for tile in piece}
    form, mark = f"strip{k}", options.stamp.mark
    return Paper(strip, list(pieces), pieces, found, left, bottoms, options.length, form, mark)


def _draw_page(paper: Paper, tiles: Sequence[int], sheet: Sheet) -> None:
    """Draw one or two tiles with what they have in common."""
    sheet.again(f"{paper.form}proof", partial(_draw_between, paper))
    for tile, bottom in zip(tiles, paper.bottoms, strict=False):
        place = "lower" if bottom == paper.bottoms[-1] else "upper"
        sheet.again(f"{paper.form}{place}", partial(_draw_frame, paper, bottom))
        _draw_tile(sheet, paper, tile, bottom)


def _draw_between(paper: Paper, sheet: Sheet) -> None:
    """Draw the proof bars, one of them over both tiles' overlaps, and what to do with them."""
    upper, lower = paper.bottoms
    middle, long = (upper + lower + TALL * MM) / 2, proof_length(paper.length)
    bar_across(sheet, paper.left, middle - 6, long)
    bar_upright(sheet, paper.left + paper.wide + 8.5 * MM, middle - long * MM / 2, long)
    words = f"{proof_words(paper.length)}: measure me or bin me"
    sheet.text(paper.left, middle + 3, words, WORDS, bold=True, width=long * MM)
    x, right = paper.left + (long + 8) * MM, paper.left + paper.wide - 4
    stance = stance_words(paper.strip.stance)
    told = f"{stance}, looking down" if paper.strip.up else "tape it upright"
    told = f"{paper.strip.name}: {told}"
    sheet.text(x, middle + 3, told, WORDS, bold=True, width=right - x)
    sheet.text(x, middle - 10, ONLY_TRUE, SMALL, width=right - x)


def _draw_frame(paper: Paper, bottom: float, sheet: Sheet) -> None:
    """Draw a tile's edges, its overlap, the pipe's line and the ways it runs."""
    left, right, top = paper.left, paper.left + paper.wide, bottom + TALL * MM
    sheet.box(Box(left, bottom, right + OVERLAP * MM, top))
    sheet.line(right, bottom, right, top, weight=1.0, dash=4)
    for y, up in ((bottom, 1), (top, -1)):
        tip = (right, y + up * 2 * FOLD * MM)
        sheet.shape([(right - FOLD * MM, y), (right + FOLD * MM, y), tip], black=True)
    middle = bottom + TALL * MM / 2
    sheet.line(left, middle, right, middle, weight=THIN, dash=9)
    other = "the tile before" if paper.strip.backwards else "the next tile"
    glue = f"OVERLAP: cut {other} at its edge, lay it on this line"
    sheet.upright_text(right + 4.5 * MM, bottom + 8, glue, SMALL, TALL * MM - 16)
    _draw_ways(sheet, paper, top - BAND * MM + 5)


def _draw_ways(sheet: Sheet, paper: Paper, y: float) -> None:
    """Draw the way the strip runs, with an arrow each way, and the side up the page."""
    strip, left, right = paper.strip, paper.left, paper.left + paper.wide
    sheet.arrow(left + 26, y + 5, left + 5, y + 5)
    sheet.text(left + 30, y, strip.first, 14, bold=True)
    sheet.arrow(right - 26, y + 5, right - 5, y + 5)
    sheet.text(right - 30, y, strip.second, 14, bold=True, align="r")
    if strip.up:
        x = (left + right) / 2
        sheet.text(x, y, f"THIS EDGE {strip.up}", 14, bold=True, align="c")


def _draw_tile(sheet: Sheet, paper: Paper, tile: int, bottom: float) -> None:
    """Draw what one tile has of its own: checks, ends, marks and its name."""
    strip, left = paper.strip, paper.left
    _draw_low_band(sheet, paper, tile, bottom)
    for line in marks_on(strip.marks, strip.tiling, tile):
        x = left + line.x * MM
        if left <= x <= left + paper.wide:
            sheet.line(x, bottom + BAND * MM, x, bottom + (TALL - BAND) * MM, weight=CLAMP)
        if line.angle is not None:
            draw_bar(sheet, (left, left + paper.wide), bottom, x, line.angle, line.half)
    for label in paper.labels:
        if label.tile == tile:
            _draw_label(sheet, label, left + label.start * MM, bottom)
    _draw_ends(sheet, paper, tile, bottom)


def _draw_label(sheet: Sheet, label: Label, x: float, bottom: float) -> None:
    """Draw a mark's number with its circuit, kind, and what its line and lens do."""
    y = bottom + (TALL / 2 + 3 if label.upper else BAND + 1.5) * MM
    width, marks = label.width * MM, label.marks
    number = " + ".join(mark.number for mark in marks)
    taken = sheet.text(x, y + 15.5 * MM, number, NUMBER, bold=True, width=0.55 * width)
    room = width - taken - 8
    circuits = " + ".join(mark.circuit for mark in marks if mark.circuit)
    kinds = " + ".join(dict.fromkeys(mark.kind for mark in marks))
    kinds = f"{marks[0].where}: {kinds}"
    sheet.text(x + taken + 8, y + 22 * MM, circuits, CIRCUIT, bold=True, width=room)
    sheet.text(x + taken + 8, y + 15.5 * MM, kinds, WORDS, width=room)
    told = (marks[0].bar_words, marks[0].nose) if len(marks) == 1 else ()
    for k, words in enumerate(told):
        sheet.text(x, y + (8 - 5.2 * k) * MM, words, WORDS, bold=k == 0, width=width)


def _draw_low_band(sheet: Sheet, paper: Paper, tile: int, bottom: float) -> None:
    """Draw the zero mark or the total-length check of a tile, where it has one, and its name."""
    strip, step = paper.strip, check_step(paper.length)
    begin = strip.tiling.start + tile * strip.tiling.pitch
    low, high = paper.left + 3, paper.left + paper.wide - FOLD * MM - 3
    y = bottom + 5
    edge = f", this edge {strip.low}" if strip.low else ""
    name = f"{strip.name}, tile {paper.tiles.index(tile) + 1} of {len(paper.tiles)}"
    if paper.pieces[paper.tiles[-1]] > 1:
        name += f", piece {paper.pieces[tile]}"
    name += edge
    if paper.mark:
        name += f", set {paper.mark}"
    for place, count in checks(strip.tiling, step):
        x = paper.left + 1000 * (place - begin) * MM
        if strip.tiling.tile_of(place) == tile:
            _draw_check(sheet, x, bottom, zero=count == 0)
            words = f"CHECK {w.length(count * step, paper.length, w.HANG)} from {strip.zero}"
            after = high - x >= CHECK_ROOM * MM
            start = x + 11 if after else x - 11
            taken = sheet.text(
                start,
                y,
                words if count else strip.zero,
                WORDS,
                bold=True,
                align="l" if after else "r",
                width=CHECK_ROOM * MM - 11,
            )
            low, high = (start + taken + 9, high) if x - low < CHECK_ROOM * MM else (low, start - 9)
            if not after:
                high = min(high, start - taken - 9)
    at_end = low > paper.left + 3
    sheet.text(
        high if at_end else low, y, name, WORDS, align="r" if at_end else "l", width=high - low
    )


def _draw_check(sheet: Sheet, x: float, bottom: float, *, zero: bool) -> None:
    """Draw the line of a check mark, of the zero mark with a black triangle at each end."""
    low, high = bottom + BAND * MM, bottom + (TALL - BAND) * MM
    sheet.line(x, low, x, high, weight=1.5, dash=2.5)
    if zero:
        for y, up in ((low, 1), (high, -1)):
            sheet.shape([(x - 8, y), (x + 8, y), (x, y + up * 13)], black=True)


def _draw_ends(sheet: Sheet, paper: Paper, tile: int, bottom: float) -> None:
    """Draw END with its words on the first and the last tile, and the position's end where it is near."""
    strip, over = paper.strip, paper.strip.tiling
    for k, (place, word) in enumerate(strip.ends):
        if over.start < place < over.end and over.tile_of(place) == tile:
            x = paper.left + 1000 * (place - over.start - tile * over.pitch) * MM
            sheet.line(x, bottom + BAND * MM, x, bottom + (TALL - BAND) * MM, weight=6)
        if tile == (0, over.tiles - 1)[k]:
            _draw_end(sheet, paper, bottom, k, word, _end_words(strip, k, paper.length))


def _end_words(strip: Strip, k: int, length: w.LengthUnit) -> tuple[str, str]:
    """How far a position's end is past its outermost unit; `k` is 0 at the beginning, 1 at the end."""
    last = strip.marks[-k]
    beyond = (strip.ends[k][0] - last.place) * (1 if k else -1)
    far = w.length(beyond, length, w.HANG)
    if beyond < 0:
        return f"unit {last.number} is", f"{far} OFF IT"
    if not strip.up:
        return far, f"{'above' if k else 'below'} unit {last.number}"
    return f"ends {far}", f"past unit {last.number}"


def _draw_end(
    sheet: Sheet, paper: Paper, bottom: float, k: int, word: str, words: tuple[str, str]
) -> None:
    """Draw one END in a black box; `k` is 0 at the beginning, 1 at the end."""
    wide, middle = END_WIDE * MM, bottom + TALL * MM / 2
    left = paper.left + paper.wide - wide - 9 if k else paper.left + 5
    sheet.blank(Box(left, middle - 32, left + wide, middle + 31))
    sheet.box(Box(left, middle + 3, left + wide, middle + 31), black=True)
    sheet.text(
        left + wide / 2, middle + 9, word, 20, bold=True, align="c", width=wide - 8, white=True
    )
    for n, line in enumerate(words):
        sheet.text(left, middle - 13 - 14 * n, line, WORDS, bold=True, width=wide)
