"""The five houses, in the design's scene format, without units."""
# ruff: noqa: E501 - lists typed as they stand


def scene(title, unit, outline, pipes, booms, stands, targets, kinds, drop):
    (x0, y0, x1, y1) = outline
    out = [
        f'[scene]\ntitle = "{title}"\nunit = "{unit}"\n\n[stage]\noutline = [[{x0}, {y0}], [{x1}, {y0}], [{x1}, {y1}], [{x0}, {y1}]]\n'
    ]
    for name, trim, y, half in pipes:
        out.append(
            f'[[pipe]]\nname = "{name}"\ntrim = {trim}\ny = {y}\nfrom = {-half}\nto = {half}\n'
        )
    for name, x, y, height in booms:
        out.append(f'[[boom]]\nname = "{name}"\nx = {x}\ny = {y}\nheight = {height}\n')
    for name, x, y, z in stands:
        out.append(f'[[stand]]\nname = "{name}"\nx = {x}\ny = {y}\nz = {z}\n')
    for name, x, y in targets:
        out.append(f'[[target]]\nname = "{name}"\nx = {x}\ny = {y}\n')
    for name, family, field, watts in kinds:
        out.append(
            f'[[kind]]\nname = "{name}"\nfamily = "{family}"\nfield = {field}\ndrop_under = "{drop}"\ndrop_over = "{drop}"\nwatts = {watts}\n'
        )
    return "\n".join(out)


HALL = scene(
    "School and parish hall",
    "m",
    (-5, -1, 5, 7),
    [("FOH", 4.6, -5, 5), ("LX1", 4.3, 0.6, 5), ("LX2", 4.3, 3, 5), ("LX3", 4.3, 5.4, 5)],
    [("Boom SL", 4.6, 1.8, 3.2), ("Boom SR", -4.6, 1.8, 3.2)],
    [],
    [
        ("DSR", -2.8, 0.5),
        ("DSC", 0, 0.5),
        ("DSL", 2.8, 0.5),
        ("USR", -2.8, 3.6),
        ("USC", 0, 3.6),
        ("USL", 2.8, 3.6),
        ("Lectern", 3.2, -0.4),
        ("Backcloth", 0, 6.6),
    ],
    [
        ("Profile 26", "ers", 26, 600),
        ("Profile 36", "ers", 36, 600),
        ("Fresnel 650", "fresnel", 45, 650),
        ("Fresnel 1k", "fresnel", 45, 1000),
        ("PC 1k", "pc", 40, 1000),
        ("Par 64", "par", 25, 1000),
        ("Flood 500", "flood", 90, 500),
    ],
    "35cm",
)

PLAYHOUSE = scene(
    "Regional playhouse",
    "ft",
    (-20, -3, 20, 26),
    [
        ("FOH Cove", 24, -22, 22),
        ("1st Electric", 20, 2, 21),
        ("2nd Electric", 20, 10, 21),
        ("3rd Electric", 21, 18, 21),
    ],
    [("SL Boom", 19, 4, 14), ("SR Boom", -19, 4, 14)],
    [],
    [
        ("Area 1", 10, 2),
        ("Area 2", 0, 2),
        ("Area 3", -10, 2),
        ("Area 4", 10, 11),
        ("Area 5", 0, 11),
        ("Area 6", -10, 11),
        ("Door", -7, 17),
        ("Sofa", 5, 6),
        ("Cyc", 0, 25),
    ],
    [
        ("19deg ERS", "ers", 19, 575),
        ("26deg ERS", "ers", 26, 575),
        ("36deg ERS", "ers", 36, 575),
        ("50deg ERS", "ers", 50, 575),
        ("6in Fresnel", "fresnel", 45, 750),
        ("8in Fresnel", "fresnel", 50, 1000),
        ("PAR64 MFL", "par", 28, 1000),
        ("Cyc light", "cyc", 100, 1000),
    ],
    "14in",
)

