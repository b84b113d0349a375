"""Commands that `cli` names; each is imported by the command line alone."""
