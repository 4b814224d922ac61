package decode

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"sort"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"

	"setwright/layout/diag"
)

// Limits on a YAML file. A full plan has a few hundred lines; these leave room
// for the largest honest one and keep a hostile one to some tens of megabytes.
const (
	maxYAML  = 4 << 20 // bytes
	maxMarks = 400_000 // line ends, commas, colons and the like: each may begin a node
	maxDepth = 64      // mappings and lists inside one another
)

// YAML reads a file that is one mapping. It returns nil, with the reasons
// reported, when the file is not YAML or uses what plans do without: anchors,
// aliases, tags, several documents.
func YAML(file string, text []byte, into *diag.List) *Map {
	src := &source{file: file, into: into}
	whole := diag.Span{File: file}
	if len(text) > maxYAML {
		src.fail("too-large", whole, fmt.Sprintf("this file is larger than %d MB", maxYAML>>20), "", "")
		return nil
	}
	text, ok := src.plainText(text)
	if !ok {
		return nil
	}
	if marks(text) > maxMarks {
		src.fail("too-large", whole, "this file holds too many values", fmt.Sprintf("at most %d", maxMarks), "")
		return nil
	}
	src.lines = 1 + bytes.Count(text, []byte("\n")) + bytes.Count(text, []byte("\r"))
	root, ok := src.parse(text)
	if !ok || !src.plainNodes(root, 0) {
		return nil
	}
	v := src.value(root)
	return v.Map()
}

// marks counts the characters that may begin a node, to bound the memory a
// file takes before it is parsed.
func marks(text []byte) int {
	n := 0
	for _, c := range text {
		switch c {
		case '\n', '\r', ',', ':', '-', '?', '[', '{':
			n++
		}
	}
	return n
}

// parse is the root node of the only document in a file.
func (s *source) parse(text []byte) (*yaml.Node, bool) {
	dec := yaml.NewDecoder(bytes.NewReader(text))
	var doc, second yaml.Node
	err := dec.Decode(&doc)
	if errors.Is(err, io.EOF) || err == nil && doc.Content[0].Tag == "!!null" {
		s.fail("empty-file", diag.Span{File: s.file, Line: 1, Col: 1}, "this file is empty", "", "")
		return nil, false
	}
	if err == nil {
		err = dec.Decode(&second)
	}
	switch {
	case errors.Is(err, io.EOF):
		return doc.Content[0], true
	case err != nil:
		s.syntax(text, err)
	default:
		s.fail("second-document", s.span(&second), `a second document begins here, after "---"`, "one document a file", `delete the "---" and what follows it`)
	}
	return nil, false
}

// plainNodes reports anchors, aliases, tags and nesting that is too deep.
func (s *source) plainNodes(n *yaml.Node, depth int) bool {
	at := s.span(n)
	if depth > maxDepth {
		s.fail("too-deep", at, fmt.Sprintf("this is nested more than %d deep", maxDepth), "", "")
		return false
	}
	plain := true
	refuse := func(code, message string) {
		s.fail(code, at, message, "", "write it out")
		plain = false
	}
	switch {
	case n.Kind == yaml.AliasNode:
		refuse("alias", fmt.Sprintf("the alias *%s is not understood here", shorten(n.Value)))
	case n.Anchor != "":
		refuse("alias", fmt.Sprintf("the anchor &%s is not understood here", shorten(n.Anchor)))
	case n.Style&yaml.TaggedStyle != 0:
		refuse("tag", fmt.Sprintf("the tag %s is not understood here", shorten(n.Tag)))
	}
	for _, child := range n.Content {
		if !s.plainNodes(child, depth+1) {
			plain = false
		}
	}
	return plain
}

// span is a node's place. YAML nodes do not know where they end, so the length
// is that of the value, and of a quoted one with its quotes; a missing value is
// put where the next would begin, which may be below the last line.
func (s *source) span(n *yaml.Node) diag.Span {
	at := diag.Span{File: s.file, Line: min(n.Line, s.lines), Col: n.Column, Len: 1}
	if n.Kind == yaml.ScalarNode && !strings.Contains(n.Value, "\n") {
		at.Len = max(1, utf8.RuneCountInString(n.Value))
		if n.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) != 0 {
			at.Len += 2
		}
	}
	return at
}

func (s *source) value(n *yaml.Node) *Value {
	v := &Value{At: s.span(n), src: s, node: n, text: n.Value}
	switch n.Kind {
	case yaml.MappingNode:
		v.kind = mapping
	case yaml.SequenceNode:
		v.kind = sequence
	default:
		if n.Tag == "!!null" {
			v.kind = nothing
		}
	}
	return v
}

// Map is the value as a mapping. If it is something else that is reported and
// the Map is nil; a nil Map may be asked like any other.
func (v *Value) Map() *Map {
	if v == nil {
		return nil
	}
	if v.kind != mapping {
		v.Fail("wrong-type", fmt.Sprintf("a mapping belongs here, not %s", v.what()), `keys and values, such as "name: value"`, "")
		return nil
	}
	m := &Map{At: v.At, src: v.src}
	m.entries = make([]Entry, 0, len(v.node.Content)/2)
	for i := 0; i+1 < len(v.node.Content); i += 2 {
		k := v.node.Content[i]
		if k.Kind != yaml.ScalarNode {
			v.src.fail("wrong-type", v.src.span(k), "a key must be a word", "", "")
			continue
		}
		m.add(Entry{Key: k.Value, At: v.src.span(k), Value: v.src.value(v.node.Content[i+1])})
	}
	return m
}

