"""Words that were put into English one by one, in the order that English has: "end left" as the left end,
"from side right of the bar" as from its right end."""

from __future__ import annotations

from aimcalc.named import regex

_UNIT_NEXT = r"(?=\s*(?:cm|mm|m|ft|in|meters?|metres?|feet)\b)"
_AND = r"(?:en|y|e|et|und|og|och|i|a|and|u)"
_PIPES = (
    r"(?:bar|pipe|batten|truss|trek|perche|vara|barra|stange|zuge?s?|zugstange|traverse|brucke|passerelle|americana"
    r"|ror|roret|rampe|porteuse)"
)
_AFTER = (
    (regex(r"\bmin\b(?=\s*(?:=|is\b|:))"), "minus"),
    (regex(rf"\b(left|right|l|r)\s+{_AND}\s+(?=(?:left|right|l|r)\b)"), r"\1 and "),
    (regex(rf"\b(?:en|em|i|w|v)\b{_UNIT_NEXT}"), "in "),
    (regex(r"\b(?:(?:to|at|on|the|side)\s+)+(?=(?:left|right|sl|sr)\b)"), ""),
    (regex(r"\b(left|right|sl|sr)\s+(?:the\s+)?(?=centre\b)"), r"\1 of "),
    (regex(r"\b(left|right|sl|sr)\s+(?:om|for|fra|fran|af)\s+(?=centre\b)"), r"\1 of "),
    (regex(r"\bthe\s+the\b"), "the"),
    (
        regex(
            r"(?<=\d)(\s*(?:m|cm|mm)?\s*)of\s+(?:the\s+)?(?=(?:left|right|us|ds|sl|sr|cour|jardin|front|back|end)\b[^.]*\bend\b|end\b)"
        ),
        r"\1 from ",
    ),
    (regex(r"\bfrom\s+of\b"), "from"),
    (regex(r"\bend\s+(?:(?:to|towards|at|of|the|side|measurement)\s+)+house\b"), "ds end"),
    (regex(r"\bend\s+(?:(?:to|towards|at|on|of|the|auf|am|an)\s+)*ds\s+side\b"), "ds end"),
    (regex(r"\b(?:house|ds)(?:\s+side)?\s+end\b"), "ds end"),
    (regex(r"\bfrom\s+(?:(?:the|of)\s+)*ds\s+side\b"), "from ds end"),
    (regex(r"\bfrom\s+(?:(?:the|of)\s+)*side\s+(?:(?:of|the)\s+)*house\b"), "from ds end"),
    (regex(r"\bfrom\s+(?:the\s+)?(?:portaal|portal|portalen)\b"), "from plaster line"),
    (regex(r"\b(left|right|sl|sr|cour|jardin)\s+side\s+end\b"), r"\1 end"),
    (
        regex(r"\bend\s+(?:(?:side|of|the)\s+)*(front|back|left|right|sl|sr|cour|jardin)\b"),
        r"\1 end",
    ),
    (
        regex(
            r"\bfrom\s+(?:the\s+)?(left|right|sl|sr|cour|jardin)(?:\s+side)?\s+(?:(?:of|the)\s+)*"
            rf"{_PIPES}\b"
        ),
        r"from \1 end of pipe",
    ),
    (  # "the end of the bar that is left as the seats see it"
        regex(
            rf"\bend\s+(?:(?:of|the)\s+)+{_PIPES}\b(?:[,(\s]+(?!(?:left|right|sl|sr|from|and|end)\b)[a-z]+){{0,4}}?"
            r"[,(\s]+(left|right|sl|sr|cour|jardin)\b(?!\s*(?:to|and|/)?\s*(?:left|right|sl|sr)\b)"
        ),
        r"\1 end of pipe",
    ),
    (regex(r"\b(?:from|of)\s+jardin\s+(?:at|to)\s+cour\b"), "from sr to sl"),
    (regex(r"\b(?:from|of)\s+cour\s+(?:at|to)\s+jardin\b"), "from sl to sr"),
    (regex(r"\bfrom\s+(?:the\s+)?cour\b"), "from sl"),
    (regex(r"\bfrom\s+(?:the\s+)?jardin\b"), "from sr"),
    (regex(r"\bcour(?=\s+end\b)"), "sl"),
    (regex(r"\bjardin(?=\s+end\b)"), "sr"),
    (
        regex(r"\b(?:evenly\s+distances?|distances?\s+evenly)\b(?!\s+(?:from|to|of)\b)"),
        "evenly spaced",
    ),
)


def in_order(text: str) -> str:
    """A text in English words in their English order."""
    for odd, english in _AFTER:
        text = odd.sub(english, text)
    return " ".join(text.split())
