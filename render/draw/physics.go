package draw

import (
	"math"
	"strconv"
	"strings"

	"setwright/layout/measure"
)

// What the checks work out comes in newtons, millimetres and kilograms; the
// sheets print it in the plan's measure. These are the exact factors of the
// international pound, the pound-force and the inch.
const (
	newtonsPerPound = 4.4482216152605
	kilosPerPound   = 0.45359237
	mmPerInch       = 25.4
)

// decimal writes a number with so many decimals, a minus as type sets it and
// the decimal sign of the sheets' language. None is a dash.
func (j *Job) decimal(v float64, places int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return dash
	}
	text := strconv.FormatFloat(v, 'f', places, 64)
	if strings.Trim(text, "-0.") == "" {
		text = strings.TrimPrefix(text, "-")
	}
	return j.Words.Decimal(grouped(strings.Replace(text, "-", "−", 1)))
}

// grouped parts the digits before the decimal point into threes if there are
// more than four (ISO 80000-1).
func grouped(text string) string {
	whole, rest, _ := strings.Cut(text, ".")
	digits := strings.TrimPrefix(whole, "−")
	if len(digits) <= 4 {
		return text
	}
	for i := len(whole) - 3; i > len(whole)-len(digits); i -= 3 {
		whole = whole[:i] + "\u00a0" + whole[i:]
	}
	if rest != "" {
		whole += "." + rest
	}
	return whole
}

const dash = "–"

func (j *Job) metric() bool { return j.system == measure.Millimetres }

// force is a force of so many newtons: in pounds or newtons.
func (j *Job) force(n float64) string {
	if j.metric() {
		return j.united(n, 10, "N")
	}
	return j.united(n/newtonsPerPound, 100, "lb")
}

// united writes a number of units, with one decimal if it is under least.
func (j *Job) united(v, least float64, unit string) string {
	places := 0
	if math.Abs(v) < least {
		places = 1
	}
	return j.decimal(v, places) + "\u00a0" + unit
}

// kilos is a mass of so many kilograms: in pounds or kilograms.
func (j *Job) kilos(kg float64) string {
	if j.metric() {
		return j.decimal(kg, 1) + "\u00a0kg"
	}
	return j.decimal(kg/kilosPerPound, 1) + "\u00a0lb"
}

// moment is so many newton millimetres: in inch-pounds or newton metres.
func (j *Job) moment(nmm float64) string {
	if j.metric() {
		return j.united(nmm/1000, 100, "N·m")
	}
	return j.united(nmm/(newtonsPerPound*mmPerInch), 100, j.Words.Inch+"·lb")
}

// rigidity is a bending stiffness of so many N·mm²: in lb·in² or N·m².
func (j *Job) rigidity(nmm2 float64) string {
	if j.metric() {
		return j.united(nmm2/1e6, 100, "N·m²")
	}
	return j.united(nmm2/(newtonsPerPound*mmPerInch*mmPerInch), 100, "lb·"+j.Words.Inch+"²")
}

// stress is so many N/mm²: a modulus of elasticity.
func (j *Job) stress(nmm2 float64) string {
	if j.metric() {
		return j.decimal(nmm2, 0) + "\u00a0N/mm²"
	}
	return j.decimal(math.Round(nmm2*mmPerInch*mmPerInch/newtonsPerPound/1000)*1000, 0) + "\u00a0lb/" + j.Words.Inch + "²"
}

// distance is a length of so many millimetres that has been worked out, not
// set: in decimals.
func (j *Job) distance(mm float64) string {
	if j.metric() {
		return j.decimal(mm, 0) + "\u00a0mm"
	}
	return j.decimal(mm/mmPerInch, 1) + "\u00a0" + j.Words.Inch
}

// bend is a small length of so many millimetres: a sag.
func (j *Job) bend(mm float64) string {
	if j.metric() {
		return j.decimal(mm, 2) + "\u00a0mm"
	}
	return j.decimal(mm/mmPerInch, 3) + "\u00a0" + j.Words.Inch
}

// share is a load in per cent of a rating, a dash where none is known.
func (j *Job) share(load, rated float64) string {
	if rated <= 0 {
		return dash
	}
	return j.decimal(100*load/rated, 0) + "\u00a0%"
}

// rating is a rated load, marked if it is assumed; a dash where none is known.
func (j *Job) rating(n float64, assumed bool) string {
	switch {
	case n <= 0:
		return dash
	case assumed:
		return j.force(n) + "*"
	}
	return j.force(n)
}

// ratio is the n of span/n: a dash for what does not sag.
func (j *Job) ratio(span, sag float64) string {
	if sag <= 0 {
		return dash
	}
	return j.decimal(min(span/sag, 99999), 0)
}

// mils is a length of so many millimetres as the page model has it.
func mils(v float64) measure.Length {
	return measure.Length(math.Round(v * float64(measure.Millimetre)))
}
