"""Saltledger: nutrients and sodium per serving of a recipe whose salt moves."""

__version__ = "0.1.0"
