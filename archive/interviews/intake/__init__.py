"""Taking recordings in: bytes that arrive, the pass over a master, likeness to others, and what is kept of it all."""
