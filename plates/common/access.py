"""Who may see the studio's own pages."""

from collections.abc import Callable
from typing import Concatenate, ParamSpec, cast

from django.contrib.admin.views.decorators import staff_member_required
from django.contrib.auth.models import User
from django.http import HttpRequest
from django.http.response import HttpResponseBase
from django.views.decorators.cache import never_cache

Arguments = ParamSpec("Arguments")
View = Callable[Concatenate[HttpRequest, Arguments], HttpResponseBase]


def photographer(view: View[Arguments]) -> View[Arguments]:
    """Let only signed-in staff see the view; others are sent to sign in first. No browser or proxy keeps a copy."""
    guarded: View[Arguments] = staff_member_required(never_cache(view), login_url="login")
    return guarded


def operator_of(request: HttpRequest) -> User:
    """Who presses, on a page that only the photographer sees."""
    return cast(User, request.user)
