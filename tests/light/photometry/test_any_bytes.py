"""Whatever the bytes, a file is read or refused: nothing else happens."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from aimcalc.light.lamps import candela_table
from aimcalc.light.photometry import PhotometryError, read_photometry
from tests.studies import cases

LM63 = b"""IESNA:LM-63-2002
[TEST] invented
TILT=INCLUDE
1
2
0 90
1 0.5
1 -1 1 4 3 1 2 0.2 0.1 0
1 1 750
0 10 20 90
0 45 90
100 50 20 0
100 60 10 0
100 70 5 0
"""
HEAD = ["Nobody Ltd", 1, 4, 4, 90, 3, 45, "R", "unit", "N", "f", "today", *[0] * 9, 100, 100, 1, 0]
EULUMDAT = (
    "\n".join(map(str, [*HEAD, 1, 1, "lamp", 2000, 3200, "1A", 750, *[0] * 10])).encode()
    + b"\n0\n90\n180\n270\n0\n45\n90\n100\n50\n0\n100\n40\n0\n"
)

WORDS = st.sampled_from(
    [b"1", b"0", b"-1", b"1e300", b"180", b"x", b"", b"\n", b"7200", b"0.5", b"\xff"]
)


def read_or_refused(path):
    try:
        read = read_photometry(str(path))
    except PhotometryError:
        return
    assert np.isfinite(read.candela).all()
    assert np.isfinite(
        [read.beam_angle, read.field_angle, read.lumens, *candela_table(read).values[0]]
    ).all()


@pytest.mark.long
@pytest.mark.filterwarnings("error")
@settings(
    max_examples=cases(60, 600),
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(st.data())
def test_a_file_with_words_changed_or_cut_off_is_read_or_refused(tmp_path, data):
    whole = data.draw(st.sampled_from([LM63, EULUMDAT]))
    lines = whole.split(b"\n")
    for _ in range(data.draw(st.integers(1, 3))):
        line = data.draw(st.integers(0, len(lines) - 1))
        words = lines[line].split(b" ")
        words[data.draw(st.integers(0, len(words) - 1))] = data.draw(WORDS)
        lines[line] = b" ".join(words)
    text = b"\n".join(lines)
    text = text[: data.draw(st.integers(0, 2 * len(text)))]
    path = tmp_path / data.draw(st.sampled_from(["a.ies", "a.ldt", "a"]))
    path.write_bytes(text)
    read_or_refused(path)


@pytest.mark.long
@pytest.mark.filterwarnings("error")
@settings(
    max_examples=cases(30, 300),
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(st.binary(max_size=300))
def test_any_bytes_are_refused_in_words(tmp_path, data):
    path = tmp_path / "a.ies"
    path.write_bytes(data)
    read_or_refused(path)


def test_a_missing_file_a_folder_and_a_large_file_are_refused_by_name(tmp_path):
    with pytest.raises(
        PhotometryError, match=r"none\.ies: expected a photometric file, found none"
    ):
        read_photometry(str(tmp_path / "none.ies"))
    with pytest.raises(PhotometryError, match="found none of this name"):
        read_photometry(str(tmp_path))
    large = tmp_path / "large.ies"
    with large.open("wb") as file:
        file.truncate(20_000_001)
    with pytest.raises(PhotometryError, match=r"at most 20 MB, the file has 20\.0 MB"):
        read_photometry(str(large))


def test_bytes_that_are_no_text_are_refused(tmp_path):
    path = tmp_path / "picture.ies"
    path.write_bytes(b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR")
    with pytest.raises(PhotometryError, match="expected text, found zero bytes"):
        read_photometry(str(path))


def test_the_unchanged_files_are_read(tmp_path):
    for name, data in (("a.ies", LM63), ("a.ldt", EULUMDAT)):
        (tmp_path / name).write_bytes(data)
        assert read_photometry(str(tmp_path / name)).peak_cd in (100, 200)
