package unit

import (
	"math"
	"testing"

	"setwright/layout/goods"
	"setwright/layout/measure"
)

// TestLogarithms compares the integer logarithm and root with the library's in
// floating point.
func TestLogarithms(t *testing.T) {
	const within = 3.0 / one // a few units of the last digit
	for _, den := range []int64{1, 2, 3, 7, 10, 999, 1_000_000} {
		for _, k := range []int64{1, 2, 3, 5, 8, 13, 100, 12345, 1 << 30} {
			num := den * k
			if got, want := float64(ln(num, den))/one, math.Log(float64(k)); math.Abs(got-want) > within*(1+want) {
				t.Errorf("ln(%d/%d) = %.8f, want %.8f", num, den, got, want)
			}
			num += den / 2
			if got, want := float64(ln(num, den))/one, math.Log(float64(num)/float64(den)); math.Abs(got-want) > within*(1+want) {
				t.Errorf("ln(%d/%d) = %.8f, want %.8f", num, den, got, want)
			}
		}
	}
	for k := int64(1); k <= 10_000; k = k*3/2 + 1 {
		if got, want := float64(root6(k))/one, math.Pow(float64(k), 1.0/6); math.Abs(got-want) > 1e-5*want {
			t.Errorf("sixth root of %d = %.7f, want %.7f", k, got, want)
		}
	}
}

func TestHundredths(t *testing.T) {
	for text, want := range map[string]int64{"": 0, "3": 300, "3.5": 350, "3.50": 350, "12.345": 1234, "0.07": 7, "1000000": 100_000_000} {
		if got := hundredths(text); got != want {
			t.Errorf("%q: %d, want %d", text, got, want)
		}
	}
}

// TestAims holds two aims to what they promise: even supply gives the next front
// to what would last the shortest, profit adds less with each front.
func TestAims(t *testing.T) {
	// Fronts 4 in wide hold 5 of one product and 20 of another; whatever they
	// sell and hold, a front more is worth most to what lasts the shortest.
	worth := func(p *goods.Product, perFront, days int) float64 {
		has := float64(p.Weekly*days) / 7
		next := cover(p, 4*measure.Inch, perFront, int(has)+perFront) - cover(p, 4*measure.Inch, perFront, int(has))
		return float64(next)
	}
	fast, slow := &goods.Product{Weekly: 2000}, &goods.Product{Weekly: 500}
	for _, days := range []int{7, 14, 28} {
		a, b := worth(fast, 5, days), worth(slow, 20, days)
		if math.Abs(a/b-1) > 0.05 {
			t.Errorf("both last %d days: a front more is worth %.0f to one and %.0f to the other", days, a, b)
		}
		if later := worth(slow, 20, days+7); later >= a {
			t.Errorf("%d days against %d: %.0f and %.0f", days, days+7, a, later)
		}
	}
	p := &goods.Product{Weekly: 10, Price: "5.00", Cost: "3.00"}
	at := func(fronts int) int64 { return profit(p, fronts, 48*measure.Inch) }
	if at(1) <= 0 || at(2)-at(1) <= at(3)-at(2) || at(3) <= at(2) {
		t.Errorf("profit of one, two, three fronts: %d, %d, %d", at(1), at(2), at(3))
	}
	if low := profit(p, 1, 6*measure.Inch); low*100 != at(1)*70 {
		t.Errorf("near the floor %d of %d", low, at(1))
	}
}
