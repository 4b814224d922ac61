package words

// CutWords are those of the cut list.
type CutWords struct {
	CutBars, CutSheets                             string
	CutUnder                                       string // unit
	CutKerf                                        string // length
	CutTrimEnds, CutTrimEdges                      string // length
	CutKeepBar, CutKeepSheet                       string // length
	CutGrain                                       string
	CutGrooves                                     string // distance from one to the next
	CutLegendKeep, CutLegendWaste, CutLegendTrim   string
	CutPattern                                     string // number, how many, size
	CutMarks                                       string // marks
	CutNext                                        string
	CutStockroom, CutBuy, CutEach, CutSum          string
	CutProven                                      string // sum
	CutWithin                                      string // sum, per cent
	CutOpen                                        string // sum
	CutLeastProven                                 string
	CutLeastWithin                                 string // per cent
	CutLeastOpen, CutAllOnHand                     string
	CutMissing                                     string // pieces
	CutMissingOf                                   string // how many, mark
	CutToBuy                                       string // sizes
	CutOffcuts, CutOffcutName, CutLength, CutWidth string
	CutNumber, CutKind, CutOf, CutSet, CutFrom     string
	CutSquare, CutRip, CutCross, CutWhole          string
	CutKept                                        string // name
	CutSafety                                      string // at the foot of sheets that have no unit
	CutTotal                                       string // pieces, bars or sheets
	CutUsed                                        string // per cent
}

func englishCut() CutWords {
	return CutWords{
		CutBars: "Cut list: bars", CutSheets: "Cut list: sheets",
		CutUnder: "Figures run from the end marked 0 to the near side of each cut. Unit: %s.",
		CutKerf:  "Kerf %s.", CutTrimEnds: "First take %s off each end, the cut included.", CutTrimEdges: "First take %s off each edge, the cut included.",
		CutKeepBar: "Keep off-cuts of %s or more.", CutKeepSheet: "Keep off-cuts of %s or more both ways.",
		CutGrain:      "The grain runs along the length.",
		CutGrooves:    "Grooves run along the length, %s apart; each piece begins a whole number of them from the edge marked 0, so that the slots of neighbours meet.",
		CutLegendKeep: "off-cut to keep", CutLegendWaste: "waste", CutLegendTrim: "trimmed off first",
		CutPattern: "Pattern %d: cut %d × %s like this",
		CutMarks:   "Write on the pieces, in running order: %s", CutNext: "next:",
		CutStockroom: "From stockroom", CutBuy: "To buy", CutEach: "Each", CutSum: "Sum",
		CutProven: "To buy: %s. No way of cutting costs less: proven.", CutWithin: "To buy: %s, at most %s %% more than the least possible.",
		CutOpen:        "To buy: %s. What the least would be is not known.",
		CutLeastProven: "Not all prices are known: cut for the least material, proven.", CutLeastWithin: "Not all prices are known: cut for the least material, at most %s %% more than the least possible.",
		CutLeastOpen: "Not all prices are known: cut for little material.", CutAllOnHand: "Nothing to buy: all of it is in the stockroom.",
		CutMissing: "Stock runs out. Missing: %s.", CutMissingOf: "%d of %s", CutToBuy: "To cut them buy %s.",
		CutOffcuts: "Off-cuts to keep: write the name on each, and enter it in the stock file", CutOffcutName: "Name", CutLength: "Length", CutWidth: "Width",
		CutNumber: "Cut", CutKind: "Way", CutOf: "Of part", CutSet: "Stop or fence", CutFrom: "From 0",
		CutSquare: "square up", CutRip: "rip", CutCross: "crosscut", CutWhole: "whole",
		CutKept: "keep %s", CutSafety: "Wear eye and ear protection at the saw. Measure one piece of each size before cutting the rest.",
		CutTotal: "%d pieces from %d.", CutUsed: "%s %% of the stock ends up in pieces.",
	}
}

