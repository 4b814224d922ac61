package kit

import (
	"setwright/layout/buy"
	"setwright/layout/diag"
	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/parts"
)

// Option is one plan in figures, to be set beside others.
type Option struct {
	Season
	list.Summary

	AllKinds, AllPieces int // of all that is pulled: frame, stand, panels and fixings too

	// Purchase is what to buy for this plan alone, from what is on hand; its Worth
	// is the value of all the parts.
	Purchase buy.Purchase

	Bare, Full measure.Mass
	Shelf      measure.Length // shelves and slopes, end to end
	Rail       measure.Length // hang rails, between their arms, end to end
	Hooks      int
	Setup      int // seconds for one person, an estimate: list.Seconds of every piece

	Found [diag.Error + 1]int // findings by level
}

// Options works out each plan's figures by itself: no option uses what another
// buys. The findings are those of Make about plans that disagree.
func Options(seasons []Season, hand []parts.OnHand, findings [][]diag.Finding) ([]Option, []diag.Finding) {
	options := make([]Option, len(seasons))
	for i, s := range seasons {
		o := Option{Season: s, Summary: list.Summarize(s.Unit)}
		o.Purchase, _ = newBuyer(lines(seasons[i:i+1], hand), s.Unit.Parts, s.Unit.Plan.Measure, hand).all()
		o.Bare = o.Structure + o.Hardware
		o.Full = o.Bare + o.Goods
		o.measure()
		for _, f := range findings[i] {
			o.Found[f.Level]++
		}
		options[i] = o
	}
	return options, agree(seasons)
}

// measure counts and adds up the hardware.
func (o *Option) measure() {
	for _, l := range list.Pick(o.Unit) {
		o.AllKinds++
		o.AllPieces += l.Quantity
		o.Setup += l.Quantity * list.Seconds(l.Part)
		switch n := measure.Length(l.Quantity); l.Part.Kind {
		case parts.Shelf, parts.Slope:
			o.Shelf += n * l.Part.Width
		case parts.Rail:
			o.Rail += n * l.Part.Usable
		case parts.Hook:
			o.Hooks += l.Quantity
		}
	}
}
