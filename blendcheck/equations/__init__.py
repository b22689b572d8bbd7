"""Equations of vapour, flash point, air, fizz and dilution: floats in, floats out.

No tables and no records: whoever calls brings the properties, with their sources,
and says what the result is for. Arguments may be numbers or numpy arrays that
broadcast against each other; every range is tested, and a NaN is refused like any
other number outside it. An array result never makes a verdict.

``arrays`` and ``constants`` serve the rest; ``dilution`` (mass balance),
``additivity`` (limits in air), ``fizz`` (carbon dioxide), ``vapour`` (pressure of a
substance in the forms that sources print), ``anchored`` (the same estimated),
``saturation`` (ceilings), ``activity`` (of a substance in a liquid), ``flash``
(flash point of a blend), ``transfer`` (ways into the air), ``exponentials``,
``zones`` and ``room`` (what is in the air, and when).
"""
