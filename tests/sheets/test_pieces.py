"""Pieces are chosen by name, wrong names are refused, and every maker is there."""

from importlib import import_module

import pytest

from aimcalc.sheets.pieces import PIECES, chosen


def test_pieces_can_be_chosen_in_any_order_and_come_in_their_own():
    assert [p.name for p in chosen("plan, aim-sheets")] == ["aim-sheets", "plan"]
    assert chosen(None) == [piece for piece in PIECES if piece.usual]


def test_only_the_strip_along_the_whole_pipe_has_to_be_asked_for():
    assert [piece.name for piece in PIECES if not piece.usual] == ["hang-strip"]
    assert [piece.name for piece in chosen("hang-strip")] == ["hang-strip"]


@pytest.mark.parametrize(
    ("only", "said"),
    [
        ("aim-sheet", 'no piece is called "aim-sheet". Did you mean "aim-sheets"?'),
        ("plan,crads", 'Did you mean "cards"?'),
        ("zzz", 'no piece is called "zzz". There are: aim-sheets, cards, hang-sheets, hang-strip'),
        ("", 'no piece is called "".'),
    ],
)
def test_a_wrong_piece_is_refused_with_the_nearest_right_one(only, said):
    with pytest.raises(ValueError, match="no piece is called") as refusal:
        chosen(only)
    assert said in str(refusal.value)


def test_every_piece_has_a_maker_and_files_of_its_own():
    files = [file for piece in PIECES for file in piece.files]
    assert len(files) == len(set(files))
    for piece in PIECES:
        module, function = piece.maker.split(":")
        assert callable(getattr(import_module(module), function))
