"""Pictures: sizes, orientation, stripped metadata. Pillow is used only here; no records are known here."""
