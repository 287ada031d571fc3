"""A typed text laid on its sound: words said out, a first hearing, anchors, then span by span. Knows no records."""
