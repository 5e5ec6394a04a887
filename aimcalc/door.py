"""What `import aimcalc` offers: a show that is read from files and writes its paper.

`Show` itself stands under the sheets, which receive it; writing them stands above.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from os import PathLike, fspath
from pathlib import Path
from typing import Literal

from aimcalc.show import Show

SAID = 3  # stops told by name where they hold the sheets back


class OpenShow(Show):
    """A show with all that `prep` can make of it."""

    def write(
        self,
        folder: str | PathLike[str],
        only: Iterable[str] | None = None,
        *,
        paper: Literal["a4", "letter"] | None = None,
        draft: bool = False,
        section: Iterable[str] = (),
        reproducible: bool = False,
        scale: str | None = None,
        sheet: str | None = None,
    ) -> list[Path]:
        """Make what `aimcalc prep` makes into `folder`, or `only` some pieces of it; the files made.

        The options are those of `prep` for a whole set; lengths are in the unit that the show was read with.
        Raises ValueError for a name, a scale or a sheet that is none and, without `draft`, while a stop holds
        the sheets back; PieceError for a piece that cannot be made; OSError when the disk refuses. The folder
        then stays as it was.
        """
        from aimcalc.findings.pose import holds_back
        from aimcalc.paper.tiles import scale_named, sheet_named
        from aimcalc.sheets.pieces import chosen
        from aimcalc.sheets.prep import options_for, prepare
        from aimcalc.text.whole import mend

        pieces = chosen(only if only is None or isinstance(only, str) else ",".join(only))
        if not draft and (stops := holds_back(self.rig, self.findings)):
            said = " ".join(stop.says for stop in stops[:SAID])
            raise ValueError(
                f"Nothing was made, the scene has stops ({len(stops)}): {said} Fix them, or say draft=True."
            )
        options = options_for(
            self.rig,
            paper=paper,
            length="ft" if self.scene.settings.unit in ("ft", "in") else "m",
            draft=draft,
            section=section if isinstance(section, str) else ",".join(section),
            printed=None if reproducible else datetime.now().astimezone(),
            plot=(scale_named(scale) if scale else None, sheet_named(sheet) if sheet else None),
        )
        mend(fspath(folder))
        made = prepare(self, fspath(folder), options, pieces)
        return [Path(folder, file) for each in made for file in each.piece.files]


read = OpenShow.read
