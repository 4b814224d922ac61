package pack

import (
	"setwright/layout/measure"
	"setwright/layout/picture"
	"setwright/render/sheet"
)

// dotsPerInch is how fine pictures are printed.
const dotsPerInch = 200

// print is a picture as the pack needs it: once, for the largest box that shows
// it.
type print struct {
	width, height measure.Length
	data          []byte
}

// develop gives every picture on the sheets its data, the same wherever the
// same key is shown.
func develop(sheets []*sheet.Sheet, images func(path string) *picture.Picture) {
	prints := map[string]*print{}
	forPictures(sheets, func(i *sheet.Image) {
		p := prints[i.Key]
		if p == nil {
			p = &print{}
			prints[i.Key] = p
		}
		p.width, p.height = max(p.width, i.Box.Max.X-i.Box.Min.X), max(p.height, i.Box.Max.Y-i.Box.Min.Y)
	})
	forPictures(sheets, func(i *sheet.Image) {
		p := prints[i.Key]
		if p.data == nil {
			p.data = images(i.Key).Fit(dots(p.width), dots(p.height))
		}
		i.Data = p.data
	})
}

func dots(l measure.Length) int { return int((l*dotsPerInch + measure.Inch - 1) / measure.Inch) }

// forPictures calls what for every picture on the sheets, which it may change.
func forPictures(sheets []*sheet.Sheet, what func(*sheet.Image)) {
	for _, s := range sheets {
		for i, item := range s.Items {
			if image, ok := item.(sheet.Image); ok {
				what(&image)
				s.Items[i] = image
			}
		}
	}
}
