"""Frozen records: what was written, what was found, how it was worked out."""
