package main

import (
	"fmt"
	"io"
	"strings"

	"setwright/layout/diag"
)

// How the program speaks. Results go to standard output, everything else to
// standard error. A message is one sentence without a capital or a full stop,
// and names the file it is about. Findings keep the form diag gives them.
// Nothing is coloured, nothing is repeated, success says one line.

// complain prints an error that is not about a place in a plan.
func complain(w io.Writer, err error) { fmt.Fprintf(w, "setwright: %v\n", err) }

// counted is a tally such as "1 stop, 2 cautions", or "no findings".
func counted(l *diag.List) string {
	var words []string
	for _, level := range []diag.Level{diag.Error, diag.Stop, diag.Caution, diag.Note} {
		switch n := l.Count(level); n {
		case 0:
		case 1:
			words = append(words, fmt.Sprintf("1 %v", level))
		default:
			words = append(words, fmt.Sprintf("%d %vs", n, level))
		}
	}
	if len(words) == 0 {
		return "no findings"
	}
	return strings.Join(words, ", ")
}

// worse keeps the findings of one level or above.
func worse(l *diag.List, least diag.Level) *diag.List {
	return kept(l, func(f diag.Finding) bool { return f.Level >= least })
}

// milder keeps the findings below a level.
func milder(l *diag.List, level diag.Level) *diag.List {
	return kept(l, func(f diag.Finding) bool { return f.Level < level })
}

func kept(l *diag.List, wanted func(diag.Finding) bool) *diag.List {
	var kept diag.List
	for _, f := range l.All() {
		if wanted(f) {
			kept.Add(f)
		}
	}
	return &kept
}

// verdict is how a command ends that did all it could with these findings.
func verdict(l *diag.List) error {
	switch {
	case l.Count(diag.Error) > 0:
		return errReported
	case l.Count(diag.Stop) > 0:
		return errStopped
	}
	return nil
}
