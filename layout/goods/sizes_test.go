package goods_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/measure"
)

func TestSizes(t *testing.T) {
	const expected = "sizes such as"
	for _, c := range []struct{ cell, want, reason string }{
		{"36 37 38", "36|37|38", "spaces"},
		{"S/M/L", "S|M|L", "slashes"},
		{"6; 7 ;8", "6|7|8", "semicolons"},
		{`"S, M,L"`, "S|M|L", "commas"},
		{`"36,5 37,5"`, "36,5|37,5", "decimal commas"},
		{"36-41", "36|37|38|39|40|41", "a range"},
		{"36–38 40", "36|37|38|40", "a range with a dash of type, and one more"},
		{"10 9-11", "the size \"10\" is there twice", "a size that a range has too"},
		{"41-36", "the range \"41-36\" does not go up", "downwards"},
		{"36-36", "does not go up", "nowhere"},
		{"1-100", "1|2|3", "the longest"},
		{"1-101", "more than 100 sizes", "one more"},
		{"1-100 200", "more than 100 sizes", "one more by itself"},
		{"1-9999", "more than 100 sizes", "absurd"},
		{"XS-XL", "XS-XL", "no range of numbers, so a name"},
		{"36.5-38", "36.5-38", "no whole numbers"},
		{"36-38-40", "36-38-40", "two dashes"},
		{";/", "there are no sizes here", "separators only"},
		{strings.Repeat("x", 21), "longer than 20 characters", "a name too long"},
	} {
		var found diag.List
		cat := goods.NewCatalog()
		goods.Load(cat, "g.csv", []byte("sku,name,form,width,height,depth,sizes\nA,B,boxed,1,1,1,"+c.cell+"\n"), measure.Inches, &found)
		got := ""
		if found.Len() > 0 {
			f := found.All()[0]
			if got = f.Message; !strings.HasPrefix(f.Expected, expected) || f.At.Line != 2 || f.At.Col != 17 {
				t.Errorf("%s: %+v", c.cell, f)
			}
		} else {
			got = strings.Join(cat.All()[0].Sizes, "|")
		}
		if !strings.Contains(got, c.want) {
			t.Errorf("%s: %q, want %q: %s", c.cell, got, c.want, c.reason)
		}
	}
}

func TestSizesAreForBoxedGoods(t *testing.T) {
	var found diag.List
	goods.Load(goods.NewCatalog(), "g.csv", []byte("sku,name,form,width,height,depth,sizes\nA,B,fold,1,1,1,S M\n"), measure.Inches, &found)
	if found.Len() != 1 || found.All()[0].Code != "sizes-unused" {
		t.Errorf("%v", found.All())
	}
}

// TestSides mixes up the sides of products and wants the note, and wants none
// for sound ones.
func TestSides(t *testing.T) {
	for _, c := range []struct {
		sides, form string
		noted       bool
		reason      string
	}{
		{"3.25,4.5,0.1", "peg", false, "a card"},
		{"0.1,4.5,3.25", "peg", true, "a card, width and depth swapped"},
		{"3.25,0.1,4.5", "peg", true, "a card, height and depth swapped"},
		{"6,9,0.9", "stand", false, "a book"},
		{"0.9,9,6", "stand", true, "a book, width and depth swapped"},
		{"6,0.9,9", "stand", true, "a book, height and depth swapped"},
		{"2,6,6", "stand", false, "three times as deep as wide"},
		{"2,6,6.1", "stand", true, "more than that"},
		{"5,3,9", "stand", false, "three times as deep as high"},
		{"5,3,9.1", "stand", true, "more than that"},
		{"16,1.75,9.5", "stand", false, "a mat that lies"},
		{"4,1.5,4", "stand", false, "a round tin"},
		{"7.25,4.5,11.75", "boxed", false, "a shoe box, end on"},
		{"4.5,1,11.75", "fold", false, "what is folded lies flat"},
		{"1,20,15", "hanger", false, "what hangs on a hanger hangs sideways"},
	} {
		var found diag.List
		goods.Load(goods.NewCatalog(), "g.csv", []byte("sku,name,form,width,height,depth\nA,B,"+c.form+","+c.sides+"\n"), measure.Inches, &found)
		if noted := found.Len() == 1 && found.All()[0].Code == "sides"; noted != c.noted || found.Len() > 1 {
			t.Errorf("%s %s: noted %v, want %v: %s", c.form, c.sides, noted, c.noted, c.reason)
		}
	}
}

// TestSidesOfSamples: sound goods are quiet, and most of them are noted once
// their sides are mixed up.
func TestSidesOfSamples(t *testing.T) {
	files, err := filepath.Glob("../../samples/*/*.csv")
	if err != nil || len(files) < 8 {
		t.Fatalf("%d samples, %v", len(files), err)
	}
	judged, noted := 0, 0
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var found diag.List
		cat := goods.NewCatalog()
		goods.Load(cat, file, text, measure.Inches, &found)
		for _, f := range found.All() {
			if f.Code == "sides" {
				t.Errorf("%s: %s", file, f.Message)
			}
		}
		for _, p := range cat.All() {
			if p.Form != goods.Peg && p.Form != goods.Stand && p.Form != goods.Boxed {
				continue
			}
			judged++
			row := fmt.Sprintf("sku,name,form,width (mm),height (mm),depth (mm)\nA,B,%s,%s,%s,%s\n", p.Form, p.Depth.MM(), p.Height.MM(), p.Width.MM())
			var swapped diag.List
			goods.Load(goods.NewCatalog(), "g.csv", []byte(row), measure.Inches, &swapped)
			noted += swapped.Len()
		}
	}
	t.Logf("of %d sound products none is noted, of the same with width and depth swapped %d", judged, noted)
	if noted*2 < judged {
		t.Errorf("only %d of %d swapped products are noted", noted, judged)
	}
}
