package main

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"setwright/layout/check"
)

func rulesCommand() *command {
	c := &command{
		name: "rules", args: "[FILTER]", summary: "list what a dressed unit is judged by, with sources",
		most: 1, flags: newFlags("rules"),
		about: `
Prints every rule a dressed unit is judged by: its id, the gravest level it
finds, what it asks, and where that is from: a standard and its section, common
practice, or a house rule with its basis. None is a certificate: local code and
the makers' ratings come first.

A plan may switch a rule off, and says why; the findings sheet prints it:

  rules: {reach: off, because: "behind the counter, staff only"}

FILTER keeps the rules whose id, level, title or source contains it. With --json
they go to standard output as one JSON array of {id, level, title, says, source}.`,
		examples: `
setwright rules
setwright rules stop
setwright rules ada
setwright rules --json`,
	}
	asJSON := c.flags.Bool("json", false, "print the rules as JSON")
	c.run = func(args []string, s streams) error {
		chosen, err := filteredRules(check.Rules(), strings.Join(args, ""))
		if err != nil {
			return err
		}
		if *asJSON {
			return writeRulesJSON(s.out, chosen)
		}
		return writeRules(s.out, chosen)
	}
	return c
}

// writeRules prints a block of lines a rule, as wide as a terminal.
func writeRules(w io.Writer, rules []check.Rule) error {
	var b strings.Builder
	for i, r := range rules {
		if i > 0 {
			b.WriteString("\n")
		}
		fmt.Fprintf(&b, "%s (%v): %s\n", r.ID, r.Level, r.Title)
		wrapped(&b, r.Says)
		wrapped(&b, "source: "+r.Source)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// wrapped writes a sentence in indented lines of at most 80 characters.
func wrapped(b *strings.Builder, sentence string) {
	const indent, width = 4, 80
	at := 0
	for _, word := range strings.Fields(sentence) {
		n := utf8.RuneCountInString(word)
		switch {
		case at == 0:
			b.WriteString(strings.Repeat(" ", indent))
			at = indent
		case at+1+n > width:
			b.WriteString("\n" + strings.Repeat(" ", indent))
			at = indent
		default:
			b.WriteString(" ")
			at++
		}
		b.WriteString(word)
		at += n
	}
	b.WriteString("\n")
}

type jsonRule struct {
	ID     string `json:"id"`
	Level  string `json:"level"`
	Title  string `json:"title"`
	Says   string `json:"says"`
	Source string `json:"source"`
}

func writeRulesJSON(w io.Writer, rules []check.Rule) error {
	all := make([]jsonRule, len(rules))
	for i, r := range rules {
		all[i] = jsonRule{ID: r.ID, Level: r.Level.String(), Title: r.Title, Says: r.Says, Source: r.Source}
	}
	out := json.NewEncoder(w)
	out.SetEscapeHTML(false)
	out.SetIndent("", " ")
	return out.Encode(all)
}
