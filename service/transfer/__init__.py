"""What moves between a food and what touches it: one model each, for recipes and for single baths alike."""
