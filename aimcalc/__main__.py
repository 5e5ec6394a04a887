"""`python -m aimcalc` is the same as the `aimcalc` command."""

from aimcalc.cli import main

if __name__ == "__main__":
    main()
