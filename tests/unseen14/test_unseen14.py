"""Eleven times forty more hang lists, typed blind by eleven writers with right readings beforehand.

Written and compared as those of `tests/unseen13`, by one page of instruction for all: lists as people keep
them, most of them plain tables with an oddity or two of the kind that spreadsheets have, no two with the same
headings, order and manner, a fifth in other languages.
By the rules before, in order: 35, 34, 37, 31, 37, 33, 17, 31, 29, 26 and 35 of 40 (31.4 on average). First
readings by rules that nobody made from them, those of their hour: a to c 35, 34, 37 (these rules were the
ones before); d to f 32, 37, 35; g 24; h to k 33, 34, 28, 36. `WRONG` is what becomes of those that are still
not read as typed; of h to k nobody has looked at most.

Changed since they were typed: the family of moving lights in the houses of f, which was none of ours.
"""

from __future__ import annotations

from tests.forties import forties_of

WRONG = {
    "a/st_late_night": "told, not asked: signed places of which nobody says what plus is are stage left",
    "b/wedding_and_concert_av": "asked: what the chancel step is, from which places count",
    "g/fringe_slot": 'asked: "All profiles are 25/50" below the table, and "Birdie"',
    "g/main_stage": "asked: what units light, of which a few remarks alone speak",
    "g/youth_theatre": 'asked: "2 m upstage of the line", which no line of the list explains',
    "h/house_plot": "asked: plus is right as seen from the mix position",
    "i/coalhole_improv": "asked: from which end units without places count",
    "k/booster_gala_notes": "asked: a title that explains two names, over lines without columns",
}

test_a_list_is_read_as_a_careful_person_reads_it, test_there_are_forty = forties_of(__file__, WRONG)
