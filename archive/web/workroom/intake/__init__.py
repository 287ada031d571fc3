"""Recordings in the Workroom: the list, one of them, new interviews, and files on their way in."""
