"""Wide rigs as scene files, for what must stay in proportion: units by the dozen and by the thousand."""

from __future__ import annotations

from pathlib import Path

from tests.toml_rig import table

KINDS = ((20, 13, 60_000), (26, 18, 45_000), (36, 25, 28_000), (50, 32, 15_000))


def kinds() -> str:
    """Spotlights of four fields, named by them, with sizes so that bodies are asked about."""
    sizes = {"nose": 0.35, "length": 0.7, "width": 0.3, "drop_under": 0.36}
    return "\n".join(
        table("kind", name=f"ers {f}", family="ers", field=f, beam=b, peak_cd=cd, **sizes)
        for f, b, cd in KINDS
    )


def a_wide_wash(folder: Path, *, across: int = 6, rows: int = 4, systems: int = 3) -> Path:
    """A stage of 14 by 24 m with `across` by `rows` areas, each lit by one unit of every system.

    Borders over the stage, legs at its sides. Two areas of each system are lit by the wrong lens.
    """
    width, depth = 24.0, 14.0
    corner = [[-width / 2, 0], [width / 2, 0], [width / 2, depth], [-width / 2, depth]]
    outline = ", ".join(map(str, corner))
    parts = [f'[scene]\ntitle = "Wide wash"\n[stage]\noutline = [{outline}]\n']
    step_x, step_y = width / across, depth / rows
    for r in range(rows):
        y = step_y * (r + 0.5)
        for s in range(systems):
            place = y + (-5.0, 4.0, -4.0)[s % 3] - 0.6 * (s // 3)
            parts.append(table("pipe", name=f"{s}-{r}", trim=7.5, y=place, from_=-13.0, to=13.0))
        border = [[-13, y + 1, 6.2], [13, y + 1, 6.2], [13, y + 1, 9], [-13, y + 1, 9]]
        parts.append(table("solid", name=f"border {r}", panel=border))
        for side in (-13.0, 12.2):
            leg = [
                [side, y + 1, 0],
                [side + 0.8, y + 1, 0],
                [side + 0.8, y + 1, 8],
                [side, y + 1, 8],
            ]
            parts.append(table("solid", name=f"leg {r} {side}", panel=leg))
        for a in range(across):
            x = step_x * (a + 0.5) - width / 2
            name = f"{r}-{a}"
            parts.append(table("target", name=name, x=x, y=y))
            for s in range(systems):
                wrong = (r * across + a + 5 * s) % 11 == 0
                parts.append(
                    table(
                        "unit",
                        position=f"{s}-{r}",
                        number=a + 1,
                        at=round(x + (2.0 if s == 1 else 1.0) * (-1) ** s, 3),
                        kind="ers 20" if wrong else "ers 36",
                        target=name,
                        system=f"wash {s + 1}",
                        channel=str(1 + s * across * rows + r * across + a),
                    )
                )
    path = folder / "wide.toml"
    path.write_text("\n".join((*parts, kinds())), encoding="utf-8")
    return path


def a_stock_of_thousands(folder: Path, *, pipes: int = 60, units: int = 50) -> Path:
    """Units by the thousand in ten systems over a stage, and a stock of kinds some of which run short."""
    corner = [[-15, 0], [15, 0], [15, 20], [-15, 20]]
    outline = ", ".join(map(str, corner))
    parts = [f'[scene]\ntitle = "Thousands"\n[stage]\noutline = [{outline}]\n']
    for p in range(pipes):
        y = 20 * (p + 0.5) / pipes
        parts.append(table("pipe", name=str(p), trim=7.5, y=y, from_=-15.0, to=15.0))
        for u in range(units):
            x = 30 * (u + 0.5) / units - 15
            parts.append(
                table(
                    "unit",
                    position=str(p),
                    number=u + 1,
                    at=x,
                    kind=f"ers {KINDS[(p + u) % 4][0]}",
                    point=[round(x * 0.9 + (u % 3) * 0.4, 3), round(y * 0.9 + 2.0, 3), 1.65],
                    system=f"wash {p % 10 + 1}",
                )
            )
    whole = pipes * units
    counts = (0.15, 1.0, 0.25, 1.0)
    for (field, _, _), share in zip(KINDS, counts, strict=True):
        parts.append(table("stock", kind=f"ers {field}", count=int(whole * share)))
    path = folder / "thousands.toml"
    path.write_text("\n".join((*parts, kinds())), encoding="utf-8")
    return path
