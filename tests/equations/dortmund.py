"""Modified UNIFAC (Dortmund) with the parameters that thermo compiles, both ways."""

import numpy as np
from thermo import unifac

from blendcheck.equations.activity import ModifiedUnifac

Groups = dict[int, int]


def groups_of(cas: str) -> Groups:
    found = unifac.UNIFAC_group_assignment_DDBST(cas, "MODIFIED_UNIFAC")
    assert found, cas
    return found


def arrays(groups: list[Groups]):
    """Counts, sizes, main groups and interactions, NaN where none is published."""
    sizes, table = unifac.DOUFSG, unifac.DOUFIP2016
    numbers = sorted({number for each in groups for number in each})
    mains = sorted({sizes[number].main_group_id for number in numbers})
    interaction = np.full((3, len(mains), len(mains)), np.nan)
    for i, one in enumerate(mains):
        for j, other in enumerate(mains):
            if one == other:
                interaction[:, i, j] = 0
            elif other in table.get(one, {}):
                interaction[:, i, j] = table[one][other]
    return (
        np.array([[each.get(n, 0) for n in numbers] for each in groups], float),
        [sizes[n].R for n in numbers],
        [sizes[n].Q for n in numbers],
        [mains.index(sizes[n].main_group_id) for n in numbers],
        *interaction,
    )


def ours(groups: list[Groups]) -> ModifiedUnifac:
    return ModifiedUnifac(*arrays(groups))


def theirs(groups: list[Groups], x, kelvin: float) -> unifac.UNIFAC:
    return unifac.UNIFAC.from_subgroups(
        chemgroups=groups, T=kelvin, xs=list(x), version=1,
        subgroups=unifac.DOUFSG, interaction_data=unifac.DOUFIP2016,
    )  # fmt: skip
