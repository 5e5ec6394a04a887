"""One entry: every key of it is read, and every mistake of it noted."""

from __future__ import annotations

from aimcalc.scene.document import Entry, open_entry
from aimcalc.scene.mistakes import CLASH, MISSING, UNKNOWN, Log, Where, Wrong
from aimcalc.scene.readers import Reader, count, text

READERS: dict[str, Reader] = {"name": text, "count": count}


def _entry(**raw: object) -> tuple[Entry, Log]:
    log = Log()
    return open_entry(raw, READERS, Where("scene.toml", "[[stock]]", "no. 1"), log), log


def test_a_right_entry_is_sound_and_has_its_values() -> None:
    entry, log = _entry(name="a", count=3)
    assert entry.values == {"name": "a", "count": 3}
    assert entry.sound
    assert log.mistakes == []


def test_every_key_is_read_past_the_first_mistake() -> None:
    entry, log = _entry(name=True, count=-1, cuont=3)
    assert entry.values == {}
    assert not entry.sound
    assert [(m.key, m.rank == UNKNOWN) for m in log.mistakes] == [
        ("name", False),
        ("count", False),
        ("", True),
    ]


def test_a_mistake_of_one_entry_leaves_the_next_one_sound() -> None:
    log = Log()
    where = Where("scene.toml", "[[stock]]")
    right = open_entry({"count": 1}, READERS, where, log)
    wrong = open_entry({"count": -1}, READERS, where, log)
    assert (right.sound, wrong.sound) == (True, False)


def test_what_is_missing_what_clashes_and_what_must_go_is_ranked() -> None:
    entry, log = _entry(count=1)
    entry.needs("name", "count")
    entry.clash("count", "no count")
    entry.refuse(("count", "name"), "this is a test")
    entry.note("count", Wrong("another", rank=UNKNOWN), 1)
    assert [(m.key, m.rank) for m in log.mistakes] == [
        ("name", MISSING),
        ("count", CLASH),
        ("count", CLASH),
        ("count", UNKNOWN),
    ]
    assert not entry.sound
