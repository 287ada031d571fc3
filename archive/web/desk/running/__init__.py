"""Demonstrations at the Desk: may they run, what is checked before the start, the run, and its log."""
