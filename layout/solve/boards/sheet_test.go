package boards

import "testing"

// bestOf prices one board for an instance without limits.
func bestOf(t testing.TB, s sheet) int64 {
	t.Helper()
	shop, err := newShop(&s.job)
	if err != nil {
		t.Fatal(err)
	}
	var steps int64
	g, err := newGrid(shop, 4000, true)
	if err != nil {
		t.Fatal(err)
	}
	p := newPricer(g, &steps)
	p.price(shop.values(s.value))
	t.Log(len(g.rulers[0].at), len(g.rulers[1].at), steps)
	return p.best(0)
}

func TestX(t *testing.T) {
	for _, n := range []string{"gcut1", "gcut4", "gcut12", "gcut13"} {
		s := readSheet(t, readShared(t, "gcut", n+".txt"), false)
		s.unlimited()
		t.Log(n, bestOf(t, s))
	}
}
func BenchmarkX(b *testing.B) {
	for _, n := range []string{"gcut4", "gcut12", "gcut13"} {
		s := readSheet(b, readShared(b, "gcut", n+".txt"), false)
		s.unlimited()
		b.Run(n, func(b *testing.B) {
			for b.Loop() {
				bestOf(b, s)
			}
		})
	}
}
