package reset

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"setwright/layout/diag"
	"setwright/layout/golden"
	"setwright/layout/unit"
)

const (
	wires = "unit: {frame: gondola-h-48, stand: casters-locking, panels: {front: grid-24x60, right: grid-24x60, left: grid-24x60}}\n"
	slats = "unit: {frame: wall-run, bays: 2, stand: fixed, panels: {front: slat-48x96}}\n"
	holes = "unit: {frame: wall-run, bays: 2, stand: fixed, panels: {front: peg-48x60}}\n"
)

const someGoods = `sku,name,family,form,width,height,depth,weight,case
CARD,Seed card,Cards,peg,3,4,0.5,0.1,12
TAG,Plant tag,Cards,peg,2,4,0.5,0.1,12
TIN,Tea tin,Tins,stand,4,5,4,0.5,6
JAR,Honey jar,Jars,stand,3,5,3,0.8,6
`

// of is a unit of that bare unit, dressed by rows of faces.
func of(t testing.TB, bare, dress string) *unit.Unit {
	t.Helper()
	return dressed(t, "plan: 1\ntitle: Test\nmeasure: in\ngoods: [goods.csv]\n"+bare+"dress:\n"+dress, "goods.csv", someGoods)
}

// tally counts the ways of items and facings: "stay 2 hook-6; fetch 1 CARD".
func (r *Reset) tally() string {
	names := [...]string{"stay", "slide", "ride", "rehang", "fetch", "return"}
	var keys []string
	count := map[string]int{}
	add := func(way Way, id string) {
		key := fmt.Sprintf("%%d %s %s", names[way], id)
		if count[key] == 0 {
			keys = append(keys, key)
		}
		count[key]++
	}
	for _, it := range r.Items {
		add(it.Way, it.Part.ID)
	}
	for _, f := range r.Facings {
		add(f.Way, f.Product.SKU)
	}
	for i, key := range keys {
		keys[i] = fmt.Sprintf(key, count[key])
	}
	return strings.Join(keys, ", ")
}

