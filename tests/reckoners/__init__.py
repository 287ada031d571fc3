"""Laws of the reckoners: whole, monotone, unit-invariant, and picky."""
