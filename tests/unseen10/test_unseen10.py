"""Ten times forty more hang lists, all tables, typed blind by ten writers with right readings beforehand.

Written and compared as those of `tests/unseen9`. These writers kept to lists as people keep them, units
without numbers, legends of codes, gaps, other languages and ends of side pipes among them. First readings
of the first six by the rules before: 13, 17, 16, 7, 14 and 17 of 40, by what their writers had typed of
places on pipes up and down the stage and of addresses (below). Of the next two, 22 and 12 with that mended;
rules made from the six read them at 28 and 21, before those of side pipes were in. The last two, of which
nobody who made rules had seen anything, would have been read at 15 and 10 by the rules before, and were
read at 23 and 24. Four of their 33 others were read in a wrong place, one of them in the mirror: a title
said the side of its table, and was not heard. `WRONG` is what becomes of those that are still not read; all
but three are asked about: since units with neither numbers nor places are read as they are listed, with two
warnings, so is the one of which nothing says from which end its rows run.

Changed since they were typed, for all: places on pipes up and down the stage count from the plaster line,
as those of `tests/unseen7` do, and not from the middle of the pipe as their writers had been told; an
address is no circuit (`unread`), as is a patch. For one each: a list without numbers and places, whose one
line on their order contradicts itself, is asked about, and "Mode / DMX" is an address. Words of makers were
taken out.
"""

from __future__ import annotations

from tests.forties import forties_of

WRONG = {
    "n/Nativity lights": "told in two warnings, not asked",
    "j/schedule-export": "asked: units without places, one of them with a letter to its number",
    "m/fashion-show-truss": "asked: a first place and a spacing over units, and new columns in a later block",
    "q/sidelights": "asked: a grid with booms across and heights down",
    "q/victorian-ghost": "asked: a stand and a kind in one cell",
    "r/lamp-schedule": '"do." under 17 is read as 17, where its writer meant the 52 of the same lantern',
    "r/touring-contemporary": "asked: columns that are named below the units alone",
}

test_a_list_is_read_as_a_careful_person_reads_it, test_there_are_forty = forties_of(__file__, WRONG)
