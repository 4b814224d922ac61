package unit_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// shelves is two bays of three shelves each.
const shelves = `    - {use: shelf-24x12, bay: 1, repeat: 3}
    - {use: shelf-24x12, bay: 2, repeat: 3}
`

// placed says what stands where on the front: addresses and SKUs with fronts.
func placed(t *testing.T, res unit.Result) string {
	t.Helper()
	if res.Unit == nil {
		t.Fatal(codes(res))
	}
	var rows []string
	for _, row := range face(t, res.Unit, plan.Front).Rows {
		text := row.Address + ":"
		for _, p := range row.Positions {
			text += fmt.Sprintf(" %s x%d", p.Product.SKU, len(p.Fronts))
		}
		rows = append(rows, text)
	}
	return strings.Join(rows, "; ")
}

func TestFill(t *testing.T) {
	const head = "sku,name,family,form,width,height,depth,weight,weekly,price,cost,min,max,breakable\n"
	tins := func(family, names, rest string) string {
		text := ""
		for n := range strings.FieldsSeq(names) {
			text += n + "," + n + "," + family + ",stand,5,5,4," + rest + "\n"
		}
		return text
	}
	for _, c := range []struct{ reason, goods, rows, want string }{
		{"what sells twice as fast gets twice the fronts",
			tins("f", "A B", "1,10,5,2,,,") + tins("f", "C", "1,20,5,2,,,"),
			"    - {use: shelf-24x12, bay: 1, at: 36in, fill: [family: f]}\n", "F-1: A x1 B x1 C x2"},
		{"least and most are kept to",
			tins("f", "A", "1,1,5,2,2,,") + tins("f", "B", "1,90,5,2,,1,"),
			"    - {use: shelf-24x12, bay: 1, at: 36in, fill: [family: f]}\n", "F-1: A x3 B x1"},
		{"families one after the other, bay by bay, from the top down",
			tins("f", "A B C D E F G H", "1,1,5,2,,1,") + tins("g", "K L M N", "1,1,5,2,,1,"),
			shelves + "    - fill: [family: g, family: f]\n", "F-1: K x1 L x1 M x1 N x1; F-2:; F-3: A x1 B x1 C x1 D x1; F-4:; F-5: E x1 F x1 G x1 H x1; F-6:"},
		{"heavier goods of a family lower",
			tins("f", "A B C", "5,1,5,2,,1,") + tins("f", "D E F G", "0.5,9,5,2,,1,"),
			"    - {use: shelf-24x12, bay: 1, repeat: 2, fill: [family: f]}\n", "F-1: D x1 E x1 F x1 G x1; F-2: A x1 B x1 C x1"},
		{"what earns more, and nothing without a price",
			tins("f", "A B C", "1,10,5,2,,1,") + tins("f", "D E", "1,10,9,2,,1,") + tins("f", "X", "1,10,,,,1,"),
			"    - {use: shelf-24x12, bay: 1, at: 36in, fill: [family: f]}\n    - {use: hook-2, bay: 2, at: 40in}\n", "F-1:; F-2: A x1 B x1 D x1 E x1"},
		{"as many products as there is room for, however slowly they sell",
			tins("f", "A B C", "1,1,5,2,,,") + "W,W,f,stand,12,5,4,1,900,50,2,,,\n" + tins("f", "D", "1,1,5,2,,,"),
			"    - {use: shelf-24x12, bay: 1, at: 36in, fill: [family: f]}\n", "F-1: A x1 B x1 C x1 D x1"},
		{"breakables not over 59 in, heavy goods not over 48",
			"A,A,f,stand,20,5,4,1,1,5,2,,1,yes\nB,B,g,stand,20,5,4,12,1,5,2,,1,\n",
			"    - {use: shelf-24x12, bay: 1, at: 60in}\n    - {use: shelf-24x12, bay: 1, at: 48in}\n    - {use: shelf-24x12, bay: 1, at: 36in}\n    - {fill: [family: f, family: g], bay: 1}\n",
			"F-1:; F-2: A x1; F-3: B x1"},
		{"what a row names is left out of the fill; the other bay is another fill",
			tins("f", "A B C", "1,1,5,2,,1,"),
			"    - {use: shelf-24x12, bay: 1, at: 36in, goods: [B]}\n    - {use: shelf-24x12, bay: 2, at: 36in}\n    - {fill: [family: f], bay: 2}\n", "F-1: B x1; F-2: A x1 C x1"},
		{"a load is not passed: 80 lb on the shelf",
			tins("f", "A B C D", "10,1,5,2,,1,"),
			"    - {use: shelf-24x12, bay: 1, at: 36in, fill: [family: f]}\n", "F-1: A x1 B x1"},
		{"cards on hooks between the wires", "A,A,s,peg,3.25,4.5,0.1,0.1,3,,,,,\nB,B,s,peg,3.25,4.5,0.1,0.1,6,,,,,\n",
			"    - {use: hook-6, bay: 1, at: 57in, fill: [family: s]}\n", "F-1: A x2 B x4"},
	} {
		aim := "cover"
		switch {
		case strings.HasPrefix(c.reason, "what earns"):
			aim = "profit"
		case strings.HasPrefix(c.reason, "as many"):
			aim = "range"
		}
		res := aimed(t, aim, head+c.goods, c.rows)
		if res.Findings.Has(diag.Stop) {
			t.Errorf("%s: %s", c.reason, codes(res))
		}
		if got := placed(t, res); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s\n%s", c.reason, got, c.want, codes(res))
		}
	}
}

