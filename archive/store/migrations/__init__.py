"""Alembic's environment and the steps that bring an older home up to date."""
