"""The Workroom: what is in the home, for keepers."""
