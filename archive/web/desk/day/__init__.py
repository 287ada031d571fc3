"""The day at the Desk: its departures, when each leaves, and the sheets that are carried."""
