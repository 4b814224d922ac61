package words

// KitWords are those of the kit over several seasons and of options side by
// side.
type KitWords struct {
	Kit, KitUnder                                                     string
	KitTitle                                                          string // frame
	NumberHead, UsedHead, ComeHead, IdleHead, CostHead                string
	KitFigures, KindsOwned, PiecesOwned, PiecesSum, OnHandAll         string
	ComeAll, CostAll, CostAtOnce, KitWorth, WithoutPrice              string
	CostBySeason, KitExact, KitKnow                                   string
	KitChart, ChartUnder, KeyUsed, KeyIdle, KeyCome                   string
	OrdersBefore                                                      string // season
	OrdersUnder                                                       string
	IdleParts, IdleUnder, NothingIdle                                 string
	Options, OptionsUnder, OptionFigures                              string
	AllKinds, AllPieces, WorthRow, BuyRow, BareRow, FullRow, ShelfRow string
	RailRow, HooksRow, SetupRow, SetupNote                            string
	Minutes                                                           string // how many

	kitLists map[string]string // as Words.listWords
}

func englishKit() KitWords {
	return KitWords{
		Kit: "Kit", KitUnder: "What to own so that each season can be built in its turn: the most that any of them needs at once, not the sum.",
		KitTitle:   "Kit: %s",
		NumberHead: "No.", UsedHead: "Pieces used", ComeHead: "Come before it", IdleHead: "Lie idle", CostHead: "Cost before it",
		KitFigures: "The kit in figures", KindsOwned: "Kinds of part", PiecesOwned: "Pieces to own, the most at once",
		PiecesSum: "Pieces of all seasons added up", OnHandAll: "On hand before the first season", ComeAll: "To buy or to cut",
		CostAll: "Cost of all seasons, delivered", CostAtOnce: "All bought before the first season", KitWorth: "Value of the kit",
		WithoutPrice: "Things to buy without a price",
		CostBySeason: "Cost by season",
		KitExact:     "Each part is bought when a season first needs more of it than there are, in the packs that cost least over all seasons; that is exact for each part. An order too small for its supplier takes what later seasons need, where that costs less; orders are not joined only to save freight. Pieces cut to one length are used again at that length only.",
		KitKnow:      "What to know about these plans",
		KitChart:     "Part by season", ChartUnder: "A bar is what is owned, each line to a scale of its own. Figures: used, in brackets idle, + what comes before the season.",
		KeyUsed: "used", KeyIdle: "idle", KeyCome: "comes before the season",
		OrdersBefore: "Before %s",
		OrdersUnder:  "What to order and to cut before this season. Prices are those of the parts lists.",
		IdleParts:    "What lies idle", IdleUnder: "Pieces in the stockroom while the unit stands, season by season.", NothingIdle: "Every piece is in use all the time.",
		Options: "Options side by side", OptionsUnder: "All to one scale. Every position full; goods hatched by family, without pictures.",
		OptionFigures: "Options in figures",
		AllKinds:      "Kinds of part", AllPieces: "Pieces", WorthRow: "Value of the parts", BuyRow: "To buy, delivered",
		BareRow: "Weight, bare", FullRow: "Weight, full", ShelfRow: "Shelf, end to end", RailRow: "Hang rail, end to end", HooksRow: "Hooks",
		SetupRow: "Setup, one person, estimate", Minutes: "%d min",
		SetupNote: "Setup times are estimates: so many seconds a piece, as the parts list says or else by kind (house rule). They compare options; they promise no finishing time.",
	}
}

func spanishKit() KitWords {
	return KitWords{
		Kit: "Juego de piezas", KitUnder: "Lo que hay que tener para montar cada temporada por turno: lo máximo que una necesita a la vez, no la suma.",
		KitTitle:   "Juego de piezas: %s",
		NumberHead: "N.º", UsedHead: "Piezas en uso", ComeHead: "Llegan antes", IdleHead: "Sin uso", CostHead: "Coste previo",
		KitFigures: "El juego en cifras", KindsOwned: "Tipos de pieza", PiecesOwned: "Piezas que tener, máximo a la vez",
		PiecesSum: "Piezas de todas las temporadas sumadas", OnHandAll: "Existencias antes de la primera", ComeAll: "Por comprar o cortar",
		CostAll: "Coste de todas las temporadas, con envío", CostAtOnce: "Comprado todo antes de la primera", KitWorth: "Valor del juego",
		WithoutPrice: "Artículos por comprar sin precio",
		CostBySeason: "Coste por temporada",
		KitExact:     "Cada pieza se compra cuando una temporada necesita por primera vez más de las que hay, en los paquetes que menos cuestan en todas las temporadas; es exacto para cada pieza. Un pedido demasiado pequeño para su proveedor incluye lo que necesitan temporadas posteriores, si así cuesta menos; no se juntan pedidos solo por ahorrar portes. Lo cortado a una medida solo se reutiliza a esa medida.",
		KitKnow:      "Lo que conviene saber de estos planes",
		KitChart:     "Pieza por temporada", ChartUnder: "Barra: lo que se tiene. Cifras: en uso, entre paréntesis sin uso, + lo que llega antes de la temporada.",
		KeyUsed: "en uso", KeyIdle: "sin uso", KeyCome: "llega antes de la temporada",
		OrdersBefore: "Antes de %s",
		OrdersUnder:  "Lo que hay que pedir y cortar antes de esta temporada. Precios según las listas de piezas.",
		IdleParts:    "Lo que queda sin uso", IdleUnder: "Piezas en el almacén mientras el mueble está montado, temporada a temporada.", NothingIdle: "Todas las piezas están siempre en uso.",
		Options: "Opciones lado a lado", OptionsUnder: "Todas a una escala. Todo lleno; mercancía rayada por familia, sin imágenes.",
		OptionFigures: "Opciones en cifras",
		AllKinds:      "Tipos de pieza", AllPieces: "Piezas", WorthRow: "Valor de las piezas", BuyRow: "Por comprar, con envío",
		BareRow: "Peso sin mercancía", FullRow: "Peso con mercancía", ShelfRow: "Estante, en línea", RailRow: "Barra de colgar, en línea", HooksRow: "Ganchos",
		SetupRow: "Montaje, una persona, estimado", Minutes: "%d min",
		SetupNote: "Los tiempos de montaje son estimaciones: unos segundos por pieza, según la lista de piezas o por tipo (regla de la casa). Sirven para comparar; no prometen una hora de fin.",

		kitLists: spanishKitLists(),
	}
}

