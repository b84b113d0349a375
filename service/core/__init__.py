"""What every room stands on: errors, spreads, sourced figures, assumptions, notices, the reader of tables."""
