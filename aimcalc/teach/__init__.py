"""The class: why a number is what it is, a practice pipe, worksheets, what a group has learnt."""
