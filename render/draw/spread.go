package draw

import "setwright/layout/measure"

// slotted is one label on its way to a place along a line: where it would
// like its middle to be, and how much room it takes.
type slotted struct {
	want, size measure.Length
}

// spread places labels along a line, in the order given, none overlapping its
// neighbours and, if they all fit, none outside lo to hi. It returns their
// middles; the sum of the squares of what they are moved by is the least
// possible.
//
// Packed tightly the labels would stand at fixed offsets; what is left is an
// isotonic regression, which pooling adjacent violators solves exactly, and
// clamping its answer solves the bounded case.
func spread(labels []slotted, lo, hi measure.Length) []measure.Length {
	offsets, total := packed(labels)
	pools := make([]pool, 0, len(labels))
	for i, l := range labels {
		pools = append(pools, pool{sum: l.want - offsets[i], n: 1})
		for len(pools) > 1 && pools[len(pools)-2].mean() > pools[len(pools)-1].mean() {
			last := pools[len(pools)-1]
			pools = pools[:len(pools)-1]
			pools[len(pools)-1].sum += last.sum
			pools[len(pools)-1].n += last.n
		}
	}
	places := make([]measure.Length, 0, len(labels))
	for _, b := range pools {
		at := max(lo, min(b.mean(), hi-total))
		for range b.n {
			places = append(places, at+offsets[len(places)])
		}
	}
	return places
}

// pool is a run of labels that stand tightly side by side.
type pool struct {
	sum measure.Length
	n   int
}

func (b pool) mean() measure.Length { return b.sum / measure.Length(b.n) }

// packed returns the middle of each label if all were packed tightly from 0,
// and the length they take.
func packed(labels []slotted) ([]measure.Length, measure.Length) {
	offsets := make([]measure.Length, len(labels))
	var at measure.Length
	for i, l := range labels {
		offsets[i] = at + l.size/2
		at += l.size
	}
	return offsets, at
}

// stagger gives each label, in order of place, the lowest of so many levels
// on which it stands clear of those before it, or reports that some label has
// none. gap is the least distance between neighbours on one level.
func stagger(labels []slotted, levels int, gap measure.Length) (level []int, ok bool) {
	ends := make([]measure.Length, 0, levels)
	for _, l := range labels {
		left := l.want - l.size/2
		at := -1
		for i, end := range ends {
			if end+gap <= left {
				at = i
				break
			}
		}
		if at < 0 {
			if len(ends) == levels {
				return nil, false
			}
			at = len(ends)
			ends = append(ends, 0)
		}
		ends[at] = l.want + l.size/2
		level = append(level, at)
	}
	return level, true
}
