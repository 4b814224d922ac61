package words

// PickWords are those of the sheets by which parts are pulled, carried and
// shared out.
type PickWords struct {
	Pulled, Loaded, Installed string // heads of the boxes to tick
	CutList                   string // in place of packs
	FixingsNote               string
	NoWeight                  string // numbers of pick lines

	Loads, LoadsUnder, LoadNumber, InsideHead, LiftHead string
	OneLifts                                            string
	MoreLift                                            string // how many people
	LiftSays                                            string // limit
	LiftUsual                                           string
	LiftGiven                                           string // load constant
	LiftCare, LoadTotals, AllLoads, OneByOne            string

	PickByFace, ByFaceUnder, TwoAtOnce, WhoHead, FacesHead, MinutesHead string
	TogetherFirst, PersonA, PersonB                                     string
	FaceSays                                                            string // face, pieces, weight, minutes
	SamePacks, SamePacksNote, SplitNote, MinutesNote, BareUnit          string
}

func englishPick() PickWords {
	return PickWords{
		Pulled: "Pulled", Loaded: "Loaded", Installed: "Installed", CutList: "cut list",
		FixingsNote: "Fixings are not on the drawings: they go with the parts of their rows.",
		NoWeight:    "The parts list gives no weight for items %s: they count as nothing.",

		Loads: "Loads", LoadsUnder: "What to carry together, each load to one place. In brackets: items of the pick list.",
		LoadNumber: "Load", InsideHead: "What is in it", LiftHead: "Lifted by", OneLifts: "one person", MoreLift: "%d people",
		LiftSays:   "One person lifts %s at most. Frames, panels and any piece over that are carried one at a time, by the number of people given.",
		LiftUsual:  "The limit is the load constant of the revised NIOSH lifting equation, DHHS (NIOSH) 94-110: the most for one person where nothing else speaks against it.",
		LiftGiven:  "The limit is the plan's own. The load constant of the revised NIOSH lifting equation, DHHS (NIOSH) 94-110, is %s: the most for one person where nothing else speaks against it.",
		LiftCare:   "Reaching, twisting, stairs and repetition call for less; the maker's and local rules govern. Only weight is judged here, not the size of a carton.",
		LoadTotals: "On the carts, by place", AllLoads: "All", OneByOne: "Load by load",

		PickByFace: "Pick list by face", ByFaceUnder: "The same parts, shared out so that two people pull and build at once.",
		TwoAtOnce: "Two people at once", WhoHead: "Who", FacesHead: "Faces", MinutesHead: "Minutes",
		TogetherFirst: "Together, first", PersonA: "Person A", PersonB: "Person B",
		FaceSays:  "%s: %d pieces, %s, about %d min",
		SamePacks: "Same packs as", SamePacksNote: "Same packs as: the packs opened for this line serve those faces too.",
		SplitNote:   "No other way of giving each face to one person is done earlier by these minutes.",
		MinutesNote: "Minutes are estimates by kind of part, from the parts list or a house rule, with the parts at hand: for sharing out work, not for a timetable. Goods are not counted.",
		BareUnit:    "Bare unit",
	}
}

