"""What is wrong with a survey, or with a solid that stays in the bay."""


class SurveyError(Exception):
    """The survey cannot be taken: `key` is the one at fault in its table, the rest is told to the reader."""

    def __init__(self, key: str, rule: str, remedy: str, got: str | None = None) -> None:
        super().__init__(f"{key}: {rule}")
        self.key = key
        self.rule = rule
        self.remedy = remedy
        self.got = got
