import pytest
from weasyprint.urls import FatalURLFetchingError

from plates.common.printing import printed


@pytest.mark.parametrize("address", ["https://example.org/a.png", "file:///etc/hostname"])
def test_the_press_fetches_nothing(address, settings, tmp_path):
    (tmp_path / "paper.html").write_text(
        f'<html lang="en"><title>Paper</title><img alt="" src="{address}"></html>'
    )
    settings.TEMPLATES = [{"BACKEND": "django.template.backends.django.DjangoTemplates", "DIRS": [tmp_path]}]

    with pytest.raises(FatalURLFetchingError):
        printed("paper.html", {}, style="papers.css")
