"""Forties of hang lists by writers who had the request's own words, checked by careful readers beforehand.

Written and compared as those of `tests/unseen14`, but measured in another way, which was settled before any
was written. Five writers typed sixteen lists each, blind, from one page: the words in which the hang list was
asked for, the form of the files, and who they imagine to be (from a part of the English-speaking world, or
from continental Europe). Then five careful readers, who saw neither the program nor the right readings, read
each list from the page alone: 552 of the 560 as its writer did, to the last colour and channel. The others
differ in a colour that stands among the remarks, in whether a number on the desk is a channel, or in whether
two targets in a cell, or "evenly about the centre", are to be asked about; they are compared as they were
typed. A and b are such a wave of eighty, c and d the next, and so on.
By the rules of the day before: 75, 71, 72, 71, 74, 75 and 73 of 80 (36.5 of 40). First readings by rules that
nobody made from them, those of their hour: 75, 71, 72, 72, 76, 76 and 75; forty by forty 35 40, 36 35, 34 38,
36 36, 37 39, 37 39 and 40 35. Of the last three waves 227 of 240 (37.8 of 40): of the other 13 eleven were
asked about, one lost its channels and one the letters of four numbers, told in a note each. Of the first four
waves six were read otherwise with notes alone, one of them in the mirror: "(-) derecha (+) izquierda".
`WRONG` is what becomes of those that are not read as typed.

Changed since they were typed: kinds without a field in the houses of one writer got one (e, f), and the name
of a maker of gels was taken out of some lists.
"""

from __future__ import annotations

from tests.forties import forties_of

MOST_ASKED = 8
WRONG = {
    "c/tosca": "asked: a column a side, headed by what lies there in the town",
    "e/brigadoon": "a gel with its name behind its number is read as the number",
}

test_a_list_is_read_as_a_careful_person_reads_it, test_there_are_forty = forties_of(
    __file__, WRONG, MOST_ASKED
)
