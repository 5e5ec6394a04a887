"""The only column of lengths that is no key of a unit, as that of places, where it is known from where it
counts: a line round the table says it, or its cells have signs."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.byvalues import NEARLY, is_another
from aimcalc.scene.hanglist.columns.columnclaims import FITTING, LOOKED_THROUGH, Fits, Shares
from aimcalc.scene.hanglist.columns.columnkeys import AT_PARTS, GAP, REMARK, SIDE, Column, Headings
from aimcalc.scene.hanglist.pagelines.said import Said
from aimcalc.scene.hanglist.places.ends import side_from
from aimcalc.scene.hanglist.places.origins import Upstage
from aimcalc.scene.hanglist.places.placeforms import BARE_SIDE
from aimcalc.scene.hanglist.places.stagelines import depths_alone
from aimcalc.scene.hanglist.tongues.tongues import in_english
from aimcalc.scene.hanglist.whole.unreadlengths import OF_ELSE, unread_lengths

# What lengths with their units may be of, besides what broken figures are.
_OF_THINGS = regex(
    r"reel|drop|safety|tail|\blead|extension|jumper|\barm|size|wide|width|diam|depth|chain|sling|rope|bond|iris"
    r"|shutter|frame|speed|pool|spread|\brun\b|stock|case|\brod|stem|frequen|level|scene|truck|floor",
    re.IGNORECASE,
)


# Words over figures without a unit that somebody measured, where it is known from where they count.
_MEASURES = regex(
    r"\bwhere|\bvalue|\bfig|\bread|\btape|\bspot|\bset|\bstation|\bpos|\bloc|\bplace|\bmeas|\bdim|\bdist|\bout\b|\bin\b"
    r"|\balong|\bwalk|\bmark|\bhow|\bhang|\bhung|\brig|\bp(?:oin)?t\b|\bfrom|\bto\b|\bx\b|\boff",
    re.IGNORECASE,
)
_DIM = regex(r"\W*dims?\b\W*", re.IGNORECASE)


def known_whence(said: Said) -> bool:
    """Whether lines round the table say from where, or which way, the places of its units count."""
    if said.step or said.even:
        return False  # and so no column has to
    across = said.end or said.plus or said.vague or said.plus_bare
    return bool(across or said.upstage != Upstage() or said.top or said.plaster)


def only_lengths(
    headings: Headings, below: Sequence[list[Any]], fits: Fits, said: Said, *, dims: bool = False
) -> Column | None:
    """The one column that holds lengths and is no key of a unit, where no column holds places and it is
    known from where these count; None where it is not, or there are several. With `dims`, a line calls the
    places so, and a column of that heading is none of dimmers."""
    if {"at", GAP, SIDE, *AT_PARTS} & headings.by_key.keys():
        return None
    rows = list(below[:LOOKED_THROUGH])
    share = Shares(rows, fits)
    called = [c for c in headings.columns if _DIM.fullmatch(c.heading) and not c.settled]
    if len(called) == 1 and known_whence(said):
        k = called[0].place
        if share("figure", k) >= NEARLY and (dims or share("minus", k) > 0):  # no dimmer has one
            return called[0]
    columns = [
        c
        for c in headings.columns
        if (said.plaster and depths_alone(c.heading)) or not _is_of_else(c.heading, down=said.top)
    ]
    columns = [c for c in columns if side_from(c.heading) in ("", said.end.casefold())]
    found = [column for column in columns if _holds_lengths(column, share, said)]
    if len(found) != 1:
        lengths = unread_lengths(headings, rows, fits)
        found = [column for column in lengths if column in columns]
    if not found and said.plus:  # whatever they are called
        found = [column for column in headings.columns if _has_signs(column, share)]
    if len(found) != 1:
        return None
    k = found[0].place
    signed = share("minus", k) > 0 and share("at", k) >= NEARLY
    sided = said.centred and share("which place", k) > 0  # how far alone is not which way
    return found[0] if signed or sided or known_whence(said) else None


def guessed(headings: Headings, place: int) -> Headings:
    """The columns with one of them taken for a guess: what its heading does not say is looked for."""
    columns = tuple(
        column._replace(meaning=column.meaning._replace(exact=False))
        if column.place == place
        else column
        for column in headings.columns
    )
    by_key = {c.key: c for c in columns if headings.by_key.get(c.key, c).place == c.place}
    by_key = {key: column for key, column in by_key.items() if key in headings.by_key}
    return headings._replace(columns=columns, by_key=by_key)


def _holds_lengths(column: Column, share: Shares, said: Said) -> bool:
    """Whether a column that is no key holds lengths with their units, or of which some have a minus, or plain
    figures under a heading that names their unit or says that they are measured, and its heading is of
    nothing else."""
    if column.key != REMARK or column.settled:
        return False
    k = column.place
    measured = share("minus", k) > 0 or bool(_MEASURES.search(column.heading))
    measured = measured or (said.plaster and depths_alone(column.heading))
    if measured and known_whence(said) and share("figure", k) >= NEARLY:
        return True
    lengths = share("length", k) >= FITTING or share("decimal", k) >= FITTING
    plain = bool(column.meaning.unit) and share("figure", k) >= FITTING
    signed = share("minus", k) > 0 or share("length and more", k) >= FITTING
    return share("at", k) >= NEARLY and (lengths or plain or signed)


def _has_signs(column: Column, share: Shares) -> bool:
    """Whether a column that is no key holds figures alone, of which some have a minus."""
    k = column.place
    figures = share("figure", k) >= NEARLY and share("minus", k) > 0
    return column.key == REMARK and not column.settled and figures


def _is_of_else(heading: str, *, down: bool) -> bool:
    """Whether a heading is of lengths that are no places, or of another time; a drop is none where places
    count `down` from the top."""
    plain = re.sub(r"(?i)from|\bdrop\b" if down else r"(?i)from", " ", heading)
    if BARE_SIDE.search(in_english(heading)):
        return True  # "(+ = left)": of whom, nobody says
    return is_another(plain) or bool(OF_ELSE.search(plain) or _OF_THINGS.search(plain))
