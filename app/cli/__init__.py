"""The command line: one module a command, loaded only when that command runs."""

import difflib
import importlib
import sys
from dataclasses import dataclass

import click

PROGRAM = "python3 -m app"
DEFAULT_COMMAND = "serve"


@dataclass(frozen=True)
class Entry:
    """Where a command lives, and its line in the list of commands."""

    module: str
    help: str


COMMANDS = {
    "serve": Entry("app.cli.serve", "Serve the drills to a browser (also without any command)."),
    "draw": Entry("app.cli.draw", "Print items of a family as JSON lines."),
    "families": Entry("app.cli.families", "List the families of the question packs as JSON lines."),
    "figures": Entry("app.cli.figures", "Write one page with every figure, to look at."),
    "coast": Entry("app.cli.coast", "Draw the coastlines of the bench's map anew."),
    "school": Entry("app.cli.school", "Make a school, or list the schools."),
    "backup": Entry("app.cli.backup", "Copy the database to a file, also while it is served."),
    "restore": Entry("app.cli.restore", "Put a copy of the database back."),
    "tidy": Entry("app.cli.tidy", "Take away what is kept no longer."),
    "rebuild-learners": Entry("app.cli.rebuild_learners", "Make the learner model's state anew from the answers."),
    "nightly": Entry("app.cli.nightly", "Count how good the questions are; to be run once a night."),
    "simulate": Entry("app.cli.simulate", "Measure the learner model by synthetic learners."),
    "simulate-classes": Entry("app.cli.simulate_classes", "Measure the flags of weak spots by synthetic classes."),
    "regrade": Entry("app.cli.regrade", "Mark past answers again after a key was corrected."),
    "set-aside": Entry("app.cli.set_aside", "Set past answers to a withdrawn question aside."),
    "test": Entry("app.cli.test", "Set up and run the whole test suite."),
    "check": Entry("app.cli.check", "Check format, lint, types, arrows, packs and migrations."),
    "bench": Entry("app.cli.bench", "Measure this machine and the application against its goals."),
}


class Refused(click.ClickException):
    """Input or surroundings that the command cannot work with: a clear message and exit code 2."""

    exit_code = 2


class LazyGroup(click.Group):
    """A group whose list costs no import: a command's module is loaded when the command is."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """List the commands in the order a reader needs them."""
        del ctx
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Load one command."""
        del ctx
        if cmd_name not in COMMANDS:
            return None
        command = importlib.import_module(COMMANDS[cmd_name].module).command
        assert isinstance(command, click.Command)  # noqa: S101 - the table above is ours
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the command, or name those that look like it."""
        if args[0] not in COMMANDS:
            raise click.NoSuchCommand(args[0], possibilities=COMMANDS, ctx=ctx)
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the list of commands from the table."""
        del ctx
        with formatter.section("Commands"):
            formatter.write_dl([(name, entry.help) for name, entry in COMMANDS.items()])


@click.group(cls=LazyGroup, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
def root() -> None:
    """Lubberline: a ground-school question bank and drill trainer for the compass, headings and turns.

    Without a command it serves the drills. COMMAND --help says what a command takes.
    """


def with_default(arguments: list[str]) -> list[str]:
    """Put the default command in front where the arguments name none."""
    if not arguments or (arguments[0].startswith("-") and arguments[0] not in {"-h", "--help"}):
        return [DEFAULT_COMMAND, *arguments]
    return arguments


def suggest(word: str, known: list[str]) -> str:
    """Word the names that look like a mistyped one, or nothing."""
    close = difflib.get_close_matches(word, known, n=3)
    return f" Did you mean {' or '.join(close)}?" if close else ""


def main() -> None:
    """Run the command line and leave the process."""
    root.main(with_default(sys.argv[1:]), prog_name=PROGRAM)
