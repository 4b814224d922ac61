package words

// The words of the lists of a reset that no other list has, as Words.listWords.

func spanishResetLists() map[string]string {
	return map[string]string{
		"steps": "pasos", "pull": "retirada", "step": "paso", "to do": "tarea", "wait for": "espera al paso",
		"from": "de", "to": "a", "code": "código", "single": "sueltas", "from stock": "del almacén", "to stock": "al almacén",
		"stockroom": "almacén", "cart": "carro", "beside the unit": "junto al mueble",
		"take off": "quitar mercancía", "take down": "descolgar", "set aside": "dejar a un lado", "slide along": "deslizar",
		"move": "cambiar de sitio", "hang": "colgar", "put on": "poner mercancía", "nudge": "correr",
	}
}

func frenchResetLists() map[string]string {
	return map[string]string{
		"steps": "étapes", "pull": "retrait", "step": "étape", "to do": "à faire", "wait for": "attend l'étape",
		"from": "de", "to": "vers", "code": "code", "single": "à l'unité", "from stock": "de la réserve", "to stock": "à la réserve",
		"stockroom": "réserve", "cart": "chariot", "beside the unit": "à côté du meuble",
		"take off": "enlever la marchandise", "take down": "décrocher", "set aside": "mettre de côté", "slide along": "faire coulisser",
		"move": "changer de place", "hang": "accrocher", "put on": "poser la marchandise", "nudge": "décaler",
	}
}
