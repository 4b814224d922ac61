package reset

import "setwright/layout/unit"

// Options is how a reset is to be made.
type Options struct {
	// Rebuild takes everything down and hangs all anew, pieces that serve again
	// among it. It is the only way between two units whose bare units differ.
	Rebuild bool
}

// Make works out how the old unit becomes the new one. Units that could not be
// dressed in full, those with stop findings, are taken as they are.
//
// Where the bare units differ, see Differences, and no rebuild was asked for,
// there is nothing but these differences and a finding.
func Make(old, new *unit.Unit, o Options) *Reset {
	r := &Reset{Old: old, New: new, Rebuild: o.Rebuild}
	r.compare()
	if len(r.Differences) > 0 && !o.Rebuild {
		return r
	}
	r.match()
	r.sequence()
	return r
}
