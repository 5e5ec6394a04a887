"""Ways to spoil text, numbers and bytes. Each takes a seeded Random, so that a seed tells the input."""

from __future__ import annotations

import io
import re
import zipfile
from random import Random

SECRET = "secret"  # files beside the scene's folder, which nothing may open
# What a TOML value, a cell or a number of a file may turn into.
ODD_NUMBERS = (
    *(
        "nan",
        "inf",
        "-inf",
        "1e308",
        "-1e308",
        "1e-308",
        "1e400",
        "0",
        "-0.0",
        "-1",
        "1",
        "2",
        "0.5",
    ),
    *(
        "-0.5",
        "90",
        "180",
        "360",
        "-90",
        "1e6",
        "1e9",
        "1e15",
        "4294967296",
        "99999999999999999999",
    ),
    *("0x7f", "1_000", "00", "1e", "1,5"),
)
ODD_WORDS = (
    *("", " ", "=1+1", "+1+1", "-1+1", "@SUM(A1)", "=cmd|' /C calc'!A0", "\tx", "'", '"', "a,b;c"),
    *("é日本語", "\u202eabc", "👩‍🚒", "e\u0301", "\x00", "\x1b[31m", "\ufeff", "a\nb", "%s{}{0}\\"),
    *("x" * 5000, "W" * 300, "<b>&amp;", "SL", "DS", "12 m", "-3 m SL", "3 m UP", "1e308 m"),
    *("5'-6 1/2\"", "1/0", "1:0", "1:16", "nan", "inf m", "0 m", "1e9 kg", "10 A", "400 %"),
    *("ers-30", "under", "square", "back", "true", "None", "__class__", "1", "0"),
)
OUTSIDE = (
    *(f"../{SECRET}", f"..\\{SECRET}", f"x/../../{SECRET}", f"./../{SECRET}", f"link-{SECRET}"),
    *("/etc/passwd", "/dev/zero", "C:\\x", "~/x", ".", "..", "/", "NUL", "scene.toml", "x" * 300),
)
ODD_TOML = (
    *ODD_NUMBERS[:-3],
    *("true", "false", "[]", "{}", "[[]]", "[nan]", "[0, 0]", "[1e308, -1e308, 1e308]", "{a = 1}"),
    *("[[0, 0], [0, 0], [0, 0]]", "[[0, 0], [1, 0], [1, 1], [0.5, -1]]", "1979-05-27", "07:32:00"),
    *('["0 m", "1 m"]', "[" * 200 + "]" * 200, "'''\nx\n'''", '"\\u0000"'),
)
NUMBER = re.compile(r"(?<![\w.])-?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?")


def quoted(text: str) -> str:
    """Text as a TOML string."""
    told = "".join(c if c >= " " and c != "\x7f" else f"\\u{ord(c):04x}" for c in text)
    return '"' + re.sub(r'\\(?!u[0-9a-f]{4})|"', r"\\\g<0>", told) + '"'


def odd_toml(random: Random) -> str:
    """A value that few people would type."""
    if random.random() < 0.5:
        return random.choice(ODD_TOML)
    return quoted(random.choice(ODD_WORDS))


def near_number(random: Random, number: str) -> str:
    """A number instead of another: often one that is only a little wrong."""
    if random.random() < 0.25:
        return random.choice(ODD_NUMBERS)
    factor = random.choice(
        (0, -1, 1e-9, 1e-3, 0.1, 0.5, 0.5, 0.9, 0.999, 1.001, 1.5, 2, 10, 1e3, 1e6)
    )
    changed = float(number) * factor
    return (
        f"{changed:.9g}"
        if random.random() < 0.8
        else f"{round(changed) if abs(changed) < 1e15 else 0}"
    )


def one_number(random: Random, text: str) -> str:
    """Text with one of its numbers changed."""
    found = list(NUMBER.finditer(text))
    if not found:
        return text
    at = random.choice(found)
    return text[: at.start()] + near_number(random, at[0]) + text[at.end() :]


def lines(random: Random, text: str) -> str:
    """Text with one line dropped, doubled, moved, cut or with a number changed."""
    rows = text.split("\n")
    k = random.randrange(len(rows))
    way = random.randrange(8)
    if way == 0:
        del rows[k]
    elif way == 1:
        rows.insert(random.randrange(len(rows)), rows[k])
    elif way == 2:
        rows[k] = rows[k][: random.randrange(len(rows[k]) + 1)]
    elif way == 3 and random.random() < 0.3:
        return text[: random.randrange(len(text) + 1)]
    else:
        rows[k] = one_number(random, rows[k])
    return "\n".join(rows)


def bytes_of(random: Random, data: bytes) -> bytes:
    """Bytes with some bits turned, a stretch lost or doubled, or the end cut off."""
    spoilt = bytearray(data)
    for _ in range(random.choice((1, 1, 2, 5, 20))):
        if not spoilt:
            return b""
        at = random.randrange(len(spoilt))
        way = random.randrange(10)
        if way < 5:
            spoilt[at] ^= 1 << random.randrange(8)
        elif way < 7:
            spoilt[at : at + 4] = random.choice((b"\xff" * 4, b"\0" * 4, b"\x7f\x80\0\0"))
        elif way < 8:
            del spoilt[at : at + random.randrange(1, 40)]
        elif way < 9:
            spoilt[at:at] = spoilt[at : at + random.randrange(1, 40)]
        elif random.random() < 0.3:
            del spoilt[at:]
    return bytes(spoilt)


def member(random: Random, data: bytes) -> bytes:
    """A workbook with the XML of one member spoilt and the zip around it whole."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w") as new:
        names = old.namelist()
        chosen = random.choice(
            [n for n in names if n.endswith("xml")] + [n for n in names if "sheet1" in n] * 4
        )
        for name in names:
            content = old.read(name)
            if name == chosen:
                text = content.decode("utf-8", "replace")
                text = (
                    one_number(random, text)
                    if random.random() < 0.6
                    else lines(random, text.replace("><", ">\n<"))
                )
                content = text.encode()
            new.writestr(name, content, zipfile.ZIP_DEFLATED)
    return out.getvalue()
