package words

import (
	"unicode"
	"unicode/utf8"
)

// BuyWords are those of the buy list and its orders.
type BuyWords struct {
	BuyList, BuyUnder                                   string
	BuyOrder                                            string // supplier
	BuyOrderUnder                                       string // title of the plan
	BuySupplier, BuyNoSupplier, BuyLines                string
	BuyPieces, BuyGoods, BuyFreight, BuyDuty, BuyLanded string
	BuyDutyAt                                           string // per cent
	BuyAll, BuyNothing                                  string
	BuyNeeded, BuyOnHand, BuyShort, BuyPacks, BuySpare  string
	BuyCost, BuyNoPrice                                 string
	BuyPackAt                                           string // how many, pieces in one, price of one
	BuyAtLeast                                          string // pieces
	BuyWithout                                          string // lines
	BuyWorth                                            string // sum
	BuyWorthBut                                         string // sum, things
	BuyHeld, BuyLeft                                    string
	BuyFilled                                           string // sum, minimum
	BuyFree                                             string // sum, from what sum on, freight
	BuyTooSmall                                         string // minimum
	BuyNumber, BuyDeliver, BuyBy                        string

	buyLists map[string]string // as Words.listWords
}

// Money is a decimal number with a point as a sum of money, with its currency
// where the language puts it; "" stays "".
func (w *Words) Money(number, currency string) string {
	number = w.Decimal(number)
	if number == "" || currency == "" {
		return number
	}
	if w.CurrencyLast {
		return number + "\u00a0" + currency
	}
	if last, _ := utf8.DecodeLastRuneInString(currency); unicode.IsLetter(last) {
		currency += "\u00a0"
	}
	return currency + number
}

func englishBuy() BuyWords {
	return BuyWords{
		BuyList: "Buy list", BuyUnder: "What the stockroom lacks, in the packs that cost least. A sheet for each order follows.",
		BuyOrder: "Order: %s", BuyOrderUnder: "For: %s",
		BuySupplier: "Supplier", BuyNoSupplier: "no supplier named", BuyLines: "Lines",
		BuyPieces: "Pieces", BuyGoods: "Goods", BuyFreight: "Freight", BuyDuty: "Duty", BuyLanded: "Landed cost",
		BuyDutyAt: "Duty and fees, %s %%",
		BuyAll:    "All orders", BuyNothing: "Nothing to buy: all of it is on hand.",
		BuyNeeded: "Needed", BuyOnHand: "On hand", BuyShort: "Short", BuyPacks: "Packs to order", BuySpare: "Spare",
		BuyCost: "Cost", BuyNoPrice: "no price",
		BuyPackAt: "%d × %d at %s", BuyAtLeast: "sold from %d pieces",
		BuyWithout: "Lines without a price, left out of the sums: %d.",
		BuyWorth:   "All that the unit needs, on hand or not, is worth %s.", BuyWorthBut: "All that the unit needs, on hand or not, is worth %s, not counting things without a price: %d.",
		BuyHeld: "On hand: nothing to buy", BuyLeft: "Left over",
		BuyFilled:   "Goods for %s more than needed are in this order, to reach the supplier's minimum of %s.",
		BuyFree:     "Goods for %s more than needed are in this order: from %s delivery is free, which saves %s.",
		BuyTooSmall: "This order is under the supplier's minimum of %s: ask before sending it.",
		BuyNumber:   "Order number", BuyDeliver: "Deliver to", BuyBy: "Ordered by",
	}
}