// List is the value as a list. If it is something else that is reported and
// the list is empty.
func (v *Value) List() []*Value {
	if v == nil {
		return nil
	}
	if v.kind != sequence {
		v.Fail("wrong-type", fmt.Sprintf("a list belongs here, not %s", v.what()), `a list, such as "[one, two]"`, "")
		return nil
	}
	all := make([]*Value, len(v.node.Content))
	for i, n := range v.node.Content {
		all[i] = v.src.value(n)
	}
	return all
}

// syntax reports the library's error in a designer's words, at the line found
// by firstBadLine.
func (s *source) syntax(text []byte, err error) {
	raw, line := splitLine(err)
	text = bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))
	text = bytes.ReplaceAll(text, []byte("\r"), []byte("\n"))
	lines := bytes.SplitAfter(text, []byte("\n"))
	line = min(line, len(lines))
	if len(text) <= maxSearch {
		line = firstBadLine(text, lines, raw)
	}
	at := diag.Span{File: s.file, Line: line}
	if tab, ok := tabIndent(lines, line); ok {
		at.Line, at.Col, at.Len = tab.Line, tab.Col, tab.Len
		s.fail("yaml-syntax", at, "this line is indented with a tab", "spaces", "replace each tab by two spaces")
		return
	}
	at.Line = max(1, line) // the library is silent about the first line
	content := bytes.TrimRight(lines[at.Line-1], "\n")
	at.Len = utf8.RuneCount(bytes.TrimSpace(content))
	at.Col = len(content) - len(bytes.TrimLeft(content, " ")) + 1
	message, expected := explain(raw)
	s.fail("yaml-syntax", at, message, expected, "")
}

// splitLine takes the library's error apart: its message, and its line, 0 if
// it gives none.
func splitLine(err error) (raw string, line int) {
	raw = strings.TrimPrefix(err.Error(), "yaml: ")
	if n, _ := fmt.Sscanf(raw, "line %d:", &line); n == 1 {
		_, raw, _ = strings.Cut(raw, ": ")
	}
	return raw, line
}

// maxSearch is the longest text that is parsed again to find a bad line.
const maxSearch = 256 << 10

// firstBadLine is where an error comes in: the library's own line is that of
// the mapping or list around it, or missing, so that the text is parsed again
// up to some line, until it fails in the same way up to one line and not up to
// the line before.
func firstBadLine(text []byte, lines [][]byte, raw string) int {
	ends := make([]int, len(lines)+1)
	for i, line := range lines {
		ends[i+1] = ends[i] + len(line)
	}
	n := sort.Search(len(lines), func(i int) bool {
		var doc yaml.Node
		err := yaml.Unmarshal(text[:ends[i+1]], &doc)
		if err == nil {
			return false
		}
		got, _ := splitLine(err)
		return got == raw
	})
	return min(n+1, len(lines))
}

// tabIndent looks for a tab in the indentation of the line in doubt or the one
// after it, or of any if no line is known.
func tabIndent(lines [][]byte, doubt int) (diag.Span, bool) {
	for i, line := range lines {
		near := doubt == 0 || i+1 == doubt || i == doubt
		indent := line[:len(line)-len(bytes.TrimLeft(line, " \t"))]
		if col := bytes.IndexByte(indent, '\t'); near && col >= 0 && len(indent) < len(line) {
			return diag.Span{Line: i + 1, Col: col + 1, Len: 1}, true
		}
	}
	return diag.Span{}, false
}

// explain words the library's messages for somebody who does not know YAML's
// own terms.
func explain(raw string) (message, expected string) {
	known := [][3]string{
		{"mapping values are not allowed", "there is a second colon on this line, or the line is indented too far",
			`one "key: value" a line; quote a value that holds a colon`},
		{"did not find expected key", "this line does not fit the ones above it", "keys of one mapping indented alike, each with a colon"},
		{"could not find expected ':'", "a key without a colon", `"key: value"`},
		{"did not find expected '-' indicator", "this line does not fit the list above it", `items of one list indented alike, each with "- "`},
		{"did not find expected ',' or ']'", "a list in brackets is not closed", `"]", or "," before the next item`},
		{"did not find expected ',' or '}'", "a mapping in braces is not closed", `"}", or "," before the next key`},
		{"unexpected end of stream", "a quoted text is not closed", "a closing quote mark"},
		{"found unexpected document indicator", "a quoted text is not closed", "a closing quote mark"},
		{"cannot start any token", "a value may not begin with this character", "quotes round the value"},
		{"found unknown escape character", `a backslash in double quotes begins an escape`, "single quotes round the value"},
		{"unknown anchor", "an alias is not understood here", "the value written out"},
		{"did not find URI escape", "a tag is not understood here", ""},
		{"exceeded max depth", fmt.Sprintf("this is nested more than %d deep", maxDepth), ""},
		{"block sequence entries are not allowed", "a list may not begin here", `"- " on a line of its own`},
		{"did not find expected node content", "a value is missing here", ""},
		{"did not find expected alphabetic or numeric", `a value may not begin with "&", "*" or "!"`, "quotes round the value"},
		{"tab character", "there is a tab here", "spaces"},
		{"found character that", "a value may not begin with this character", "quotes round the value"},
	}
	i := slices.IndexFunc(known, func(k [3]string) bool { return strings.Contains(raw, k[0]) })
	if i < 0 {
		return "this is not YAML: " + raw, ""
	}
	return known[i][1], known[i][2]
}
