"""The front door: the first page, signing in and signing out."""
