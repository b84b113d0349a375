"""Many recipes: one JSON document a line in, one answer a line out, in order."""
