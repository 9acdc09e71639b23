"""What a car file says of its shops and their tolerances, as the rest of the program takes it. [mm]"""

from dataclasses import replace

from boxfit.bay import BoxRules
from boxfit.files.places import vector
from boxfit.files.said_car import SaidCar
from boxfit.files.said_shops import SaidFoldShop, SaidPrintShop
from boxfit.workshop import (
    USUAL_FOLD_SHOP,
    USUAL_PRINT_SHOP,
    USUAL_TOLERANCES,
    FoldedK,
    FoldShop,
    PrintShop,
)


def with_shops(rules: BoxRules, said: SaidCar) -> BoxRules:
    """The rules of a bay with the car's shops and tolerances, common practice for what it leaves out."""
    return replace(
        rules,
        fold_shop=fold_shop_believed(said.fold_shop),
        print_shop=print_shop_believed(said.print_shop),
        tolerances=replace(USUAL_TOLERANCES, **said.tolerances.model_dump(exclude_none=True)),
    )


def fold_shop_believed(said: SaidFoldShop) -> FoldShop:
    """The shop that cuts, folds and welds."""
    figures = said.model_dump(exclude_none=True, exclude={"sheet", "k", "price"})
    rows = tuple(FoldedK(row.thickness, row.radius, row.k) for row in said.k)
    prices = said.price.model_dump(exclude_none=True, by_alias=True) if said.price else {}
    shop = replace(USUAL_FOLD_SHOP, k_table=rows, prices=tuple(prices.items()), **figures)
    return replace(shop, sheet=(said.sheet[0], said.sheet[1])) if said.sheet else shop


def print_shop_believed(said: SaidPrintShop) -> PrintShop:
    """The shop that prints."""
    shop = replace(USUAL_PRINT_SHOP, **said.model_dump(exclude_none=True, exclude={"bed"}))
    return replace(shop, bed=vector(said.bed)) if said.bed else shop
