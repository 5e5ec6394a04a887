"""Who lends the letters that DejaVu Sans lacks: the typeface that the scene names, else open ones found here.

Outlines are taken, not files: of the letters that the scene has and no others, with curves of the third order
turned into TrueType's. So typefaces of either sort of outline serve, a page embeds a few hundred bytes and
not megabytes, and a broken file is told of before anything is drawn. Font files are read by fontTools; the
table of letters is looked up here, since unfolding it costs more than all else.
"""

from __future__ import annotations

import os
import struct
import sys
from collections.abc import Iterable
from functools import cache, partial
from hashlib import blake2b
from typing import TYPE_CHECKING, Any

import msgspec
import numpy as np
from numpy.typing import NDArray

from aimcalc.rig.letters import (
    NOBODY,
    TAIL,
    TALLEST,
    Lent,
    Letter,
    from_the_right,
    lacking,
    shaped,
    written,
)
from aimcalc.scene.mistakes import Mistake, SceneError

if TYPE_CHECKING:
    from aimcalc.scene.model import Scene


# Well-kept open typefaces of even strokes, best first. All are under the SIL Open Font Licence, but Droid and
# WenQuanYi Micro Hei (Apache 2.0) and Zen Hei (GPL with its font exception): each may be embedded.
FOUND = (
    "NotoSansCJK-Regular.ttc",
    "NotoSansCJKsc-Regular.otf",
    "NotoSansCJKtc-Regular.otf",
    "NotoSansCJKjp-Regular.otf",
    "NotoSansCJKkr-Regular.otf",
    "NotoSansSC-Regular.otf",
    "NotoSansTC-Regular.otf",
    "NotoSansJP-Regular.otf",
    "NotoSansKR-Regular.otf",
    "SourceHanSans.ttc",
    "SourceHanSans-Regular.ttc",
    "DroidSansFallbackFull.ttf",
    "DroidSansFallback.ttf",
    "wqy-microhei.ttc",
    "wqy-zenhei.ttc",
    "NotoSansThai-Regular.ttf",
    "NotoSansEthiopic-Regular.ttf",
    "NotoSansCherokee-Regular.ttf",
    "NotoSansSymbols-Regular.ttf",
    "NotoSansSymbols2-Regular.ttf",
    "NotoEmoji-Regular.ttf",
    "unifont.otf",
    "unifont.ttf",
    "unifont_upper.otf",
    "unifont_upper.ttf",
)
MOST_BYTES = 100_000_000
MOST_PARTS, MOST_POINTS = 200, 5000  # of one letter
WIDEST = 4.0  # that a letter reaches from its start, of the type size
FINE = 0.0005  # how far a curve may be off, of the type size
THINNEST = 300  # weight of the strokes that a copy of a copy still shows
UNICODE = {(0, 0), (0, 1), (0, 2), (0, 3), (0, 4), (0, 6), (3, 1), (3, 10)}  # (platform, encoding)
NO_FILES, ONLY_BITMAPS = 0x0002, 0x0200  # what a maker may have forbidden


class TypefaceError(Exception):
    """A font file that cannot be used; the text says what is wrong with it."""


def lent_to(scene: Scene) -> Lent:
    """The letters of a scene that DejaVu Sans lacks, as far as some typeface lends them.

    Raises SceneError where the typeface that the scene names cannot be used.
    """
    wanted = _wanted(scene)
    if not wanted:
        return NOBODY
    letters: dict[str, Letter] = {}
    if scene.settings.typeface:
        try:
            letters |= outlines(os.path.join(scene.folder, scene.settings.typeface), wanted)
        except TypefaceError as wrong:
            expected = "an open TrueType or OpenType typeface with outlines"
            came = f"{scene.settings.typeface}: {wrong}"
            do = "Name another file, or leave the key out."
            mistake = Mistake(scene.file, "[scene]", "", "typeface", expected, came, do)
            raise SceneError(scene.settings.title, [mistake]) from None
    for path in found_here():
        if wanted <= letters.keys():
            break
        try:
            letters = outlines(path, wanted - letters.keys()) | letters
        except TypefaceError:  # not the user's: the next one
            continue
    return _marked(letters)


