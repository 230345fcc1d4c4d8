"""All models of the inventory app, by noun."""

from inventory.lots import UNKNOWN_LOT
from inventory.models.customers import Customer
from inventory.models.orders import OPEN, InvoicePhoto, OneOff, Order, OrderLine, OrderStatus, OrderVersion
from inventory.models.parts import Part, PartUse
from inventory.models.picking import Pick, PickEntry, PickLine, PickSheet, PutBack
from inventory.models.shipments import Package, PackageLine, SentStructure, Shipment, StoredPaper
from inventory.models.stock import Bin, Holding, Movement
from inventory.models.supply import ExpectedReceipt, Receipt, ReceiptLine

__all__ = [
    "OPEN",
    "UNKNOWN_LOT",
    "Bin",
    "Customer",
    "ExpectedReceipt",
    "Holding",
    "InvoicePhoto",
    "Movement",
    "OneOff",
    "Order",
    "OrderLine",
    "OrderStatus",
    "OrderVersion",
    "Package",
    "PackageLine",
    "Part",
    "PartUse",
    "Pick",
    "PickEntry",
    "PickLine",
    "PickSheet",
    "PutBack",
    "Receipt",
    "ReceiptLine",
    "SentStructure",
    "Shipment",
    "StoredPaper",
]
