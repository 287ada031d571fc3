"""A first transcript by a speech model that lies on this computer: a sound in, lines with times and confidence out."""
