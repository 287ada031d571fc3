"""Work in the background, as whoever asked for it sees it."""
