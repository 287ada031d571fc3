"""Voices told apart: what will be done, a few seconds of each voice to hear, and who each of them is."""