func TestMatch(t *testing.T) {
	tests := []struct {
		reason        string
		bare          string
		before, after string
		want          string
		seconds       int
	}{
		{"one plan twice is left alone", wires,
			"  front:\n    - {use: hook-6, bay: 1, at: 60in, count: 2, goods: {CARD: 2}}\n    - {use: shelf-24x12, bay: 1, at: 30in, with: [strip-ticket], goods: {TIN: 3}}\n",
			"  front:\n    - {use: hook-6, bay: 1, at: 60in, count: 2, goods: {CARD: 2}}\n    - {use: shelf-24x12, bay: 1, at: 30in, with: [strip-ticket], goods: {TIN: 3}}\n",
			"2 stay hook-6, 1 stay shelf-24x12, 2 stay bracket-12, 1 stay strip-ticket, 2 stay CARD, 3 stay TIN", 0},
		{"between two wires a hook slides with its goods", wires,
			"  front:\n    - {use: hook-6, bay: 1, at: 60in, count: 1, align: left, goods: {CARD: 1}}\n",
			"  front:\n    - {use: hook-6, bay: 1, at: 60in, count: 1, align: left, goods: {TAG: 1}}\n",
			"1 slide hook-6, 1 return CARD, 1 fetch TAG", 5 + (4 + 11 + 11) + (4 + 2*11 + 11)},
		{"over a wire it is hung again, its goods too", wires,
			"  front:\n    - {use: hook-6, bay: 1, at: 60in, count: 1, align: left, goods: {CARD: 1}}\n",
			"  front:\n    - {use: hook-6, bay: 1, at: 60in, count: 1, align: right, goods: {CARD: 1}}\n",
			"1 rehang hook-6, 1 rehang CARD", 15 + (4 + 11) + (4 + 2*11)},
		{"on slatwall it slides from end to end of the panel", slats,
			"  front:\n    - {use: hook-6-slat, bay: 1, at: 60in, count: 1, align: left, goods: {CARD: 1}}\n",
			"  front:\n    - {use: hook-6-slat, bay: 1, at: 60in, count: 1, align: right, goods: {CARD: 1}}\n",
			"1 slide hook-6-slat, 1 ride CARD", 5},
		{"not over a seam", slats,
			"  front:\n    - {use: hook-6-slat, bay: 1, at: 60in, count: 1, goods: {CARD: 1}}\n",
			"  front:\n    - {use: hook-6-slat, bay: 2, at: 60in, count: 1, goods: {CARD: 1}}\n",
			"1 rehang hook-6-slat, 1 rehang CARD", 15 + (4 + 11) + (4 + 2*11)},
		{"nothing slides on pegboard", holes,
			"  front:\n    - {use: hook-6-peg, bay: 1, at: 60in, count: 1, align: left}\n",
			"  front:\n    - {use: hook-6-peg, bay: 1, at: 60in, count: 1, align: right}\n",
			"1 rehang hook-6-peg", 15},
		{"hooks never pass: two slide rather than one past the other", slats,
			"  front:\n    - {use: hook-6-slat, bay: 1, at: 60in, count: 2, every: 6in, align: left}\n",
			"  front:\n    - {use: hook-6-slat, bay: 1, at: 60in, count: 2, every: 6in, align: center}\n",
			"2 slide hook-6-slat", 10},
		{"a hook goes from one end of the row to the other: it is hung anew, the others stay", slats,
			"  front:\n    - {use: hook-6-slat, bay: 1, at: 60in, count: 4, every: 11-5/8in, align: left}\n",
			"  front:\n    - {use: hook-6-slat, bay: 1, at: 60in, count: 4, every: 11-5/8in, align: right}\n",
			"1 rehang hook-6-slat, 3 stay hook-6-slat", 15},
		{"hooks of one kind do not cross", slats,
			"  front:\n    - {use: hook-6-slat, bay: 1, at: 60in, count: 3, align: left, goods: {CARD: 3}}\n",
			"  front:\n    - {use: hook-6-slat, bay: 1, at: 60in, count: 3, align: right, goods: {CARD: 3}}\n",
			"3 slide hook-6-slat, 3 ride CARD", 15},
		{"a shelf moved up is emptied, its strip rides, its brackets go along", wires,
			"  front:\n    - {use: shelf-24x12, bay: 1, at: 30in, with: [strip-ticket], goods: {TIN: 2}}\n",
			"  front:\n    - {use: shelf-24x12, bay: 1, at: 36in, with: [strip-ticket], goods: {TIN: 2}}\n",
			"1 rehang shelf-24x12, 2 rehang bracket-12, 1 ride strip-ticket, 2 rehang TIN", 68 + 2*30 + 2*(4+3+4+2*3)},
		{"a strip comes onto a shelf that stays, with nothing on it moved", wires,
			"  front:\n    - {use: shelf-24x12, bay: 1, at: 30in, goods: {TIN: 2}}\n",
			"  front:\n    - {use: shelf-24x12, bay: 1, at: 30in, with: [strip-ticket], goods: {TIN: 2}}\n",
			"1 stay shelf-24x12, 2 stay bracket-12, 1 fetch strip-ticket, 2 stay TIN", 40},
		{"on a shelf that stays goods are nudged, not lifted", wires,
			"  front:\n    - {use: shelf-24x12, bay: 1, at: 30in, goods: {TIN: 2, JAR: 2}}\n",
			"  front:\n    - {use: shelf-24x12, bay: 1, at: 30in, goods: {TIN: 2, JAR: 1}}\n",
			"1 stay shelf-24x12, 2 stay bracket-12, 2 slide TIN, 1 return JAR, 1 slide JAR", 3*4 + 4 + 4 + 4},
		{"goods that change sides on a shelf do not pass: one is lifted", wires,
			"  front:\n    - {use: shelf-24x12, bay: 1, at: 30in, goods: {TIN: 1, JAR: 1}}\n",
			"  front:\n    - {use: shelf-24x12, bay: 1, at: 30in, goods: {JAR: 1, TIN: 1}}\n",
			"1 stay shelf-24x12, 2 stay bracket-12, 1 rehang TIN, 1 slide JAR", 4 + 3 + 4 + 2*3 + 4},
		{"a unit is stripped", wires,
			"  front:\n    - {use: hook-6, bay: 1, at: 60in, count: 2, goods: {CARD: 1}}\n", "  front: []\n",
			"2 return hook-6, 1 return CARD", 30 + 4 + 11 + 11},
		{"an empty unit is dressed", wires,
			"  front: []\n", "  front:\n    - {use: hook-6, bay: 1, at: 60in, count: 2, goods: {CARD: 1}}\n",
			"2 fetch hook-6, 1 fetch CARD", 40 + 4 + 2*11 + 11},
		{"a row that comes to the other face by same: stays on its own", wires,
			"  front:\n    - {use: hook-6, bay: 1, at: 60in, count: 1, goods: {CARD: 1}}\n",
			"  front:\n    - {use: hook-6, bay: 1, at: 60in, count: 1, goods: {CARD: 1}}\n  back: {same: front}\n",
			"1 stay hook-6, 1 fetch hook-6, 1 stay CARD, 1 fetch CARD", 20 + 4 + 2*11 + 11},
		{"a sign from a row of its own comes onto a shelf", wires,
			"  right:\n    - {use: sign-11x7, at: 60in}\n  front:\n    - {use: shelf-24x12, bay: 1, at: 30in}\n",
			"  front:\n    - {use: shelf-24x12, bay: 1, at: 30in, with: [sign-11x7]}\n",
			"1 stay shelf-24x12, 2 stay bracket-12, 1 rehang sign-11x7", 30},
	}
	for _, tt := range tests {
		t.Run(tt.reason, func(t *testing.T) {
			r := paired(of(t, tt.bare, tt.before), of(t, tt.bare, tt.after), Options{})
			if got := r.tally(); got != tt.want || r.Handling() != tt.seconds {
				t.Errorf("got %d s: %s\nwant %d s: %s\n%s", r.Handling(), got, tt.seconds, tt.want, r.dump())
			}
			checkWhole(t, r)
		})
	}
}

