package words

import (
	"cmp"
	"strings"
	"unicode"
	"unicode/utf8"
)

// ListWord is a word of the lists in the catalogue's language: the name of a
// list or of a column, a group, a face, a form. English has the one given. It
// begins with a capital, as in a heading.
func (w *Words) ListWord(word string) string {
	switch t := cmp.Or(w.listWords[word], w.buyLists[word], w.kitLists[word], w.resetLists[word]); {
	case t != "":
		word = t
	case word == "sku", word == "gtin":
		word = strings.ToUpper(word)
	}
	first, size := utf8.DecodeRuneInString(word)
	return string(unicode.ToUpper(first)) + word[size:]
}

func spanishLists() map[string]string {
	return map[string]string{
		"pick": "recogida", "key": "clave", "restock": "reposición", "all": "total",

		"balloon": "globo", "group": "grupo", "part": "pieza", "name": "nombre", "cut length": "largo de corte",
		"quantity": "cantidad", "packs": "paquetes", "pack size": "piezas por paquete", "weight": "peso", "rows": "filas",
		"faces": "caras", "loads": "bultos", "load": "bulto", "person": "persona", "people": "personas", "seconds": "segundos",
		"width": "ancho", "depth": "fondo", "cut width": "ancho de corte", "both": "ambas", "first": "primera", "second": "segunda",

		"cut": "corte", "stock": "material", "pattern": "patrón", "times": "veces", "of length": "de largo", "of width": "de ancho",
		"what": "qué es", "mark": "marca", "length": "largo", "cut at": "corte a", "rip at": "corte a lo ancho",
		"piece": "pieza", "keep": "se guarda", "waste": "desperdicio",

		"address": "dirección", "face": "cara", "row": "fila", "row label": "nombre de la fila", "place": "lugar",
		"sku": "SKU", "family": "familia", "form": "forma", "fronts": "frentes", "units": "unidades",
		"look full": "aspecto lleno", "reorder at": "reponer con", "height": "altura", "gtin": "GTIN", "price": "precio",
		"weekly": "venta semanal",

		"addresses": "direcciones", "case": "unidades por caja", "cases": "cajas", "over": "sobran",
		"days of supply": "días de venta", "whole cases": "cajas enteras", "sizes": "tallas",

		"structure": "bastidor, paneles, apoyo", "shelving": "estantes, ménsulas, cestas", "hooks": "ganchos",
		"rails": "barras y brazos", "other": "rótulos, cintas y otros",
		"front": "frontal", "right": "derecha", "back": "posterior", "left": "izquierda",
		"peg": "colgado en gancho", "stand": "de pie", "fold": "doblado", "hanger": "en percha", "loop": "colgado de presilla",
		"boxed": "en caja", "loose": "a granel",
	}
}

func frenchLists() map[string]string {
	return map[string]string{
		"pick": "prélèvement", "key": "clé", "restock": "réassort", "all": "total",

		"balloon": "repère", "group": "groupe", "part": "pièce", "name": "nom", "cut length": "longueur coupée",
		"quantity": "quantité", "packs": "paquets", "pack size": "pièces par paquet", "weight": "poids", "rows": "rangs",
		"faces": "faces", "loads": "charges", "load": "charge", "person": "personne", "people": "personnes", "seconds": "secondes",
		"width": "largeur", "depth": "profondeur", "cut width": "largeur coupée", "both": "les deux", "first": "première", "second": "deuxième",

		"cut": "débit", "stock": "matière", "pattern": "plan de coupe", "times": "fois", "of length": "de longueur", "of width": "de largeur",
		"what": "quoi", "mark": "marque", "length": "longueur", "cut at": "coupe à", "rip at": "coupe en largeur à",
		"piece": "pièce", "keep": "à garder", "waste": "déchet",

		"address": "adresse", "face": "face", "row": "rang", "row label": "nom du rang", "place": "place",
		"sku": "UGS", "family": "famille", "form": "forme", "fronts": "frontales", "units": "unités",
		"look full": "aspect plein", "reorder at": "réassortir à", "height": "hauteur", "gtin": "GTIN", "price": "prix",
		"weekly": "ventes par semaine",

		"addresses": "adresses", "case": "unités par colis", "cases": "colis", "over": "en trop",
		"days of supply": "jours de vente", "whole cases": "colis entiers", "sizes": "tailles",

		"structure": "ossature, panneaux, piètement", "shelving": "tablettes, consoles, paniers", "hooks": "broches",
		"rails": "barres et bras", "other": "affiches, porte-étiquettes et autres",
		"front": "avant", "right": "droite", "back": "arrière", "left": "gauche",
		"peg": "sur broche", "stand": "debout", "fold": "plié", "hanger": "sur cintre", "loop": "par la boucle",
		"boxed": "en boîte", "loose": "en vrac",
	}
}
