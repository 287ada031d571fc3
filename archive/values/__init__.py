"""Immutable facts that know no records: time codes and spans, uncertain dates, references, text."""
