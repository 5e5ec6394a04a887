"""The page on the phone as one file: its data, look and script inside it, nothing loaded from anywhere."""

from __future__ import annotations

from base64 import b64encode
from functools import cache
from hashlib import blake2b, sha256
from html import escape
from importlib.resources import files
from string import Template
from typing import TYPE_CHECKING, Any, BinaryIO

import msgspec

from aimcalc.named import NamedTuple
from aimcalc.sheets.phone.told import told
from aimcalc.text.stamp import PaperOptions

if TYPE_CHECKING:
    from aimcalc.show import Show

SCRIPTS = ("lengths.js", "throw.js", "journal.js", "page.js")
LINK = "link.js"  # of a page that is served: it sends what is ticked, and hears what others tick


def phone(show: Show, html: BinaryIO, options: PaperOptions) -> None:
    """Write the page to a binary stream."""
    html.write(phone_page(show, options))


def phone_page(show: Show, options: PaperOptions) -> bytes:
    """The page in UTF-8, all in one; a policy in its head lets nothing run but the script in it."""
    data, script, look = _data(show, options), _script(*SCRIPTS), part("page.css")
    policy = (
        f"default-src 'none'; script-src {_hash(script)}; style-src {_hash(look)}; img-src data:; "
        "base-uri 'none'; form-action 'none'; connect-src 'none'"
    )
    return _html(
        data,
        f'<meta http-equiv="Content-Security-Policy" content="{policy}">\n'
        f'<link rel="icon" href="data:,">\n<style>{look}</style>',
        f"<script>{script}</script>",
    )


class Served(NamedTuple):
    """The same page in the files that a server hands out, with the link to it; `print` is what it is of."""

    html: bytes
    look: bytes
    script: bytes
    print: str


def served_page(show: Show, options: PaperOptions) -> Served:
    """The page for a server: nothing in it runs or is dressed that is not a file of the server's own."""
    data = _data(show, options)
    head = '<link rel="icon" href="icon.svg">\n<link rel="stylesheet" href="page.css">'
    html = _html(data, head, '<script src="page.js"></script>')
    return Served(
        html, part("page.css").encode(), _script(*SCRIPTS, LINK).encode(), str(data["print"])
    )


def _data(show: Show, options: PaperOptions) -> dict[str, Any]:
    data = told(show, options)
    data["print"] = print_of(data)
    return data


def _script(*names: str) -> str:
    return "\n".join(map(part, names))


def _html(data: dict[str, Any], head: str, script: str) -> bytes:
    title, inside = escape(data["title"]), _inside(msgspec.json.encode(data))
    page = Template(part("page.html"))
    return page.substitute(head=head, title=title, data=inside, script=script).encode()


def print_of(data: dict[str, object]) -> str:
    """A short hash of what a page says, the time of print left out: what is ticked on it is kept under it."""
    plain = {key: value for key, value in data.items() if key != "set"}
    return blake2b(msgspec.json.encode(plain), digest_size=6).hexdigest()


@cache
def part(name: str) -> str:
    """One of the files that lie beside this module."""
    return (files(__package__) / name).read_text(encoding="utf-8")


def _hash(text: str) -> str:
    return f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'"


def _inside(data: bytes) -> str:
    """JSON that no text in it can end."""
    return (
        data.decode()
        .replace("<", "\\u003c")
        .replace("\u2028", "\\u2028")
        .replace("\u2029", "\\u2029")
    )
