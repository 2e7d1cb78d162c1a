"""Work that is done once, in a process of its own: what it loads and leaves in memory is gone with that process."""

import os
import signal
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

STOPS = (signal.SIGINT, signal.SIGTERM, signal.SIGQUIT)


def apart(work: Callable[[], None]) -> None:
    """Do the work in a copy of this process, and wait for it; end as the copy ended where that failed.

    A signal to stop reaches the copy through this process alone, so that neither outlives the other.
    """
    signal.pthread_sigmask(signal.SIG_BLOCK, STOPS)
    child = os.fork()
    if child == 0:
        os.setsid()  # a terminal would send its signal to both
        signal.pthread_sigmask(signal.SIG_UNBLOCK, STOPS)
        work()
        sys.exit()
    with _handed_on(child):
        signal.pthread_sigmask(signal.SIG_UNBLOCK, STOPS)
        code = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    if code:
        sys.exit(code)


@contextmanager
def _handed_on(child: int) -> Iterator[None]:
    """Have signals to stop go to a child meanwhile."""
    before = {number: signal.signal(number, lambda number, _: os.kill(child, number)) for number in STOPS}
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)
