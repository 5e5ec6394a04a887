"""The fitter on the nonlinear reference sets of NIST, to their certified values and standard deviations.

`strd/` holds the files of the Statistical Reference Datasets (NIST, Information Technology Laboratory, public
domain) as the source distribution of lmfit 1.3.4 ships them: data, model, starting values, and certified
values with 11 digits, worked out by NIST in 128 bits. The model of each is read from its own file; its
derivatives are by a complex step, exact to the last digits.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
import pytest

from aimcalc.landings.fit import least, spread

FILES = sorted((Path(__file__).parent / "strd").glob("*.dat"))
STEP = 1e-30
NUMBER = r"[-+]?[\d.]+(?:[Ee][-+]?\d+)?"
WORDS = {
    "exp": np.exp,
    "log": np.log,
    "cos": np.cos,
    "sin": np.sin,
    "arctan": np.arctan,
    "pi": np.pi,
}


class Set(NamedTuple):
    """One reference set: its model, two starts and certified values (P,), standard deviations (P,), data."""

    model: str
    starts: tuple[np.ndarray, np.ndarray]
    certified: np.ndarray
    deviations: np.ndarray
    residual: float
    y: np.ndarray
    x: dict[str, np.ndarray]

    def at(self, b: np.ndarray) -> np.ndarray:
        """The model's values (M,)."""
        names: dict[str, Any] = {f"b{k + 1}": value for k, value in enumerate(b)}
        return np.asarray(eval(self.model, {}, WORDS | names | self.x))

    def moves(self, b: np.ndarray) -> np.ndarray:
        """Derivatives (M, P) of the model, by a complex step."""
        columns = [
            self.at(b + 1j * STEP * (np.arange(b.size) == k)).imag / STEP for k in range(b.size)
        ]
        return np.stack([np.broadcast_to(column, self.y.shape) for column in columns], axis=1)


def read(path: Path) -> Set:
    text = path.read_text(encoding="latin-1")
    lines = text.splitlines()
    rows = re.findall(
        rf"^\s*b\d+\s*=\s*({NUMBER})\s+({NUMBER})\s+({NUMBER})\s+({NUMBER})", text, re.M
    )
    first, second, certified, deviations = np.array(rows, dtype=float).T
    residual = float(re.search(rf"Residual Standard Deviation:\s+({NUMBER})", text)[1])  # type: ignore[index]
    body = text[text.index("Model:") :]
    body = body[: re.search(r"Starting [Vv]alues", body).start()]  # type: ignore[union-attr]
    formula = body[re.search(r"(?:log\[)?y\]?\s*=", body).end() :]  # type: ignore[union-attr]
    formula = " ".join(formula.split()).split("+ e")[0].replace("[", "(").replace("]", ")")
    at = max(k for k, line in enumerate(lines) if line.startswith("Data:"))
    names = lines[at].split()[1:]
    table = np.array([line.split() for line in lines[at + 1 :] if line.strip()], dtype=float).T
    columns = dict(zip(names, table, strict=True))
    y = columns.pop("y")
    if re.search(r"log\[y\]\s*=", body):
        y = np.log(y)
    return Set(formula, (first, second), certified, deviations, residual, y, columns)


def digits(found: np.ndarray, certified: np.ndarray) -> float:
    """How many digits agree at the least: minus the logarithm of the largest relative error."""
    off = np.abs(found - certified) / np.abs(certified)
    return float(-np.log10(max(off.max(), 1e-16)))


DIGITS = 10  # of the 11 that are certified, the last may be rounded
# Its residuals are of 1e-13: what double precision leaves of them has three digits.
WITHIN_ROUNDING = {"Lanczos1": 2.5}


@pytest.mark.parametrize("start", [0, 1], ids=["far", "near"])
@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_the_fitter_reaches_the_certified_values(path: Path, start: int) -> None:
    each = read(path)
    with np.errstate(all="ignore"):  # a first step may go far
        found = least(
            lambda b: each.at(b) - each.y, each.moves, each.starts[start], near=1e-15, most=20_000
        )
    off = each.at(found) - each.y
    scale = np.sqrt(off @ off / (each.y.size - found.size))
    deviations = scale * np.sqrt(np.diag(spread(each.moves(found))))
    assert digits(found, each.certified) > DIGITS
    assert digits(deviations, each.deviations) > WITHIN_ROUNDING.get(path.stem, DIGITS)


def test_every_set_is_there() -> None:
    assert len(FILES) == 27
