package saw

import (
	"fmt"
	"testing"

	"setwright/layout/measure"
	"setwright/layout/parts"
)

const in = measure.Inch

func TestShow(t *testing.T) {
	st := &parts.Stock{ID: "s", Kerf: in / 8, Trim: in / 4, Keep: 12 * in, Sizes: []parts.StockSize{{Length: 96 * in, Width: 48 * in}}}
	p, f := Cut(Job{Stock: st, Pieces: []Piece{{Mark: "1", Length: 48 * in, Width: 12 * in, Count: 5, Where: []string{"a", "b", "c", "d", "e"}}, {Mark: "2", Length: 24 * in, Width: 13 * in, Count: 3}}})
	for _, x := range f {
		fmt.Println(x.Message)
	}
	for _, pat := range p.Patterns {
		fmt.Println(pat.Number, pat.Times, p.Used[pat.Use])
		pat.Root.Leaves(func(n *Node) {
			fmt.Println(n.X.Text(0), n.Y.Text(0), n.Length.Text(0), n.Width.Text(0), n.Kind, n.Piece, n.Where, n.Name)
		})
		for _, s := range pat.Strokes() {
			fmt.Println(s.Number, s.Stage, s.Way, s.Of, s.At.Text(0), s.From.Text(0), s.To.Text(0), s.Set.Text(0))
		}
	}
}
