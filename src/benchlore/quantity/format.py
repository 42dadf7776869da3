"""Writes quantities in the trade's style (stand-in)."""
from benchlore.quantity.model import Quantity
def format_value(value: float, unit: str | None, digits: int = 3) -> str:
    return f"{value:.{digits}g}\u00a0{unit or ''}".strip()
def format_quantity(q: Quantity) -> str:
    return q.text if q.value is None else format_value(q.value, q.unit)
