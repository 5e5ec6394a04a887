"""Sixteen times forty more hang lists, typed blind by sixteen writers with right readings beforehand.

Written and compared as those of `tests/unseen12`, by one page of instruction for all: lists as people keep
them, most of them plain tables with an oddity or two of the kind that spreadsheets have, no two with the same
headings, order and manner, a fifth in other languages.
By the rules before, in order: 27, 33, 35, 34, 36, 29, 34, 32, 26, 29, 36, 31, 35, 33, 37 and 27 of 40
(32.1 on average). First readings by rules that nobody made from them, each set by those of its hour: g to i
35, 35 and 27; j 34; k and l 37 and 36; m and n 35 and 38; o and p 38 and 31. `WRONG` is what becomes of those
that are still not read as typed.

Changed since they were typed: a key whose cells a spreadsheet took for formulas (g/devised), a colour that
says "none" in German (g/kramladen), and two right readings that called the column of channels circuits
(i/murderatteatime, i/springrecital).
"""

from __future__ import annotations

from tests.forties import forties_of

WHENCE = "asked: from where places on a pipe up and down the stage count, of which nothing is said"
WRONG = {
    "c/puppets": WHENCE,
    "d/apple-wine": 'a column "Dim ch" is read as circuits, as other writers mean it',
    "d/county-line": WHENCE,
    "f/twohander": WHENCE,
    "j/carols": 'a column "Dimmer channel" is read as circuits',
    "l/conte_musical": WHENCE,
    "l/passion_play": "asked: plus is L, and nobody says whose",
    "p/whodunnit": "asked: FLOOR over units of two stands, both numbered 1",
}

test_a_list_is_read_as_a_careful_person_reads_it, test_there_are_forty = forties_of(__file__, WRONG)
