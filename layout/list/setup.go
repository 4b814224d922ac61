package list

import "setwright/layout/parts"

// Seconds is how long it takes one of a crew to put up one piece of a part,
// once it lies at hand: what the parts list says, or what is usual for its kind.
// A stand counts as one set. The figures by kind are a house rule, rounded
// estimates for people who have done it before (common practice; no published
// source). They share out work and compare plans; they promise no finishing time.
func Seconds(p *parts.Part) int {
	if p.Setup > 0 {
		return p.Setup
	}
	switch p.Kind {
	case parts.Frame:
		return 20 * 60
	case parts.Stand:
		return 8 * 60
	case parts.Panel:
		return 3 * 60
	case parts.Shelf, parts.Slope:
		return 45
	case parts.Rail, parts.Basket, parts.Bar, parts.Strip:
		return 30
	case parts.Bracket, parts.FaceOut, parts.Shoe, parts.Sign:
		return 20
	case parts.Fixing:
		return 15
	}
	return 10 // a hook
}
