"""Whole recipes of our own, and what is pinned of their answers."""