func frenchKit() KitWords {
	return KitWords{
		Kit: "Jeu de pièces", KitUnder: "Ce qu'il faut posséder pour monter chaque saison à son tour : le plus que l'une demande à la fois, pas la somme.",
		KitTitle:   "Jeu de pièces : %s",
		NumberHead: "N°", UsedHead: "Pièces en service", ComeHead: "Arrivent avant", IdleHead: "Inutilisées", CostHead: "Coût avant",
		KitFigures: "Le jeu en chiffres", KindsOwned: "Types de pièces", PiecesOwned: "Pièces à posséder, maximum à la fois",
		PiecesSum: "Pièces de toutes les saisons, en somme", OnHandAll: "En réserve avant la première saison", ComeAll: "À acheter ou à couper",
		CostAll: "Coût de toutes les saisons, livré", CostAtOnce: "Tout acheté avant la première saison", KitWorth: "Valeur du jeu",
		WithoutPrice: "Articles à acheter sans prix",
		CostBySeason: "Coût par saison",
		KitExact:     "Chaque pièce s'achète quand une saison en demande pour la première fois plus qu'il n'y en a, dans les paquets les moins chers sur toutes les saisons ; c'est exact pour chaque pièce. Une commande trop petite pour son fournisseur prend ce que demandent les saisons suivantes, si cela coûte moins ; on ne réunit pas de commandes pour le seul port. Ce qui est coupé à une longueur ne resserve qu'à cette longueur.",
		KitKnow:      "À savoir sur ces plans",
		KitChart:     "Pièce par saison", ChartUnder: "Barre : ce qu'on possède. Chiffres : en service, entre parenthèses inutilisées, + ce qui arrive avant.",
		KeyUsed: "en service", KeyIdle: "inutilisées", KeyCome: "arrive avant la saison",
		OrdersBefore: "Avant %s",
		OrdersUnder:  "Ce qu'il faut commander et couper avant cette saison. Prix des listes de pièces.",
		IdleParts:    "Ce qui reste inutilisé", IdleUnder: "Pièces en réserve tant que le meuble est monté, saison par saison.", NothingIdle: "Toutes les pièces servent tout le temps.",
		Options: "Options côte à côte", OptionsUnder: "Toutes à une échelle. Tout est plein ; marchandises hachurées par famille, sans images.",
		OptionFigures: "Options en chiffres",
		AllKinds:      "Types de pièces", AllPieces: "Pièces", WorthRow: "Valeur des pièces", BuyRow: "À acheter, livré",
		BareRow: "Poids, nu", FullRow: "Poids, plein", ShelfRow: "Tablettes, bout à bout", RailRow: "Barre à cintres, bout à bout", HooksRow: "Broches",
		SetupRow: "Montage, une personne, estimé", Minutes: "%d min",
		SetupNote: "Les temps de montage sont des estimations : tant de secondes par pièce, d'après la liste de pièces ou par type (règle maison). Ils comparent ; ils ne promettent pas d'heure de fin.",

		kitLists: frenchKitLists(),
	}
}

func spanishKitLists() map[string]string {
	return map[string]string{
		"kit": "juego", "seasons": "temporadas", "idle": "sin uso", "options": "opciones", "buy": "compra",
		"item": "número", "season": "temporada", "most at once": "máximo a la vez", "on hand": "existencias", "to come": "por llegar",
		"supplier": "proveedor", "size": "medida", "pieces": "piezas", "cost": "coste", "plan": "plan", "file": "archivo", "plan mark": "marca del plan",
		"pieces used": "piezas en uso", "pieces to come": "piezas por llegar", "pieces idle": "piezas sin uso",
		"goods": "mercancía", "freight": "portes", "duty": "aranceles", "without a price": "sin precio",
	}
}

func frenchKitLists() map[string]string {
	return map[string]string{
		"kit": "jeu", "seasons": "saisons", "idle": "inutilisées", "options": "options", "buy": "achats",
		"item": "numéro", "season": "saison", "most at once": "maximum à la fois", "on hand": "en réserve", "to come": "à venir",
		"supplier": "fournisseur", "size": "dimensions", "pieces": "pièces", "cost": "coût", "plan": "plan", "file": "fichier", "plan mark": "marque du plan",
		"pieces used": "pièces en service", "pieces to come": "pièces à venir", "pieces idle": "pièces inutilisées",
		"goods": "marchandise", "freight": "port", "duty": "droits", "without a price": "sans prix",
	}
}
