"""Sound, pictures and captions, with rights asked on every request."""
