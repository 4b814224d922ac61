package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/pflag"

	"setwright/layout/diag"
)

// command is one subcommand. Its flags are bound when it is made, so that its
// run sees them parsed.
type command struct {
	name     string
	args     string // as help shows them
	summary  string // one line, no full stop
	about    string // paragraphs
	examples string // a line each

	least, most int    // number of arguments
	missing     string // what to say when there are fewer than least

	flags *pflag.FlagSet
	run   func(args []string, s streams) error
}

// newFlags is an empty flag set that reports errors and prints nothing.
func newFlags(name string) *pflag.FlagSet {
	f := pflag.NewFlagSet(name, pflag.ContinueOnError)
	f.SetOutput(io.Discard)
	f.SortFlags = false
	return f
}

// usageError is a command line that makes no sense.
type usageError struct {
	command string // whose help to read
	message string
}

func (e usageError) Error() string { return e.message }

func (c *command) misused(format string, args ...any) error {
	return usageError{"setwright " + c.name, fmt.Sprintf(format, args...)}
}

func unknownCommand(name string, all []*command) error {
	names := make([]string, len(all))
	for i, c := range all {
		names[i] = c.name
	}
	message := fmt.Sprintf("there is no command %q", name)
	if strings.HasPrefix(name, "-") {
		message = fmt.Sprintf("there is no flag %q before a command", name)
	} else if close := diag.Near(name, names); close != "" {
		message += fmt.Sprintf(": did you mean %s?", close)
	}
	return usageError{"setwright", message}
}

func topHelp(w io.Writer) {
	fmt.Fprint(w, `Setwright turns a merchandising plan for a shop display unit into sheets that a
crew can build from.

Usage: setwright COMMAND [flags] [arguments]

Commands:
`)
	for _, c := range commands() {
		fmt.Fprintf(w, "  %-11s %s\n", c.name, c.summary)
	}
	fmt.Fprint(w, `
Flags:
  -h, --help      this text; after a command, that command's help
  -V, --version   the version

Examples:
  setwright new spring.yaml            a starter plan, ready to change
  setwright check spring.yaml          what is wrong with it
  setwright sheets spring.yaml         the pack, as spring.pdf

In place of a PLAN may stand a pack: it carries what it was made from.

Exit status: 0 fine, 1 the plan cannot be built as it stands, 2 bad input or usage.
`)
}

func (c *command) printHelp(w io.Writer) {
	fmt.Fprintf(w, "Usage: setwright %s", c.name)
	if c.flags.HasFlags() {
		fmt.Fprint(w, " [flags]")
	}
	if c.args != "" {
		fmt.Fprint(w, " ", c.args)
	}
	fmt.Fprintf(w, "\n\n%s\n", strings.TrimSpace(c.about))
	if c.flags.HasFlags() {
		fmt.Fprintf(w, "\nFlags:\n%s", c.flags.FlagUsages())
	}
	fmt.Fprintf(w, "\nExamples:\n")
	for line := range strings.Lines(strings.TrimSpace(c.examples)) {
		fmt.Fprintf(w, "  %s\n", strings.TrimSpace(line))
	}
}
