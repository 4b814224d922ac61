package unit_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"setwright/layout/plan"
	"setwright/layout/unit"
)

// TestAllotmentAgainstEveryOther compares the fronts that random rows of hooks
// and shelves get with every other number of fronts that the same row takes when
// the plan gives them, by the aim's own formula in floating point.
func TestAllotmentAgainstEveryOther(t *testing.T) {
	rng := rand.New(rand.NewPCG(63, 57))
	better := 0 // sets that fit by their widths and would be better, if they hung
	for range 300 {
		row, form, gap, depth := "use: hook-6, bay: 1, at: 57in", "peg", 0.5, 5.5
		if rng.IntN(3) == 0 {
			row, form, gap, depth = "use: shelf-24x12, bay: 1, at: 36in", "stand", 0.25, 12
		}
		n := 2 + rng.IntN(2)
		csv, skus := "sku,name,form,width,height,depth,weekly\n", make([]string, n)
		width, perFront, weekly := make([]float64, n), make([]float64, n), make([]float64, n)
		for i := range n {
			skus[i] = string(rune('A' + i))
			width[i], weekly[i] = float64(8+rng.IntN(16))/4, float64(1+rng.IntN(30))
			deep := float64(2+rng.IntN(8)) / 4
			perFront[i] = math.Floor(depth / deep)
			csv += fmt.Sprintf("%s,%s,%s,%v,5,%v,%v\n", skus[i], skus[i], form, width[i], deep, weekly[i])
		}
		worth := func(fronts []int) (sum float64) {
			for i, k := range fronts {
				sum += (width[i] + gap) * weekly[i] / perFront[i] * math.Log1p(7*float64(k)*perFront[i]/weekly[i])
			}
			return sum
		}
		open := stocked(t, csv, "    - {"+row+", goods: ["+strings.Join(skus, ", ")+"]}\n")
		if open.Unit == nil || len(open.Unit.Allotted) != 1 || !open.Unit.Allotted[0].Proven() {
			t.Fatalf("%s%s", csv, codes(open))
		}
		got := frontsOf(t, open, n)
		least := worth(got) * (1 + 1e-6) // points are whole numbers
		eachCount(n, 9, func(fronts []int) {
			sum := 0.0
			for i, k := range fronts {
				sum += float64(k) * (width[i] + gap)
			}
			if sum > 24+gap || worth(fronts) <= least {
				return
			}
			better++
			if takes(t, csv, row, skus, fronts) {
				t.Errorf("%s %s\nfronts %v are worth %.4f, %v would be %.4f", csv, row, got, worth(got), fronts, worth(fronts))
			}
		})
		if !takes(t, csv, row, skus, got) {
			t.Errorf("%s %s\nfronts %v do not fit", csv, row, got)
		}
	}
	if better < 100 {
		t.Errorf("only %d sets were kept off by the wires", better)
	}
}

// frontsOf counts the fronts of the products A, B, C on the front's only row.
func frontsOf(t *testing.T, res unit.Result, n int) []int {
	t.Helper()
	fronts := make([]int, n)
	for _, p := range face(t, res.Unit, plan.Front).Rows[0].Positions {
		fronts[p.Product.SKU[0]-'A'] += len(p.Fronts)
	}
	return fronts
}

// eachCount visits all lists of n numbers from 1 to most.
func eachCount(n, most int, visit func([]int)) {
	list := make([]int, n)
	var next func(int)
	next = func(i int) {
		if i == n {
			visit(list)
			return
		}
		for list[i] = 1; list[i] <= most; list[i]++ {
			next(i + 1)
		}
	}
	next(0)
}

// takes reports whether the row takes these fronts when the plan gives them.
func takes(t *testing.T, csv, row string, skus []string, fronts []int) bool {
	t.Helper()
	var given []string
	for i, sku := range skus {
		given = append(given, fmt.Sprintf("%s: %d", sku, fronts[i]))
	}
	res := stocked(t, csv, "    - {"+row+", goods: {"+strings.Join(given, ", ")+"}}\n")
	for _, f := range res.Findings.All() {
		if f.Code == "fronts-do-not-fit" {
			return false
		}
	}
	return true
}
