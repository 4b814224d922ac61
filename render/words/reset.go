package words

// ResetWords are those of the sheets by which one dressed unit is made into
// another.
type ResetWords struct {
	ResetTitle                                                    string // title of the new plan
	ResetUnder                                                    string
	OldPlan, NewPlan                                              string
	ResetFigures, MarkHead, ResetHardware, ResetGoods, GoodsUnits string
	KeepName, MoveName, AddName, PullName                         string
	KeepKey, MoveKey, AddKey, PullKey                             string
	StepCount, TimeOne, TimeTwo, UnitsBack, UnitsCome             string
	ResetTimes                                                    string
	ResetFaces, NothingChanges                                    string
	FaceSame                                                      string // face
	FaceChanges                                                   string // face, pieces, facings
	ResetKnow                                                     string
	BareDiffers, WhatHead, ChangeBare                             string
	ChangeOf                                                      string // face
	ChangeUnder                                                   string
	GoodsChangeOf                                                 string // face
	GoodsChangeUnder, StandsNow, StandsThen                       string
	OldRow, NewRow                                                string // address
	RowAt                                                         string // row, slot, height
	StepList, StepListUnder, StepHead, DoHead                     string
	TimeHead, PeopleHead, AfterHead, BothPeople                   string
	DoCart, DoBack                                                string // row, goods
	DoDown, DoAside                                               string // row, pieces
	DoSlip, DoShift                                               string // from, to, pieces
	BareDown, BareAside, BareUp, BareAgain                        string // parts
	DoHang, DoHangAside                                           string // row, pieces
	DoFill, DoFillStock                                           string // row, goods
	DoThin, DoTopUp                                               string // row, goods
	ToStock, ToCart, FromStock, FromCart                          string // how many
	DoNudge                                                       string // row, goods
	PlacesAlong                                                   string // unit, places
	LeftEdgeAt, NowAt                                             string // place
	AfterStep                                                     string // step
	AfterSteps                                                    string // from step, to step
	FacingOne, UnitOne                                            string
	FacingMany, UnitMany                                          string // how many
	TipAfter, BalanceAfter                                        string
	SumsByFace                                                    string
	PullSheet, PullSheetUnder, NetPick, NetPickUnder              string
	NetBuy                                                        string
	GoodsMoves, GoodsMovesUnder                                   string
	BackHead, FetchHead, FromHead, ToHead, InStock, SingleHead    string
	NothingBack, NothingFetched, NoneMoved                        string
}

