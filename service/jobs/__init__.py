"""Work beside the answers: look-ups of foods, delivery of events."""
