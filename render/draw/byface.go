package draw

import (
	"fmt"
	"strconv"
	"strings"

	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/plan"
)

// PickByFace draws the pick list once more, by face and by who builds it: what
// two people put up together, then a sheet for each of them. A unit with one
// dressed face is not shared out.
func (j *Job) PickByFace() []*Page {
	split := list.Divide(j.pick)
	if len(split.Each[1].Faces) == 0 {
		return nil
	}
	s := &section{job: j, name: "pick-by-face", title: j.Words.PickByFace, under: j.Words.ByFaceUnder}
	f := s.flowFresh()
	f.heading(j.Words.TwoAtOnce, 20*mm)
	f.table(j.splitTable(split))
	f.skip(2 * mm)
	for _, note := range []string{j.Words.SplitNote, j.Words.MinutesNote, j.Words.SamePacksNote} {
		f.text(note, letter(plain), 0)
		f.skip(1 * mm)
	}
	f.skip(2 * mm)
	for i, share := range []list.Share{split.Together, split.Each[0], split.Each[1]} {
		if i > 0 {
			f.turn()
		}
		f.heading(j.who(i), 20*mm)
		f.table(j.shareTable(share))
	}
	return s.pages
}

// who names the shares of a split: together, then either person.
func (j *Job) who(i int) string {
	return []string{j.Words.TogetherFirst, j.Words.PersonA, j.Words.PersonB}[i]
}

func (j *Job) splitTable(split list.Split) table {
	t := table{columns: []column{
		{head: j.Words.WhoHead}, {head: j.Words.FacesHead, flex: 1}, {head: j.Words.PiecesHead, end: true},
		{head: j.Words.Weight, end: true}, {head: j.Words.MinutesHead, end: true},
	}}
	for i, share := range []list.Share{split.Together, split.Each[0], split.Each[1]} {
		var faces []string
		for _, face := range share.Faces {
			faces = append(faces, j.placeName(face))
		}
		t.records = append(t.records, record{cells: []string{j.who(i), strings.Join(faces, ", "), strconv.Itoa(share.Pieces), j.mass(share.Weight), strconv.Itoa(minutes(share.Seconds))}})
	}
	return t
}

// minutes is seconds to the nearest minute, at least one.
func minutes(seconds int) int { return max((seconds+30)/60, 1) }

// shareTable lists the parts of a share, face by face.
func (j *Job) shareTable(share list.Share) table {
	t := table{columns: []column{
		{tick: true, head: j.Words.Pulled}, {tick: true, head: j.Words.Installed}, {head: j.Words.Item, end: true}, {head: j.Words.Part, flex: 4},
		{head: j.Words.Quantity, end: true}, {head: j.Words.Weight, end: true}, {head: j.Words.Where, flex: 2}, {head: j.Words.SamePacks, flex: 1},
	}}
	for _, face := range share.Faces {
		all := list.ShareOf(j.pick, face)
		t.records = append(t.records, record{group: fmt.Sprintf(j.Words.FaceSays, j.placeName(face), all.Pieces, j.mass(all.Weight), minutes(all.Seconds))})
		for _, line := range j.pick {
			if p := line.For(face); p.Pieces > 0 {
				t.records = append(t.records, record{cells: []string{"", "", strconv.Itoa(line.Balloon), j.partName(line.Part, line.Cut), strconv.Itoa(p.Pieces),
					j.weight(measure.Mass(p.Pieces) * line.Each()), strings.Join(p.Rows, ", "), j.letters(line.SharesPacks(face))}})
			}
		}
	}
	return t
}

// letters names faces by the letters of their addresses.
func (j *Job) letters(faces []plan.FaceID) string {
	names := make([]string, len(faces))
	for i, face := range faces {
		if names[i] = j.Words.BareUnit; face != "" {
			names[i] = face.Letter()
		}
	}
	return strings.Join(names, ", ")
}
