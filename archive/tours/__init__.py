"""Tellings, tours made of them, and outings in which they were given."""
