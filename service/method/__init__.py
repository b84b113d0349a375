"""Recipe prose and schema.org/Recipe -> components and steps, each reading with its place and its doubt.

Pure: text in, a recipe for `recipe.request` out; no HTTP, no files but the tables of seed_foods/.
"""
