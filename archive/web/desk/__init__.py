"""The Desk: tours and their sheets, for guides."""
