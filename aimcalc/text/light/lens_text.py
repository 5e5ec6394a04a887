"""What `aimcalc lens` prints, and the proposal as a file that can be compared with the next one."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from math import isfinite
from typing import TYPE_CHECKING

import msgspec

from aimcalc.coverage.lens_wanted import KEPT, MEETS, POOL
from aimcalc.findings.numbering import no_units
from aimcalc.text import words as w
from aimcalc.text.columns import folded, table
from aimcalc.text.facts import headline
from aimcalc.text.light import cover_lists as lw
from aimcalc.text.lists import DIGITS, Cell, csv_bytes, json_bytes
from aimcalc.text.stamp import PaperOptions, drafted
from aimcalc.text.tables import findings_text

if TYPE_CHECKING:
    from aimcalc.coverage.lens import Forecast, LensPlan, Outlook, Proposal
    from aimcalc.light.evenness import Uniformity
    from aimcalc.solid.rig import SolidRig


HEADS = (
    "unit",
    "has",
    "wanted",
    "pool",
    "why",
    "proposed",
    "pool",
    "misfit",
    "next best",
    "misfit",
)
SECOND_LINE = ("proposed",)  # where a row goes on in a narrow terminal
OUTLOOK_HEADS = ("system", "U0 now", "then", "holes now", "then")
STOCK_HEADS = ("kind", "there are", "used", "left", "short")
FILE_KEYS = (
    "unit",
    "system",
    "kind",
    "proposed",
    "wanted_field",
    "proposed_field",
    "wanted_pool",
    "pool",
    "cost",
    "first_choice",
    "next_best",
    "next_cost",
)
OFF = 0.2  # share by which a pool may miss the wanted one unsaid


def lens_text(rig: SolidRig, outlook: Outlook, unit: w.LengthUnit, width: int | None = None) -> str:
    """A lens proposal for a terminal: every unit, what is short, what it would do to each system.

    `width` is the terminal's, see `aimcalc.text.columns`.
    """
    if not rig.units:
        return f"{folded(headline(rig), width)}\n\n{findings_text(list(no_units(rig)), width)}"
    plan = outlook.plan
    changed = sum(each.changes for each in plan.units)
    parts = [
        f"{rig.scene.settings.title}: {w.count(changed, 'change')} proposed to "
        f"{w.count(len(plan.units), 'unit')}, misfit {plan.cost:.2f} (0: every pool as wanted).\n"
        "The scene is not changed.",
        _lines(HEADS, [_row(each, unit) for each in plan.units], width, SECOND_LINE),
        "\n".join(["What to know", *(f"  {line}" for line in _notes(outlook, unit))]),
    ]
    if plan.stock:
        rows = [(s.kind, *map(str, (s.count, s.used, s.left, s.short))) for s in plan.stock]
        parts.append(f"Stock\n{_lines(STOCK_HEADS, rows, width)}")
    if outlook.systems:
        rows = [_outlook(each, unit) for each in outlook.systems]
        parts.append(f"What it would do\n{_lines(OUTLOOK_HEADS, rows, width)}")
    return "\n\n".join(folded(part, width) for part in parts)


def _lines(
    heads: Sequence[str],
    rows: Sequence[Sequence[str]],
    width: int | None,
    anew: Sequence[str] = (),
) -> str:
    return "\n".join(table(heads, rows, width, anew))


def lens_json(rig: SolidRig, outlook: Outlook) -> bytes:
    """The proposal as one JSON object, indented, in metres and degrees."""
    told = {
        "scene": rig.scene.settings.title,
        "unit_of_length": "m",
        "units": outlook.plan.units,
        "stock": outlook.plan.stock,
        "cost": outlook.plan.cost,
        "kept": outlook.kept,
    }
    return json_bytes(told)


def lens_file(rig: SolidRig, plan: LensPlan, *, csv: bool) -> bytes:
    """The proposal as a file, CSV or TOML."""
    return lens_csv(rig, plan) if csv else lens_toml(rig, plan)


def lens_csv(rig: SolidRig, plan: LensPlan) -> bytes:
    """The proposal, a row for each unit in hang order; metres and degrees."""
    tried = rig.scene.what_if
    options = PaperOptions(draft=bool(tried), what_if=tried)
    return csv_bytes(FILE_KEYS, (_cells(each) for each in plan.units), options)


def lens_toml(rig: SolidRig, plan: LensPlan) -> bytes:
    """The proposal as TOML, an entry for each unit in hang order; metres and degrees."""
    tried = rig.scene.what_if
    lines = [
        *([f"# {drafted(tried)}"] if tried else []),
        f"# Lens proposal for {rig.scene.settings.title}, revision {rig.scene.settings.revision or '-'}.",
        "# Fields are full angles in degrees, pools metres square to the axis at the face.",
        "# Cost is the misfit: 0 is a pool as wanted. Nothing in the scene was changed.",
        "",
        f"cost = {_toml(plan.cost)}",
    ]
    for each in plan.units:
        pairs = zip(FILE_KEYS, _cells(each), strict=True)
        lines += ["", "[[unit]]", *(f"{k} = {_toml(v)}" for k, v in pairs if v is not None)]
    for stock in plan.stock:
        values = msgspec.structs.asdict(stock)
        lines += ["", "[[stock]]", *(f"{k} = {_toml(v)}" for k, v in values.items())]
    return ("\n".join(lines) + "\n").encode()


def _cells(each: Proposal) -> list[Cell]:
    return [getattr(each, key) for key in FILE_KEYS]


def _toml(value: Cell) -> str:
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False)  # TOML's basic strings take the same escapes
    return str(round(value, DIGITS) + 0 if isinstance(value, int) else round(value or 0.0, DIGITS))


def _row(each: Proposal, unit: w.LengthUnit) -> tuple[str, ...]:
    mark = "" if not each.changes else " *"
    return (
        each.unit,
        f"{each.kind} ({each.field:.0f}°)",
        f"{each.wanted_field:.0f}°",
        _pool(each.wanted_pool, unit),
        _why(each),
        "none left" if each.proposed is None else f"{each.proposed}{mark}",
        _pool(each.pool, unit),
        _cost(each.cost),
        each.next_best or "none",
        _cost(each.next_cost),
    )


def _why(each: Proposal) -> str:
    if each.why == MEETS:
        return f"meets {', '.join(each.meets)}"
    return {POOL: "pool asked for", KEPT: "to keep"}.get(each.why, "as it is")


def _pool(metres: float | None, unit: w.LengthUnit) -> str:
    return "" if metres is None else w.length(metres, unit, w.SIZE)


def _cost(cost: float | None) -> str:
    return "" if cost is None else f"{cost:.2f}"


def _outlook(each: Forecast, unit: w.LengthUnit) -> tuple[str, ...]:
    return (
        each.system,
        _evenness(each.now),
        _evenness(each.then),
        lw.area(each.holes_now, unit) if isfinite(each.now.mean) else lw.NOT_KNOWN,
        lw.area(each.holes_then, unit) if isfinite(each.then.mean) else lw.NOT_KNOWN,
    )


def _evenness(figures: Uniformity) -> str:
    return f"{figures.u0:.2f}" if isfinite(figures.u0) else lw.NOT_KNOWN


def _notes(outlook: Outlook, unit: w.LengthUnit) -> Iterator[str]:
    plan = outlook.plan
    yield "* is a change."
    yield "Misfit: how far a pool is from the one wanted, twice that where it is too small."
    yield "For a system's units it counts too how far their light is from that of the rest."
    yield "Holes, now and then, are by the mean that the system then has."
    for stock in plan.stock:
        if stock.short:
            yield f"{stock.kind} is short: {stock.short} more wanted than the {stock.count} there are."
    yield from _second_best(plan.units)
    for each in plan.units:
        if each.off is not None and abs(each.off) > OFF and each.why in (MEETS, POOL):
            size = "larger" if each.off > 0 else "smaller"
            yield (
                f"{each.unit}: the pool of {each.proposed} is {lw.share(abs(each.off))} {size} than "
                f"wanted ({_pool(each.pool, unit)}, not {_pool(each.wanted_pool, unit)})."
            )
    for system in outlook.kept:
        yield f"System {system} keeps what it has, as far as the stock goes: others leave it more holes."
    if not plan.stock:
        yield "The scene has no [[stock]]: stock taken as unlimited."


def _second_best(units: Sequence[Proposal]) -> Iterator[str]:
    for each in units:
        if each.proposed is None:
            yield f"{each.unit}: nothing in the stock is left that could go there."
        elif each.first_choice not in (None, each.proposed):
            yield f"{each.unit}: {each.first_choice} would be best; {each.proposed} is what is left."
