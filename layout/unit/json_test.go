package unit

import (
	"bytes"
	"encoding/json"
	"testing"
)

func TestJoinLeaves(t *testing.T) {
	for _, c := range []struct{ in, want, reason string }{
		{`{"a":{"x":1,"y":2},"b":[1,2]}`, "{\n \"a\": {\"x\": 1, \"y\": 2},\n \"b\": [1, 2]\n}", "leaves are joined, what holds them is not"},
		{`{"a":"} ] { [ \" \\"}`, `{"a": "} ] { [ \" \\"}`, "brackets and quotes in a string are text"},
		{`[{"a":"{"},{"b":[]}]`, "[\n {\"a\": \"{\"},\n {\n  \"b\": []\n }\n]", "an empty list is a leaf"},
		{`1`, "1", "no brackets at all"},
	} {
		var pretty bytes.Buffer
		if err := json.Indent(&pretty, []byte(c.in), "", " "); err != nil {
			t.Fatal(err)
		}
		if got := string(joinLeaves(pretty.Bytes())); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s\n%s", c.in, got, c.want, c.reason)
		}
	}
}

func FuzzJoinLeaves(f *testing.F) {
	f.Add([]byte(`{"a":[{"x":"\\\"}"}, {}]}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		var pretty, before, after bytes.Buffer
		if json.Indent(&pretty, text, "", " ") != nil || json.Compact(&before, text) != nil {
			return
		}
		if err := json.Compact(&after, joinLeaves(pretty.Bytes())); err != nil || before.String() != after.String() {
			t.Errorf("%q became %q (%v)", before.String(), after.String(), err)
		}
	})
}