func spanishPick() PickWords {
	return PickWords{
		Pulled: "Recogido", Loaded: "Cargado", Installed: "Montado", CutList: "lista de corte",
		FixingsNote: "Las fijaciones no están en los dibujos: van con las piezas de sus filas.",
		NoWeight:    "La lista de piezas no da el peso de los números %s: cuentan como nada.",

		Loads: "Bultos", LoadsUnder: "Lo que se lleva junto, cada bulto a un solo lugar. Entre paréntesis: números de la lista de recogida.",
		LoadNumber: "Bulto", InsideHead: "Contenido", LiftHead: "Lo levanta", OneLifts: "una persona", MoreLift: "%d personas",
		LiftSays:   "Una persona levanta %s como máximo. Los bastidores, los paneles y toda pieza que pase de ahí van de uno en uno, entre las personas que se indican.",
		LiftUsual:  "El límite es la constante de carga de la ecuación revisada de NIOSH, DHHS (NIOSH) 94-110: lo máximo para una persona si nada más lo desaconseja.",
		LiftGiven:  "El límite es el del plan. La constante de carga de la ecuación revisada de NIOSH, DHHS (NIOSH) 94-110, es %s: lo máximo para una persona si nada más lo desaconseja.",
		LiftCare:   "Alcanzar lejos, girar, las escaleras y la repetición piden menos; rigen el fabricante y las normas locales. Aquí solo se juzga el peso, no el tamaño de la caja.",
		LoadTotals: "En los carros, por lugar", AllLoads: "Total", OneByOne: "Bulto por bulto",

		PickByFace: "Recogida por cara", ByFaceUnder: "Las mismas piezas, repartidas para que dos personas recojan y monten a la vez.",
		TwoAtOnce: "Dos personas a la vez", WhoHead: "Quién", FacesHead: "Caras", MinutesHead: "Minutos",
		TogetherFirst: "Juntas, primero", PersonA: "Persona A", PersonB: "Persona B",
		FaceSays:  "%s: %d piezas, %s, unos %d min",
		SamePacks: "Mismos paquetes que", SamePacksNote: "Mismos paquetes que: los paquetes abiertos para esta línea sirven también a esas caras.",
		SplitNote:   "Según estos minutos, ningún otro reparto de caras enteras entre dos termina antes.",
		MinutesNote: "Los minutos son estimaciones por tipo de pieza, de la lista de piezas o de regla propia, con las piezas a mano: para repartir el trabajo, no para fijar horarios. La mercancía no se cuenta.",
		BareUnit:    "Mueble desnudo",
	}
}

func frenchPick() PickWords {
	return PickWords{
		Pulled: "Prélevé", Loaded: "Chargé", Installed: "Posé", CutList: "liste de coupe",
		FixingsNote: "Les fixations ne sont pas sur les dessins : elles vont avec les pièces de leurs rangs.",
		NoWeight:    "La liste de pièces ne donne pas le poids des repères %s : ils comptent pour rien.",

		Loads: "Charges à porter", LoadsUnder: "Ce qui se porte ensemble, vers un seul endroit. Entre parenthèses : repères de la liste.",
		LoadNumber: "Charge", InsideHead: "Contenu", LiftHead: "Levée par", OneLifts: "une personne", MoreLift: "%d personnes",
		LiftSays:   "Une personne lève %s au plus. Ossatures, panneaux et toute pièce plus lourde se portent une à la fois, par le nombre de personnes indiqué.",
		LiftUsual:  "La limite est la constante de charge de l'équation révisée du NIOSH, DHHS (NIOSH) 94-110 : le plus pour une personne si rien d'autre ne s'y oppose.",
		LiftGiven:  "La limite est celle du plan. La constante de charge de l'équation révisée du NIOSH, DHHS (NIOSH) 94-110, est %s : le plus pour une personne si rien d'autre ne s'y oppose.",
		LiftCare:   "Bras tendus, torsion, escaliers et répétition demandent moins ; le fabricant et les règlements locaux priment. Seul le poids est jugé ici, non la taille d'un carton.",
		LoadTotals: "Sur les chariots, par endroit", AllLoads: "Total", OneByOne: "Charge par charge",

		PickByFace: "Prélèvement par face", ByFaceUnder: "Les mêmes pièces, partagées pour que deux personnes prélèvent et montent à la fois.",
		TwoAtOnce: "Deux personnes à la fois", WhoHead: "Qui", FacesHead: "Faces", MinutesHead: "Minutes",
		TogetherFirst: "Ensemble, d'abord", PersonA: "Personne A", PersonB: "Personne B",
		FaceSays:  "%s : %d pièces, %s, environ %d min",
		SamePacks: "Mêmes paquets que", SamePacksNote: "Mêmes paquets que : les paquets ouverts pour cette ligne servent aussi à ces faces.",
		SplitNote:   "D'après ces minutes, aucun autre partage de faces entières entre deux ne finit plus tôt.",
		MinutesNote: "Les minutes sont des estimations par type de pièce, de la liste de pièces ou d'une règle maison, pièces à portée de main : pour partager le travail, pas pour fixer un horaire. La marchandise n'est pas comptée.",
		BareUnit:    "Meuble nu",
	}
}
