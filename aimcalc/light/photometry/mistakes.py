"""What is wrong with a photometric file, for the person who has to put it right."""

from __future__ import annotations


class PhotometryError(ValueError):
    """A photometric file that cannot be used: which file, which line, what was expected, what came."""

    def __init__(self, path: str, line: int | None, says: str) -> None:
        place = path if line is None else f"{path}, line {line}"
        super().__init__(f"{place}: {says}")
        self.path = path
        self.line = line
        self.says = says
