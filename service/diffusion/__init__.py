"""Fick's law in finite baths: shapes of pieces, their eigenmodes, and how far uptake has come."""
