"""What is bought: the basket by shop section, prices and tax in decimal money, and the shelf of offcuts."""

from lathlight.buying.basket import (
    HEADER,
    SECTIONS,
    Basket,
    BasketLine,
    BasketSection,
    Section,
    add_up,
    basket_rows,
    size_text,
)
from lathlight.buying.money import Tax, Totals, make_totals, minor_unit, money_text, round_money
from lathlight.buying.per_use import CostPerUse, cost_per_use
from lathlight.buying.price_csv import Wanted, parse_price, read_price_csv, write_price_csv
from lathlight.buying.prices import (
    PERS,
    Per,
    PriceEntry,
    PriceList,
    check_entries,
    find_price,
    price_list_of,
    prices_of,
)
from lathlight.buying.shelf import Offcut, Shelf, undo, use
from lathlight.buying.shelf_file import read_shelf
from lathlight.buying.shelf_writing import write_shelf
from lathlight.buying.shopping import make_basket, priced_name, priced_names, wanted_prices
from lathlight.buying.tins import TinOffer, cheapest_tins
from lathlight.buying.what_if import LineDifference, WhatIf, compare_baskets, next_cheapest, repaint_basket, what_ifs

__all__ = [
    "HEADER",
    "PERS",
    "SECTIONS",
    "Basket",
    "BasketLine",
    "BasketSection",
    "CostPerUse",
    "LineDifference",
    "Offcut",
    "Per",
    "PriceEntry",
    "PriceList",
    "Section",
    "Shelf",
    "Tax",
    "TinOffer",
    "Totals",
    "Wanted",
    "WhatIf",
    "add_up",
    "basket_rows",
    "cheapest_tins",
    "check_entries",
    "compare_baskets",
    "cost_per_use",
    "find_price",
    "make_basket",
    "make_totals",
    "minor_unit",
    "money_text",
    "next_cheapest",
    "parse_price",
    "price_list_of",
    "priced_name",
    "priced_names",
    "prices_of",
    "read_price_csv",
    "read_shelf",
    "repaint_basket",
    "round_money",
    "size_text",
    "undo",
    "use",
    "wanted_prices",
    "what_ifs",
    "write_price_csv",
    "write_shelf",
]
