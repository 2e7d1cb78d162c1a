"""Grades a reply, names the misconception behind it and explains with the item's own numbers."""
