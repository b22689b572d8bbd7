"""Checks: a case in, findings out. Each room holds one kind of question."""