func spanishCut() CutWords {
	return CutWords{
		CutBars: "Lista de corte: barras", CutSheets: "Lista de corte: tableros",
		CutUnder: "Las cotas van del extremo marcado 0 al lado cercano de cada corte. Unidad: %s.",
		CutKerf:  "Ancho de corte %s.", CutTrimEnds: "Quite primero %s de cada extremo, corte incluido.", CutTrimEdges: "Quite primero %s de cada canto, corte incluido.",
		CutKeepBar: "Guarde los restos de %s o más.", CutKeepSheet: "Guarde los restos de %s o más en ambos sentidos.",
		CutGrain:      "La veta corre a lo largo.",
		CutGrooves:    "Las ranuras corren a lo largo, cada %s; cada pieza empieza a un número entero de ellas del canto marcado 0, para que las ranuras vecinas coincidan.",
		CutLegendKeep: "resto que se guarda", CutLegendWaste: "desperdicio", CutLegendTrim: "se quita primero",
		CutPattern: "Patrón %d: corte así %d × %s",
		CutMarks:   "Escriba en las piezas, en su orden: %s", CutNext: "siguiente:",
		CutStockroom: "Del almacén", CutBuy: "Por comprar", CutEach: "Cada uno", CutSum: "Suma",
		CutProven: "Por comprar: %s. Ningún corte cuesta menos: demostrado.", CutWithin: "Por comprar: %s, a lo más un %s %% sobre el mínimo posible.",
		CutOpen:        "Por comprar: %s. No se sabe cuál sería el mínimo.",
		CutLeastProven: "Faltan precios: cortado con el mínimo material, demostrado.", CutLeastWithin: "Faltan precios: cortado con poco material, a lo más un %s %% sobre el mínimo posible.",
		CutLeastOpen: "Faltan precios: cortado con poco material.", CutAllOnHand: "Nada por comprar: todo está en el almacén.",
		CutMissing: "El material no alcanza. Faltan: %s.", CutMissingOf: "%d de %s", CutToBuy: "Para cortarlas compre %s.",
		CutOffcuts: "Restos que se guardan: escriba el nombre en cada uno y anótelo en el archivo de existencias", CutOffcutName: "Nombre", CutLength: "Largo", CutWidth: "Ancho",
		CutNumber: "Corte", CutKind: "Sentido", CutOf: "De la parte", CutSet: "Tope o guía", CutFrom: "Desde 0",
		CutSquare: "escuadrar", CutRip: "a lo largo", CutCross: "a través", CutWhole: "todo",
		CutKept: "guardar %s", CutSafety: "Use protección de ojos y oídos en la sierra. Mida una pieza de cada medida antes de cortar el resto.",
		CutTotal: "%d piezas de %d.", CutUsed: "El %s %% del material acaba en piezas.",
	}
}

func frenchCut() CutWords {
	return CutWords{
		CutBars: "Liste de débit : barres", CutSheets: "Liste de débit : panneaux",
		CutUnder: "Les cotes vont du bout marqué 0 au côté proche de chaque coupe. Unité : %s.",
		CutKerf:  "Trait de scie %s.", CutTrimEnds: "Enlever d’abord %s à chaque bout, trait compris.", CutTrimEdges: "Enlever d’abord %s à chaque chant, trait compris.",
		CutKeepBar: "Garder les chutes de %s ou plus.", CutKeepSheet: "Garder les chutes de %s ou plus dans les deux sens.",
		CutGrain:      "Le fil court dans la longueur.",
		CutGrooves:    "Les rainures courent dans la longueur, tous les %s ; chaque pièce commence à un nombre entier de rainures du chant marqué 0, afin que celles des voisines se suivent.",
		CutLegendKeep: "chute à garder", CutLegendWaste: "déchet", CutLegendTrim: "enlevé d’abord",
		CutPattern: "Plan de coupe %d : couper ainsi %d × %s",
		CutMarks:   "À écrire sur les pièces, dans l’ordre : %s", CutNext: "suivant :",
		CutStockroom: "De la réserve", CutBuy: "À acheter", CutEach: "L’unité", CutSum: "Somme",
		CutProven: "À acheter : %s. Aucun débit ne coûte moins : prouvé.", CutWithin: "À acheter : %s, au plus %s %% au-dessus du minimum possible.",
		CutOpen:        "À acheter : %s. Le minimum n’est pas connu.",
		CutLeastProven: "Il manque des prix : débité au minimum de matière, prouvé.", CutLeastWithin: "Il manque des prix : débité avec peu de matière, au plus %s %% au-dessus du minimum possible.",
		CutLeastOpen: "Il manque des prix : débité avec peu de matière.", CutAllOnHand: "Rien à acheter : tout est en réserve.",
		CutMissing: "La matière ne suffit pas. Il manque : %s.", CutMissingOf: "%d de %s", CutToBuy: "Pour les couper, acheter %s.",
		CutOffcuts: "Chutes à garder : écrire le nom sur chacune et la porter dans le fichier de stock", CutOffcutName: "Nom", CutLength: "Longueur", CutWidth: "Largeur",
		CutNumber: "Coupe", CutKind: "Sens", CutOf: "De la partie", CutSet: "Butée ou guide", CutFrom: "Depuis 0",
		CutSquare: "équerrer", CutRip: "en long", CutCross: "en travers", CutWhole: "tout",
		CutKept: "garder %s", CutSafety: "Porter lunettes et protection d’oreilles à la scie. Mesurer une pièce de chaque dimension avant de couper les autres.",
		CutTotal: "%d pièces tirées de %d.", CutUsed: "%s %% de la matière finissent en pièces.",
	}
}