func englishReset() ResetWords {
	return ResetWords{
		ResetTitle: "Reset to %s",
		ResetUnder: "How the unit that stands is made into the next: what stays, moves, comes and goes, in which order.",
		OldPlan:    "Old plan", NewPlan: "New plan",
		ResetFigures: "The change in figures", MarkHead: "Mark", ResetHardware: "Hardware, pieces", ResetGoods: "Goods, facings", GoodsUnits: "Goods, units",
		KeepName: "Keep", MoveName: "Move", AddName: "Add", PullName: "Pull",
		KeepKey: "stays", MoveKey: "moves", AddKey: "comes from stock", PullKey: "goes back to stock",
		StepCount: "Steps", TimeOne: "One person, estimate", TimeTwo: "Two people, estimate", UnitsBack: "Units back to stock", UnitsCome: "Units from stock",
		ResetTimes: "Times are estimates: so many seconds a piece and a facing (house rule). They compare orders of work; they promise no finishing time.",
		ResetFaces: "Face by face", NothingChanges: "Nothing changes: the unit already stands as the new plan has it.",
		FaceSame: "%s: nothing changes.", FaceChanges: "%s: %d pieces and %d facings change.",
		ResetKnow:   "What to know about this reset",
		BareDiffers: "What differs in the bare unit", WhatHead: "What",
		ChangeBare: "Here the bare unit is changed: what differs stands on the first sheet, how it is built in the new plan's own pack.",
		ChangeOf:   "%s: hardware to change", ChangeUnder: "Dashed: where it hangs now. Full: where it goes. Behind a mark: its step, which has every place.",
		GoodsChangeOf: "%s: goods to change", GoodsChangeUnder: "As it stands, and as it will be. Behind a mark: its step.",
		StandsNow: "As it stands", StandsThen: "As it will be",
		OldRow: "old %s", NewRow: "new %s", RowAt: "%s (%s, %s up)",
		StepList: "Step list", StepListUnder: "One after the other; tick off what is done. Old and new: rows of the old plan and of the new.",
		StepHead: "Step", DoHead: "What to do", TimeHead: "Min:s", PeopleHead: "People", AfterHead: "After step", BothPeople: "both",
		DoCart: "Take off %s, onto the cart: %s.", DoBack: "Take off %s, back to stock: %s.",
		DoDown: "Take down from %s, back to stock: %s.", DoAside: "Take down from %s and set aside: %s.",
		DoSlip: "Slide along, from %s to %s, with what is on it: %s.", DoShift: "Move from %s to %s: %s.",
		BareDown: "Take off the bare unit, back to stock: %s.", BareAside: "Take off the bare unit and set aside: %s.",
		BareUp: "Put up, from stock: %s.", BareAgain: "Put up again, from beside the unit: %s.",
		DoHang: "Hang at %s, from stock: %s.", DoHangAside: "Hang at %s, from beside the unit: %s.",
		DoFill: "Put on %s, from the cart: %s.", DoFillStock: "Put on %s, from stock: %s.",
		DoThin: "Thin out %s: %s.", DoTopUp: "Top up %s: %s.",
		ToStock: "%d to stock", ToCart: "%d onto the cart", FromStock: "%d from stock", FromCart: "%d from the cart",
		DoNudge:     "Move along %s, without taking off: %s.",
		PlacesAlong: "From the left edge (%s): %s.", LeftEdgeAt: "left side at %s", NowAt: "now at %s",
		FacingOne: "1 facing", FacingMany: "%d facings", UnitOne: "1 unit", UnitMany: "%d units",
		AfterStep: "Caution, after step %d:", AfterSteps: "Caution, after steps %d to %d:",
		TipAfter:     "a push may tip the unit. A second person holds it until the next steps have brought weight back.",
		BalanceAfter: "one side is much heavier than the other. A second person steadies the unit until both are level again.",
		SumsByFace:   "Sums by face",
		PullSheet:    "Pull sheet", PullSheetUnder: "What goes back to stock: hardware, then goods by SKU.",
		NetPick: "Net pick list", NetPickUnder: "What is fetched from stock besides what the unit already has: hardware, then goods by SKU.",
		NetBuy:     "Net buy list",
		GoodsMoves: "Goods moves", GoodsMovesUnder: "Every product that changes, by SKU: from where, to where.",
		BackHead: "To stock", FetchHead: "From stock", FromHead: "From", ToHead: "To", InStock: "stock", SingleHead: "Single",
		NothingBack: "Nothing goes back.", NothingFetched: "Nothing is fetched.", NoneMoved: "No goods move.",
	}
}

