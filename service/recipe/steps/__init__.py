"""What each kind of step does to its components."""
