"""The site's addresses."""

from django.contrib import admin
from django.contrib.auth.views import LoginView, LogoutView
from django.urls import include, path

from bookings.common.forms import SignInForm

urlpatterns = [
    path("", include("bookings.urls")),
    path("studio/", include("plates.urls")),
    path("sign-in/", LoginView.as_view(authentication_form=SignInForm), name="login"),
    path("sign-out/", LogoutView.as_view(), name="logout"),
    path("studio/set-up/", admin.site.urls),
]
