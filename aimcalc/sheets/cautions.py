"""The cautions that go with every sheet: geometry only, and the rules of working at height."""

from __future__ import annotations

SHORT = (
    "GEOMETRY ONLY: rates nothing, permits nothing. Only trained, authorised people go up; nobody stands "
    "under work; tools and cards tied on. Lock and check the clamp, fit the safety cable, THEN aim. Loads "
    "and power: posted ratings, local code, qualified people. If light, eye and sheet disagree: STOP, ask, "
    "believe the light."
)

CARD = "Lock, check, fit the safety cable, then aim. Geometry only. Light and card disagree? STOP, ask."

LONG = (
    (
        "What this is.",
        "Geometry and nothing more. It gives no permission to hang, climb, load or energise, and no "
        "opinion on whether any of it may be done. Local law and codes and the venue's rules come first.",
    ),
    (
        "Height.",
        "Only people trained and authorised for this very ladder, lift or platform go up, with a second "
        "person who stays with them, under the venue's fall-protection rules. No number here is a reason "
        "to lean or reach.",
    ),
    (
        "Overhead.",
        "Nobody stands under work. Pockets are emptied first; tools, phones, dials and cards hang on "
        "lanyards. Call out before anything moves. The helper on deck stays clear of what is "
        "overhead until called in.",
    ),
    (
        "Unit.",
        "The clamp is locked and tried by hand before anyone lets go, and the safety cable is round the "
        "pipe and through the yoke before anything is aimed. Loosen only the fixing you are turning and "
        "tighten it before the next. Frames, doors, top hats and pattern holders are held captive.",
    ),
    (
        "Load.",
        "Pipes, battens, booms, clamps and lines are not rated here. A weight is the sum of what was typed "
        "in. Limits come from the rating posted by the venue or from a qualified person; where there is "
        "neither, do not load it. A flown pipe moves only under its trained operator, who re-balances it.",
    ),
    (
        "Electrical.",
        "Isolate before plugging, opening or relamping where the maker or local code asks for it. Take "
        "damaged tails out of service. Limits of circuits and connectors are a matter of local code and "
        "of licensed or qualified people.",
    ),
    (
        "Hot and bright.",
        "Lamps and housings burn: let them cool, wear gloves. Keep the distance on the unit's label from "
        "drapes and scenery. Do not look into a lit lens, and point no laser or torch at eyes to aim by.",
    ),
    (
        "Numbers can be wrong.",
        "Trim, drop and skew are assumed until somebody has measured them. If the light, the eye and the "
        "sheet disagree: stop, ask, and believe the light.",
    ),
    (
        "Classes.",
        "A competent adult in charge of each group signs every unit before its next step. Minors and "
        "untrained people work on the deck only, unless local rules and the venue allow otherwise.",
    ),
)
