"""Tellings at the Desk: listed, written, looked over, withdrawn and restored."""