// TestLeftOut wants every product that a fill has no place for listed with the
// reason that is true of it.
func TestLeftOut(t *testing.T) {
	const csv = `sku,name,family,form,width,height,depth,weight,weekly,price,cost,max
FITS,a,f,stand,5,5,4,1,5,9,1,
COAT,b,f,hanger,16,24,1,1,5,9,1,
WIDE,c,f,stand,26,5,4,1,5,9,1,
DEEP,d,f,stand,5,5,14,1,5,9,1,
TALL,e,f,stand,5,80,4,1,5,9,1,
LEAD,f,f,stand,5,5,4,90,5,9,1,
FREE,g,f,stand,5,5,4,1,5,,,
BIG,h,f,stand,20,5,4,1,1,2,1,
`
	res := aimed(t, "profit", csv, "    - {use: hook-2, bay: 1, at: 60in, count: 1}\n    - {use: shelf-24x12, bay: 1, at: 36in, fill: [family: f]}\n")
	if res.Unit == nil || len(res.Unit.Allotted) != 1 {
		t.Fatal(codes(res))
	}
	want := map[string]string{
		"COAT": "no goods of form hanger", "WIDE": "26 in wide", "DEEP": "14 in deep", "TALL": "over the slot",
		"LEAD": "90.0 lb", "FREE": "earns nothing", "BIG": "worth more",
	}
	a := res.Unit.Allotted[0]
	for _, out := range a.LeftOut {
		if says := want[out.Product.SKU]; says == "" || !strings.Contains(out.Why, says) {
			t.Errorf("%s: %q, want it to say %q", out.Product.SKU, out.Why, says)
		}
		delete(want, out.Product.SKU)
	}
	if len(want) > 0 {
		t.Errorf("not among those left out: %v", want)
	}
	if n := strings.Count(codes(res), "left-out"); n != len(a.LeftOut) {
		t.Errorf("%d findings for %d products", n, len(a.LeftOut))
	}
	if len(a.Given) != 1 || !strings.Contains(a.Given[0].Why, "one more takes 5 1/4 in") {
		t.Errorf("given: %+v", a.Given)
	}
}

func TestFillFindings(t *testing.T) {
	for _, c := range []struct{ reason, rows, code, says string }{
		{"no row is free", "    - {use: hook-6, goods: [SEED]}\n    - fill: [family: seeds]\n", "fill-without-rows", "free"},
		{"no rows in that bay", "    - {use: hook-6, bay: 1}\n    - {fill: [family: seeds], bay: 2}\n", "fill-without-rows", "free"},
		{"a family misspelt", "    - {use: hook-6}\n    - fill: [family: seed]\n", "unknown-family", "seeds"},
		{"goods misspelt", "    - {use: hook-6}\n    - fill: [SEAD]\n", "unknown-goods", "SEED"},
	} {
		res := resolve(t, gondola+"  front:\n"+c.rows)
		hit := false
		for _, f := range res.Findings.All() {
			hit = hit || f.Code == c.code && f.Level == diag.Error && strings.Contains(f.Message+f.Fix, c.says) && f.At.Line > 8
		}
		if !hit {
			t.Errorf("%s: no %s saying %q:\n%s", c.reason, c.code, c.says, codes(res))
		}
	}
}

