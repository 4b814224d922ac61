package parts

import (
	"fmt"
	"slices"

	"setwright/layout/decode"
	"setwright/layout/measure"
)

// shelf keeps things by id, in the order they were first put there.
type shelf[T any] struct {
	byID  map[string]*T
	order []string
}

func (s *shelf[T]) find(id string) (*T, bool) { x, ok := s.byID[id]; return x, ok }

func (s *shelf[T]) all() []*T {
	list := make([]*T, len(s.order))
	for i, id := range s.order {
		list[i] = s.byID[id]
	}
	return list
}

// put adds a thing, or puts it in the place of the one with its id.
func (s *shelf[T]) put(id string, x *T) {
	if _, there := s.byID[id]; !there {
		s.order = append(s.order, id)
	}
	s.byID[id] = x
}

// addMissing puts there what only the other shelf has.
func (s *shelf[T]) addMissing(from *shelf[T]) {
	for _, id := range from.order {
		if _, there := s.byID[id]; !there {
			s.put(id, from.byID[id])
		}
	}
}

func (s *shelf[T]) clone() shelf[T] {
	c := shelf[T]{byID: make(map[string]*T, len(s.byID)), order: slices.Clone(s.order)}
	for id, x := range s.byID {
		c.byID[id] = x
	}
	return c
}

// stow reads each entry of a section onto a shelf of the list; those with errors
// are left out.
func stow[T any](section *decode.Map, bare measure.System, list *List, onto *shelf[T], read func(*reader, decode.Entry) *T) {
	for _, e := range section.Entries() {
		m := e.Value.Map()
		if m == nil {
			continue
		}
		r := &reader{Map: m, bare: bare, list: list, ok: true}
		if x := read(r, e); r.ok {
			onto.put(e.Key, x)
		}
	}
}

// refer reads the id of a thing on a shelf, and says whether one is given; what
// is not there is nil, and reported with the words for it.
func refer[T any](r *reader, m *decode.Map, key string, on *shelf[T], code, unknown, expected string) (id string, x *T, given bool) {
	v := m.Get(key)
	if v == nil {
		r.want(m, key, false)
		return "", nil, false
	}
	id, ok := v.Name()
	x, found := on.find(id)
	if ok && !found {
		v.Fail(code, fmt.Sprintf("%s %q", unknown, id), expected, decode.Suggest(id, on.order))
	}
	r.ok = r.ok && ok && found
	return id, x, true
}
