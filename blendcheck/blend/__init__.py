"""The heart: a recipe to its leaves, every component totalled, every percent closed."""

# the rules register themselves when they are imported
from blendcheck.blend import balance_rules, mass_rules, percent_rules, share_rules

__all__ = ["balance_rules", "mass_rules", "percent_rules", "share_rules"]
