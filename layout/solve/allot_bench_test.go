package solve

import (
	"fmt"
	"slices"
	"testing"

	"setwright/layout/oracle"
)

// benchAllot solves within an effort and reports the certified gap.
func benchAllot(b *testing.B, a Allot, effort int64) {
	a.Effort = effort
	var got Allotment
	for b.Loop() {
		var ok bool
		if got, ok = a.Solve(); !ok {
			b.Fatal("nothing fits")
		}
	}
	b.ReportMetric(100*float64(got.Bound-got.Value)/float64(got.Bound), "%gap")
	b.ReportMetric(float64(got.Steps)/b.Elapsed().Seconds()*float64(b.N)/1e6, "Msteps/s")
}

// BenchmarkAllotRow fills one row of 20 m with 200 products.
func BenchmarkAllotRow(b *testing.B) {
	for _, k := range []struct {
		name string
		unit int64
		load bool
	}{{"inch=0.01", inch / 100, false}, {"mm=0.1", 100_000, false}, {"nm=1", 1, false}, {"nm=1,load", 1, true}} {
		b.Run(k.name, func(b *testing.B) { benchAllot(b, longRow(1, 200, k.unit, k.load), 0) })
	}
}

// BenchmarkAllotShared proves the shared instances, and stops them after a second's
// effort.
func BenchmarkAllotShared(b *testing.B) {
	names, _ := facingOptima(b)
	for _, name := range names {
		a := readAllotLP(b, oracle.Shared(b, "facing", name+".lp"))
		b.Run(name+"/proof", func(b *testing.B) { benchAllot(b, a, 0) })
		b.Run(name+"/second", func(b *testing.B) { benchAllot(b, a, StepsPerSecond) })
	}
}

// BenchmarkAllotShop stops made-up units after one or two seconds' effort.
func BenchmarkAllotShop(b *testing.B) {
	for _, k := range []struct {
		name   string
		kind   allotKind
		effort int64
	}{
		{"15x3", allotKind{products: 15, rows: 3, unit: inch / 100, must: 4}, StepsPerSecond},
		{"30x4", allotKind{products: 30, rows: 4, unit: inch / 100, must: 4}, StepsPerSecond},
		{"30x4,families", allotKind{products: 30, rows: 4, unit: inch / 100, must: 4, families: 4}, StepsPerSecond},
		{"60x5", allotKind{products: 60, rows: 5, unit: inch / 100, must: 4}, StepsPerSecond},
		{"60x5,families,loads", allotKind{products: 60, rows: 5, unit: inch / 100, must: 4, families: 5, heavyLow: true, loads: true}, StepsPerSecond},
		{"200x12", allotKind{products: 200, rows: 12, unit: inch / 100}, 2 * StepsPerSecond},
		{"200x12,must", allotKind{products: 200, rows: 12, unit: inch / 100, must: 4}, 2 * StepsPerSecond},
		{"200x12,families", allotKind{products: 200, rows: 12, unit: inch / 100, must: 8, families: 8}, 2 * StepsPerSecond},
	} {
		b.Run(k.name, func(b *testing.B) { benchAllot(b, shopAllot(1, k.kind), k.effort) })
	}
}

// BenchmarkAllotLarge stops a unit of 200 products and 12 rows after one second's
// and two seconds' effort. Its products are those of the shared instances, each worth
// in every row what it is in its first, times 100 to 133 percent by row.
func BenchmarkAllotLarge(b *testing.B) {
	for _, seconds := range []int64{1, 2} {
		b.Run(fmt.Sprintf("seconds=%d", seconds), func(b *testing.B) { benchAllot(b, sharedLarge(b), seconds*StepsPerSecond) })
	}
}

func sharedLarge(b *testing.B) Allot {
	const rows = 12
	a := Allot{Rows: slices.Repeat([]AllotRow{{Room: 1250}}, rows)}
	names, _ := facingOptima(b)
	for _, name := range slices.Backward(names) {
		for _, p := range readAllotLP(b, oracle.Shared(b, "facing", name+".lp")).Products {
			var product AllotProduct
			for _, o := range p.Options {
				for row := range rows {
					if o.Row == 0 {
						product.Options = append(product.Options, AllotOption{Row: row, Fronts: o.Fronts, Width: o.Width, Value: o.Value * int64(100+row*7%rows*3) / 100})
					}
				}
			}
			if a.Products = append(a.Products, product); len(a.Products) == 200 {
				return a
			}
		}
	}
	b.Fatalf("only %d products are shared", len(a.Products))
	return a
}