func spanishReset() ResetWords {
	return ResetWords{
		ResetTitle: "Cambio a %s",
		ResetUnder: "Cómo el mueble montado pasa a ser el siguiente: qué queda, se mueve, llega y se retira, y en qué orden.",
		OldPlan:    "Plan anterior", NewPlan: "Plan nuevo",
		ResetFigures: "El cambio en cifras", MarkHead: "Señal", ResetHardware: "Herrajes, piezas", ResetGoods: "Mercancía, frentes", GoodsUnits: "Mercancía, unidades",
		KeepName: "Queda", MoveName: "Se mueve", AddName: "Llega", PullName: "Se retira",
		KeepKey: "queda", MoveKey: "se mueve", AddKey: "llega del almacén", PullKey: "vuelve al almacén",
		StepCount: "Pasos", TimeOne: "Una persona, estimado", TimeTwo: "Dos personas, estimado", UnitsBack: "Unidades al almacén", UnitsCome: "Unidades del almacén",
		ResetTimes: "Los tiempos son estimaciones: unos segundos por pieza y por frente (regla de la casa). Sirven para comparar; no prometen una hora de fin.",
		ResetFaces: "Cara por cara", NothingChanges: "Nada cambia: el mueble ya está como lo pide el plan nuevo.",
		FaceSame: "%s: nada cambia.", FaceChanges: "%s: cambian %d piezas y %d frentes.",
		ResetKnow:   "Qué saber de este cambio",
		BareDiffers: "Qué difiere en el mueble desnudo", WhatHead: "Qué",
		ChangeBare: "Aquí se cambia el mueble desnudo: lo que difiere está en la primera hoja; cómo se monta, en las hojas del plan nuevo.",
		ChangeOf:   "%s: herrajes por cambiar", ChangeUnder: "A trazos: donde cuelga ahora. Lleno: adonde va. Tras la señal, el paso, cuya lista tiene todos los lugares.",
		GoodsChangeOf: "%s: mercancía por cambiar", GoodsChangeUnder: "Como está y como quedará. Tras una señal, el paso.",
		StandsNow: "Como está", StandsThen: "Como quedará",
		OldRow: "%s anterior", NewRow: "%s nueva", RowAt: "%s (%s, a %s del piso)",
		StepList: "Lista de pasos", StepListUnder: "Uno tras otro; marque lo hecho. Anterior y nueva: filas del plan anterior y del nuevo.",
		StepHead: "Paso", DoHead: "Qué hacer", TimeHead: "Min:s", PeopleHead: "Personas", AfterHead: "Tras el paso", BothPeople: "ambas",
		DoCart: "Retire de %s, al carro: %s.", DoBack: "Retire de %s, al almacén: %s.",
		DoDown: "Descuelgue de %s, al almacén: %s.", DoAside: "Descuelgue de %s y aparte: %s.",
		DoSlip: "Deslice, de %s a %s, con lo que lleva: %s.", DoShift: "Pase de %s a %s: %s.",
		BareDown: "Desmonte del mueble desnudo, al almacén: %s.", BareAside: "Desmonte del mueble desnudo y aparte: %s.",
		BareUp: "Monte, del almacén: %s.", BareAgain: "Monte de nuevo, de lo apartado: %s.",
		DoHang: "Cuelgue en %s, del almacén: %s.", DoHangAside: "Cuelgue en %s, de lo apartado: %s.",
		DoFill: "Ponga en %s, del carro: %s.", DoFillStock: "Ponga en %s, del almacén: %s.",
		DoThin: "Aligere %s: %s.", DoTopUp: "Complete %s: %s.",
		ToStock: "%d al almacén", ToCart: "%d al carro", FromStock: "%d del almacén", FromCart: "%d del carro",
		DoNudge:     "Corra en %s, sin retirar: %s.",
		PlacesAlong: "Desde el borde izquierdo (%s): %s.", LeftEdgeAt: "lado izquierdo a %s", NowAt: "ahora a %s",
		FacingOne: "1 frente", FacingMany: "%d frentes", UnitOne: "1 unidad", UnitMany: "%d unidades",
		AfterStep: "Precaución, tras el paso %d:", AfterSteps: "Precaución, tras los pasos %d a %d:",
		TipAfter:     "un empujón puede volcar el mueble. Otra persona lo sujeta hasta que los pasos siguientes devuelvan peso.",
		BalanceAfter: "un lado pesa mucho más que el otro. Otra persona sujeta el mueble hasta que se igualen.",
		SumsByFace:   "Sumas por cara",
		PullSheet:    "Hoja de retirada", PullSheetUnder: "Lo que vuelve al almacén: herrajes y después mercancía por SKU.",
		NetPick: "Recogida neta", NetPickUnder: "Lo que se trae del almacén además de lo que ya tiene el mueble: herrajes y después mercancía por SKU.",
		NetBuy:     "Compra neta",
		GoodsMoves: "Movimientos de mercancía", GoodsMovesUnder: "Cada producto que cambia, por SKU: de dónde y adónde.",
		BackHead: "Al almacén", FetchHead: "Del almacén", FromHead: "De", ToHead: "A", InStock: "almacén", SingleHead: "Sueltas",
		NothingBack: "Nada vuelve.", NothingFetched: "Nada se trae.", NoneMoved: "Ninguna mercancía cambia.",
	}
}

