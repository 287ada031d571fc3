"""Passages of a recording closed, changed and opened again, heard over their edges. For keepers alone, in care."""
