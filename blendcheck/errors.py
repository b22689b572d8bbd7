"""The exceptions that blendcheck raises on purpose.

Every one of them carries a sentence that a maker can act on; the faces print
that sentence and nothing else.

::

    BlendcheckError
    ├── DomainError (ValueError)      a number is outside the range that a rule allows
    ├── InputError (ValueError)       a file, a line or a field cannot be read
    │   └── QuestionError             it can be read in more than one way: we ask
    ├── RecipeError (ValueError)      the recipe contradicts itself
    └── ReferenceDataError (ValueError)  a row of our own tables is wrong
"""

__all__ = [
    "BlendcheckError",
    "DomainError",
    "InputError",
    "QuestionError",
    "RecipeError",
    "ReferenceDataError",
]


class BlendcheckError(Exception):
    """Anything that blendcheck refuses, with a sentence for the maker."""


class DomainError(BlendcheckError, ValueError):
    """A number breaks the rule that is stated for it.

    Parameters
    ----------
    name : str
        Name of the argument.
    value : object
        What was given.
    rule : str
        What it must be, as the end of the sentence "``name`` must be ...".
    """

    def __init__(self, name: str, value: object, rule: str) -> None:
        self.name, self.value, self.rule = name, value, rule
        super().__init__(f"{name} = {value} must be {rule}")


class InputError(BlendcheckError, ValueError):
    """Something that the maker wrote cannot be read.

    Parameters
    ----------
    what : str
        What is wrong, in one clause.
    fix : str
        What to do about it.
    where : str, optional
        File, line or field; faces and loaders add it with :meth:`at`.
    code : str, optional
        Short stable name of the reason.
    """

    def __init__(
        self, what: str, fix: str = "", *, where: str = "", code: str = "bad-input"
    ) -> None:
        self.what, self.fix, self.where, self.code = what, fix, where, code
        super().__init__(self.sentence)

    @property
    def sentence(self) -> str:
        """The whole message: where, what, and what to do."""
        fix = self.fix[:1].upper() + self.fix[1:]
        body = f"{self.what}. {fix}" if fix else self.what
        return f"{self.where}: {body}" if self.where else body

    def at(self, where: str) -> "InputError":
        """Return the same error with a place put in front of it.

        Parameters
        ----------
        where : str
            File, line or field.

        Returns
        -------
        InputError
            A new error of the same class; ``where`` stands before any place
            that was known already.
        """
        place = f"{where}, {self.where}" if self.where else where
        return type(self)(self.what, self.fix, where=place, code=self.code)

    def __str__(self) -> str:
        return self.sentence


class QuestionError(InputError):
    """A text has more than one meaning, and blendcheck does not choose.

    ``code`` names the question (``decimal-comma``, ``bare-oz``, ``unit-missing``,
    ``date-order`` ...), so that a face can offer the answers.
    """


class RecipeError(BlendcheckError, ValueError):
    """A recipe that can be read but not made: a cycle, nothing to weigh, ..."""


class ReferenceDataError(BlendcheckError, ValueError):
    """A row of ``reference/`` that the validating model refuses."""
