"""Published and local measurements, held against what the service works out. Pure."""
