package list

import (
	"testing"

	"setwright/layout/parts"
)

func TestSeconds(t *testing.T) {
	for _, c := range []struct {
		part   parts.Part
		want   int
		reason string
	}{
		{parts.Part{Kind: parts.Hook, Setup: 25}, 25, "the parts list knows better"},
		{parts.Part{Kind: parts.Hook}, 10, "what is usual"},
		{parts.Part{Kind: parts.Stand, Stand: &parts.StandSpec{Feet: 4}}, 480, "a set, not a foot"},
		{parts.Part{Kind: "unheard-of"}, 10, "a kind not known costs something too"},
	} {
		if got := Seconds(&c.part); got != c.want {
			t.Errorf("%s: %d s, want %d: %s", c.part.Kind, got, c.want, c.reason)
		}
	}
	list, err := parts.BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range list.All() {
		if Seconds(p) < 1 {
			t.Errorf("%s takes %d s", p.ID, Seconds(p))
		}
	}
}
