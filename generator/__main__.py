"""``python -m generator`` is ``wickwright``."""

import sys

from generator.cli import main

sys.exit(main())
