"""How a command ends, as other programs see it."""

from typing import Final

AT_FAULT: Final = 1
"""An entry stands in the way, or something is not as it was issued."""

WRONG_USE: Final = 2
"""The command was asked for something that is not there; so says `argparse`, too."""

COULD_NOT_FINISH: Final = 3
"""The disk, the network or another program stood in the way."""