// checkWhole fails unless every piece and facing of both units is in the reset
// exactly once, and what comes and goes adds up by part and product.
func checkWhole(t testing.TB, r *Reset) {
	t.Helper()
	type side struct {
		pieces map[*unit.Piece]int
		fronts map[*unit.Front]int
	}
	sides := [2]side{{map[*unit.Piece]int{}, map[*unit.Front]int{}}, {map[*unit.Piece]int{}, map[*unit.Front]int{}}}
	coming, going := map[string]int{}, map[string]int{}
	for _, it := range r.Items {
		for i, p := range []*Place{it.From, it.To} {
			if p != nil {
				sides[i].pieces[p.Piece]++
			}
		}
		key := fmt.Sprint(it.Part.ID, it.Cut)
		switch {
		case it.From == nil:
			coming[key]++
		case it.To == nil:
			going[key]++
		case it.From.Piece.Part.ID != it.Part.ID || it.From.Piece.Cut != it.Cut:
			t.Errorf("%s becomes %s", it.From.Piece.Part.ID, it.Part.ID)
		}
	}
	for key := range coming {
		if going[key] > 0 && !slices.ContainsFunc(r.Findings, func(f diag.Finding) bool { return f.Code == "another-part" }) {
			t.Errorf("%d of %s come and %d go", coming[key], key, going[key])
		}
	}
	for _, f := range r.Facings {
		for i, s := range []*Spot{f.From, f.To} {
			if s != nil {
				sides[i].fronts[s.Front]++
				if s.On == nil {
					t.Errorf("%s stands on nothing", f.Product.SKU)
				}
			}
		}
	}
	for i, u := range []*unit.Unit{r.Old, r.New} {
		eachPiece(u, func(p *unit.Piece) {
			if n := sides[i].pieces[p]; n != 1 {
				t.Errorf("%s is there %d times", p.Part.ID, n)
			}
		})
		eachPosition(u, func(p *unit.Position) {
			for k := range p.Fronts {
				if n := sides[i].fronts[&p.Fronts[k]]; n != 1 {
					t.Errorf("%s is there %d times", p.Address, n)
				}
			}
		})
	}
	checkStock(t, r)
}

