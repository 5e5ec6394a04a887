"""Long tables worked through in blocks that a core's cache holds, on every core there is."""

from __future__ import annotations

import os
from collections.abc import Callable

BLOCK = 16384  # units at a time
ALONE = 4  # up to this many blocks, starting threads costs more than it saves


def in_blocks(count: int, work: Callable[[slice], None]) -> None:
    """Call `work` with slices that cover 0..count once. It must write to its own slice only.

    numpy lets go of the interpreter inside its loops, so threads really run side by side.
    """
    blocks = [slice(k, min(k + BLOCK, count)) for k in range(0, count, BLOCK)]
    cores = min(8, os.cpu_count() or 1)
    if len(blocks) <= ALONE or cores == 1:
        for block in blocks:
            work(block)
        return
    from concurrent.futures import ThreadPoolExecutor

    with ThreadPoolExecutor(cores) as pool:
        for _ in pool.map(work, blocks):
            pass
