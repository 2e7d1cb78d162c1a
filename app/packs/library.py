"""All packs that are in use, ready for drawing."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches
from functools import cached_property

from app.packs.spec import FORMAT, Family, Language, Pack, Shared
from app.packs.syllabus import Syllabuses


class UnknownFamily(LookupError):
    """No family has this id; the message names the nearest ones."""


class UnknownPack(LookupError):
    """No pack has this id; the message names those there are."""


@dataclass(frozen=True, eq=False)
class Library:
    """Packs and families by id, and the words they share; `files` holds each family's file name for messages.

    Two libraries are equal only when they are the same one, so that drawn items can be kept by it.
    """

    packs: Mapping[str, Pack]
    families: Mapping[str, Family]
    shared: Shared
    files: Mapping[str, str]
    syllabuses: Syllabuses = field(default_factory=lambda: Syllabuses(format=FORMAT))

    @cached_property
    def unlisted(self) -> frozenset[str]:
        """The families that no pack lists: known for what was drawn from them, and drawn anew no more."""
        return frozenset(self.families).difference(*(pack.families for pack in self.packs.values()))

    def family(self, family_id: str) -> Family:
        """Return the family; UnknownFamily names close matches."""
        if family_id not in self.families:
            near = get_close_matches(family_id, self.families, n=3, cutoff=0.4)
            hint = f"; did you mean {', '.join(near)}?" if near else "; the command `families` lists them"
            raise UnknownFamily(f"there is no family {family_id!r}{hint}")
        return self.families[family_id]

    def pack(self, pack_id: str) -> Pack:
        """Return the pack; UnknownPack names those there are."""
        if pack_id not in self.packs:
            raise UnknownPack(f"there is no pack {pack_id!r}; there are {', '.join(self.packs)}")
        return self.packs[pack_id]

    def pack_of(self, family_id: str) -> Pack:
        """Return the pack that holds the family (its topic)."""
        return self.pack(self.family(family_id).topic)

    def families_of(self, pack_id: str) -> tuple[Family, ...]:
        """Return a pack's families in the order the pack lists them."""
        return tuple(self.families[family_id] for family_id in self.pack(pack_id).families)

    def word(self, code: str, language: Language, family: Family | None = None) -> str:
        """Return the text of a code: the family's own first, then the shared words. KeyError names the code."""
        if family is not None and code in family.texts:
            return family.texts[code].of(language)
        if code not in self.shared.words:
            raise KeyError(f"no text for the code {code!r}" + (f" in {family.id}" if family else ""))
        return self.shared.words[code].of(language)
