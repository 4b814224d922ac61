package goods_test

import (
	"fmt"
	"strings"
	"testing"

	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/measure"
)

// manyRows is a goods file of so many products, as a till's export looks.
func manyRows(rows int) []byte {
	var b strings.Builder
	b.WriteString("sku,name,family,form,width (in),height (in),depth (in),weight (lb),gtin,case,weekly,price,cost,colour,image,min,max,stack,breakable\n")
	for i := range rows {
		body := fmt.Sprintf("20%010d", i)
		fmt.Fprintf(&b, "SKU-%06d,\"Seeds, mixed %d\",Seeds %d,peg,3.25,4.5,0.%02d,0.05,%s%s,24,%d,3.95,1.55,#c8322b,,1,4,,no\n",
			i, i, i%40, 1+i%90, body, goods.CheckDigit(body), i%30)
	}
	return []byte(b.String())
}

// BenchmarkCSV reads goods files of ten and a hundred thousand lines.
func BenchmarkCSV(b *testing.B) {
	for _, rows := range []int{10_000, 100_000} {
		text := manyRows(rows)
		b.Run(fmt.Sprint(rows), func(b *testing.B) {
			b.ReportAllocs()
			b.SetBytes(int64(len(text)))
			for b.Loop() {
				var found diag.List
				cat := goods.NewCatalog()
				goods.Load(cat, "g.csv", text, measure.Inches, &found)
				if len(cat.All()) != rows || found.Len() > 0 {
					b.Fatal(len(cat.All()), found.All()[:1])
				}
			}
		})
	}
}

// BenchmarkTooManyRows refuses a goods file of a million rows.
func BenchmarkTooManyRows(b *testing.B) {
	text := []byte("sku,name,form,width,height,depth\n" + strings.Repeat("SKU-1,Seeds,peg,3,4,0.1\n", 1_000_000))
	b.ReportAllocs()
	for b.Loop() {
		var found diag.List
		goods.Load(goods.NewCatalog(), "g.csv", text, measure.Inches, &found)
		if found.Len() != 1 || found.All()[0].Code != "too-large" {
			b.Fatal(found.All())
		}
	}
}
