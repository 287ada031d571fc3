"""Sign-in accounts of guides, readers and keepers."""
