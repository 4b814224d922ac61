package statics

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os/exec"
	"slices"
	"testing"

	"setwright/layout/oracle"
)

// TestAgainstFiniteElements compares 1,000 random beams with testdata/fem.py:
// reactions, and deflections and moments at every place where anything
// changes and at one in between.
func TestAgainstFiniteElements(t *testing.T) {
	python := oracle.NeedPython(t, "numpy")
	type question struct {
		Beam
		At []float64
	}
	type answer struct{ Reactions, Deflections, Moments []float64 }

	var questions []question
	for seed := range uint64(1000) {
		b := randomBeam(rand.New(rand.NewPCG(seed, 11)), seed%4 == 3)
		questions = append(questions, question{b, b.places()})
	}
	in, err := json.Marshal(questions)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(python, "testdata/fem.py")
	cmd.Stdin = bytes.NewReader(in)
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatal("fem.py: ", err, "\n", stderr.String())
	}
	var answers []answer
	if err := json.Unmarshal(out, &answers); err != nil {
		t.Fatal(err)
	}
	if len(answers) != len(questions) {
		t.Fatalf("%d answers to %d questions", len(answers), len(questions))
	}

	const tolerance = 1e-9
	var worst float64
	compare := func(seed int, what string, got, want float64, size float64) {
		share := math.Abs(got - want)
		if share > 0 { // a beam with loads on its supports only stays straight
			share /= size
		}
		worst = max(worst, share)
		if !(share <= tolerance) {
			t.Errorf("seed %d: %s: %.15g, finite elements %.15g", seed, what, got, want)
		}
	}
	for seed, a := range answers {
		b := questions[seed]
		s := solved(t, b.Beam)
		if len(a.Reactions) != len(s.Reactions) || len(a.Deflections) != len(b.At) || len(a.Moments) != len(b.At) {
			t.Fatalf("seed %d: half an answer", seed)
		}
		for i, r := range a.Reactions {
			compare(seed, "reaction", s.Reactions[i], r, greatest(a.Reactions))
		}
		for i, x := range b.At {
			compare(seed, "deflection", s.Deflection(x), a.Deflections[i], greatest(a.Deflections))
			compare(seed, "moment", s.Moment(x), a.Moments[i], max(greatest(a.Moments), greatest(a.Reactions)*b.Length))
		}
	}
	t.Logf("greatest difference %.2g", worst)
}

// places are all where anything changes and one between every two of them.
func (b Beam) places() []float64 {
	ends := slices.Concat([]float64{0, b.Length}, b.Supports)
	for _, l := range b.Loads {
		ends = append(ends, l.From, l.To)
	}
	slices.Sort(ends)
	ends = slices.Compact(ends)
	all := slices.Clone(ends)
	for i := 1; i < len(ends); i++ {
		all = append(all, ends[i-1]+0.4*(ends[i]-ends[i-1]))
	}
	slices.Sort(all)
	return slices.Compact(all)
}

func greatest(all []float64) float64 {
	var out float64
	for _, x := range all {
		out = max(out, math.Abs(x))
	}
	return out
}
