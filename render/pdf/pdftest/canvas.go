package pdftest

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
)

// matrix is PDF's [a b c d e f]: x' = ax + cy + e, y' = bx + dy + f.
type matrix [6]float64

var identity = matrix{1, 0, 0, 1, 0, 0}

// times applies m first, then n.
func (m matrix) times(n matrix) matrix {
	return matrix{
		m[0]*n[0] + m[1]*n[2], m[0]*n[1] + m[1]*n[3],
		m[2]*n[0] + m[3]*n[2], m[2]*n[1] + m[3]*n[3],
		m[4]*n[0] + m[5]*n[2] + n[4], m[4]*n[1] + m[5]*n[3] + n[5],
	}
}

func (m matrix) apply(x, y float64) (float64, float64) {
	return m[0]*x + m[2]*y + m[4], m[1]*x + m[3]*y + m[5]
}

// state is the graphics state (8.4) that matters here.
type state struct {
	ctm          matrix
	pen          Pen // width and dash before ctm, in points
	fill         Color
	font         *font
	size         float64
	charSpace    float64
	wordSpace    float64
	stretch      float64
	leading      float64
	rise         float64
	tm, lineTm   matrix
	hasTextBegun bool
}

var start = state{ctm: identity, pen: Pen{Width: 1}, stretch: 1}

// canvas carries out a page's operators.
type canvas struct {
	*reader
	page      *Page
	resources dict
	state     state
	saved     []state
	args      []any
	path      path
	order     int
	alts      []string // of the marked contents that are open
}

// path is the one being built, in points before ctm is applied: PDF applies
// it as points are given, which is the same as long as cm cannot come between.
type path struct {
	points []Point
	kinds  []byte // m, l or c for each point
	closed bool
}

func (c *canvas) run(data []byte) error {
	l := &lexer{data: data}
	for {
		o, err := l.object(0)
		if err != nil {
			return err
		}
		k, ok := o.(keyword)
		if !ok {
			c.args = append(c.args, o)
			continue
		}
		if k == "" {
			break
		}
		if err := c.operator(string(k)); err != nil {
			return fmt.Errorf("%s before byte %d: %w", k, l.at, err)
		}
		c.args = c.args[:0]
	}
	if len(c.saved) > 0 || len(c.alts) > 0 || c.state.hasTextBegun || len(c.args) > 0 || len(c.path.points) > 0 {
		return errors.New("contents end in the middle of something")
	}
	return nil
}

func (c *canvas) operator(op string) error {
	for _, table := range [...]func(string) (bool, error){c.stateOp, c.pathOp, c.textOp, c.otherOp} {
		if known, err := table(op); known || err != nil {
			return err
		}
	}
	return errors.New("unknown operator")
}

// take returns the operands, which must be count numbers.
func (c *canvas) take(count int) ([]float64, error) { return c.numbers(c.args, count) }

func (c *canvas) stateOp(op string) (bool, error) {
	counts := map[string]int{"q": 0, "Q": 0, "cm": 6, "w": 1, "J": 1, "j": 1, "M": 1, "RG": 3, "rg": 3, "G": 1, "g": 1}
	if op == "d" {
		return true, c.dash()
	}
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
	case "q":
		c.saved = append(c.saved, *s)
	case "Q":
		if len(c.saved) == 0 {
			return true, errors.New("nothing saved")
		}
		*s = c.saved[len(c.saved)-1]
		c.saved = c.saved[:len(c.saved)-1]
	case "cm":
		s.ctm = matrix(n).times(s.ctm)
	case "w":
		s.pen.Width = n[0]
	case "RG":
		s.pen.Color = Color(n)
	case "rg":
		s.fill = Color(n)
	case "G":
		s.pen.Color = Color{n[0], n[0], n[0]}
	case "g":
		s.fill = Color{n[0], n[0], n[0]}
	}
	return true, nil
}

func (c *canvas) dash() error {
	if len(c.args) != 2 {
		return errors.New("dash wants two operands")
	}
	list, ok := c.args[0].([]any)
	if !ok {
		return errors.New("dash wants an array")
	}
	dash, err := c.numbers(c.args[0], len(list))
	c.state.pen.Dash = dash
	return err
}

func (c *canvas) pathOp(op string) (bool, error) {
	counts := map[string]int{"m": 2, "l": 2, "c": 6, "re": 4}
	if count, ok := counts[op]; ok {
		if c.state.hasTextBegun {
			return true, errors.New("path in a text")
		}
		n, err := c.take(count)
		if err != nil {
			return true, err
		}
		return true, c.build(op, n)
	}
	paint, ok := map[string]struct{ close, stroke, fill bool }{
		"S": {false, true, false}, "s": {true, true, false}, "f": {false, false, true}, "f*": {false, false, true},
		"B": {false, true, true}, "B*": {false, true, true}, "b": {true, true, true}, "b*": {true, true, true},
	}[op]
	switch {
	case op == "h":
		c.path.closed = true
		return true, nil
	case !ok:
		return false, nil
	case len(c.path.points) == 0:
		return true, errors.New("no path to paint")
	}
	c.path.closed = c.path.closed || paint.close
	return true, c.paint(paint.stroke, paint.fill)
}

