"""Twenty times forty more hang lists, typed blind by twenty writers with right readings beforehand.

Written and compared as those of `tests/unseen10`, by one page of instruction for all: lists as people keep
them, most of them plain with an oddity or two, a fifth in other languages. By the rules before, the first
eighteen were read at 25 to 34 of 40 (29 on average), and 27 of the 720 wrong. Rules were made from some
forties and tried on the next, of which nobody who made rules had seen anything. First readings so: e to h
38, 33, 33 and 36; i to l 37, 35, 38 and 34; m and n 34 and 35; o to t 37, 39, 37, 38, 37 and 36. Of those
last 240, four were read in other places or without their channels (one in the mirror) and one with a note
where a question was due, each told: places on pipes up and down the stage whose line was not heard, a word
for a channel, places without a side. They are read or asked about since.
`WRONG` is what becomes of those that are still not read as typed.

Changed since they were typed: the units of the shelves "Head", "Mid" and "Shin" of one list are called so,
as another writer wanted it, and not 1, 2 and 3.
"""

from __future__ import annotations

from tests.forties import forties_of

WRONG = {
    "s/schultheater": "asked: whose left it is, in the heading's bracket",
}

test_a_list_is_read_as_a_careful_person_reads_it, test_there_are_forty = forties_of(__file__, WRONG)
