"""Interviews: recordings, transcripts in segments, clips, and what each passage speaks of."""
