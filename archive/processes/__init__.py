"""Processes of the works, the chain they form, and the hazards of each."""
