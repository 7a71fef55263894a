"""``python -m recipes_core``: the command line without its installed script."""

import sys

if not sys.flags.safe_path:
    # Python put the working folder first on the import path; a stranger's bundle may be standing there
    del sys.path[0]

from recipes_core.cli import main

sys.exit(main())
