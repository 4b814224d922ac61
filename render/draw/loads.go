package draw

import (
	"fmt"
	"strconv"
	"strings"

	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/plan"
)

// Loads draws what is carried together: what the loads of each face come to, and
// each load with all that is in it.
func (j *Job) Loads() []*Page {
	s := &section{job: j, name: "loads", title: j.Words.Loads, under: j.Words.LoadsUnder}
	loads := list.Loads(j.Unit, j.pick)
	f := s.flowFresh()
	for _, note := range j.liftNotes() {
		f.text(note, letter(plain), 0)
		f.skip(1 * mm)
	}
	f.skip(1 * mm)
	f.heading(j.Words.LoadTotals, 20*mm)
	f.table(j.loadTotals(loads))
	f.skip(3 * mm)
	f.heading(j.Words.OneByOne, 20*mm)
	f.table(j.loadTable(loads))
	return s.pages
}

// liftNotes says what no load is heavier than, and where that comes from.
func (j *Job) liftNotes() []string {
	says, limit := j.Words.LiftUsual, j.Unit.Plan.Lift
	if limit < plan.DefaultLift {
		says = fmt.Sprintf(j.Words.LiftGiven, j.mass(plan.DefaultLift))
	}
	return []string{fmt.Sprintf(j.Words.LiftSays, j.mass(limit)) + " " + says, j.Words.LiftCare}
}

func (j *Job) loadTable(loads []list.Load) table {
	t := table{columns: []column{
		{tick: true, head: j.Words.Loaded}, {head: j.Words.LoadNumber, end: true}, {head: j.Words.Where},
		{head: j.Words.PiecesHead, end: true}, {head: j.Words.Weight, end: true}, {head: j.Words.LiftHead}, {head: j.Words.InsideHead, flex: 1},
	}}
	for _, load := range loads {
		lifted := j.Words.OneLifts
		if load.People > 1 {
			lifted = fmt.Sprintf(j.Words.MoreLift, load.People)
		}
		inside := make([]string, len(load.Items))
		for i, item := range load.Items {
			line := j.pick[item.Balloon-1]
			inside[i] = fmt.Sprintf("%d × (%d) %s", item.Pieces, item.Balloon, j.partName(line.Part, line.Cut))
		}
		t.records = append(t.records, record{cells: []string{"", strconv.Itoa(load.Number), j.placeName(load.Face), strconv.Itoa(load.Pieces),
			j.weight(load.Weight), lifted, strings.Join(inside, "\n")}})
	}
	return t
}

// loadTotals adds up the loads of each face, and all.
func (j *Job) loadTotals(loads []list.Load) table {
	t := table{columns: []column{
		{head: j.Words.Where}, {head: j.Words.Loads, end: true}, {head: j.Words.PiecesHead, end: true}, {head: j.Words.Weight, end: true}, {flex: 1},
	}}
	add := func(name string, loads []list.Load, bold bool) {
		pieces, weight := 0, measure.Mass(0)
		for _, l := range loads {
			pieces, weight = pieces+l.Pieces, weight+l.Weight
		}
		t.records = append(t.records, record{bold: bold, cells: []string{name, strconv.Itoa(len(loads)), strconv.Itoa(pieces), j.weight(weight), ""}})
	}
	for from := 0; from < len(loads); {
		to := from
		for to < len(loads) && loads[to].Face == loads[from].Face {
			to++
		}
		add(j.placeName(loads[from].Face), loads[from:to], false)
		from = to
	}
	add(j.Words.AllLoads, loads, true)
	return t
}

// placeName is where pieces go: a face, or the bare unit.
func (j *Job) placeName(face plan.FaceID) string {
	if face == "" {
		return j.Words.BareUnit
	}
	return j.faceName(face)
}