// TestMirroredFill wants the back to be the front's mirror, fronts and all.
func TestMirroredFill(t *testing.T) {
	u := dressed(t, "  front:\n    - {use: shelf-24x12, bay: 1, repeat: 2}\n    - {fill: [family: food], bay: 1}\n  back: {same: front}\n")
	front, back := face(t, u, plan.Front), face(t, u, plan.Back)
	for i, row := range front.Rows {
		other := back.Rows[i]
		if len(row.Positions) == 0 || len(row.Positions) != len(other.Positions) {
			t.Fatalf("%s has %d positions, %s %d", row.Address, len(row.Positions), other.Address, len(other.Positions))
		}
		for k, p := range row.Positions {
			q := other.Positions[len(other.Positions)-1-k]
			if p.Product != q.Product || len(p.Fronts) != len(q.Fronts) || p.Units != q.Units {
				t.Errorf("%s: %s x%d, %s: %s x%d", p.Address, p.Product.SKU, len(p.Fronts), q.Address, q.Product.SKU, len(q.Fronts))
			}
		}
	}
	if len(u.Allotted) != 2 {
		t.Errorf("%d accounts, want one a face", len(u.Allotted))
	}
}

// TestFillsHoldTheirRules fills random shelves and hooks with random goods, and
// wants every allotment to keep what it promises.
func TestFillsHoldTheirRules(t *testing.T) {
	rng := rand.New(rand.NewPCG(20270215, 4))
	for n := range 150 {
		csv := "sku,name,family,form,width,height,depth,weight,weekly,price,cost,min,max\n"
		for i := range 3 + rng.IntN(12) {
			form := []string{"stand", "stand", "peg"}[rng.IntN(3)]
			least := 1 + rng.IntN(2)
			csv += fmt.Sprintf("P%d,p,%s,%s,%d.%02d,%d,%d,%d.5,%d,%d,1,%d,%d\n", i, []string{"f", "g", "h"}[rng.IntN(3)], form,
				2+rng.IntN(7), rng.IntN(100), 3+rng.IntN(10), 1+rng.IntN(5), rng.IntN(4), rng.IntN(30), 2+rng.IntN(9), least, least+rng.IntN(4))
		}
		var order []string
		for _, f := range rng.Perm(3) {
			if name := "fgh"[f : f+1]; strings.Contains(csv, ",p,"+name+",") {
				order = append(order, "family: "+name)
			}
		}
		rows := "    - {use: hook-6, bay: 1, at: 63in}\n    - {use: shelf-24x12, bay: 1, repeat: 2}\n    - {use: hook-6, bay: 2}\n    - {use: shelf-24x12, bay: 2}\n"
		res := aimed(t, string(plan.Aims()[n%3]), csv, rows+"    - fill: ["+strings.Join(order, ", ")+"]\n")
		if res.Unit == nil || res.Findings.Has(diag.Stop) {
			t.Fatalf("%s\n%s", csv, codes(res))
		}
		checkFill(t, res.Unit, order)
	}
}

// checkFill holds one filled front against the rules of fills.
func checkFill(t *testing.T, u *unit.Unit, order []string) {
	t.Helper()
	a := u.Allotted[0]
	block := func(p *unit.Position) int {
		for i, name := range order {
			if name == "family: "+p.Product.Family {
				return i
			}
		}
		return -1
	}
	seen := map[string]bool{}
	var reading []*unit.Position
	for _, x0 := range []measure.Length{0, 24 * measure.Inch} {
		for _, row := range face(t, u, plan.Front).Rows {
			if row.X0 == x0 {
				reading = append(reading, row.Positions...)
			}
		}
	}
	for i, p := range reading {
		if seen[p.Product.SKU] {
			t.Errorf("%s stands in two places", p.Product.SKU)
		}
		seen[p.Product.SKU] = true
		if n := len(p.Fronts); n < p.Product.Min || n > p.Product.Max {
			t.Errorf("%s has %d fronts, of %d to %d", p.Product.SKU, n, p.Product.Min, p.Product.Max)
		}
		if i > 0 && block(reading[i-1]) > block(p) {
			t.Errorf("%s of family %s comes after %s of %s", p.Product.SKU, p.Product.Family, reading[i-1].Product.SKU, reading[i-1].Product.Family)
		}
	}
	if a.Value > a.Bound {
		t.Errorf("worth %d of at most %d", a.Value, a.Bound)
	}
	for _, out := range a.LeftOut {
		if seen[out.Product.SKU] || out.Why == "" {
			t.Errorf("left out: %s, %q", out.Product.SKU, out.Why)
		}
		seen[out.Product.SKU] = true
	}
}
