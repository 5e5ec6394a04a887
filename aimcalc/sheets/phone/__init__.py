"""The page on the phone: one file that needs no server, with what the ladder and the deck sheets say."""
