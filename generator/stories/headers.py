"""``publish --headers``: what a host should say of the site's files, to be written into its settings."""

import sys

from generator.stories.asked import Asked
from generator.stories.exit_codes import COULD_NOT_FINISH
from generator.stories.release import built
from generator.writing.headers import headers_to_set
from generator.writing.peer import CouldNotPublish
from generator.writing.policy import policy_of_site


def run(asked: Asked) -> int:
    """Exit code 0 when they are printed, 3 when there is no site to look at."""
    try:
        release = built(asked.output)
    except CouldNotPublish as stop:
        print(f"wickwright: {stop}", file=sys.stderr)
        return COULD_NOT_FINISH
    pages = (place.read_bytes() for path, place in release.places.items() if path.endswith(".html"))
    print(
        "\n".join(
            f"/{start}*  {header}: {value}" for start, header, value in headers_to_set(policy_of_site(pages))
        )
    )
    return 0
