"""Pieces are chosen by name, wrong names are refused, and every maker is there."""

from importlib import import_module

import pytest

from aimcalc.sheets.pieces import ALL, DRAWN, HEAD, PIECES, SET, chosen, pack_files


def test_pieces_can_be_chosen_in_any_order_and_come_in_their_own():
    assert [p.name for p in chosen("plan, aim-sheets")] == ["aim-sheets", "plan"]
    assert chosen(None) == list(SET)


def test_the_set_is_a_file_for_each_who_holds_one_and_the_lists():
    told = [file for piece in SET for file in piece.files]
    assert told == [
        *("pack-head.pdf", "counts.xlsx", "pack-*.pdf", "cards.pdf", "rig.html"),
        *("drawings.pdf", "light-plot.svg", "light-plot.dxf"),
        *("aims.csv", "aims.xlsx", "aims.json", "by-area.csv", "by-channel.csv", "angles.csv"),
    ]
    assert all(piece.whom for piece in SET)


def test_a_pack_is_made_of_pieces_that_are_in_no_other():
    assert not set(HEAD) & set(DRAWN)
    assert len(set(HEAD)) == len(HEAD)
    assert {"head-page", "saddles"} <= set(HEAD)
    assert {"light-plot", "section"} <= set(DRAWN)


# Letters and figures stay, all else becomes one dash; no disk takes two of them for one.
@pytest.mark.parametrize(
    ("positions", "files"),
    [
        (["pipe 1", "boom SL"], ["pack-pipe-1.pdf", "pack-boom-SL.pdf"]),
        (["a/b", "a b", "A:B"], ["pack-a-b.pdf", "pack-a-b-2.pdf", "pack-A-B-3.pdf"]),
        (["head", "..", "柱子"], ["pack-head-2.pdf", "pack-position.pdf", "pack-柱子.pdf"]),
        (["x" * 300], [f"pack-{'x' * 40}.pdf"]),
    ],
)
def test_the_file_of_a_position_s_pack_is_its_name_in_letters_that_any_disk_takes(positions, files):
    assert list(pack_files(positions).values()) == files


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
    for piece in ALL:
        module, function = piece.maker.split(":")
        assert callable(getattr(import_module(module), function))
