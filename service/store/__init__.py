"""What is kept: recipes and their versions, reviews, events, keys, reviewers, in SQLite or PostgreSQL."""
