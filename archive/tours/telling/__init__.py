"""Tellings: what a guide says or shows at a station, how long it takes, and whether the evidence bears it out."""
