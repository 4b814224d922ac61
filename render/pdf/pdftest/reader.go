package pdftest

import (
	"errors"
	"fmt"
	"strings"
)

const mmPerPoint = 25.4 / 72

// reader walks from the catalogue and collects the document.
type reader struct {
	*file
	doc   Document
	fonts map[ref]*font
	pages map[int]int // object number to place
}

func (r *reader) dict(o any) (dict, error) {
	o, err := r.get(o)
	if err != nil {
		return nil, err
	}
	d, ok := o.(dict)
	if !ok {
		return nil, fmt.Errorf("%T where a dictionary should be", o)
	}
	return d, nil
}

func (r *reader) array(o any) ([]any, error) {
	o, err := r.get(o)
	if err != nil {
		return nil, err
	}
	list, ok := o.([]any)
	if !ok {
		return nil, fmt.Errorf("%T where an array should be", o)
	}
	return list, nil
}

func (r *reader) document() error {
	r.doc.Version, _, _ = strings.Cut(string(r.data[len("%PDF-"):]), "\n")
	root, err := r.dict(r.trailer["Root"])
	if err != nil {
		return err
	}
	if err := r.about(root); err != nil {
		return err
	}
	refs, dicts, err := r.tree(root["Pages"], dict{}, 0)
	if err != nil {
		return err
	}
	r.pages = make(map[int]int)
	for i, at := range refs {
		r.pages[at.number] = i
	}
	pictures := map[int]bool{}
	for i, d := range dicts {
		page, err := r.page(d)
		if err != nil {
			return fmt.Errorf("page %d: %w", i+1, err)
		}
		for _, image := range page.Images {
			pictures[image.Object] = true
		}
		r.doc.Pages = append(r.doc.Pages, page)
	}
	r.doc.Pictures = len(pictures)
	if root["Outlines"] == nil {
		return nil
	}
	outlines, err := r.dict(root["Outlines"])
	if err != nil {
		return err
	}
	return r.outline(outlines, 0)
}

// about reads what is not on the pages.
func (r *reader) about(root dict) error {
	r.doc.Info = make(map[string]string)
	if r.trailer["Info"] != nil {
		info, err := r.dict(r.trailer["Info"])
		if err != nil {
			return err
		}
		for k, v := range info {
			s, _ := v.(text)
			r.doc.Info[string(k)] = textString(s)
		}
	}
	if id, ok := r.trailer["ID"].([]any); ok && len(id) == 2 {
		a, _ := id[0].(text)
		b, _ := id[1].(text)
		r.doc.ID = [2]string{string(a), string(b)}
	}
	lang, _ := root["Lang"].(text)
	r.doc.Language = textString(lang)
	if preferences, err := r.dict(root["ViewerPreferences"]); err == nil {
		r.doc.ShowTitle = preferences["DisplayDocTitle"] == true
	}
	o, err := r.get(root["Metadata"])
	if err != nil {
		return err
	}
	if s, ok := o.(stream); ok {
		data, err := r.unfold(s)
		if err != nil {
			return err
		}
		r.doc.Metadata = string(data)
	}
	if err := r.intent(root); err != nil {
		return err
	}
	return r.attachments(root)
}

func (r *reader) intent(root dict) error {
	if root["OutputIntents"] == nil {
		return nil
	}
	list, err := r.array(root["OutputIntents"])
	if err != nil || len(list) == 0 {
		return errors.New("no output intent")
	}
	d, err := r.dict(list[0])
	if err != nil {
		return err
	}
	o, err := r.get(d["DestOutputProfile"])
	if err != nil {
		return err
	}
	s, ok := o.(stream)
	if !ok {
		return errors.New("output intent without a profile")
	}
	profile, err := r.unfold(s)
	if err != nil {
		return err
	}
	r.doc.Intent = len(profile) > 40 && string(profile[36:40]) == "acsp" // ICC.1, 7.2.9
	return nil
}

func textString(s text) string {
	if after, ok := strings.CutPrefix(string(s), "\xfe\xff"); ok {
		return decodeUTF16(after)
	}
	return string(s)
}

// inherited are the entries a page may have from the nodes over it (7.7.3.4).
var inherited = [...]name{"MediaBox", "Resources", "Rotate"}

