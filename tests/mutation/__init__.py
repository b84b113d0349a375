"""Mutation testing: small faults put into code and tables, to see whether a test notices."""
