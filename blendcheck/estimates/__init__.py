"""What models say: from totals and tables to numbers with their doubts.

Everything here is a float from an equation and decides nothing. ``pressures``,
``branches`` and ``points`` choose how a vapour pressure is known; ``parts``,
``compositions``, ``bottles``, ``mixing``, ``ends`` and ``flash`` estimate the flash
point of a blend, and ``draws`` spreads compositions inside their ranges. ``setting``,
``scent``, ``ways``, ``release``, ``shower`` and ``air`` estimate the air of a
shower, ``acute`` and ``ratios`` put it beside reference points, and ``air_draws``
spreads it. Other rooms estimate alcohol, fizz and hazard classes.
"""
