"""Who may see or hear what: decided here and nowhere else."""
