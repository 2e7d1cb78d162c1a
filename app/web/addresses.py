"""Addresses that came with a request: only those of this site are followed."""

from urllib.parse import urlsplit


def own_address(address: str) -> str | None:
    """Return an address of this site as it is; None for what would lead to another site."""
    parts = urlsplit(address)
    inside = address.startswith("/") and not address.startswith(("//", "/\\"))
    return address if inside and not parts.scheme and not parts.netloc and address.isprintable() else None
