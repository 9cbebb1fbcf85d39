"""The studio's locale chooses the language: pages, letters, papers. Amounts by the CLDR, which Babel carries."""

import pytest
from django.core.exceptions import ValidationError
from django.urls import reverse
from django.utils.translation import get_language

from bookings.common import formats
from bookings.common.forms import NAMES, LabelledForm
from bookings.invoices.paper import invoice_pdf
from bookings.invoices.services import issuing as invoices
from bookings.outbox.models import NoticeKind
from bookings.payments.forms import PaymentForm
from bookings.planner.forms.days import OpenDayForm
from bookings.studio.language import language_of, speaking
from bookings.studio.models import validate_locale
from plates.common.words import within
from tests import builders
from tests.bookings.studio.german import a_german_studio
from tests.reading import letters, papers

SPOKEN = {
    "de_DE": "de",
    "de-AT": "de",  # by its language, for there are no words for its territory alone
    "en_GB": "en-gb",
    "en_US": "en-gb",
    "fi_FI": "en-gb",  # no words in it: English
    "sr_Latn_RS": "en-gb",
    "": "en-gb",
}

# Fields that a form makes anew with a label of their own, and what only a button sends.
MADE_ANEW = {"Amount", "Counted", "Put in", "Taken out", "At most", "Back", "Start", "Price"}


@pytest.mark.parametrize(("locale", "language"), SPOKEN.items(), ids=[name or "none" for name in SPOKEN])
def test_the_language_is_that_of_the_locale_where_there_are_words_in_it(locale, language):
    assert language_of(locale) == language


@pytest.mark.parametrize("locale", ["de", "de_DE", "sr_Latn_RS"])
def test_a_locale_that_the_cldr_knows_can_be_entered(locale):
    validate_locale(locale)


@pytest.mark.parametrize("locale", ["de-DE", "German", "xx_XX", "../de"])
def test_another_one_is_refused_before_every_page_breaks(locale):
    with pytest.raises(ValidationError, match="Use a language with its country, for example"):
        validate_locale(locale)


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("locale", "tag", "says"),
    [("de_AT", "de", "Sitzungstage"), ("en_GB", "en-GB", "Sitting days"), ("fi_FI", "en-GB", "Sitting days")],
    ids=["German", "English", "no words"],
)
def test_every_visitor_reads_the_studio_s_language(client, locale, tag, says):
    builders.a_studio(locale=locale)

    page = client.get(reverse("home"), headers={"accept-language": "fi, de;q=0.9, en;q=0.8"}).content.decode()

    assert f'<html lang="{tag}">' in page
    assert says in page
    assert get_language() == "en-gb", "the language is put back after the page"


@pytest.mark.django_db
def test_without_words_in_a_language_its_amounts_and_dates_are_kept():
    builders.a_studio(locale="fi_FI")
    order = builders.a_placed_order(builders.a_day(), email="ines@example.org")

    letter = letters.flowing(letters.the_letter(order, NoticeKind.DEPOSIT_DUE))

    # Finnish by the CLDR: a comma, a no-break space, the sign last; the day first, "lauantai 28. marraskuuta 2026".
    assert "Deposit to pay: 42,50 €" in letter  # `flowing` makes plain blanks of them
    assert "lauantai 28. marraskuuta 2026" in letter


@pytest.mark.django_db
def test_an_invoice_is_printed_in_the_language_it_was_issued_in():
    a_german_studio()
    order = builders.a_paid_order(builders.a_day(), name="Ines Madrugada")
    issued = invoices.issue(order_id=order.pk, now=builders.NOW)
    builders.a_studio(locale="en_GB")

    paper = papers.flowing(invoice_pdf(issued))

    assert f"Rechnung {issued.label}" in paper
    assert "Summe ohne Steuer" in paper
    assert "Deutschland" in paper


def test_words_of_a_list_keep_their_capitals_where_nouns_have_them():
    with speaking("de_DE"):
        assert within("Wässerung") == "Wässerung"
    assert within("Washing") == "washing"


def test_per_cent_has_the_decimal_sign_of_the_language():
    with speaking("de_DE"):
        assert formats.percent(250) == "2,5 %"
    assert formats.percent(250) == "2.5 %"
    assert formats.percent(2300) == "23 %"


def test_fields_without_a_label_are_called_by_their_name_in_the_studio_s_language():
    with speaking("de_DE"):
        form = PaymentForm(currency="EUR")

    assert [form.fields[name].label for name in ("method", "reference", "note")] == [
        "Zahlungsart", "Referenz", "Notiz",
    ]  # fmt: skip


@pytest.mark.parametrize("form", LabelledForm.__subclasses__(), ids=lambda form: form.__name__)
def test_the_names_of_fields_are_marked_for_translation(form):
    shown = {
        name.replace("_", " ").capitalize()
        for name, field in form.base_fields.items()
        if field.label is None and not field.widget.is_hidden
    }

    assert (
        shown - set(NAMES) - {"Amount", "Counted", "Put in", "Taken out", "At most", "Back", "Start", "Price"}
        == set()
    )


def test_a_day_that_is_opened_names_its_fields():
    assert OpenDayForm(now=builders.NOW).fields["racks_empty_by"].label == "Racks empty by"
