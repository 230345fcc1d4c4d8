"""All models of the inventory app, by noun."""

from inventory.models.parts import Part, PartUse
from inventory.models.stock import UNKNOWN_LOT, Bin, Holding, Movement
from inventory.models.supply import ExpectedReceipt, Receipt, ReceiptLine

__all__ = [
    "UNKNOWN_LOT",
    "Bin",
    "ExpectedReceipt",
    "Holding",
    "Movement",
    "Part",
    "PartUse",
    "Receipt",
    "ReceiptLine",
]
