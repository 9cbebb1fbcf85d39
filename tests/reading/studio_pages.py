"""The photographer's pages as they are asked for."""

from django.urls import reverse

from tests.reading.pages import Page


def read(client, name, *facts, **asked):
    return client.get(reverse(f"studio:{name}", args=facts), asked)


def body(response):
    return b"".join(response.streaming_content)


def following(client, response):
    return Page(client.get(response.url)).text
