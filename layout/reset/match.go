package reset

// match decides which pieces and facings stay, move, come and go.
func (r *Reset) match() {}