def _wanted(scene: Scene) -> set[str]:
    """Letters that may be lent: those of all that is written in a scene, and the same as capitals."""
    text = written(scene)
    if text.isascii():
        return set()
    return {c for c in lacking(text + text.upper()) if not (from_the_right(c) or shaped(c))}


def _marked(letters: dict[str, Letter]) -> Lent:
    if not letters:
        return NOBODY
    ordered = {c: letters[c] for c in sorted(letters)}
    digest = blake2b(msgspec.msgpack.encode(list(ordered.items())), digest_size=16)
    return Lent(ordered, digest.hexdigest())


@cache
def found_here() -> tuple[str, ...]:
    """The typefaces of `FOUND` that this machine has, best first."""
    here: dict[str, str] = {}
    for folder in _folders():
        for place, _, files in os.walk(folder):
            for file in files:
                here.setdefault(file, os.path.join(place, file))
    return tuple(here[name] for name in FOUND if name in here)


def _folders() -> list[str]:
    """Where typefaces lie that the user or the system installed."""
    home = os.path.expanduser("~")
    if sys.platform == "win32":
        own = os.environ.get("LOCALAPPDATA", os.path.join(home, "AppData", "Local"))
        shared = os.environ.get("WINDIR", r"C:\Windows")
        return [os.path.join(own, "Microsoft", "Windows", "Fonts"), os.path.join(shared, "Fonts")]
    if sys.platform == "darwin":
        return [os.path.join(home, "Library", "Fonts"), "/Library/Fonts"]
    data = os.environ.get("XDG_DATA_HOME") or os.path.join(home, ".local", "share")
    own = [os.path.join(data, "fonts"), os.path.join(home, ".fonts")]
    return [*own, "/usr/local/share/fonts", "/usr/share/fonts"]


def outlines(path: str, wanted: Iterable[str]) -> dict[str, Letter]:
    """Those of some letters that a font file has, the first face of a collection. Raises TypefaceError."""
    try:
        if os.path.getsize(path) > MOST_BYTES:
            raise TypefaceError(f"it is over {MOST_BYTES / 1e6:.0f} MB, the most that is read")
        return _read(path, wanted)
    except TypefaceError:
        raise
    except OSError as wrong:
        raise TypefaceError(f"it cannot be read: {wrong.strerror or wrong}") from None
    except Exception as wrong:  # whatever a reader of someone else's file may run into
        raise TypefaceError("it is broken, or is no TrueType or OpenType font file") from wrong


def _read(path: str, wanted: Iterable[str]) -> dict[str, Letter]:
    import logging

    from fontTools.ttLib import TTFont, TTLibError

    logging.getLogger("fontTools").addHandler(logging.NullHandler())  # what it remarks is for us
    with TTFont(path, fontNumber=0, lazy=True) as font:
        if not {"glyf", "CFF ", "CFF2"} & set(font.keys()):
            raise TypefaceError("its letters have no outlines, as pictures of them have none")
        _check(font)
        numbers = _numbers(font.reader["cmap"], wanted)
        if not numbers:
            return {}
        try:
            plain = {"wght": 400} if "fvar" in font else None
            glyphs, em = font.getGlyphSet(location=plain), font["head"].unitsPerEm
            drawn = {c: _letter(glyphs, font.getGlyphName(k), em) for c, k in numbers.items()}
        except TTLibError as wrong:
            raise TypefaceError("it is broken") from wrong
    return _fitted({c: letter for c, letter in drawn.items() if _seen(letter)})


def _check(font: Any) -> None:
    """Refuse what may not be embedded, and strokes that copies lose."""
    about = font.get("OS/2")
    if about is None:
        return
    if about.fsType & 0xF == NO_FILES or about.fsType & ONLY_BITMAPS:
        raise TypefaceError("its maker does not allow it to be embedded in a page")
    if about.usWeightClass < THINNEST and "fvar" not in font:
        raise TypefaceError(
            f"its strokes are too thin for copies (weight {about.usWeightClass}, least {THINNEST})"
        )


def _numbers(table: bytes, wanted: Iterable[str]) -> dict[str, int]:
    """The glyph of each letter that a font's table of letters has (OpenType 1.9, cmap, forms 4 and 12)."""
    (count,) = struct.unpack_from(">H", table, 2)
    entries = [struct.unpack_from(">HHI", table, 4 + 8 * k) for k in range(count)]
    unicode = [at for platform, kind, at in entries if (platform, kind) in UNICODE]
    forms = {struct.unpack_from(">H", table, at)[0]: at for at in unicode}
    if 12 in forms:
        number = partial(_in_groups, _groups(table, forms[12]))
    elif 4 in forms:
        number = partial(_in_segments, _segments(table, forms[4]))
    else:
        return {}
    return {letter: found for letter in wanted if (found := number(ord(letter)))}