func frenchReset() ResetWords {
	return ResetWords{
		ResetTitle: "Passage à %s",
		ResetUnder: "Comment le meuble monté devient le suivant : ce qui reste, se déplace, arrive et part, et dans quel ordre.",
		OldPlan:    "Ancien plan", NewPlan: "Nouveau plan",
		ResetFigures: "Le changement en chiffres", MarkHead: "Marque", ResetHardware: "Accessoires, pièces", ResetGoods: "Marchandises, frontales", GoodsUnits: "Marchandises, unités",
		KeepName: "Reste", MoveName: "Se déplace", AddName: "Arrive", PullName: "Part",
		KeepKey: "reste", MoveKey: "se déplace", AddKey: "vient de la réserve", PullKey: "retourne en réserve",
		StepCount: "Étapes", TimeOne: "Une personne, estimé", TimeTwo: "Deux personnes, estimé", UnitsBack: "Unités vers la réserve", UnitsCome: "Unités de la réserve",
		ResetTimes: "Les temps sont des estimations : tant de secondes par pièce et par frontale (règle maison). Ils comparent ; ils ne promettent pas d'heure de fin.",
		ResetFaces: "Face par face", NothingChanges: "Rien ne change : le meuble est déjà comme le veut le nouveau plan.",
		FaceSame: "%s : rien ne change.", FaceChanges: "%s : %d pièces et %d frontales changent.",
		ResetKnow:   "À savoir sur ce changement",
		BareDiffers: "Ce qui diffère du meuble nu", WhatHead: "Quoi",
		ChangeBare: "Ici on change le meuble nu : ce qui diffère est sur la première feuille ; comment le monter, dans le dossier du nouveau plan.",
		ChangeOf:   "%s : accessoires à changer", ChangeUnder: "En tirets : où cela pend. Plein : où cela va. Après la marque : l'étape, dont la liste a toutes les places.",
		GoodsChangeOf: "%s : marchandises à changer", GoodsChangeUnder: "Tel quel, et tel que ce sera. Après une marque : l'étape.",
		StandsNow: "Tel quel", StandsThen: "Tel que ce sera",
		OldRow: "%s avant", NewRow: "%s après", RowAt: "%s (%s, à %s du sol)",
		StepList: "Liste des étapes", StepListUnder: "L'une après l'autre ; cocher ce qui est fait. Avant et après : rangées de l'ancien plan et du nouveau.",
		StepHead: "Étape", DoHead: "Que faire", TimeHead: "Min:s", PeopleHead: "Personnes", AfterHead: "Après l'étape", BothPeople: "les deux",
		DoCart: "Enlever de %s, sur le chariot : %s.", DoBack: "Enlever de %s, vers la réserve : %s.",
		DoDown: "Décrocher de %s, vers la réserve : %s.", DoAside: "Décrocher de %s et mettre de côté : %s.",
		DoSlip: "Faire glisser, de %s à %s, avec ce qui est dessus : %s.", DoShift: "Déplacer de %s à %s : %s.",
		BareDown: "Démonter du meuble nu, vers la réserve : %s.", BareAside: "Démonter du meuble nu et mettre de côté : %s.",
		BareUp: "Monter, de la réserve : %s.", BareAgain: "Remonter, de ce qui est de côté : %s.",
		DoHang: "Accrocher à %s, de la réserve : %s.", DoHangAside: "Accrocher à %s, de ce qui est de côté : %s.",
		DoFill: "Poser sur %s, du chariot : %s.", DoFillStock: "Poser sur %s, de la réserve : %s.",
		DoThin: "Alléger %s : %s.", DoTopUp: "Compléter %s : %s.",
		ToStock: "%d en réserve", ToCart: "%d sur le chariot", FromStock: "%d de la réserve", FromCart: "%d du chariot",
		DoNudge:     "Décaler sur %s, sans enlever : %s.",
		PlacesAlong: "Depuis le bord gauche (%s) : %s.", LeftEdgeAt: "côté gauche à %s", NowAt: "à présent à %s",
		FacingOne: "1 frontale", FacingMany: "%d frontales", UnitOne: "1 unité", UnitMany: "%d unités",
		AfterStep: "Attention, après l'étape %d :", AfterSteps: "Attention, après les étapes %d à %d :",
		TipAfter:     "une poussée peut renverser le meuble. Une autre personne le tient jusqu'à ce que les étapes suivantes aient ramené du poids.",
		BalanceAfter: "un côté est bien plus lourd que l'autre. Une autre personne tient le meuble jusqu'à l'équilibre.",
		SumsByFace:   "Sommes par face",
		PullSheet:    "Fiche de retrait", PullSheetUnder: "Ce qui retourne en réserve : les accessoires, puis les marchandises par UGS.",
		NetPick: "Prélèvement net", NetPickUnder: "Ce qu'on prend en réserve en plus de ce que le meuble a déjà : les accessoires, puis les marchandises par UGS.",
		NetBuy:     "Achats nets",
		GoodsMoves: "Mouvements de marchandises", GoodsMovesUnder: "Chaque produit qui change, par UGS : d'où, vers où.",
		BackHead: "En réserve", FetchHead: "De la réserve", FromHead: "De", ToHead: "Vers", InStock: "réserve", SingleHead: "À l'unité",
		NothingBack: "Rien ne retourne.", NothingFetched: "Rien n'est pris.", NoneMoved: "Aucune marchandise ne change.",
	}
}
