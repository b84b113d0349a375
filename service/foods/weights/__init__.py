"""Measures of a line -> grams of its food."""
