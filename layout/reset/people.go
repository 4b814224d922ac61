package reset

func (r *Reset) share(w *work, spans [][]int32) {}
