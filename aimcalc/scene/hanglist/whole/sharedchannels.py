"""Channels that stand once over several rows, in a list that goes by channel."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.columnkeys import APART, REMARK, Headings
from aimcalc.scene.hanglist.rows.listrow import Row, text_of
from aimcalc.scene.hanglist.taken import Noticed


def share_channels(
    rows: list[Row], headings: Headings, titles: set[str], no_channel: set[str], noticed: Noticed
) -> None:
    """Read a channel as that of the rows below it in a list that goes by channel; note units that have
    none where it might."""
    first = min((c.place for c in headings.columns if c.key not in (REMARK, APART)), default=0)
    column = headings.by_key.get("channel")
    without = [row for row in rows if "channel" not in row.raw]
    if column is None or column.place != first or not without or len(without) == len(rows):
        return
    if _goes_by_channel(rows, without, headings, titles, no_channel):
        last: Any = None
        for row in rows:
            row.raw["channel"] = last = row.raw.get("channel", last)
        says = "the channel is blank: read as that of the row above, in a list by channel."
    else:
        says = "the channel is blank: they have none."
    _tell_blank(without, says, noticed)


def _tell_blank(without: list[Row], says: str, noticed: Noticed) -> None:
    """Note how the rows without a channel are read, the first dozen by their numbers."""
    told = ", ".join(row.where.entry.removeprefix("row ") for row in without[:12])
    more = f" and {len(without) - 12} more" if len(without) > 12 else ""
    noticed.note("list-channel", f"in rows {told}{more} {says}")


def _goes_by_channel(
    rows: list[Row], without: list[Row], headings: Headings, titles: set[str], no_channel: set[str]
) -> bool:
    """Whether a channel stands once over its rows: a title says that the list goes by channel, or its
    positions come and go; channels rise, and no blank row lacks its circuit or says that it has none."""
    typed = [text_of(row.raw["channel"]) for row in rows if "channel" in row.raw]
    if "channel" not in rows[0].raw or not all(text.isdigit() for text in typed):
        return False
    rising = all(int(a) < int(b) for a, b in pairwise(typed))
    runs = [row.raw.get("position") for row in rows]
    runs = [name for k, name in enumerate(runs) if not k or name != runs[k - 1]]
    said = any(_BY_CHANNEL.search(title) for title in titles)
    has_circuits = "circuit" in headings.by_key
    fed = all("circuit" in row.raw for row in without) if has_circuits else said
    none = {row.where.entry for row in without} & no_channel
    return rising and fed and not none and (said or len(runs) > len(set(map(str, runs))))


_BY_CHANNEL = regex(r"hook[\s-]*up|\bby channel|channel (?:list|order|schedule)", re.IGNORECASE)
