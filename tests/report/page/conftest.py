"""The page that most of these tests look at, made once."""

import pytest

from tests.report.page.samples import MainPage, main_page


@pytest.fixture(scope="session")
def main(tmp_path_factory: pytest.TempPathFactory) -> MainPage:
    """What is told and shown of the README's main job; its folder holds the page."""
    return main_page(tmp_path_factory.mktemp("page"))
