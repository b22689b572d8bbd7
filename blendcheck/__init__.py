"""Fragrance blend and dilution checks for makers of scented bath and shower goods.

blendcheck adds up what goes into a piece, compares it with the caps and flash
points that the maker entered from supplier papers, shows every step, and says what
is not known and whom to ask. It defers to supplier data, local codes and licensed
practice.
"""

__version__ = "0.1.0"
