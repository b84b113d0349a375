"""Words of a line -> a food of the dataset, with how sure that is."""
