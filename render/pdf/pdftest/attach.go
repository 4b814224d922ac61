package pdftest

import (
	"crypto/md5"
	"errors"
	"fmt"
)

// File is a file attached to the document.
type File struct {
	Name         string // the one readers list it by, and both of its specification's
	Type         string // media type
	Relationship string // to the document
	Description  string
	Modified     string // as written
	Data         []byte
}

// attachments reads the files by the tree of their names (7.7.4), which is
// one node here. Names must be in order, size and checksum right, and the
// catalogue must associate just these files with the document.
func (r *reader) attachments(root dict) error {
	if root["Names"] == nil && root["AF"] == nil {
		return nil
	}
	names, err := r.dict(root["Names"])
	if err != nil {
		return err
	}
	tree, err := r.dict(names["EmbeddedFiles"])
	if err != nil {
		return err
	}
	pairs, err := r.array(tree["Names"])
	if err != nil || len(pairs)%2 != 0 {
		return errors.Join(errors.New("names of attached files"), err)
	}
	listed := map[ref]File{}
	last := text("")
	for i := 0; i < len(pairs); i += 2 {
		key, _ := pairs[i].(text)
		if key <= last {
			return fmt.Errorf("attached file %q is out of order", textString(key))
		}
		last = key
		at, _ := pairs[i+1].(ref)
		if listed[at], err = r.attached(at, textString(key)); err != nil {
			return fmt.Errorf("attached file %q: %w", textString(key), err)
		}
	}
	associated, err := r.array(root["AF"])
	if err != nil || len(associated) != len(listed) {
		return errors.Join(fmt.Errorf("%d files associated, %d listed", len(associated), len(listed)), err)
	}
	for _, o := range associated {
		at, _ := o.(ref)
		file, ok := listed[at]
		if !ok {
			return fmt.Errorf("%v is associated and not listed, or twice", o)
		}
		delete(listed, at)
		r.doc.Files = append(r.doc.Files, file)
	}
	return nil
}

func (r *reader) attached(o any, key string) (File, error) {
	spec, err := r.dict(o)
	if err != nil {
		return File{}, err
	}
	older, _ := spec["F"].(text)
	newer, _ := spec["UF"].(text)
	if textString(older) != key || textString(newer) != key || spec["Type"] != name("Filespec") {
		return File{}, fmt.Errorf("is named %q and %q", textString(older), textString(newer))
	}
	held, err := r.dict(spec["EF"])
	if err != nil {
		return File{}, err
	}
	at, _ := held["F"].(ref)
	if again, _ := held["UF"].(ref); again != at {
		return File{}, errors.New("is two")
	}
	embedded, err := r.get(at)
	if err != nil {
		return File{}, err
	}
	s, ok := embedded.(stream)
	if !ok || s.dict["Type"] != name("EmbeddedFile") {
		return File{}, errors.New("is no file")
	}
	data, err := r.unfold(s)
	if err != nil {
		return File{}, err
	}
	params, err := r.dict(s.dict["Params"])
	if err != nil {
		return File{}, err
	}
	sum := md5.Sum(data)
	if size, _ := params["Size"].(float64); int(size) != len(data) || params["CheckSum"] != text(sum[:]) {
		return File{}, fmt.Errorf("%d bytes, said to be %v with checksum %x", len(data), params["Size"], params["CheckSum"])
	}
	kind, _ := s.dict["Subtype"].(name)
	relationship, _ := spec["AFRelationship"].(name)
	description, _ := spec["Desc"].(text)
	modified, _ := params["ModDate"].(text)
	return File{key, string(kind), string(relationship), textString(description), string(modified), data}, nil
}
