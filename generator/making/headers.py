"""``publish --headers``: what a host should say of the site's files, to be written into its settings."""

from generator.making.exit_codes import COULD_NOT_FINISH
from generator.making.options import CommandOptions
from generator.making.release import built
from generator.making.report import Refusal, refuse, say
from generator.writing.policy import policy_of_site
from generator.writing.targets.http_headers import headers_to_set
from generator.writing.targets.peer import CouldNotPublish


def run(asked: CommandOptions) -> int:
    """Exit code 0 when they are printed, 3 when there is no site to look at."""
    try:
        release = built(asked.output)
    except CouldNotPublish as stop:
        return refuse(Refusal(what=str(stop), exit_code=COULD_NOT_FINISH), as_json=asked.as_data)
    pages = (place.read_bytes() for path, place in release.places.items() if path.endswith(".html"))
    headers = headers_to_set(policy_of_site(pages))
    data = [{"path": f"/{start}*", "header": header, "value": value} for start, header, value in headers]
    say((f"{one['path']}  {one['header']}: {one['value']}" for one in data), data, as_json=asked.as_data)
    return 0
