"""Pages of what was said: the figures spoken, and the outline beside a transcript."""
