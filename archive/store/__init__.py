"""Keeping: the database base and sessions, files by checksum, the record of changes, migrations."""
