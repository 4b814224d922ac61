package sheet

// Clash is one fault of a sheet: two texts that overlap, or an item that is
// not wholly on the page.
type Clash struct {
	A, B int // places in Items; B is -1 when item A leaves the page
}

// Clashes lists every pair of overlapping texts and every item that leaves
// the page, in the order of the items. A clean sheet has none.
func Clashes(s *Sheet) []Clash {
	var found []Clash
	page := Rect{Max: Point{s.Width, s.Height}}
	boxes := textBoxes(s)
	for i, item := range s.Items {
		if !page.Holds(Bounds(item)) {
			found = append(found, Clash{i, -1})
		}
		if boxes[i].empty() {
			continue
		}
		for j := i + 1; j < len(boxes); j++ {
			if boxes[i].Overlaps(boxes[j]) {
				found = append(found, Clash{i, j})
			}
		}
	}
	return found
}

// textBoxes holds the box of each text at its item's place; other items have
// an empty box, which overlaps nothing.
func textBoxes(s *Sheet) []Rect {
	boxes := make([]Rect, len(s.Items))
	for i, item := range s.Items {
		if t, ok := item.(Text); ok {
			boxes[i] = TextBox(t)
		}
	}
	return boxes
}
