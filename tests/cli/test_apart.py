"""Work in a process of its own: it leaves nothing behind, its failure ends the caller, and a signal stops both."""

import signal
import subprocess
import sys

import pytest

from app.environment import ROOT

# What runs in a shell's background ignores an interrupt, and what it starts does too, unless told otherwise.
CODE = """import signal, sys, time
from app.cli.apart import apart
signal.signal(signal.SIGINT, signal.default_int_handler)
apart(lambda: {work})
print('colorsys' in sys.modules)"""


def run(work: str) -> "subprocess.Popen[str]":
    return subprocess.Popen([sys.executable, "-c", CODE.format(work=work)], cwd=ROOT, stdout=subprocess.PIPE, text=True)


@pytest.mark.parametrize(
    ("work", "code", "printed"),
    [
        ("__import__('colorsys')", 0, "False\n"),
        ("print('done')", 0, "done\nFalse\n"),
        ("sys.exit(2)", 2, ""),
    ],
)
def test_does_the_work_and_keeps_nothing_of_it(work: str, code: int, printed: str) -> None:
    with run(work) as process:
        out, _ = process.communicate()
    assert (process.returncode, out) == (code, printed)


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_signal_to_stop_ends_the_work_and_its_caller(number: signal.Signals) -> None:
    with run("(print('begun', flush=True), time.sleep(20))") as process:
        assert process.stdout is not None
        process.stdout.readline()
        process.send_signal(number)
        out, _ = process.communicate()  # which waits until the copy, too, has let go of its output
    assert process.returncode != 0
    assert out == ""
