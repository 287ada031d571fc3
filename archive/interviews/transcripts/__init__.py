"""Transcripts as they are mended: lines, versions, merging, comparing, replacing, and the one way they change."""
