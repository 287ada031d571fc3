"""The bench at which a transcript is mended while listening. For keepers alone, in care."""
