"""What comes in, read strictly: JSON, fields, and the schemas of recipes; loads no web framework."""