// checkStock fails unless the units that come from stock and go there are, by
// product, the difference of the two units.
func checkStock(t testing.TB, r *Reset) {
	t.Helper()
	net, stock := map[string]int{}, map[string]int{}
	both := map[string][2]int{}
	eachPosition(r.Old, func(p *unit.Position) { net[p.Product.SKU] -= p.Units })
	eachPosition(r.New, func(p *unit.Position) { net[p.Product.SKU] += p.Units })
	for _, f := range r.Facings {
		stock[f.Product.SKU] += f.Stock
		b := both[f.Product.SKU]
		b[0], b[1] = b[0]+max(f.Stock, 0), b[1]+max(-f.Stock, 0)
		both[f.Product.SKU] = b
	}
	for sku, n := range net {
		if stock[sku] != n {
			t.Errorf("%s: %d units from stock, the units differ by %d", sku, stock[sku], n)
		}
		if both[sku][0] > 0 && both[sku][1] > 0 && !slices.ContainsFunc(r.Findings, func(f diag.Finding) bool { return f.Code == "another-product" }) {
			t.Errorf("%s comes from stock and goes there", sku)
		}
	}
}

// The five samples are one unit over a year; what becomes of every piece and
// facing between them is kept in testdata.
func TestSamples(t *testing.T) {
	year := []string{"spring", "children", "shirts", "sweets", "boots"}
	for i := range year {
		from, to := year[i], year[(i+1)%len(year)]
		t.Run(from+" to "+to, func(t *testing.T) {
			r := paired(sample(t, from), sample(t, to), Options{})
			checkWhole(t, r)
			golden.Check(t, "testdata/"+from+"-"+to+".txt", r.dump())
			if again := paired(sample(t, from), sample(t, to), Options{}); again.dump() != r.dump() {
				t.Error("the same units, read anew, become another reset")
			}
		})
	}
}

// Any two units that the tests know become each other: at once if the bare units
// are alike, by a rebuild if not.
func TestAnyToAny(t *testing.T) {
	var units []*unit.Unit
	for _, dir := range []string{"../../samples", "../../testdata/odd"} {
		for _, entry := range must(os.ReadDir(dir)) {
			if _, err := os.Stat(dir + "/" + entry.Name() + "/plan.yaml"); err == nil {
				units = append(units, at(t, dir+"/"+entry.Name()))
			}
		}
	}
	for _, old := range units {
		for _, new := range units {
			if len(old.Faces[0].Rows) > 60 || len(new.Faces[0].Rows) > 60 {
				continue
			}
			r := paired(old, new, Options{Rebuild: Differences(old, new) != nil})
			checkWhole(t, r)
			if old == new && r.Handling() != 0 {
				t.Errorf("%s: nothing changes, and that takes %d s", old.Plan.Title, r.Handling())
			}
		}
	}
}