OPERA = scene(
    "Opera and dance stage",
    "m",
    (-7, -1, 7, 12),
    [("Advance", 9, -6, 8), ("Bar 1", 7.5, 1, 8), ("Bar 2", 7.5, 4, 8), ("Bar 3", 7.5, 7, 8)],
    [
        ("SL Boom 1", 6.5, 1.5, 4),
        ("SL Boom 2", 6.5, 4.5, 4),
        ("SR Boom 1", -6.5, 1.5, 4),
        ("SR Boom 2", -6.5, 4.5, 4),
    ],
    [("Floor SL", 6, 8, 0.3), ("Floor SR", -6, 8, 0.3)],
    [
        ("DSR", -4, 1.5),
        ("DSC", 0, 1.5),
        ("DSL", 4, 1.5),
        ("CSR", -4, 4.5),
        ("CS", 0, 4.5),
        ("CSL", 4, 4.5),
        ("USR", -4, 8),
        ("USC", 0, 8),
        ("USL", 4, 8),
        ("Throne", 1.5, 9),
        ("Backcloth", 0, 11.5),
    ],
    [
        ("Profile 19", "ers", 19, 750),
        ("Profile 26", "ers", 26, 750),
        ("Profile 36", "ers", 36, 750),
        ("Profile 50", "ers", 50, 750),
        ("Fresnel 2k", "fresnel", 50, 2000),
        ("PC 1.2k", "pc", 40, 1200),
        ("Par 64 CP62", "par", 28, 1000),
    ],
    "35cm",
)

STUDIO = (
    scene(
        "Television studio",
        "m",
        (-6, -5, 6, 6),
        [("Bar A", 4.5, -4, 6), ("Bar B", 4.5, -1, 6), ("Bar C", 4.5, 2, 6)],
        [],
        [("Floor 1", -4, -3, 1.5), ("Floor 2", 4, -3, 1.5)],
        [
            ("Presenter", 0, 0),
            ("Guest 1", 1.5, 0.4),
            ("Guest 2", 2.6, 0.8),
            ("Band", -3, 2.5),
            ("Kitchen", 3.5, 2.5),
            ("Cyc", 0, 5.8),
        ],
        [
            ("Fresnel 650", "fresnel", 45, 650),
            ("Fresnel 1k", "fresnel", 45, 1000),
            ("Fresnel 2k", "fresnel", 50, 2000),
            ("Softlight", "flood", 90, 1250),
            ("Profile 26", "ers", 26, 600),
            ("Cyc flood", "cyc", 100, 1000),
        ],
        "40cm",
    )
    + """
[[pipe]]
name = "Side Bar"
start = [5.5, -4, 4.2]
end = [5.5, 4, 4.2]
zero = "middle"
"""
)

FESTIVAL = scene(
    "Outdoor and corporate stage",
    "m",
    (-6, -1, 6, 8),
    [("Front Truss", 5.5, -2, 6), ("Mid Truss", 5.5, 3, 6), ("Back Truss", 6, 7, 6)],
    [],
    [("Floor SL", 5, 2, 0.3), ("Floor SR", -5, 2, 0.3)],
    [
        ("Vocal", 0, 0.5),
        ("Guitar", -2.5, 1),
        ("Bass", 2.5, 1),
        ("Keys", 3.5, 3),
        ("Drums", 0, 4),
        ("Horns", -3.5, 3),
        ("Podium", 2, 0),
        ("Set", 0, 6),
    ],
    [
        ("PAR64 CP60", "par", 12, 1000),
        ("PAR64 CP61", "par", 16, 1000),
        ("PAR64 CP62", "par", 28, 1000),
        ("LED Par", "par", 30, 180),
        ("Profile 19", "ers", 19, 750),
        ("Profile 26", "ers", 26, 750),
        ("Blinder", "flood", 70, 1300),
    ],
    "30cm",
)

HOUSES = {
    "hall": HALL,
    "playhouse": PLAYHOUSE,
    "opera": OPERA,
    "studio": STUDIO,
    "festival": FESTIVAL,
}
