"""Words in: a typed transcript is brought, looked at as it is understood, and kept."""
