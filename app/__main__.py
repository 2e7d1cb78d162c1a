"""Run Lubberline: python3 -m app. Any Python can read this one file, so that an old one is told what is wrong."""

import sys

if sys.version_info < (3, 11):
    sys.stderr.write("lubberline: Python 3.11 or newer is needed; this is Python %d.%d.\n" % sys.version_info[:2])
    sys.stderr.write("Run the same command with a newer one, for example: python3.11 -m app\n")
    sys.exit(2)

from app.bootstrap import main

sys.exit(main(sys.argv[1:]))
