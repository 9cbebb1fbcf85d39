"""A browser window under watch: whom it asked, what its content policy refused, what broke."""

# Seen by the page's own policy check, and told through the console (CSP Level 3, 5.3).
TELL = """
document.addEventListener("securitypolicyviolation", event =>
    console.error(`Content Security Policy: ${event.violatedDirective} refused ${event.blockedURI}`))
"""


class Window:
    """One page of one visitor. `strangers`, `complaints` and `broken` have to stay empty."""

    def __init__(self, browser, home, *, width=1280, scripts=False, cookies=()):
        self.home = home
        self.strangers, self.complaints, self.broken = [], [], []
        self.context = browser.new_context(
            viewport={"width": width, "height": 900},
            java_script_enabled=scripts,
            base_url=home,
            reduced_motion="reduce",  # a page that still glides to the focus cannot be measured
        )
        self.context.add_cookies(list(cookies))
        self.context.set_default_timeout(10_000)
        self.context.on("request", self._asked)
        self.context.on("response", self._answered)
        self.context.on("console", self._told)
        if scripts:
            self.context.add_init_script(TELL)
        self.page = self.context.new_page()

    def close(self):
        self.context.close()

    def _asked(self, request):
        if not request.url.startswith((self.home, "data:", "about:")):
            self.strangers.append(request.url)

    def _answered(self, response):
        if response.status >= 500:
            self.broken.append(f"{response.status} {response.url}")

    def _told(self, message):
        if "Content Security Policy" in message.text:
            self.complaints.append(message.text)
