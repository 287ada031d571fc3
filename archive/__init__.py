"""Lemel: voices, objects and processes of a preserved workshop, tied to its floor plan."""

__version__ = "0.1.0"