func (c *canvas) build(op string, n []float64) error {
	if first := len(c.path.points) == 0; first != (op == "m" || op == "re") || c.path.closed {
		return errors.New("only paths of one part are understood")
	}
	if op == "re" {
		x, y, w, h := n[0], n[1], n[2], n[3]
		n = []float64{x, y, x + w, y, x + w, y + h, x, y + h}
		c.path.closed = true
	}
	for i := 0; i < len(n); i += 2 {
		kind := byte('l')
		if op != "re" {
			kind = op[0]
		} else if i == 0 {
			kind = 'm'
		}
		c.path.points = append(c.path.points, c.place(c.state.ctm, n[i], n[i+1]))
		c.path.kinds = append(c.path.kinds, kind)
	}
	return nil
}

// place turns a point before m into millimetres from the top left.
func (c *canvas) place(m matrix, x, y float64) Point {
	x, y = m.apply(x, y)
	return Point{x * mmPerPoint, c.page.Height - y*mmPerPoint}
}

func (c *canvas) paint(stroke, fill bool) error {
	built := c.path
	c.path = path{}
	p := Path{Points: built.points, Closed: built.closed, Curved: slices.Contains(built.kinds, 'c'), Order: c.next()}
	if stroke {
		pen, err := c.pen()
		if err != nil {
			return err
		}
		p.Pen = &pen
	}
	if fill {
		ink := c.state.fill
		p.Fill = &ink
	}
	if center, radius, ok := asCircle(p, built.kinds); ok {
		c.page.Circles = append(c.page.Circles, Circle{center, radius, p.Pen, p.Fill, p.Order})
		return nil
	}
	if len(p.Points) == 2 && !p.Closed && !fill {
		c.page.Lines = append(c.page.Lines, Line{p.Points[0], p.Points[1], *p.Pen, p.Order})
		return nil
	}
	c.page.Paths = append(c.page.Paths, p)
	return nil
}

func (c *canvas) next() int {
	c.order++
	return c.order
}

// pen scales the pen to millimetres; a transform that squeezes is refused.
func (c *canvas) pen() (Pen, error) {
	m := c.state.ctm
	scale := math.Hypot(m[0], m[1])
	if math.Abs(scale-math.Hypot(m[2], m[3])) > 1e-6*scale {
		return Pen{}, errors.New("line under a transform that squeezes")
	}
	scale *= mmPerPoint
	pen := Pen{Width: c.state.pen.Width * scale, Color: c.state.pen.Color}
	for _, d := range c.state.pen.Dash {
		pen.Dash = append(pen.Dash, d*scale)
	}
	return pen, nil
}

// roundness is how far a curve's points may be from a true circle's: well
// over what rounding to a thousandth of a point makes.
const roundness = 0.003

// asCircle sees whether a path is four quarters around one centre, each with
// handles of 0.5523 of the radius.
func asCircle(p Path, kinds []byte) (center Point, radius float64, ok bool) {
	if string(kinds) != "mcccccccccccc" || !p.Closed {
		return Point{}, 0, false
	}
	a, b := p.Points[0], p.Points[6]
	center = Point{(a.X + b.X) / 2, (a.Y + b.Y) / 2}
	radius = math.Hypot(a.X-b.X, a.Y-b.Y) / 2
	const handle = 0.5522847498
	far := radius * math.Hypot(1, handle)
	for i, at := range p.Points {
		want := far
		if i%3 == 0 {
			want = radius
		}
		if math.Abs(math.Hypot(at.X-center.X, at.Y-center.Y)-want) > roundness {
			return Point{}, 0, false
		}
	}
	return center, radius, true
}

func (c *canvas) otherOp(op string) (bool, error) {
	switch op {
	case "Do":
		return true, c.picture()
	case "BDC", "BMC":
		alt := ""
		if len(c.args) == 2 {
			if d, ok := c.args[1].(dict); ok {
				s, _ := d["Alt"].(text)
				alt = textString(s)
			}
		}
		c.alts = append(c.alts, alt)
		return true, nil
	case "EMC":
		if len(c.alts) == 0 {
			return true, errors.New("no marked content is open")
		}
		c.alts = c.alts[:len(c.alts)-1]
		return true, nil
	}
	return false, nil
}

func (c *canvas) picture() error {
	if len(c.args) != 1 {
		return errors.New("wants one name")
	}
	key, _ := c.args[0].(name)
	objects, err := c.dict(c.resources["XObject"])
	if err != nil {
		return err
	}
	at, _ := objects[key].(ref)
	o, err := c.get(objects[key])
	if err != nil {
		return err
	}
	s, ok := o.(stream)
	if !ok || s.dict["Subtype"] != name("Image") {
		return fmt.Errorf("%s is no picture", key)
	}
	m := c.state.ctm
	if m[1] != 0 || m[2] != 0 {
		return errors.New("picture that is turned")
	}
	w, _ := s.dict["Width"].(float64)
	h, _ := s.dict["Height"].(float64)
	box := c.page.box([]float64{m[4], m[5], m[4] + m[0], m[5] + m[3]})
	c.page.Images = append(c.page.Images, Image{box, at.number, int(w), int(h), strings.Join(c.alts, ""), c.next()})
	return nil
}
