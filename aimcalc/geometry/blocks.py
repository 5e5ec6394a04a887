"""Long tables worked through in blocks, on every core there is.

A block is long enough that threads seldom wait for one another's turn at the interpreter (16,384 units
take half as long again on two cores), and short enough that what it needs on the way stays small.
"""

from __future__ import annotations

import os
from collections.abc import Callable

BLOCK = 65536  # units at a time
ALONE = 1  # up to this many blocks, threads have nothing to share


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
