"""A page's rules for its browser: its own styles and scripts work, and nothing else does."""

import re
from base64 import b64encode
from hashlib import sha256
from html import escape

from generator.writing.policy import policy_of, policy_of_site

PAGE = (
    b"<style>p { color: red }</style><script type='application/json'>{}</script><script>\nrun();\n</script>"
)


def hashed(text: str) -> str:
    return f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'"


def test_a_page_without_anything_may_do_nothing() -> None:
    assert policy_of(b"<p>Words</p>") == (
        "default-src 'none'; img-src data:; style-src 'none'; script-src 'none'; "
        "base-uri 'none'; form-action 'none'"
    )


def test_its_styles_and_scripts_are_named_by_their_hash_and_its_data_is_not() -> None:
    policy = policy_of(PAGE)

    assert f"style-src {hashed('p { color: red }')};" in policy
    # Line ends belong to the script: a browser takes all between the tags (CSP Level 3, section 8.4; MEMORY).
    assert f"script-src {hashed(chr(10) + 'run();' + chr(10))};" in policy


def test_a_page_inside_a_page_brings_its_own() -> None:
    policy = policy_of(PAGE, b"<script>other();</script>", PAGE)

    assert policy.count("sha256-") == 3
    assert hashed("other();") in policy


def test_nothing_is_allowed_by_kind() -> None:
    assert "unsafe" not in policy_of(PAGE)
    assert "'self'" not in policy_of(PAGE)


def test_the_policy_of_a_site_allows_each_script_that_stands_in_a_page_once() -> None:
    page, other = b"<script>one()</script>", b"<script>one()</script><script>two()</script>"

    policy = policy_of_site([page, other])

    assert policy.count("sha256-") == 2
    assert "frame-ancestors 'self'" in policy


def test_the_policy_of_a_site_allows_what_a_page_that_opens_another_names_itself() -> None:
    own = policy_of(b"<script>opened()</script>")
    page = f'<meta http-equiv="Content-Security-Policy" content="{escape(own)}">'.encode()
    (hashed,) = re.findall(r"'sha256-[^']+'", own)

    assert f"script-src 'self' {hashed};" in policy_of_site([page])
