// Package cutfile reads plain lists of what to cut: for the saw alone, without a
// plan. A YAML file holds all of it; a CSV file holds the pieces, and stock and
// saw are told beside it.
package cutfile

import (
	"fmt"
	"strconv"
	"strings"

	"setwright/layout/decode"
	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/saw"
)

// Version is the version of the format this program reads.
const Version = 1

// Most pieces and sizes of stock that a file may list.
const (
	maxLines = 10_000
	maxCount = 100_000
	maxSizes = 200
)

// File is a list of what to cut, and how its sheets are to look.
type File struct {
	Head *plan.Plan // title, by, paper, language, measure and currency; nothing else is set
	Job  saw.Job
}

// Size is a size of stock as a list names it. Without Held any number can be had;
// with it there are so many, and more only if there is a price.
type Size struct {
	Length, Width measure.Length
	Price         measure.Money
	Priced        bool
	Held          int // -1 if it is not said
	At            diag.Span
}

// builder gathers a list.
type builder struct {
	file  *File
	found *diag.List
	ok    bool
	units units
	marks map[string]int // the index of each mark's piece
}

func newBuilder(name string, found *diag.List) *builder {
	return &builder{
		file: &File{Head: &plan.Plan{File: name, Paper: "letter", Language: "en"}, Job: saw.Job{Stock: &parts.Stock{ID: "stock", At: diag.Span{File: name}}}},
		ok:   true, found: found, marks: map[string]int{},
	}
}

func (b *builder) fail(at diag.Span, code, message, expected, fix string) {
	b.ok = false
	b.found.Add(diag.Finding{Level: diag.Error, Code: code, At: at, Message: message, Expected: expected, Fix: fix})
}

// size adds a size of stock: what is on hand of it, and what can be bought.
func (b *builder) size(z Size) {
	job := &b.file.Job
	if len(job.Stock.Sizes)+len(job.OnHand) > 0 && (z.Width > 0) != job.Sheet() {
		b.fail(z.At, "bad-stock", "bars and sheets are listed together", "one of the two: give all sizes a width, or none", "put the others into a list of their own")
		return
	}
	if z.Held > 0 {
		job.OnHand = append(job.OnHand, parts.OnHand{Stock: job.Stock, Length: z.Length, Width: z.Width, Count: z.Held, At: z.At})
	}
	if z.Held >= 0 && !z.Priced {
		return
	}
	for _, o := range job.Stock.Sizes {
		if o.Length == z.Length && o.Width == z.Width {
			b.fail(z.At, "duplicate-size", "this size of stock is listed twice", "each size once", "delete one of them")
			return
		}
	}
	size := parts.StockSize{Length: z.Length, Width: z.Width}
	if z.Priced {
		size.Buy.Packs = []parts.Pack{{Pieces: 1, Price: z.Price}}
	}
	job.Stock.Sizes = append(job.Stock.Sizes, size)
}

// piece adds a piece. A mark that is there already counts for the same piece if
// the size is the same too; if it is not, nobody could tell the two apart.
func (b *builder) piece(p saw.Piece) {
	job := &b.file.Job
	if p.Mark == "" {
		p.Mark = strconv.Itoa(len(job.Pieces) + 1)
	}
	at, there := b.marks[p.Mark]
	if !there {
		b.marks[p.Mark] = len(job.Pieces)
		job.Pieces = append(job.Pieces, p)
		return
	}
	old := &job.Pieces[at]
	here := []diag.Related{{At: old.At, Message: "it is here already"}}
	if old.Length != p.Length || old.Width != p.Width || old.Turn != p.Turn {
		b.ok = false
		b.found.Add(diag.Finding{Level: diag.Error, Code: "duplicate-mark", At: p.At, Message: fmt.Sprintf("two different pieces have the mark %q", p.Mark),
			Expected: "a mark of its own for each size", Fix: "change one of the two", Notes: here})
		return
	}
	old.Count += p.Count
	b.found.Add(diag.Finding{Level: diag.Note, Code: "duplicate-mark", At: p.At,
		Message: fmt.Sprintf("the mark %q is listed twice in one size: the two are added up to %d", p.Mark, old.Count), Notes: here})
}

// done says what the list lacks, and gives it if it is whole.
func (b *builder) done() *File {
	job := &b.file.Job
	at := diag.Span{File: b.file.Head.File}
	if b.ok && len(job.Stock.Sizes)+len(job.OnHand) == 0 {
		b.fail(at, "no-stock", "there is no stock to cut from", "at least one size of bar or sheet", "")
	}
	if b.ok && len(job.Pieces) == 0 {
		b.fail(at, "no-pieces", "there are no pieces to cut", "at least one, with its length", "")
	}
	for _, z := range job.Stock.Sizes {
		b.trimmed(z.Length, z.Width)
	}
	for _, h := range job.OnHand {
		b.trimmed(h.Length, h.Width)
	}
	b.units.note(b.found)
	if job.Stock.Name == "" {
		job.Stock.Name = b.file.Head.Title
	}
	if !b.ok {
		return nil
	}
	return b.file
}

// trimmed wants something left of a size once it is trimmed.
func (b *builder) trimmed(length, width measure.Length) {
	stock := b.file.Job.Stock
	least := length
	if width > 0 {
		least = min(length, width)
	}
	if b.ok && (2*stock.Trim >= least || stock.Kerf >= least) {
		b.fail(stock.At, "bad-length", fmt.Sprintf("trim and kerf leave nothing of %s", length.Text(b.file.Head.Measure)), "a trim of less than half the stock", "")
	}
}

// units notices where a list writes some lengths in inches and others in
// millimetres: both are exact, but it may not be meant.
type units struct {
	first, other diag.Span
	metric       bool // what first is in
}

// see looks at how a length is written.
func (u *units) see(v *decode.Value) {
	if v == nil || v.IsMap() || v.IsList() || u.other != (diag.Span{}) {
		return
	}
	text, _ := v.Text()
	text = strings.ToLower(text)
	metric := strings.HasSuffix(text, "m") || strings.Contains(text, "metre") || strings.Contains(text, "meter")
	switch {
	case strings.Trim(text, "0123456789.,/-+ ½¼¾⅓⅔⅛⅜⅝⅞") == "":
	case u.first == (diag.Span{}):
		u.first, u.metric = v.At, metric
	case u.metric != metric:
		u.other = v.At
	}
}

func (u *units) note(found *diag.List) {
	if u.other == (diag.Span{}) {
		return
	}
	was, is := "inches or feet", "millimetres, centimetres or metres"
	if u.metric {
		was, is = is, was
	}
	found.Add(diag.Finding{Level: diag.Note, Code: "mixed-units", At: u.other,
		Message: fmt.Sprintf("this length is in %s, another is in %s: each is taken as it is written", is, was),
		Notes:   []diag.Related{{At: u.first, Message: "the other is here"}}})
}
