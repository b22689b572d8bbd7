"""Texts as people write them, each made together with its meaning.

Nothing here reads a text: every piece is drawn as a value and then written down, so
the meaning is known from the pieces. Texts that have to be asked about, or refused,
come with the code of the question or of the reason.
"""

from tests.quantity.grammar.certificates import Certificates
from tests.quantity.grammar.pieces import Sample
from tests.quantity.grammar.recipes import Recipes
from tests.quantity.grammar.sheets import Sheets
from tests.quantity.grammar.trouble import Trouble


class Writer(Recipes, Sheets, Certificates, Trouble):
    """Draws texts of every kind from one source of chance."""

    def any(self) -> Sample:
        """Draw a text of any kind; one in seven has to be asked about or refused."""
        kinds = (self.amount, self.percent, self.temperature, self.cap, self.density)
        draw = self.chance.randrange(28)
        if draw < 3:
            return self.asked()
        if draw == 3:
            return self.refused()
        return self.one_of(*kinds, self.percent, self.amount, self.date)()
