package decode

import (
	"fmt"
	"slices"

	"setwright/layout/diag"
	"setwright/layout/measure"
)

// Map is a mapping of a YAML file, or a row of a CSV file by column. It
// remembers which keys it was asked for: those are the keys that belong in it,
// and Done reports the others.
//
// The readers that take a pointer leave its value alone when the key is absent
// or its value is wrong, so that what is there beforehand is the default. A nil
// Map has no keys.
type Map struct {
	At diag.Span // where it begins

	src     *source
	entries []Entry
	index   map[string]int // of entries by key, once there are many
	asked   []string
	columns bool    // a CSV row: what it may hold was settled at the header; entries of blank cells have no Value
	extras  []Extra // of a CSV row: the cells of columns that are not known
}

// Entry is one key of a mapping and its value.
type Entry struct {
	Key   string
	At    diag.Span // of the key
	Value *Value
}

// Extra is a cell in a column that is not known, however long, and the column's
// name as it is written.
type Extra struct{ Name, Text string }

// add appends an entry, or reports that its key is there already.
func (m *Map) add(e Entry) {
	if i := m.find(e.Key); i >= 0 {
		m.src.report(diag.Finding{Level: diag.Error, Code: "duplicate-key", At: e.At,
			Message: fmt.Sprintf("%s is written twice", quote(e.Key)), Fix: "delete one of them",
			Notes: []diag.Related{{At: m.entries[i].At, Message: "it is here already"}}})
		return
	}
	m.entries = append(m.entries, e)
	if m.index != nil {
		m.index[e.Key] = len(m.entries) - 1
	}
}

// find is the index of a key's entry, or -1.
func (m *Map) find(key string) int {
	const few = 32 // up to here looking at each is quicker than hashing
	if m.columns {
		if i, ok := m.index[key]; ok && m.entries[i].Value != nil {
			return i
		}
		return -1
	}
	if len(m.entries) <= few {
		return slices.IndexFunc(m.entries, func(e Entry) bool { return e.Key == key })
	}
	if m.index == nil {
		m.index = make(map[string]int, cap(m.entries))
		for i, e := range m.entries {
			m.index[e.Key] = i
		}
	}
	if i, ok := m.index[key]; ok {
		return i
	}
	return -1
}

// Entries is every key with its value, in the order of the file: for mappings
// whose keys are names of the author's choosing.
func (m *Map) Entries() []Entry {
	if m == nil {
		return nil
	}
	return m.entries
}

// Extras is the cells of a CSV row in columns that are not known, in the order
// of the file; blank ones are left out. The slice is good until the next row.
func (m *Map) Extras() []Extra {
	if m == nil {
		return nil
	}
	return m.extras
}

// Get is a key's value, nil if the key is absent. A key with nothing after it
// is reported, and counts as absent.
func (m *Map) Get(key string) *Value {
	if m == nil {
		return nil
	}
	if !m.columns {
		m.asked = append(m.asked, key)
	}
	i := m.find(key)
	if i < 0 {
		return nil
	}
	v := m.entries[i].Value
	if !v.IsEmpty() {
		return v
	}
	m.entries[i].Value = nil // it is reported once
	m.src.fail("no-value", m.entries[i].At, fmt.Sprintf("%s has no value", quote(key)), "", "write one, or delete the key")
	return nil
}

// Has says whether a key is there with a value, and reports nothing.
func (m *Map) Has(key string) bool {
	if m == nil {
		return false
	}
	i := m.find(key)
	return i >= 0 && m.entries[i].Value != nil && !m.entries[i].Value.IsEmpty()
}

// There says whether a key is there, with a value or without, and reports
// nothing.
func (m *Map) There(key string) bool { return m != nil && m.find(key) >= 0 }

// KeyAt is the place of a key, or of the whole mapping if it is absent.
func (m *Map) KeyAt(key string) diag.Span {
	if m == nil {
		return diag.Span{}
	}
	if i := m.find(key); i >= 0 {
		return m.entries[i].At
	}
	return m.At
}

// Need is a key's value; that it is absent is reported.
func (m *Map) Need(key string) *Value {
	v := m.Get(key)
	if m != nil && v == nil && m.find(key) < 0 {
		m.Fail("missing-key", fmt.Sprintf("%s is missing here", quote(key)), "", "")
	}
	return v
}

// Fail reports an error at the mapping's beginning.
func (m *Map) Fail(code, message, expected, fix string) {
	if m != nil {
		m.src.fail(code, m.At, message, expected, fix)
	}
}

// Report reports a finding made elsewhere.
func (m *Map) Report(f diag.Finding) {
	if m != nil {
		m.src.report(f)
	}
}

// Done reports the keys nobody asked for. It is called last. A CSV row has none:
// its columns were looked at in the header.
func (m *Map) Done() {
	if m == nil || m.columns {
		return
	}
	for _, e := range m.entries {
		if slices.Contains(m.asked, e.Key) {
			continue
		}
		if m.src.count > maxFindings {
			return
		}
		known := slices.Compact(slices.Sorted(slices.Values(m.asked)))
		message := fmt.Sprintf("unknown key %s", quote(e.Key))
		if e.Key == "<<" {
			message = `the merge key "<<" is not understood here`
		}
		m.src.fail("unknown-key", e.At, message, oneOf(known), Suggest(e.Key, known))
	}
}

// The readers below each read the key's value into *to, as the Value method of
// that name does, and say whether they did.

// Text reads a text.
func (m *Map) Text(key string, to *string) bool { return Into(m.Get(key).Text, to) }

// Name reads a text that is not empty and stands on one line.
func (m *Map) Name(key string, to *string) bool { return Into(m.Get(key).Name, to) }

// Decimal reads the spelling of a decimal number.
func (m *Map) Decimal(key string, to *string) bool { return Into(m.Get(key).Decimal, to) }

// Money reads a sum of zero or more.
func (m *Map) Money(key string, to *measure.Money) bool { return Into(m.Get(key).Money, to) }

// Bool reads true or false.
func (m *Map) Bool(key string, to *bool) bool { return Into(m.Get(key).Bool, to) }

// Int reads a whole number from lo to hi.
func (m *Map) Int(key string, lo, hi int, to *int) bool {
	return Into(func() (int, bool) { return m.Get(key).Int(lo, hi) }, to)
}

// Length reads a length of zero or more.
func (m *Map) Length(key string, bare measure.System, to *measure.Length) bool {
	return Into(func() (measure.Length, bool) { return m.Get(key).Length(bare) }, to)
}

// Size reads a length greater than zero.
func (m *Map) Size(key string, bare measure.System, to *measure.Length) bool {
	return Into(func() (measure.Length, bool) { return m.Get(key).Size(bare) }, to)
}

// Offset reads a length that may be negative.
func (m *Map) Offset(key string, bare measure.System, to *measure.Length) bool {
	return Into(func() (measure.Length, bool) { return m.Get(key).Offset(bare) }, to)
}

// Mass reads a weight of zero or more.
func (m *Map) Mass(key string, bare measure.System, to *measure.Mass) bool {
	return Into(func() (measure.Mass, bool) { return m.Get(key).Mass(bare) }, to)
}

// Word reads one of the words into a type made of text.
func Word[T ~string](m *Map, key string, words []T, to *T) bool {
	return Into(func() (T, bool) { return oneWord(m.Get(key), words) }, to)
}

// Into reads by one of a Value's readers into *to, and says whether it did.
func Into[T any](from func() (T, bool), to *T) bool {
	v, ok := from()
	if ok {
		*to = v
	}
	return ok
}
