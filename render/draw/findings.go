package draw

import (
	"fmt"
	"strconv"
	"strings"

	"setwright/layout/check"
	"setwright/layout/diag"
)

// FindingsList draws what the checks found, by level and numbered; what the
// plan waives; and what was checked.
func (j *Job) FindingsList() []*Page {
	s := &section{job: j, name: "findings", title: j.Words.Findings, under: j.Words.FindingsUnder}
	f := s.flowFresh()
	if len(j.Findings) == 0 {
		f.text(j.Words.NoFindings, letter(plain), 0)
	} else {
		f.table(j.findingsTable())
	}
	if len(j.Report.Waived) > 0 {
		f.skip(3 * mm)
		f.heading(j.Words.Waived, 12*mm)
		f.table(j.waivedTable())
	}
	f.skip(3 * mm)
	f.heading(j.Words.Checked, 12*mm)
	for _, what := range j.Words.CheckedList {
		f.item("•", what, letter(fine), bulletIndent)
	}
	f.table(j.checkedTable())
	f.skip(2 * mm)
	f.text(j.Words.DeferLine, letter(plain), 0)
	return s.pages
}

// findingsTable lists the findings under the names of their levels.
func (j *Job) findingsTable() table {
	t := table{columns: []column{
		{flag: true}, {head: j.Words.Finding, flex: 5}, {head: j.Words.Where, flex: 2}, {head: j.Words.Source, flex: 3, small: true},
	}}
	for i, find := range j.Findings {
		if i == 0 || find.Level != j.Findings[i-1].Level {
			t.records = append(t.records, record{group: fmt.Sprintf(j.levelGroup(find.Level), j.countLevel(find.Level))})
		}
		t.records = append(t.records, record{cells: []string{itoa(i + 1), j.findingText(find), findingPlace(find), sourceText(find)}})
	}
	return t
}

// sourceText is where a finding's rule comes from, and the rule's id, by which
// a plan waives it. What all of them defer to stands once, under the tables.
func sourceText(f diag.Finding) string {
	source := strings.TrimSuffix(f.Source, "; "+check.Deference)
	return strings.TrimPrefix(source+"\n"+f.Code, "\n")
}

func (j *Job) countLevel(l diag.Level) int {
	n := 0
	for _, f := range j.Findings {
		if f.Level == l {
			n++
		}
	}
	return n
}

func (j *Job) levelGroup(l diag.Level) string {
	switch l {
	case diag.Note:
		return j.Words.NoteGroup
	case diag.Caution:
		return j.Words.CautionGroup
	}
	return j.Words.StopGroup
}

// checkedTable lists every rule: what it asks, whose it is, and how often it
// has found something.
func (j *Job) checkedTable() table {
	t := table{height: fine, space: tightSpace, columns: []column{{head: j.Words.Rule, flex: 3}, {head: j.Words.Source, flex: 4}, {head: j.Words.FoundHead, end: true}}}
	for _, r := range check.Rules() {
		found := j.foundText(r.ID)
		t.records = append(t.records, record{cells: []string{j.Words.RuleTitle(r.ID, r.Title), r.Source, found}})
	}
	return t
}

// foundText is the numbers of a rule's findings, or that the plan waives it.
func (j *Job) foundText(rule string) string {
	for _, w := range j.Report.Waived {
		if w.Rule == rule {
			return j.Words.WaivedMark
		}
	}
	var list []string
	for i, f := range j.Findings {
		if f.Code == rule {
			list = append(list, itoa(i+1))
		}
	}
	if len(list) == 0 {
		return dash
	}
	return strings.Join(list, ", ")
}

// ruleTitle is a rule's title and its id.
func (j *Job) ruleTitle(id string) string {
	for _, r := range check.Rules() {
		if r.ID == id {
			return j.Words.RuleTitle(id, r.Title) + "\n" + id
		}
	}
	return id
}

// waivedTable lists the rules the plan has switched off, and why.
func (j *Job) waivedTable() table {
	t := table{columns: []column{{head: j.Words.Rule, flex: 1}, {head: j.Words.WaivedBecause, flex: 3}}}
	for _, w := range j.Report.Waived {
		t.records = append(t.records, record{cells: []string{j.ruleTitle(w.Rule), w.Because}})
	}
	return t
}

// findingText is the sentence, what would have been right, and the fix.
func (j *Job) findingText(f diag.Finding) string {
	text := sentence(f.Message)
	if f.Expected != "" {
		text += "\n" + j.Words.Expected + ": " + f.Expected
	}
	if f.Fix != "" {
		text += "\n" + j.Words.Fix + ": " + strings.TrimSuffix(f.Fix, ".") + "."
	}
	return text
}

// sentence gives a message its capital and full stop.
func sentence(s string) string {
	if s == "" {
		return s
	}
	for i := range s {
		if i > 0 {
			return strings.ToUpper(s[:i]) + s[i:] + "."
		}
	}
	return strings.ToUpper(s) + "."
}

func findingPlace(f diag.Finding) string {
	var where []string
	if len(f.Where) > 0 {
		where = append(where, addresses(f.Where))
	}
	if at := f.At.String(); at != "" {
		where = append(where, at)
	}
	return strings.Join(where, "\n")
}

func (j *Job) levelName(l diag.Level) string {
	switch l {
	case diag.Note:
		return j.Words.LevelNote
	case diag.Caution:
		return j.Words.LevelCaution
	}
	return j.Words.LevelStop
}

// addresses lists addresses in short: F-8-1–6, F-9-1.
func addresses(list []string) string {
	var texts []string
	for i := 0; i < len(list); {
		last := i
		row, first := place(list[i])
		for last+1 < len(list) {
			if r, n := place(list[last+1]); r != row || first == 0 || n != first+last+1-i {
				break
			}
			last++
		}
		text := list[i]
		switch {
		case last == i+1:
			last = i
		case last > i:
			_, n := place(list[last])
			text += "–" + itoa(n)
		}
		texts = append(texts, text)
		i = last + 1
	}
	return strings.Join(texts, ", ")
}

// place is the row of a position's address and its place in it; 0 if the
// address is not a position's.
func place(address string) (row string, n int) {
	at := strings.LastIndexByte(address, '-')
	if strings.Count(address, "-") < 2 {
		return address, 0
	}
	return address[:at], atoi(address[at+1:])
}

func itoa(n int) string { return strconv.Itoa(n) }

func atoi(s string) int {
	n, _ := strconv.Atoi(s)
	return n
}
