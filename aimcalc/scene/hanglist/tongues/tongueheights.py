"""What other languages write beside a height on a boom: "wys. 260", "260 cm upp", "2,40 m de alto", "2,6 m
nad podłogą". On a boom a figure is nothing else, so what says so may go; from the top is said elsewhere."""

from __future__ import annotations

from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.tongues.tongues import unaccented

LONGEST = 60  # characters of a place
_AT = r"(?:auf|a|at|op|pa|po|i|na|em|ad|ve|en|in|w|til|till|bei|kl)"
_HEIGHT = (  # as they are without their accents
    r"(?:h|ht|hgt|ho|hohe|hoehe|haut|hauteur|hoch|hoog|hoogte|alt|alto|alta|altura|altezza|height|elev|wys|wysoko"
    r"|wysokosc|wysokosci|vys|vyska|vysce|vysky|vysoko|hojd|hojden|hojde|hojden|hoyde|hoyden|kork|korkeus|korkeudella"
    r"|korkealla|alcada|hog|hogt|hojt|hoj|hoyt|hoy|u[.]?\s?b[.]?)"
)
_UPWARDS = r"(?:up|upp|uppe|uppat|op|oppe|opad|opp|oppover|omhoog|gore|nahoru|ylos|amunt|arriba|acima|oben)"
_FLOOR = (
    r"(?:\w*boden|buhne|grund|gulv|gulvet|golv|golvet|scen|scenen|scenegulv|scenegulvet|scengolv|scengolvet|vloer|toneel"
    r"|sol|plateau|suelo|piso|tablas|terra|suolo|pavimento|palco|palcoscenico|chao|podlogi|podloga|podlahy|podlahou"
    r"|ziemi|ziemia|zeme|zemi|sceny|scena|jeviste|jevistem|deck|floor|stage|ground|marken)"
)
_ABOVE = (
    r"(?:nad|over|boven|uber|ueber|ab|vom|von|vanaf|van|de|fra|fran|od|dal|du|do|del|da|desde|depuis|above|sobre|acima"
    r"|ovan|ovenfor|sopra|au[\s-]dessus)"
)
_FIRST = regex(
    rf"^\W*(?:(?:{_AT}\s+)?{_HEIGHT}\b\.?|{_AT}\b|v\.|upp\b|opp\b|ylos\b)\s*(?:(?:de|di|von|van|av|pa|a|ca)\b\s*)?[:=]?\s*(?=\d)"
)
_BEHIND = regex(
    r"(?<=\d)(\s*(?:(?:mm|cm|mts?|m|ft|in|metr\w{0,4}|metern?|centim\w{0,7}|feet)(?![a-z])\.?|['\"])?)\s*(?<![a-z'])(?:(?:"
    rf"(?:(?:de|di|in|w|i|em|en|op|na|ve|v|til|till)\s+|d['’]\s*)?(?:{_HEIGHT}|{_UPWARDS})\b\.?)"
    rf"|{_ABOVE}\s+(?:(?:de|der|dem|den|het|la|le|el|o|du|do|della|del)\s+)*{_FLOOR}\b|lattiasta\b|lavasta\b)[\s.,;)]*$"
)
_BRACKETED = regex(rf"\s*[(\[]\s*(?:{_HEIGHT}|{_UPWARDS})\.?\s*[)\]]\s*$")


def height_alone(cell: Any) -> Any:
    """A place on a boom without the words of other languages that say that it is a height."""
    if not isinstance(cell, str) or len(cell) > LONGEST or not any(map(str.isalpha, cell)):
        return cell
    plain = unaccented(cell.casefold())
    rest = _BEHIND.sub(r"\1", _BRACKETED.sub("", _FIRST.sub("", plain))).strip()
    return rest if rest != plain.strip() and rest[:1].isdigit() else cell
