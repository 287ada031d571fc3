"""Checks against figures printed elsewhere, each named by its source."""