def _groups(table: bytes, at: int) -> NDArray[np.int64]:
    """First and last letter and first glyph of every group, (3, G), in order."""
    (count,) = struct.unpack_from(">I", table, at + 12)
    return np.frombuffer(table, ">u4", 3 * count, at + 16).astype(np.int64).reshape(-1, 3).T


def _in_groups(groups: NDArray[np.int64], letter: int) -> int:
    first, last, glyph = groups
    k = int(np.searchsorted(last, letter))
    return int(glyph[k] + letter - first[k]) if k < len(last) and first[k] <= letter else 0


def _segments(table: bytes, at: int) -> tuple[int, NDArray[np.int64]]:
    """How many segments there are, and the words that tell of them: ends, 0, starts, steps, offsets ..."""
    (count,) = struct.unpack_from(">H", table, at + 6)
    words = np.frombuffer(table, ">u2", (len(table) - at - 14) // 2, at + 14)
    return count // 2, words.astype(np.int64)


def _in_segments(segments: tuple[int, NDArray[np.int64]], letter: int) -> int:
    count, words = segments
    k = int(np.searchsorted(words[:count], letter))
    if k == count or words[count + 1 + k] > letter:
        return 0
    start, step, place = words[count + 1 + k], words[2 * count + 1 + k], 3 * count + 1 + k
    if not words[place]:
        return int(letter + step) & 0xFFFF
    glyph = words[place + words[place] // 2 + letter - start]
    return int(glyph + step) & 0xFFFF if glyph else 0


def _letter(glyphs: Any, name: str, em: int) -> Letter:
    """A letter of a font whose units are `em` to the type size."""
    from fontTools.pens.cu2quPen import Cu2QuPen
    from fontTools.pens.recordingPen import RecordingPen

    steps, even = _pen(glyphs), RecordingPen()
    glyphs[name].draw(steps)
    steps.replay(Cu2QuPen(even, FINE * em, all_quadratic=True))
    if sum(len(points) for _, points in even.value) > MOST_POINTS:
        raise TypefaceError("a letter of it has too many points")
    outline = []
    for what, points in even.value:
        to = tuple(None if p is None else (p[0] / em, p[1] / em) for p in points)
        outline.append(("closePath" if what == "endPath" else what, to))
    return Letter(glyphs[name].width / em, tuple(outline))


def _pen(glyphs: Any) -> Any:
    """A pen that writes down an outline with all that it is made of, up to a bearable length."""
    from fontTools.pens.recordingPen import DecomposingRecordingPen

    class Bounded(DecomposingRecordingPen):  # type: ignore[misc]
        parts = 0

        def addComponent(self, *component: Any) -> None:  # noqa: N802 - fontTools calls it so
            self.parts += 1
            if self.parts > MOST_PARTS:
                raise TypefaceError("a letter of it has too many parts")
            super().addComponent(*component)

    return Bounded(glyphs)


def _seen(letter: Letter) -> bool:
    """Whether a letter can be seen, and lies where a letter does."""
    points = [point for _, points in letter.outline for point in points if point is not None]
    near = all(abs(x) <= WIDEST and abs(y) <= WIDEST for x, y in points)
    return bool(points) and near and 0 < letter.advance <= WIDEST


def _fitted(letters: dict[str, Letter]) -> dict[str, Letter]:
    """Letters made smaller together, where some are taller or deeper than the sheets have room for."""
    ends = [
        point[1]
        for letter in letters.values()
        for _, points in letter.outline
        for point in points
        if point is not None
    ]
    if not ends:
        return {}
    by = min(1.0, TALLEST / max(*ends, TALLEST), TAIL / max(-min(ends), TAIL))
    if by == 1.0:
        return letters
    return {
        c: Letter(
            letter.advance * by,
            tuple(
                (what, tuple(p and (p[0] * by, p[1] * by) for p in points))
                for what, points in letter.outline
            ),
        )
        for c, letter in letters.items()
    }
