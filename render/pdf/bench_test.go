package pdf_test

import (
	"bytes"
	"fmt"
	"io"
	"testing"

	"setwright/fonts"
	"setwright/layout/measure"
	"setwright/render/pdf"
	"setwright/render/sheet"
)

const (
	um = measure.Micrometre
	mm = measure.Millimetre
)

// fullPack is a made-up pack the size of a real one: 14 sheets, about 3,000
// shapes and 1,500 strings.
func fullPack() *sheet.Pack {
	p := &sheet.Pack{
		Title: "Spring gift gondola", Author: "Store design", Subject: "Build sheets", Keywords: "Larkfield Botanic Garden",
		Language: "en", Creator: "setwright", Date: "2027-02-15",
	}
	thin := sheet.Stroke{Width: 180 * um}
	dashed := sheet.Stroke{Width: 250 * um, Dash: []measure.Length{3 * mm, 750 * um}}
	ink := sheet.Color{R: 220, G: 220, B: 220}
	for n := range 14 {
		s := &sheet.Sheet{Name: fmt.Sprintf("s%d", n+1), Title: fmt.Sprintf("Sheet %d", n+1), Width: 11 * measure.Inch, Height: 17 * measure.Inch / 2}
		for i := range measure.Length(107) {
			x, y := 10*mm+i%12*21*mm, 10*mm+i/12*20*mm
			s.Add(sheet.Path{Points: []sheet.Point{{X: x, Y: y}, {X: x + 19*mm, Y: y}, {X: x + 19*mm, Y: y + 9*mm}, {X: x, Y: y + 9*mm}}, Closed: true, Stroke: &thin, Fill: &ink})
			s.Add(sheet.Line{From: sheet.Point{X: x, Y: y + 12*mm}, To: sheet.Point{X: x + 17*mm + i*um, Y: y + 12*mm}, Stroke: dashed})
			text := sheet.Text{At: sheet.Point{X: x + 1*mm, Y: y + 5*mm}, S: fmt.Sprintf("F-%d-%d Tea tin, green %d½″", n, i, 12+i), Size: fonts.EmFor(1800 * um)}
			if i%5 == 0 {
				text.Face = fonts.Bold
				s.Add(sheet.Link{Box: sheet.TextBox(text), To: "s1"})
			}
			s.Add(text)
		}
		p.Sheets = append(p.Sheets, s)
	}
	return p
}

func BenchmarkWrite(b *testing.B) { benchmarkWrite(b, fullPack()) }

// BenchmarkWriteFiles attaches a plan and a goods file of a thousand lines.
func BenchmarkWriteFiles(b *testing.B) {
	p := fullPack()
	var goods bytes.Buffer
	for i := range 1000 {
		fmt.Fprintf(&goods, "LG-%04d,Tea tin no. %d,%d.%d,4 3/4,6,%d.99\n", i, i*7919%1000, i%9, i%10, i%40)
	}
	p.Files = []sheet.File{
		{Name: "plan.yaml", Type: "application/yaml", Relationship: "Source", Data: []byte("title: Spring gift gondola\n")},
		{Name: "goods.csv", Type: "text/csv", Relationship: "Source", Data: goods.Bytes()},
	}
	benchmarkWrite(b, p)
}

func benchmarkWrite(b *testing.B, p *sheet.Pack) {
	b.ReportAllocs()
	for b.Loop() {
		if err := pdf.Write(io.Discard, p); err != nil {
			b.Fatal(err)
		}
	}
}