func spanishBuy() BuyWords {
	return BuyWords{
		BuyList: "Lista de compra", BuyUnder: "Lo que falta en el almacén, en los paquetes que menos cuestan. Sigue una hoja por pedido.",
		BuyOrder: "Pedido: %s", BuyOrderUnder: "Para: %s",
		BuySupplier: "Proveedor", BuyNoSupplier: "sin proveedor", BuyLines: "Líneas",
		BuyPieces: "Piezas", BuyGoods: "Mercancía", BuyFreight: "Porte", BuyDuty: "Aranceles", BuyLanded: "Costo puesto",
		BuyDutyAt: "Aranceles y tasas, %s %%",
		BuyAll:    "Todos los pedidos", BuyNothing: "Nada por comprar: todo está en el almacén.",
		BuyNeeded: "Hace falta", BuyOnHand: "Hay", BuyShort: "Falta", BuyPacks: "Paquetes por pedir", BuySpare: "Sobran",
		BuyCost: "Costo", BuyNoPrice: "sin precio",
		BuyPackAt: "%d × %d a %s", BuyAtLeast: "se vende desde %d piezas",
		BuyWithout: "Líneas sin precio, fuera de las sumas: %d.",
		BuyWorth:   "Todo lo que el mueble necesita, lo haya o no, vale %s.", BuyWorthBut: "Todo lo que el mueble necesita, lo haya o no, vale %s, sin contar lo que no tiene precio: %d.",
		BuyHeld: "En el almacén: nada por comprar", BuyLeft: "Queda",
		BuyFilled:   "Este pedido lleva mercancía por %s de más, para llegar al mínimo del proveedor, %s.",
		BuyFree:     "Este pedido lleva mercancía por %s de más: desde %s la entrega es gratis y se ahorran %s.",
		BuyTooSmall: "Este pedido no llega al mínimo del proveedor, %s: pregunte antes de enviarlo.",
		BuyNumber:   "Número de pedido", BuyDeliver: "Entregar en", BuyBy: "Pedido por",
		buyLists: map[string]string{
			"buy": "compra", "orders": "pedidos", "supplier": "proveedor", "size": "medida", "needed": "hace falta", "on hand": "hay",
			"short": "falta", "pieces": "piezas", "spare": "sobran", "cost": "costo", "worth": "vale", "lines": "líneas",
			"without price": "sin precio", "goods": "mercancía", "freight": "porte", "duty": "aranceles", "landed": "costo puesto",
		},
	}
}

func frenchBuy() BuyWords {
	return BuyWords{
		BuyList: "Liste d’achat", BuyUnder: "Ce qui manque en réserve, dans les paquets les moins chers. Une feuille par commande suit.",
		BuyOrder: "Commande : %s", BuyOrderUnder: "Pour : %s",
		BuySupplier: "Fournisseur", BuyNoSupplier: "sans fournisseur", BuyLines: "Lignes",
		BuyPieces: "Pièces", BuyGoods: "Marchandise", BuyFreight: "Port", BuyDuty: "Droits", BuyLanded: "Coût rendu",
		BuyDutyAt: "Droits et frais, %s %%",
		BuyAll:    "Toutes les commandes", BuyNothing: "Rien à acheter : tout est en réserve.",
		BuyNeeded: "Il faut", BuyOnHand: "En réserve", BuyShort: "Manque", BuyPacks: "Paquets à commander", BuySpare: "En trop",
		BuyCost: "Coût", BuyNoPrice: "sans prix",
		BuyPackAt: "%d × %d à %s", BuyAtLeast: "vendu à partir de %d pièces",
		BuyWithout: "Lignes sans prix, hors des sommes : %d.",
		BuyWorth:   "Tout ce qu’il faut au meuble, en réserve ou non, vaut %s.", BuyWorthBut: "Tout ce qu’il faut au meuble, en réserve ou non, vaut %s, sans compter ce qui n’a pas de prix : %d.",
		BuyHeld: "En réserve : rien à acheter", BuyLeft: "Reste",
		BuyFilled:   "Cette commande compte %s de marchandise en plus, pour atteindre le minimum du fournisseur, %s.",
		BuyFree:     "Cette commande compte %s de marchandise en plus : à partir de %s la livraison est gratuite, soit %s d’économie.",
		BuyTooSmall: "Cette commande n’atteint pas le minimum du fournisseur, %s : demander avant de l’envoyer.",
		BuyNumber:   "Numéro de commande", BuyDeliver: "Livrer à", BuyBy: "Commandé par",
		buyLists: map[string]string{
			"buy": "achat", "orders": "commandes", "supplier": "fournisseur", "size": "dimension", "needed": "il faut", "on hand": "en réserve",
			"short": "manque", "pieces": "pièces", "spare": "en trop", "cost": "coût", "worth": "vaut", "lines": "lignes",
			"without price": "sans prix", "goods": "marchandise", "freight": "port", "duty": "droits", "landed": "coût rendu",
		},
	}
}
