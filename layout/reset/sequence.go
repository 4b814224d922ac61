package reset

// sequence finds the order of the work: branch order replaces this file.
func (r *Reset) sequence() {}
