"""Typed transcripts as people send them: one file for each format, and the rules that say how each is understood."""
