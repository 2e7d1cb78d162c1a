"""What is said where a bank is too steep for the dip."""

from app.figures.figure import Values


def not_followed(values: Values) -> str:
    """Say that the card does not follow such a turn, with its bank and dip."""
    return (
        f"bank_deg is {values['bank_deg']} at dip_deg {values['dip_deg']}: the compass card does not follow such a "
        "turn; give a bank and a dip that sum to 85 at most"
    )
