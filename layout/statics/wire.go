package statics

// Cantilever is a bar held at one end: a hook, an arm. Loads are placed from
// where it is held; what is given beyond its end acts at its end.
type Cantilever struct {
	Length float64 // mm
	EI     float64 // N·mm²
}

// Tip is how far its free end sinks, mm: Pa²(3L−a)/6EI for a load at a (AISC
// Steel Construction Manual, table 3-23, case 21), which over the length of a
// spread load integrates to WL³/8EI when that is all of it (case 19).
func (c Cantilever) Tip(loads []Load) float64 {
	var tip float64
	for _, l := range loads {
		m, half := c.place(l)
		tip += l.Total * (m*m*(3*c.Length-m) + half*half*(c.Length-m))
	}
	return tip / (6 * c.EI)
}

// Moment is the bending moment where it is held, N·mm, positive for loads that
// pull it down.
func (c Cantilever) Moment(loads []Load) float64 {
	var moment float64
	for _, l := range loads {
		m, _ := c.place(l)
		moment += l.Total * m
	}
	return moment
}

// place gives the middle of a load and half its length.
func (c Cantilever) place(l Load) (middle, half float64) {
	from, to := min(max(l.From, 0), c.Length), min(max(l.To, 0), c.Length)
	return (from + to) / 2, (to - from) / 2
}
