"""One module a route of the API."""