// What differs between the plans' own lists under one name is not the same
// thing, if it matters for mounting or for the room goods take; and a finding
// says so. What does not matter changes nothing.
func TestUnderOneName(t *testing.T) {
	text := func(panel string) string {
		return "plan: 1\ntitle: Test\nmeasure: in\nparts: [house.yaml]\ngoods: [goods.csv]\n" + strings.ReplaceAll(wires, "grid-24x60", panel) +
			"dress:\n  front:\n    - {use: hook-6, bay: 1, at: 60in, count: 1, goods: {CARD: 1}}\n  left:\n    - {use: sign-11x7, at: 60in}\n"
	}
	const twin = "parts:\n  our-grid: {like: grid-24x60, name: Our own grid}\n"
	tests := []struct {
		reason       string
		panel        string
		parts, goods string
		want         string
		finding      string
		front, left  bool // nothing changes there
		refused      string
		cause        string // which the finding tells
	}{
		{reason: "alike in all", panel: "grid-24x60", want: "1 stay hook-6, 1 stay sign-11x7, 1 stay CARD", front: true, left: true},
		{reason: "another price and weight are nothing to a crew", panel: "grid-24x60", parts: "parts:\n  hook-6: {weight: 0.3, price: 2}\n",
			want: "1 stay hook-6, 1 stay sign-11x7, 1 stay CARD", front: true, left: true},
		{reason: "a hook of another length is another hook", panel: "grid-24x60", parts: "parts:\n  hook-6: {depth: 7}\n",
			want: "1 return hook-6, 1 stay sign-11x7, 1 fetch hook-6, 1 rehang CARD", finding: "another-part", left: true, cause: "(depth)"},
		{reason: "goods of another size are other goods", panel: "grid-24x60", goods: strings.Replace(someGoods, "peg,3,4", "peg,3,5", 1),
			want: "1 stay hook-6, 1 stay sign-11x7, 1 return CARD, 1 fetch CARD", finding: "another-product", left: true},
		{reason: "panels of another name that are alike", panel: "our-grid", parts: twin,
			want: "1 stay hook-6, 1 stay sign-11x7, 1 stay CARD", finding: "same-panels", front: true, left: true},
		{reason: "panels of one name with other slots", panel: "grid-24x60", parts: "parts:\n  grid-24x60: {panel: {first: 2, count: 19}}\n",
			finding: "another-unit", refused: "the front panels: grid-24x60, unlike in slots; "},
	}
	old := dressed(t, text("grid-24x60"), "house.yaml", "parts: {}\n", "goods.csv", someGoods)
	for _, tt := range tests {
		t.Run(tt.reason, func(t *testing.T) {
			goods := tt.goods
			if goods == "" {
				goods = someGoods
			}
			list := tt.parts
			if list == "" {
				list = "parts: {}\n"
			}
			r := paired(old, dressed(t, text(tt.panel), "house.yaml", "measure: in\n"+list, "goods.csv", goods), Options{})
			if got := r.tally(); got != tt.want {
				t.Errorf("got %s\nwant %s", got, tt.want)
			}
			told := ""
			for _, f := range r.Findings {
				told += f.Code + ": " + f.Message
			}
			if !strings.HasPrefix(told, tt.finding) || tt.finding == "" && told != "" || !strings.Contains(told, tt.refused) || !strings.Contains(told, tt.cause) {
				t.Errorf("told %q", told)
			}
			if tt.refused != "" {
				return
			}
			if front, left := r.Unchanged("front"), r.Unchanged("left"); front != tt.front || left != tt.left {
				t.Errorf("unchanged: front %t, left %t", front, left)
			}
			checkWhole(t, r)
		})
	}
}

// TestOtherNames: two names may be two units of one make; one name, or none in
// one of the plans, says nothing of the kind.
func TestOtherNames(t *testing.T) {
	named := func(name string) *unit.Unit {
		return dressed(t, "plan: 1\ntitle: Test\nmeasure: in\n"+strings.Replace(wires, "{frame", "{"+name+"frame", 1)+"dress:\n  left:\n    - {use: sign-11x7, at: 60in}\n")
	}
	none, door, aisle := named(""), named("name: Door, "), named("name: Aisle, ")
	for _, tt := range []struct {
		old, new *unit.Unit
		want     bool
	}{{door, aisle, true}, {door, door, false}, {none, door, false}, {door, none, false}} {
		r := paired(tt.old, tt.new, Options{})
		if got := len(r.Findings) == 1 && r.Findings[0].Code == "another-name" && len(r.Differences) == 0; got != tt.want {
			t.Errorf("%q to %q: %v", tt.old.Plan.Unit.Name, tt.new.Plan.Unit.Name, r.Findings)
		}
	}
}
