"""Drafts by a speech model: what is missing, the work that makes one, what came of it, and that a person checked it."""