func (r *reader) tree(o any, over dict, depth int) (refs []ref, pages []dict, err error) {
	at, _ := o.(ref)
	d, err := r.dict(o)
	if err != nil || depth > maxDepth {
		return nil, nil, errors.Join(errors.New("page tree"), err)
	}
	full := dict{}
	for _, key := range inherited {
		if over[key] != nil {
			full[key] = over[key]
		}
	}
	for key, value := range d {
		full[key] = value
	}
	if d["Type"] == name("Page") {
		return []ref{at}, []dict{full}, nil
	}
	kids, err := r.array(d["Kids"])
	if err != nil {
		return nil, nil, err
	}
	for _, kid := range kids {
		a, b, err := r.tree(kid, full, depth+1)
		if err != nil {
			return nil, nil, err
		}
		refs, pages = append(refs, a...), append(pages, b...)
	}
	if n, _ := d["Count"].(float64); int(n) != len(pages) {
		return nil, nil, fmt.Errorf("%d pages under a node that says %v", len(pages), d["Count"])
	}
	return refs, pages, nil
}

func (r *reader) page(d dict) (Page, error) {
	box, err := r.numbers(d["MediaBox"], 4)
	if err != nil {
		return Page{}, err
	}
	if box[0] != 0 || box[1] != 0 || d["Rotate"] != nil {
		return Page{}, errors.New("page that is turned or does not begin at 0,0")
	}
	page := Page{Width: box[2] * mmPerPoint, Height: box[3] * mmPerPoint}
	if err := r.annotations(d, &page); err != nil {
		return Page{}, err
	}
	o, err := r.get(d["Contents"])
	if err != nil {
		return Page{}, err
	}
	s, ok := o.(stream)
	if !ok {
		return Page{}, errors.New("contents are not one stream")
	}
	data, err := r.unfold(s)
	if err != nil {
		return Page{}, err
	}
	resources, err := r.dict(d["Resources"])
	if err != nil {
		return Page{}, err
	}
	c := &canvas{reader: r, page: &page, resources: resources, state: start}
	err = c.run(data)
	return page, err
}

func (r *reader) numbers(o any, count int) ([]float64, error) {
	list, err := r.array(o)
	if err != nil {
		return nil, err
	}
	out := make([]float64, len(list))
	for i, v := range list {
		n, ok := v.(float64)
		if !ok {
			return nil, errors.New("no number")
		}
		out[i] = n
	}
	if len(out) != count {
		return nil, fmt.Errorf("%d numbers, not %d", len(out), count)
	}
	return out, nil
}

func (r *reader) annotations(d dict, page *Page) error {
	if d["Annots"] == nil {
		return nil
	}
	list, err := r.array(d["Annots"])
	if err != nil {
		return err
	}
	for _, o := range list {
		a, err := r.dict(o)
		if err != nil {
			return err
		}
		if a["Subtype"] != name("Link") {
			return fmt.Errorf("annotation %v", a["Subtype"])
		}
		rect, err := r.numbers(a["Rect"], 4)
		if err != nil {
			return err
		}
		target, err := r.target(a["Dest"])
		if err != nil {
			return err
		}
		flags, _ := a["F"].(float64)
		page.Links = append(page.Links, Link{Box: page.box(rect), Page: target, Print: int(flags)&4 != 0})
	}
	return nil
}

// box turns two corners in points into an upright box from the top left.
func (p Page) box(c []float64) Box {
	return Box{
		Point{min(c[0], c[2]) * mmPerPoint, p.Height - max(c[1], c[3])*mmPerPoint},
		Point{max(c[0], c[2]) * mmPerPoint, p.Height - min(c[1], c[3])*mmPerPoint},
	}
}

// target returns the page an explicit destination (12.3.2.2) goes to.
func (r *reader) target(o any) (int, error) {
	list, err := r.array(o)
	if err != nil || len(list) < 2 {
		return 0, errors.Join(errors.New("destination"), err)
	}
	at, _ := list[0].(ref)
	page, ok := r.pages[at.number]
	if !ok {
		return 0, fmt.Errorf("destination %v is no page", list[0])
	}
	return page, nil
}

// outline checks the chain of siblings both ways as it goes.
func (r *reader) outline(parent dict, depth int) error {
	if depth > maxDepth {
		return errors.New("outlines too deep")
	}
	var before any
	next := parent["First"]
	for next != nil {
		if len(r.doc.Outlines) > len(r.places) {
			return errors.New("outlines without an end")
		}
		d, err := r.dict(next)
		if err != nil {
			return err
		}
		if d["Prev"] != before {
			return fmt.Errorf("bookmark whose /Prev is %v, not %v", d["Prev"], before)
		}
		page, err := r.target(d["Dest"])
		if err != nil {
			return err
		}
		title, _ := d["Title"].(text)
		count, _ := d["Count"].(float64)
		r.doc.Outlines = append(r.doc.Outlines, Bookmark{textString(title), depth, page, int(count)})
		if err := r.outline(d, depth+1); err != nil {
			return err
		}
		before, next = next, d["Next"]
	}
	if parent["Last"] != before {
		return fmt.Errorf("last bookmark is %v, not %v", parent["Last"], before)
	}
	return nil
}
