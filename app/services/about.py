"""What the packs stand on."""

from collections.abc import Sequence

from app.packs.library import Library
from app.packs.spec import typeset


def list_sources(library: Library) -> Sequence[str]:
    """Return every source the families name, once each, in order."""
    return sorted({typeset(source) for family in library.families.values() for source in family.sources})
