package parts

import (
	"testing"

	"setwright/layout/diag"
)

func TestBuiltInSmoke(t *testing.T) {
	var l diag.List
	list := &List{}
	for _, name := range builtinFiles() {
		text, _ := builtin.ReadFile("builtin/" + name)
		list = Load(list, name, text, &l)
	}
	for _, f := range l.All() {
		t.Errorf("%s: %s %s", f.At, f.Message, f.Expected)
	}
	t.Log(len(list.All()))
}
func BenchmarkBuiltIn(b *testing.B) {
	for b.Loop() {
		BuiltIn()
	}
}
