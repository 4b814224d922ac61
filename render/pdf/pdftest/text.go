package pdftest

import (
	"errors"
	"fmt"
	"math"
	"strings"
)

func (c *canvas) textOp(op string) (bool, error) {
	s := &c.state
	switch op {
	case "BT":
		if s.hasTextBegun {
			return true, errors.New("text in a text")
		}
		s.hasTextBegun, s.tm, s.lineTm = true, identity, identity
		return true, nil
	case "ET":
		if !s.hasTextBegun {
			return true, errors.New("no text has begun")
		}
		s.hasTextBegun = false
		return true, nil
	case "Tf":
		return true, c.setFont()
	case "Tj":
		return true, c.showAll(c.args)
	case "TJ":
		if len(c.args) != 1 {
			return true, errors.New("wants one array")
		}
		list, err := c.array(c.args[0])
		if err != nil {
			return true, err
		}
		return true, c.showAll(list)
	}
	return c.textStateOp(op)
}

func (c *canvas) textStateOp(op string) (bool, error) {
	counts := map[string]int{"Tc": 1, "Tw": 1, "Tz": 1, "TL": 1, "Ts": 1, "Td": 2, "TD": 2, "Tm": 6, "T*": 0}
	count, ok := counts[op]
	if !ok {
		return false, nil
	}
	n, err := c.take(count)
	if err != nil {
		return true, err
	}
	s := &c.state
	switch op {
	case "Tc":
		s.charSpace = n[0]
	case "Tw":
		s.wordSpace = n[0]
	case "Tz":
		s.stretch = n[0] / 100
	case "TL":
		s.leading = n[0]
	case "Ts":
		s.rise = n[0]
	case "Tm":
		s.tm, s.lineTm = matrix(n), matrix(n)
	case "TD":
		s.leading = -n[1]
		c.newLine(n[0], n[1])
	case "Td":
		c.newLine(n[0], n[1])
	case "T*":
		c.newLine(0, -s.leading)
	}
	return true, nil
}

func (c *canvas) newLine(x, y float64) {
	c.state.lineTm = matrix{1, 0, 0, 1, x, y}.times(c.state.lineTm)
	c.state.tm = c.state.lineTm
}

func (c *canvas) setFont() error {
	if len(c.args) != 2 {
		return errors.New("wants a name and a size")
	}
	key, _ := c.args[0].(name)
	size, ok := c.args[1].(float64)
	fonts, err := c.dict(c.resources["Font"])
	if err != nil {
		return err
	}
	at, isRef := fonts[key].(ref)
	if !ok || !isRef {
		return fmt.Errorf("no font %s", key)
	}
	c.state.size = size
	c.state.font, err = c.font(at)
	return err
}

// showAll shows strings and moves by the numbers between them (9.4.3); what
// it shows counts as one text.
func (c *canvas) showAll(list []any) error {
	s := &c.state
	if !s.hasTextBegun || s.font == nil {
		return errors.New("text outside BT and ET, or without a font")
	}
	begin := matrix{1, 0, 0, 1, 0, s.rise}.times(s.tm).times(s.ctm)
	shown, along, ink := "", 0.0, Box{}
	for _, o := range list {
		switch v := o.(type) {
		case float64:
			along -= v / 1000 * s.size * s.stretch
		case text:
			glyphs, err := s.font.decode(v)
			if err != nil {
				return err
			}
			for _, g := range glyphs {
				shown += g.unicode
				ink = c.ink(ink, matrix{s.size * s.stretch, 0, 0, s.size, along, 0}.times(begin), g.number)
				along += (g.width*s.size + s.charSpace) * s.stretch // two-byte codes take no word space
			}
		default:
			return fmt.Errorf("%T in a text", o)
		}
	}
	c.page.Texts = append(c.page.Texts, Text{
		S:      shown,
		At:     c.place(begin, 0, 0),
		Angle:  math.Atan2(begin[1], begin[0]) * 180 / math.Pi,
		Size:   s.size * math.Hypot(begin[2], begin[3]) * mmPerPoint,
		Width:  along * math.Hypot(begin[0], begin[1]) * mmPerPoint,
		Font:   s.font.name,
		Color:  s.fill,
		Order:  c.next(),
		Ink:    ink,
		Lacked: strings.Count(shown, "\uFFFD"),
	})
	s.tm = matrix{1, 0, 0, 1, along, 0}.times(s.tm)
	return nil
}

// ink widens the box by a glyph's outline under m, which turns ems into points.
func (c *canvas) ink(box Box, m matrix, number int) Box {
	if c.state.font.program == nil {
		return box
	}
	g, ok := c.state.font.program.box(number)
	if !ok {
		return box
	}
	for _, corner := range [4][2]float64{{g[0], g[1]}, {g[2], g[1]}, {g[0], g[3]}, {g[2], g[3]}} {
		at := c.place(m, corner[0], corner[1])
		if box == (Box{}) {
			box = Box{at, at}
		}
		box.Min = Point{min(box.Min.X, at.X), min(box.Min.Y, at.Y)}
		box.Max = Point{max(box.Max.X, at.X), max(box.Max.Y, at.Y)}
	}
	return box
}
