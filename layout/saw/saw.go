// Package saw says how pieces are sawn from bars and sheets: which stock is
// taken from the stockroom and which is bought, the patterns it is cut by, each
// cut in running order from one end, and which off-cuts are worth keeping. The
// least cost, with its bound, comes from the solvers under it; what a saw, its
// operator and the next job need is worked out here.
//
// A bar is a sheet without a width: both are cut by the same tree of parts.
package saw

import (
	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/parts"
)

// Piece is so many of one size that are wanted.
type Piece struct {
	Mark, Name    string
	Length, Width measure.Length // Length runs along the grain; Width is 0 of a piece from a bar
	Turn          bool           // it may lie across the grain
	Count         int
	Where         []string // an address for each of them, or none at all
	At            diag.Span
}

// Job is what to cut from one stock.
type Job struct {
	Stock  *parts.Stock
	OnHand []parts.OnHand // of this stock; its sizes may be any
	Pieces []Piece
}

// Plan is how a job is cut. It is complete when Cut returns it and is not
// changed afterwards, but for the numbers that Number gives.
type Plan struct {
	Job      Job
	Used     []Use // the largest first, each size once
	Patterns []Pattern

	// Missing is how many of each piece of the job are not cut, 0 if all are. Stock
	// ran out for them, and ToBuy is what they could be cut from; or no stock is
	// large enough.
	Missing []int
	ToBuy   []Use

	// Priced says that Cost is the least money for what is bought, at the price of
	// a piece in its cheapest pack; else it is the least material, and Cost and
	// Bound are 0. On hand costs nothing either way.
	Priced      bool
	Cost, Bound measure.Money // no way of cutting costs less than Bound
	Proven      bool          // no way of cutting is better
	Over        int           // at most so many hundredths of a per cent dearer than the best, if it is not proven; -1 if even that is not known
}

// Use is so many bars or sheets of one size.
type Use struct {
	Length, Width  measure.Length
	Size           int // index in Stock.Sizes; -1: an off-cut on hand of another size
	OnHand, Bought int
}

// Pattern is how some of the bars or sheets of one size are cut, all alike.
type Pattern struct {
	Number int // from 1, over all plans of one cut list
	Use    int // index in Plan.Used
	Times  int
	Root   Node // the whole bar or sheet

	kerf measure.Length
}

// Way is how a node is cut into its parts.
type Way int8

// The ways. Parts of a crosscut node follow one another along its length, those
// of a ripped one along its width.
const (
	Uncut Way = iota
	Cross
	Rip
)

// Kind is what becomes of a node.
type Kind int8

// The kinds. Only Through is cut on.
const (
	Through Kind = iota
	Wanted       // it is a piece
	Kept         // an off-cut worth keeping
	Waste        // an off-cut that is not
	Trim         // taken off an end or edge before anything else, the saw's cut with it
)

// Node is a rectangle of a bar or sheet on its way from stock to piece. X runs
// along the length and Y along the width, from the corner where figures begin.
type Node struct {
	X, Y, Length, Width measure.Length
	Kind                Kind
	Way                 Way
	Parts               []Node // in running order

	Piece  int      // of a Wanted: index in Job.Pieces
	Turned bool     // of a Wanted: it lies across the grain
	Where  []string // of a Wanted: its address on each of the pattern's bars or sheets; nil if the piece has none
	Name   string   // of a Kept: what to write on it, once the plan is numbered
}

// Sheet says whether the job is cut from sheets.
func (j *Job) Sheet() bool {
	if len(j.OnHand) > 0 && j.OnHand[0].Width > 0 {
		return true
	}
	return j.Stock.Sheet()
}

// Leaves calls f for every node that is not cut on, in running order.
func (n *Node) Leaves(f func(*Node)) {
	if n.Kind != Through {
		f(n)
		return
	}
	for i := range n.Parts {
		n.Parts[i].Leaves(f)
	}
}

// Number numbers the patterns of the plans of one cut list throughout, and names
// the off-cuts to keep after them: 3a is the first of pattern 3.
func Number(plans []Plan) {
	number := 0
	for i := range plans {
		for k := range plans[i].Patterns {
			p := &plans[i].Patterns[k]
			number++
			p.Number = number
			p.name()
		}
	}
}

// Offcut is an off-cut worth keeping, and how many there are of it.
type Offcut struct {
	Name          string
	Length, Width measure.Length
	Count         int
}

// Offcuts lists what to keep, pattern by pattern.
func (p *Plan) Offcuts() []Offcut {
	var list []Offcut
	for i := range p.Patterns {
		p.Patterns[i].Root.Leaves(func(n *Node) {
			if n.Kind == Kept {
				list = append(list, Offcut{n.Name, n.Length, n.Width, p.Patterns[i].Times})
			}
		})
	}
	return list
}

// Short says whether any piece is missing.
func (p *Plan) Short() bool {
	for _, n := range p.Missing {
		if n > 0 {
			return true
		}
	}
	return false
}

// Buys says whether anything is bought.
func (p *Plan) Buys() bool {
	for _, u := range p.Used {
		if u.Bought > 0 {
			return true
		}
	}
	return false
}

// Price is what one of a size costs, out of its cheapest pack and rounded to the
// hundredth, and what all that are bought come to; false if it has no price.
func (p *Plan) Price(u Use) (one, all measure.Money, ok bool) {
	if u.Size < 0 {
		return 0, 0, false
	}
	price, ok := each(p.Job.Stock.Sizes[u.Size].Buy)
	return round(price), round(price * int64(u.Bought)), ok
}

// Yield is how much of the stock used ends up in pieces, in hundredths of a per
// cent of its length or area.
func (p *Plan) Yield() int {
	var used, pieces int64
	for i := range p.Patterns {
		pat := &p.Patterns[i]
		used += material(pat.Root.Length, pat.Root.Width) * int64(pat.Times)
		pat.Root.Leaves(func(n *Node) {
			if n.Kind == Wanted {
				pieces += material(n.Length, n.Width) * int64(pat.Times)
			}
		})
	}
	return int(pieces / max(used/10_000, 1))
}
