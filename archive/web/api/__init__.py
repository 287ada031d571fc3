"""The same answers for machines, as JSON."""
