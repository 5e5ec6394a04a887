"""Which other desks have a scene open: each leaves its port in a file of this user that all can find."""

from __future__ import annotations

import os
import socket
import tempfile
from contextlib import suppress
from hashlib import sha256

from aimcalc.desk.guard import LOOPBACK, NOT_HERE

PATIENCE = 0.3  # s until a desk has to have answered
LONGEST = 2000  # bytes of the file that are read


def open_at(scene: str) -> list[int]:
    """The ports at which desks of a scene answer now."""
    return [port for port in _written(scene) if _answers(port)]


def enter(scene: str, port: int) -> None:
    """Leave word of a desk; where the disk refuses, nothing."""
    _write(scene, [*open_at(scene), port])


def leave(scene: str, port: int) -> None:
    """Take the word of a desk away."""
    _write(scene, [each for each in _written(scene) if each != port])


def _file(scene: str) -> str:
    mark = sha256(os.path.realpath(scene).encode(errors="surrogateescape")).hexdigest()[:20]
    user = os.getuid() if hasattr(os, "getuid") else 0
    return os.path.join(tempfile.gettempdir(), f"aimcalc-desk-{user}-{mark}")


def _written(scene: str) -> list[int]:
    try:
        with open(os.open(_file(scene), os.O_RDONLY | _NO_LINK), "rb") as file:
            words = file.read(LONGEST).split()
    except OSError:
        return []
    return [int(word) for word in words if word.isdigit() and 0 < int(word) < 65536]


def _write(scene: str, ports: list[int]) -> None:
    with suppress(OSError):
        if not ports:
            os.unlink(_file(scene))
            return
        flags = os.O_WRONLY | os.O_CREAT | os.O_TRUNC | _NO_LINK
        with open(os.open(_file(scene), flags, 0o600), "wb") as file:
            file.write(" ".join(map(str, ports)).encode())


_NO_LINK = getattr(os, "O_NOFOLLOW", 0)  # nobody leads us to another file


def _answers(port: int) -> bool:
    """Whether a desk listens there: it refuses whoever comes without its key, in our words."""
    ask = f"GET / HTTP/1.1\r\nHost: {LOOPBACK}:{port}\r\nConnection: close\r\n\r\n".encode()
    heard = b""
    with suppress(OSError), socket.create_connection((LOOPBACK, port), PATIENCE) as line:
        line.settimeout(PATIENCE)
        line.sendall(ask)
        while len(heard) < LONGEST and (more := line.recv(LONGEST)):
            heard += more
    return NOT_HERE in heard
