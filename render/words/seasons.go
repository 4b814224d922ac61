package words

// SeasonsWords are those of a folder of packs as a strip of time.
type SeasonsWords struct {
	Seasons, SeasonsUnder, SeasonsFoot string
	PiecesFirst                        string // pieces
	PiecesThen                         string // pieces, that came, that went
	ProductsFirst                      string // products
	ProductsThen                       string // products, that came, that went, positions moved
	FoundCounts                        string // stops, cautions, notes
	NothingDated                       string
	NotDrawn                           string // what
	EarlierPacks, SupersededPacks      string // how many, as are the others
	CopiedPacks, UndatedPacks          string
	OtherUnits                         string
}

func englishSeasons() SeasonsWords {
	return SeasonsWords{
		Seasons: "Season to season", SeasonsUnder: "What was up when. All to one scale, every position full, goods hatched by family. + came, − went.",
		SeasonsFoot: "Drawn from what each pack says of itself. Build from the packs, not from this sheet.",
		PiecesFirst: "Pieces %d", PiecesThen: "Pieces %d: +%d −%d",
		ProductsFirst: "Products %d", ProductsThen: "Products %d: +%d −%d, moved %d",
		FoundCounts:  "Stops %d, cautions %d, notes %d",
		NothingDated: "No pack has a date.",
		NotDrawn:     "Not drawn: %s.",
		EarlierPacks: "earlier packs: %d", SupersededPacks: "superseded: %d", CopiedPacks: "copies: %d", UndatedPacks: "without a date: %d",
		OtherUnits: "other units: %d",
	}
}

func spanishSeasons() SeasonsWords {
	return SeasonsWords{
		Seasons: "De temporada en temporada", SeasonsUnder: "Qué hubo y cuándo. Todo a una escala y lleno; mercancía rayada por familia. + llegó, − salió.",
		SeasonsFoot: "Dibujado según lo que cada juego de hojas dice de sí. Monte con esas hojas, no con esta.",
		PiecesFirst: "Piezas %d", PiecesThen: "Piezas %d: +%d −%d",
		ProductsFirst: "Productos %d", ProductsThen: "Productos %d: +%d −%d, movidos %d",
		FoundCounts:  "Altos %d, precauciones %d, notas %d",
		NothingDated: "Ningún juego de hojas tiene fecha.",
		NotDrawn:     "Sin dibujar: %s.",
		EarlierPacks: "anteriores: %d", SupersededPacks: "reemplazados: %d", CopiedPacks: "copias: %d", UndatedPacks: "sin fecha: %d",
		OtherUnits: "otros muebles: %d",
	}
}

func frenchSeasons() SeasonsWords {
	return SeasonsWords{
		Seasons: "De saison en saison", SeasonsUnder: "Ce qui était en place et quand. Une seule échelle, tout est plein ; hachures par famille. + arrivé, − parti.",
		SeasonsFoot: "Dessiné d’après ce que chaque dossier dit de lui-même. Monter d’après ces dossiers, non d’après cette feuille.",
		PiecesFirst: "Pièces %d", PiecesThen: "Pièces %d : +%d −%d",
		ProductsFirst: "Produits %d", ProductsThen: "Produits %d : +%d −%d, déplacés %d",
		FoundCounts:  "Arrêts %d, mises en garde %d, notes %d",
		NothingDated: "Aucun dossier ne porte de date.",
		NotDrawn:     "Non dessinés : %s.",
		EarlierPacks: "plus anciens : %d", SupersededPacks: "remplacés : %d", CopiedPacks: "copies : %d", UndatedPacks: "sans date : %d",
		OtherUnits: "autres meubles : %d",
	}
}
