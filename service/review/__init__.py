"""What a reviewer works with: where sodium came from and went, what changed, and what a person overruled.

Pure functions over requests and answers as the contract has them; no store, no web.
"""
