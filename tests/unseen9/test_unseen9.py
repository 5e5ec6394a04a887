"""Nine times forty more hang lists, typed blind by nine writers with right readings beforehand.

Written and compared as those of `tests/unseen7`; `unread` may also stand at the top for all units of a list.
First readings of five: 23, 20, 22, 15 and 17 of 40 as a careful person reads them; nearly all others were
refused though they can be read, many of them mails, notes and sentences. The rules that these five gave read
the sixth right at 25, which the rules before would have read at 17. In the last three all are tables: those
of six read the seventh at 32 instead of 22, those of seven the eighth at 30 instead of 24, those of eight the
ninth at 30 instead of 20. Of the other 28 of these three six were read in a wrong way and told so, one of
them in the mirror, and 22 refused, all ten of the ninth among them. `WRONG` is what becomes of those that
are still not read.

Changed since they were typed: two lists that say of no unit what it lights are asked about (`asked`); the
numbers of one whose writer let either stand, "NB-1" or 1, are plain where NB is short for the bar.
"""

from __future__ import annotations

from tests.forties import forties_of

WRONG = {
    "d/mystery-plays": "told: TR-1 of the Tree is its unit 1, as NB-1 of the Nave Bar is",
    "c/e08-fringe": 'asked: "top" for a height',
    "c/e14-opera-workshop": "asked: a postscript that moves a unit of the list above it",
    "c/e18-band-ld": "asked: headings in a line below the units",
    "c/e21-dj-night": "asked: a bare L and R, which two of its units speak for and one against",
    "d/hs-teacher": 'asked: "Area A", of which the A may be an article',
    "d/local-crew": "asked: sides told by an order, and run-on lines",
    "d/museum-gallery": "asked: signs by points of the compass",
    "e/comedy-promoter": "asked: a kind by its two angles alone, in a sentence",
    "f/opera-07": "asked: a row of headings with a remark in it, and other columns",
    "g/opera-guest-ld-utf16": "asked: arrows for the sides, by a legend",
    "e/dance-relight": "asked: new headings, of which one names no key, over bars",
}

test_a_list_is_read_as_a_careful_person_reads_it, test_there_are_forty = forties_of(__file__, WRONG)
