package seasons

import (
	"cmp"
	"slices"

	"setwright/layout/archive"
	"setwright/layout/list"
	"setwright/layout/measure"
)

// Change is what differs between a pack and the one that was up before it.
// Pieces are counted by part and cut length, wherever they hang; those of
// frame, stand and panels count too.
type Change struct {
	Before                                *Pack
	PiecesIn, PiecesOut, PiecesKept       int
	ProductsIn, ProductsOut, ProductsKept int
	Moved                                 int // positions of kept products, at addresses that held something else or nothing
}

// compare works out the changes between what was up one after another.
func (u *Unit) compare() {
	var before *Pack
	for i := range u.Entries {
		e := &u.Entries[i]
		if e.State != Up {
			continue
		}
		if before != nil {
			e.Change = changeOf(before, e.Pack)
		}
		before = e.Pack
	}
}

func changeOf(old, new *Pack) *Change {
	c := &Change{Before: old}
	c.pieces(old.Parts, new.Parts)
	c.products(old.Products, new.Products)
	return c
}

// piece tells one kind of piece from another.
type piece struct {
	id  string
	cut measure.Length
}

func pieceOf(p *archive.Part) piece { return piece{p.ID, p.Cut} }

func (c *Change) pieces(old, new []archive.Part) {
	had := map[piece]int{}
	for i := range old {
		had[pieceOf(&old[i])] += old[i].Count
		c.PiecesOut += old[i].Count
	}
	for i := range new {
		p := pieceOf(&new[i])
		kept := min(had[p], new[i].Count)
		had[p] -= kept
		c.PiecesKept += kept
		c.PiecesIn += new[i].Count - kept
	}
	c.PiecesOut -= c.PiecesKept
}

func (c *Change) products(old, new []archive.Product) {
	was := map[string][]string{} // addresses by SKU
	for _, p := range old {
		was[p.SKU] = p.At
	}
	for _, p := range new {
		at, kept := was[p.SKU]
		if !kept {
			c.ProductsIn++
			continue
		}
		c.ProductsKept++
		for _, address := range p.At {
			if !slices.Contains(at, address) {
				c.Moved++
			}
		}
	}
	c.ProductsOut = len(was) - c.ProductsKept
}

// Line is one kind of piece over the time of a unit.
type Line struct {
	archive.Part     // as the last pack that uses it has it; Count is how many that is
	Packs        int // that use it
	Most         int // at once
	Now          int // in the last pack
}

// kit adds up the pieces of what was up, in the order of the walk and then by
// id and length.
func kit(shown []Entry) []Line {
	var lines []*Line
	at := map[piece]*Line{}
	for n, e := range shown {
		for _, p := range e.Parts {
			l := at[pieceOf(&p)]
			if l == nil {
				l = &Line{}
				at[pieceOf(&p)] = l
				lines = append(lines, l)
			}
			l.Part = p
			l.Packs++
			l.Most = max(l.Most, p.Count)
			if n == len(shown)-1 {
				l.Now = p.Count
			}
		}
	}
	all := make([]Line, len(lines))
	for i, l := range lines {
		all[i] = *l
	}
	walk := []list.Group{list.Structure, list.Shelving, list.Hooks, list.Rails, list.Other}
	slices.SortStableFunc(all, func(a, b Line) int {
		stop := func(l Line) int { return slices.Index(walk, list.Group(l.Group)) }
		return cmp.Or(cmp.Compare(stop(a), stop(b)), cmp.Compare(a.ID, b.ID), cmp.Compare(a.Cut, b.Cut))
	})
	return all
}
