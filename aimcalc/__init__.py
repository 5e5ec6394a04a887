"""Numbers and paper for hanging and pointing stage lighting units."""

__version__ = "0.1.0"
