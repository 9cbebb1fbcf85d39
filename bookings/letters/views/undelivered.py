"""Letters that came back: the address is put right, and they go out once more."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods

from bookings.letters.forms import LetterAddressForm
from bookings.letters.services import undelivered
from bookings.orders.models import Order
from plates.common.access import photographer


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def again(request: HttpRequest, reference: str) -> HttpResponse:
    """Show what could not be delivered for an order; correct the address and send it again."""
    order = get_object_or_404(
        Order.objects.select_related("client"), reference=reference, client__erased_at=None
    )
    address = order.client.email if order.client else ""
    form = LetterAddressForm(request.POST or None, initial={"email": address})
    if request.method == "POST" and form.is_valid():
        email = form.cleaned_data["email"]
        count = undelivered.send_again(order_id=order.pk, email=email, now=timezone.now())
        said = ngettext("%(count)d letter goes out again.", "%(count)d letters go out again.", count)
        messages.success(request, said % {"count": count})
        return redirect("studio:order", reference)
    returned = order.notices.filter(given_up_at__isnull=False, sent_at=None, withdrawn_at=None)
    context = {"order": order, "form": form, "returned": returned}
    return render(
        request, "bookings/letters/letters_again.html", context, status=400 if form.is_bound else 200
    )
