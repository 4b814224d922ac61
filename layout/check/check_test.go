package check_test

import (
	"fmt"
	"strings"
	"testing"

	"setwright/layout/check"
	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// hung resolves one row of four fronts of one product of that form and weight on
// the gondola; of a rail or a basket, which are shared, one.
func hung(t *testing.T, row, form string, pounds float64) *unit.Unit {
	t.Helper()
	var found diag.List
	fronts := 4
	if form == "hanger" || form == "loose" {
		fronts = 1
	}
	p := plan.Decode("plan.yaml", []byte(`plan: 1
title: Test
measure: in
unit: {frame: gondola-h-48, stand: casters-locking, panels: {front: grid-24x60}}
dress:
  front:
    - {use: `+row+`, bay: 1, at: 54in, goods: {A: `+fmt.Sprint(fronts)+`}}
`), &found)
	list, err := parts.BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	cat := goods.NewCatalog()
	goods.Load(cat, "goods.csv", []byte(fmt.Sprintf("sku,name,family,form,width,height,depth,weight\nA,A,F,%s,5,5,1,%g\n", form, pounds)), measure.Inches, &found)
	res := unit.Resolve(p, list, cat)
	found.Add(res.Findings.All()...)
	if found.Has(diag.Stop) || found.Has(diag.Error) {
		t.Fatal(found.All())
	}
	return res.Unit
}

func TestLoadOverRating(t *testing.T) {
	// A 6 in hook takes five units an inch thick, a 12 in deep shelf four fronts
	// of twelve; ratings are the built-in list's assumptions.
	tests := []struct {
		reason, row, form string
		pounds            float64
		fires             bool
	}{
		{"a hook with light cards", "hook-6", "peg", 0.1, false},
		{"a hook with five heavy tools", "hook-6", "peg", 4, true},
		{"a shelf with light boxes", "shelf-24x12", "stand", 0.5, false},
		{"a shelf with bricks", "shelf-24x12", "stand", 5, true},
		{"a rail counts every garment on it", "rail-u-24", "hanger", 6, true},
		{"a rail of scarves", "rail-u-24", "hanger", 0.3, false},
		{"a basket counts what lies in it", "basket-24", "loose", 1, true},
		{"a basket of feathers", "basket-24", "loose", 0.02, false},
	}
	for _, tt := range tests {
		t.Run(tt.reason, func(t *testing.T) {
			found := fired(check.Run(hung(t, tt.row, tt.form, tt.pounds)), "over-rating")
			if len(found) > 0 != tt.fires {
				t.Fatalf("findings: %+v", found)
			}
			for _, f := range found {
				if f.Code != "over-rating" || f.Level != diag.Stop || f.At.Line != 7 || len(f.Where) == 0 {
					t.Errorf("finding: %+v", f)
				}
				if !strings.Contains(f.Message, "rating assumed") {
					t.Errorf("an assumed rating is not called so: %s", f.Message)
				}
			}
		})
	}
}

// TestLoadAtRating wants exactly the rating to pass: the limit is not crossed.
func TestLoadAtRating(t *testing.T) {
	u := hung(t, "hook-6", "peg", 1)
	row := u.Faces[0].Rows[0]
	units := row.Positions[0].Fronts[0].Units
	if units < 1 {
		t.Fatal("the hook holds nothing")
	}
	row.Positions[0].Product.Weight = row.Part.Rated / measure.Mass(units)
	if found := fired(check.Run(u), "over-rating"); len(found) > 0 {
		t.Errorf("at its rating: %+v", found)
	}
	row.Positions[0].Product.Weight += 1000
	if found := fired(check.Run(u), "over-rating"); len(found) != 1 {
		t.Errorf("a gram a unit over its rating: %+v", found)
	}
}

// fired is what one rule found.
func fired(report check.Report, id string) []diag.Finding {
	var found []diag.Finding
	for _, f := range report.Findings {
		if f.Code == id {
			found = append(found, f)
		}
	}
	return found
}
