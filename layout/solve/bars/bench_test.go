package bars

import (
	"math/rand/v2"
	"slices"
	"testing"
	"time"
)

// benchSet solves every instance of a set and reports how many there are, how many
// are closed, and the median and worst time of one. Run it with -benchtime=1x.
func benchSet(b *testing.B, all []published, effort int64) {
	var took []time.Duration
	closed, steps := 0, int64(0)
	for b.Loop() {
		took, closed, steps = took[:0], 0, 0
		for _, p := range all {
			start := time.Now()
			got, err := Solve(p.job, effort)
			if err != nil {
				b.Fatal(err)
			}
			took = append(took, time.Since(start))
			steps += got.Steps
			if got.Proven {
				closed++
			} else {
				b.Logf("%s: cost %d, bound %d", p.name, got.Cost, got.Bound)
			}
		}
	}
	slices.Sort(took)
	b.ReportMetric(float64(len(all)), "instances")
	b.ReportMetric(float64(closed), "closed")
	b.ReportMetric(float64(steps)/1e6, "Msteps")
	b.ReportMetric(float64(took[len(took)/2].Microseconds())/1000, "ms-median")
	b.ReportMetric(float64(took[len(took)-1].Microseconds())/1000, "ms-worst")
}

// BenchmarkPublished solves the published sets, and the one with several lengths.
func BenchmarkPublished(b *testing.B) {
	for _, s := range singles {
		b.Run(s.set, func(b *testing.B) { benchSet(b, readSingle(b, s.set), 5*StepsPerSecond) })
	}
	b.Run("hard28", func(b *testing.B) { benchSet(b, readSingle(b, "hard28"), 10*StepsPerSecond) })
	b.Run("multi", func(b *testing.B) { benchSet(b, readMulti(b), StepsPerSecond) })
}

// shopList is a list of 200 pieces of 40 kinds, from 4 in to 80 in, to be cut from
// three lengths of tube with a kerf of 1/8 in. Lengths are in steps, those of bars
// in whole inches or, every other, in whole millimetres.
func shopList(seed uint64, steps ...int64) Job {
	rng := rand.New(rand.NewPCG(seed, 6))
	job := Job{Kerf: inch / 8, Trim: inch / 2, Bars: []Bar{{96 * inch, 1900, anyNumber}, {144 * inch, 2750, anyNumber}, {240 * inch, 4300, anyNumber}}}
	if len(steps) > 1 {
		job.Bars[1] = Bar{4000 * mm, 2950, anyNumber}
	}
	for i := range 40 {
		step := steps[i%len(steps)]
		length := 4*inch + rng.Int64N(76*inch)
		job.Pieces = append(job.Pieces, Piece{length - length%step, 1 + rng.IntN(9)})
	}
	return job
}

// withStock adds off-cuts at hand to a job: they cost nothing, and most there are
// one of.
func withStock(seed uint64, job Job, kinds int) Job {
	rng := rand.New(rand.NewPCG(seed, 7))
	for range kinds {
		length := 20*inch + rng.Int64N(100*inch)
		job.Bars = append(job.Bars, Bar{length - length%(inch/8), 0, 1 + rng.IntN(6)/4})
	}
	return job
}

// BenchmarkShop solves lists of the size a shop has.
func BenchmarkShop(b *testing.B) {
	for _, k := range []struct {
		name  string
		steps []int64
		stock int
	}{
		{"inch=1/8", []int64{inch / 8}, 0},
		{"inch=1/64", []int64{inch / 64}, 0},
		{"inch=1/64,mm=1", []int64{inch / 64, mm}, 0},
		{"nm=1", []int64{1}, 0},
		{"inch=1/8,stock=4", []int64{inch / 8}, 4},
		{"inch=1/8,stock=12", []int64{inch / 8}, 12},
	} {
		var all []published
		for seed := range uint64(20) {
			all = append(all, published{name: k.name, job: withStock(seed, shopList(seed, k.steps...), k.stock)})
		}
		b.Run(k.name, func(b *testing.B) { benchSet(b, all, 5*StepsPerSecond) })
	}
}
