"""A second source of foods, asked for what the bundle cannot map; off unless the operator turns it on."""
