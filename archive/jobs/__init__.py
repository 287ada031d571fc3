"""Work that takes longer than a page may wait: asked for, followed, stopped, and done in a process of its own."""
