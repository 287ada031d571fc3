"""Lemel: voices, objects and processes of a preserved workshop, tied to its floor plan."""

import os

__version__ = "0.1.0"

# Matrices are small here. The threads that numpy would start for them wait busily, and take a core from the encoders
# of a recording that is being taken in. It is read once, when numpy is first imported.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
