package cutfile

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"setwright/layout/decode"
	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/parts"
)

// CSV reads the pieces of a list, a line a piece:
//
//	mark,length,width,count,turn
//	A,31 1/2,,4,
//
// Only length is needed. Stock and saw are given beside it: their kerf, trim,
// keep and grain, and sizes. It returns nil if anything is wrong.
func CSV(name string, text []byte, bare measure.System, stock parts.Stock, sizes []Size, found *diag.List) *File {
	before := found.Count(diag.Error)
	b := newBuilder(name, found)
	b.file.Head.Measure, b.file.Head.Title = bare, name
	if bare == measure.Millimetres {
		b.file.Head.Paper = "a4"
	}
	stock.ID, stock.At = b.file.Job.Stock.ID, b.file.Job.Stock.At
	b.file.Job.Stock = &stock
	for _, z := range sizes {
		z.At = stock.At
		b.size(z)
	}
	lines := 0
	decode.CSV(name, text, decode.Columns{
		Needed:   []string{"length"},
		Optional: []string{"mark", "name", "width", "count", "turn"},
		Lengths:  []string{"length", "width"},
	}, found, func(m *decode.Map) {
		if lines++; lines <= maxLines {
			b.read(m, m.At)
		}
	})
	if lines > maxLines {
		b.fail(stock.At, "too-many", fmt.Sprintf("%d lines of pieces", lines), fmt.Sprintf("at most %d", maxLines), "")
	}
	b.ok = b.ok && found.Count(diag.Error) == before
	return b.done()
}

// ParseSize reads a size of stock from one word: LENGTH, LENGTHxWIDTH, with
// @PRICE and *COUNT behind it where they are known: 96x48@42.50*3.
func ParseSize(word string, bare measure.System) (Size, error) {
	z := Size{Held: -1}
	rest, count, counted := strings.Cut(word, "*")
	rest, price, priced := strings.Cut(rest, "@")
	length, width, sheet := strings.Cut(rest, "x")
	var err error
	if z.Length, err = parseSide(length, bare); err == nil && sheet {
		z.Width, err = parseSide(width, bare)
	}
	if err == nil && priced {
		z.Price, z.Priced = measure.ParseMoney(strings.TrimSpace(price))
		if !z.Priced {
			err = fmt.Errorf("%q is not a price, such as 3.50", price)
		}
	}
	if err == nil && counted {
		if z.Held, err = strconv.Atoi(strings.TrimSpace(count)); err != nil || z.Held < 0 || z.Held > maxCount {
			err = fmt.Errorf("%q is not a whole number from 0 to %d", count, maxCount)
		}
	}
	return z, err
}

func parseSide(word string, bare measure.System) (measure.Length, error) {
	l, err := measure.ParseLength(word, bare)
	if err == nil && l == 0 {
		err = errors.New("a length of stock is greater than zero")
	}
	return l, err
}
