"""The trade's words for kinds of lights, in the languages of houses that tour, each with the word that
stands for it."""

from __future__ import annotations

_SAID: dict[str, tuple[str, ...]] = {
    "ers": (
        *("ers", "ellipsoidal", "ellipsoidals", "ellips", "ellip"),
        *("profile", "profiles", "prof", "profs", "profiler", "profil", "profils"),
        *("profilo", "profili", "profiel", "profielen", "profielspot", "profilspot"),
        *("profilscheinwerfer", "zoomprofile", "zoomprofil", "decoupe", "decoupes", "dec"),
        *("sagomatore", "sagomatori", "sagom", "recorte", "recortes", "elipsoidal", "elipsoidales"),
        *("leko", "lekos", "perfil", "perfiles"),
    ),
    "fresnel": (
        *("fresnel", "fresnels", "fres", "fresn", "frez", "fresnell", "fresnelspot"),
        *("stufenlinse", "stufenlinsen", "stufenl", "stufen", "stufenlinsenscheinwerfer"),
    ),
    "pc": (
        *("pc", "pcs", "planoconvex", "planconvex", "planconvexe", "planconvexes", "plankonvex"),
        *("plankonvexe", "pianoconvesso", "pianoconvessi", "planoconvexo", "planoconvexos"),
        *("planoconvexe", "prism", "prisms", "linsenscheinwerfer", "linsenspot"),
    ),
    "par": (
        "par",
        "pars",
        "parcan",
        "parcans",
        "parkanne",
        "parkannen",
        "parspot",
        "kanne",
        "kannen",
    ),
    "flood": ("flood", "floods", "floodlight", "floodlights", "fluter", "flutlicht", "fluters"),
    "cyc": (
        *("cyc", "cycs", "cyclorama", "cyclight", "cyclights", "ciclorama", "cyklorama"),
        *("horizon", "horizons", "horizont", "horizonte", "horizonten", "horisont", "orizzonte"),
        *("rundhorizont", "panorama", "panoramas", "horizontleuchte", "horizontfluter"),
        *("horizontflut", "horizontfluten", "cyclo", "cyclos", "horiziode", "horiziodes"),
    ),
    "asym": (
        *("asym", "assym", "asymm", "asymmetric", "asymmetrical", "asymmetrique", "asymetrique"),
        *("asymmetrisch", "asymmetrische", "asymmetrisk", "asimmetrico", "asimmetrici"),
        *("asimetrico", "asimetricos", "asymmetriques", "asymetriques"),
    ),
    "batten": (
        "batten",
        "battens",
        "rampe",
        "rampes",
        "rampa",
        "rampas",
        "strip",
        "strips",
        "striplight",
        "striplights",
    ),
    "soft": ("soft", "softs", "softlight", "softlights"),
    "led": ("led", "leds"),
    "hmi": ("hmi", "hmis", "msr"),
    "moving": ("moving", "mover", "movers"),
    "blinder": ("blinder", "blinders", "blinds"),
}
# A word as it is written, in lower case and without accents, and that which stands for it.
KIND_TRADE = {word: stands for stands, words in _SAID.items() for word in words}
# What a kind's name says of its sort: one of a cell's words, and one too many where the cell has not said it.
SORTS_OF_KIND = frozenset(_SAID)
# What words put together end with, of which the second part has a letter of its own: HF of Horizontflut.
TAILS = (
    "scheinwerfer",
    "leuchten",
    "leuchte",
    "fluter",
    "flut",
    "linsen",
    "linse",
    "licht",
    "spot",
)
NO_INITIALS = frozenset(
    ("sl", "sr", "ps", "op", "hl", "hr", "us", "ds")
)  # sides, whatever a kind is called
ZOOM = frozenset(("zoom", "zooms", "zm", "zms", "varizoom"))
# Words of a list that are one letter off one of these, and no slip of it.
NO_SLIP = frozenset(("floor", "floors", "cycle", "parts", "profit", "strap", "straps", "solo"))
# Words beside a kind that do not tell which one it is.
KIND_ASIDE = frozenset(
    (
        *(
            "lamp",
            "lamps",
            "lampe",
            "lampada",
            "lampara",
            "lampa",
            "lantern",
            "lanterns",
            "light",
            "lights",
            "lt",
            "lts",
            "unit",
            "units",
        ),
        *(
            "spot",
            "spots",
            "lens",
            "fixture",
            "fixtures",
            "instrument",
            "type",
            "head",
            "can",
            "cans",
        ),
        *("new", "old", "our", "own", "the", "a", "an", "deg", "degs", "degree", "degrees"),
        *("projecteur", "projecteurs", "proj", "scheinwerfer", "proiettore", "proiettori"),
        *("foco", "focos", "proyector", "stralkastare", "faro", "fari", "standard", "std"),
    )
)

# Words of names of kinds that stand for one another in `Names`, and those that may be left out.
KIND_WORDS: tuple[dict[str, str], ...] = (
    {
        **dict.fromkeys(
            ("ellipsoidal", "ellipsoidals", "ellips", "profile", "profiles", "prof", "ers"), "ers"
        ),
        **dict.fromkeys(("fresnel", "fresnels", "fres"), "fresnel"),
        **dict.fromkeys(("par", "parcan", "pars", "parcans"), "par"),
        **dict.fromkeys(("planoconvex", "pc", "pcs"), "pc"),
        **dict.fromkeys(("flood", "floods", "floodlight"), "flood"),
        **dict.fromkeys(("cyc", "cyclight", "cyclorama"), "cyc"),
    },
)
KIND_SPARE = (
    "deg",
    "degs",
    "degree",
    "degrees",
    "spot",
    "field",
    "unit",
    "light",
    "can",
    "lens",
    "in",
    "inch",
)
