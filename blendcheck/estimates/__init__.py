"""What models say: from totals and tables to numbers with their doubts.

Everything here is a float from an equation and decides nothing. ``pressures``,
``branches`` and ``points`` choose how a vapour pressure is known; ``parts``,
``compositions``, ``mixing`` and ``flash`` estimate the flash point of a blend, and
``draws`` spreads compositions inside their ranges. Other rooms estimate what is in the air.
"""
