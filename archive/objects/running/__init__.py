"""Running a machine before visitors: its papers, what is checked before the start, and its log."""
