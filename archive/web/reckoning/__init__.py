"""The ready reckoner: a page for every sum of the trade, open to all."""
